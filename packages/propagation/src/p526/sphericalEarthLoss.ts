import { checkObject, checkOneOf, checkRange } from '@finial/units';
import type { LinearPolarisation } from '../path/RadioPath.js';
import { exactConstants } from './diffractionConstants.js';
import { diffractionLimits } from './diffractionLimits.js';
import { effectiveEarthRadius, type RefractionSettings } from './effectiveEarthRadius.js';
import { type SphericalEarth, sphericalEarth } from './sphericalEarth.js';

/** Two antennas over smooth round Earth. */
export interface SphericalEarthPath extends RefractionSettings {
  /** Frequency in hertz, 30e6 to 100e9. */
  readonly frequencyHz: number;
  /** Distance between the antennas in metres, 1 to 3e6. */
  readonly distanceM: number;
  /** Height of one antenna above the smooth Earth in metres, 0.1 to 10000. */
  readonly transmitterHeightM: number;
  /** Height of the other antenna above the smooth Earth in metres, 0.1 to 10000. */
  readonly receiverHeightM: number;
  /**
   * Orientation of the electric field.
   *
   * @defaultValue `vertical`
   */
  readonly polarisation?: LinearPolarisation | undefined;
  /**
   * Part of the path over the sea, 0 to 1.
   *
   * @defaultValue 0: all land
   */
  readonly seaRatio?: number | undefined;
}

/**
 * Diffraction over smooth spherical Earth in dB beyond free space: the first term of the residue series beyond the horizon, and a fade to
 * no loss within it.
 *
 * No hills and no clutter: this is a part of {@link deltaBullington}, or a path over open water or a plain. Land is taken with a relative
 * permittivity of 22 and 0.003 S/m, sea with 80 and 5 S/m. The polynomial parts of the formula meet with steps of up to some hundredths
 * of a dB.
 *
 * @returns the loss and every quantity on the way to it; within 0.0003 dB of the published validation cases of the first term
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Recommendation ITU-R P.526, sections 3.1.1 and 3.2, in self-consistent units; the same as P.1812-6, equations 22 to 36
 * @example Over 40 km of sea, beyond the horizon
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const path = { frequencyHz: 868.1e6, distanceM: 40_000, transmitterHeightM: 20, receiverHeightM: 2, seaRatio: 1 };
 * p526.sphericalEarthLoss(path).lineOfSightM; // ≈ 24262
 * p526.sphericalEarthLoss(path).lossDb; // ≈ 43.40
 * ```
 */
export function sphericalEarthLoss(path: SphericalEarthPath): SphericalEarth {
  checkObject(path, 'path');
  const { antennaHeightM, frequencyHz, lengthM } = diffractionLimits;
  const { polarisation = 'vertical', seaRatio = 0 } = path;
  return sphericalEarth(
    checkRange(path.distanceM, 'distanceM', lengthM),
    checkRange(path.transmitterHeightM, 'transmitterHeightM', antennaHeightM),
    checkRange(path.receiverHeightM, 'receiverHeightM', antennaHeightM),
    effectiveEarthRadius(path),
    checkRange(path.frequencyHz, 'frequencyHz', frequencyHz),
    checkOneOf(polarisation, 'polarisation', ['horizontal', 'vertical']),
    checkRange(seaRatio, 'seaRatio', { min: 0, max: 1, unit: 'as a part of the path' }),
    exactConstants,
  );
}
