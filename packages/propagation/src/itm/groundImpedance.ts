import type { LinearPolarisation } from '../path/RadioPath.js';
import type { Ground } from './ItmSettings.js';

/** Surface transfer impedance of the ground, relative to free space: a complex ratio. */
export interface GroundImpedance {
  readonly real: number;
  readonly imaginary: number;
}

/**
 * Surface transfer impedance of the ground at a frequency.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, section 1 (surface transfer impedance)
 */
export function groundImpedance(
  { permittivity, conductivitySPerM }: Ground,
  megahertz: number,
  polarisation: LinearPolarisation,
): GroundImpedance {
  const lossPart = (18_000 * conductivitySPerM) / megahertz;
  const root = squareRoot(permittivity - 1, lossPart);
  if (polarisation === 'horizontal') return root;
  const square = permittivity ** 2 + lossPart ** 2;
  return {
    real: (root.real * permittivity + root.imaginary * lossPart) / square,
    imaginary: (root.imaginary * permittivity - root.real * lossPart) / square,
  };
}

/** Principal root of a complex number whose two parts are not negative. */
function squareRoot(real: number, imaginary: number): GroundImpedance {
  const rootReal = Math.sqrt((Math.hypot(real, imaginary) + real) / 2);
  return { real: rootReal, imaginary: imaginary / (2 * rootReal) };
}
