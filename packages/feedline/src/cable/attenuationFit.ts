import type { Cable } from '../catalogue/parts.js';
import { checkedCable } from './checkedCable.js';

/** A published point of a cable beside the fitted law. */
export interface FittedPoint {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Attenuation that the row states, in dB per metre at 20 degrees C. */
  readonly publishedDbPerM: number;
  /** Attenuation by the fitted law, in dB per metre at 20 degrees C. */
  readonly fittedDbPerM: number;
  /** Fitted over published, less one: positive where the law says more. */
  readonly residualRatio: number;
}

/** The law of loss fitted to a cable's published points: two parts that grow differently with frequency. */
export interface AttenuationFit {
  /** Loss in the conductors in dB per metre at 1 GHz and 20 degrees C; grows with the square root of frequency. */
  readonly conductorAtOneGigahertzDbPerM: number;
  /** Loss in the insulation in dB per metre at 1 GHz; grows with frequency. */
  readonly dielectricAtOneGigahertzDbPerM: number;
  /**
   * Which parts the points could tell apart. One point gives the conductor part only, and so do points that rise more slowly than the
   * square root of frequency: then a rise beyond the points may be too small.
   */
  readonly terms: 'both' | 'conductor' | 'dielectric';
  /** Greatest magnitude of a residual, as a ratio of the published value: the honest error of the law on its points. */
  readonly greatestResidualRatio: number;
  /** Lowest frequency in hertz at which the fit may be used: half the lowest point. */
  readonly lowestFrequencyHz: number;
  /** Highest frequency in hertz at which the fit may be used: one and a half times the highest point. */
  readonly highestFrequencyHz: number;
  /** Each published point with the value of the law. */
  readonly points: readonly FittedPoint[];
}

/**
 * Fits the law of coaxial loss, `k1·√f + k2·f`, to a cable's published points by least squares of the relative residuals, neither part below
 * zero. Relative, because a table spans a hundredfold in loss and its rounding is a share of the value.
 *
 * The first part is skin effect in the conductors, the second heat in the insulation. Braids, tinned strands and steel cores bend the law a
 * little, which `greatestResidualRatio` shows (up to 8 % in the built-in rows). It does not hold where the skin is as thick as the
 * conductor: below some megahertz, and for silvered steel below some ten megahertz.
 *
 * @param cable - a cable row (attenuation points 1 Hz to 100 GHz, 1e-6 to 1000 dB per metre), or a designation of the built-in catalogue
 * @returns the two parts, exact for the points given to about 1e-9 of their value
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`: a point or designation is
 * wrong
 * @source form of the law: public how-to page that quotes MIL-C-17 attenuation tables (k1 0.444, k2 0.00126 dB per 100 ft and MHz)
 * @example How much of the loss is in the copper
 * ```ts
 * import { attenuationFit } from '@finial/feedline';
 *
 * const fit = attenuationFit('low-loss 10 mm class');
 * fit.conductorAtOneGigahertzDbPerM; // ≈ 0.1269
 * fit.dielectricAtOneGigahertzDbPerM; // ≈ 0.0085
 * ```
 */
export function attenuationFit(cable: Cable | string): AttenuationFit {
  const { attenuation } = checkedCable(cable);
  const { conductor, dielectric } = twoTermLaw(attenuation);
  const points = attenuation.map(({ frequencyHz, attenuationDbPerM }): FittedPoint => {
    const gigahertz = frequencyHz / 1e9;
    const fittedDbPerM = conductor * Math.sqrt(gigahertz) + dielectric * gigahertz;
    const residualRatio = fittedDbPerM / attenuationDbPerM - 1;
    return { frequencyHz, publishedDbPerM: attenuationDbPerM, fittedDbPerM, residualRatio };
  });
  const frequencies = attenuation.map(({ frequencyHz }) => frequencyHz);
  return {
    conductorAtOneGigahertzDbPerM: conductor,
    dielectricAtOneGigahertzDbPerM: dielectric,
    terms: dielectric === 0 ? 'conductor' : conductor === 0 ? 'dielectric' : 'both',
    greatestResidualRatio: Math.max(...points.map(({ residualRatio }) => Math.abs(residualRatio))),
    lowestFrequencyHz: Math.min(...frequencies) / 2,
    highestFrequencyHz: Math.max(...frequencies) * 1.5,
    points,
  };
}

/** Solves the two normal equations of the relative fit; frequencies in GHz keep them well scaled. */
function twoTermLaw(attenuation: Cable['attenuation']): { conductor: number; dielectric: number } {
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let u1 = 0;
  let v1 = 0;
  for (const { frequencyHz, attenuationDbPerM } of attenuation) {
    const u = Math.sqrt(frequencyHz / 1e9) / attenuationDbPerM;
    const v = frequencyHz / 1e9 / attenuationDbPerM;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    u1 += u;
    v1 += v;
  }
  const determinant = uu * vv - uv * uv;
  const conductorOnly = { conductor: u1 / uu, dielectric: 0 };
  // One point, or points so near each other that rounding would decide between the two parts.
  if (determinant <= 1e-9 * uu * vv) return conductorOnly;
  const conductor = (vv * u1 - uv * v1) / determinant;
  const dielectric = (uu * v1 - uv * u1) / determinant;
  if (dielectric <= 0) return conductorOnly;
  return conductor <= 0 ? { conductor: 0, dielectric: v1 / vv } : { conductor, dielectric };
}
