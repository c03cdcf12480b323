import { checkObject, checkRange, normalQuantile } from '@finial/units';
import { checkProbability } from '../certainty/checkProbability.js';
import { frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/** A path from among houses up to something in the sky. */
export interface SlantPath {
  /** Frequency in hertz, 10e9 to 100e9. */
  readonly frequencyHz: number;
  /** Elevation of the path in degrees above the horizon, 0 to 90. */
  readonly elevationDeg: number;
  /** Share of places whose loss is not greater, as a ratio, 1e-12 to 1 - 1e-12. */
  readonly probability: number;
  /**
   * What to do with a frequency outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss of the ground end of a slant path. */
export interface SlantClutterLoss {
  /** Loss in dB that is not exceeded at the share of places asked for. */
  readonly lossDb: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

/**
 * Loss that surroundings of buildings add at the ground end of a path to an aircraft or a satellite, over many places.
 *
 * Made for 10 to 100 GHz: far above LoRa's bands, where it is only a rough hint. Values below 0 dB are kept.
 *
 * @returns the loss; the published test values agree within their printed 0.1 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity` for a
 * frequency outside 10 to 100 GHz that is not allowed
 * @source Recommendation ITU-R P.2108-1 (09/2021), section 3.3, equation 7
 * @example Low over the horizon
 * ```ts
 * import { slantClutterLoss } from '@finial/propagation/p2108';
 *
 * slantClutterLoss({ frequencyHz: 30e9, elevationDeg: 2, probability: 0.05 }).lossDb; // ≈ 7.7
 * ```
 */
export function slantClutterLoss(path: SlantPath): SlantClutterLoss {
  checkObject(path, 'path');
  const { within, warnings } = validityCheck(path.outsideValidity);
  const frequencyHz = within(path.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: 10e9,
    max: 100e9,
  });
  const elevationDeg = checkRange(path.elevationDeg, 'elevationDeg', { min: 0, max: 90, unit: 'degrees' });
  const probability = checkProbability(path.probability, 'probability');
  const scale = 93 * (frequencyHz / 1e9) ** 0.175;
  const share = elevationDeg / 90;
  const cotangent = 1 / Math.tan(0.05 * (1 - share) + (Math.PI * elevationDeg) / 180);
  // Math.log1p keeps the digits of tiny probabilities.
  const base = -scale * Math.log1p(-probability) * cotangent;
  const lossDb = base ** (0.5 * (1 - share)) - 1 + 0.6 * normalQuantile(probability);
  return { lossDb, warnings };
}
