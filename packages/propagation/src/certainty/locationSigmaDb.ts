import { checkObject, checkRange } from '@finial/units';
import { antennaHeightM as antennaBounds, frequencyHz as frequencyBounds } from '../models/possible.js';
import { validityCheck } from '../models/validity.js';
import { outdoorSigmaDb } from '../p1812/locationVariability.js';

/** A square that one prediction stands for. */
export interface PredictionSquare {
  /** Frequency in hertz, 30e6 to 6e9. */
  readonly frequencyHz: number;
  /** Side of the square in metres, 1 to 100000. */
  readonly resolutionM: number;
  /**
   * Height of the antenna above ground in metres, 0.01 to 10000.
   *
   * @defaultValue 1.5
   */
  readonly antennaHeightM?: number | undefined;
  /**
   * Height of what stands around it in metres, 0 to 200. The spread fades out over the 10 m above.
   *
   * @defaultValue 10
   */
  readonly clutterHeightM?: number | undefined;
}

/**
 * Standard deviation in dB of the median level from place to place within a square.
 *
 * Outdoors, over land. Fast fading comes on top, and so does the error of the model.
 *
 * @returns dB, 0 where the antenna stands 10 m above the clutter
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, or `outside-validity` for a frequency outside 30 MHz to
 * 6 GHz
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.7
 * @example A node in a square of 50 m
 * ```ts
 * import { locationSigmaDb } from '@finial/propagation';
 *
 * locationSigmaDb({ frequencyHz: 868e6, resolutionM: 50 }); // ≈ 1.62
 * ```
 */
export function locationSigmaDb(square: PredictionSquare): number {
  checkObject(square, 'square');
  const { antennaHeightM = 1.5, clutterHeightM = 10 } = square;
  const { within } = validityCheck('refuse');
  const band = { possible: frequencyBounds, min: 30e6, max: 6e9 };
  const frequencyHz = within(square.frequencyHz, 'frequencyHz', band);
  const resolutionM = checkRange(square.resolutionM, 'resolutionM', { min: 1, max: 1e5, unit: 'metres' });
  const antennaM = checkRange(antennaHeightM, 'antennaHeightM', antennaBounds);
  const clutterM = checkRange(clutterHeightM, 'clutterHeightM', {
    min: 0,
    max: 200,
    unit: 'metres',
  });
  return outdoorSigmaDb(frequencyHz / 1e9, resolutionM, antennaM, clutterM);
}
