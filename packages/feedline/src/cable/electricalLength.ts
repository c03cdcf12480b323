import { speedOfLightMPerS } from '@finial/radio';
import { checkObject, checkRange } from '@finial/units';
import type { Cable } from '../catalogue/parts.js';
import { checkedCable, frequencyBounds, lengthBounds } from './checkedCable.js';

/** A length of cable as a wave sees it. */
export interface ElectricalLength {
  /** Time in seconds that a wave takes from end to end. */
  readonly delaySeconds: number;
  /** Length in wavelengths on the cable. */
  readonly electricalLengthWavelengths: number;
  /** By how much the far end lags the near one in degrees, whole turns taken away: 0 to below 360. */
  readonly phaseDeg: number;
}

/**
 * Delay and phase of a length of cable: for a cable that must be a half wave, or two that must be alike.
 *
 * The velocity factor of foam varies by some 2 % between makes (from memory): a phase over many wavelengths must be measured.
 *
 * @param length - `cable`: a row or a designation of the built-in catalogue (velocity factor 0.01 to 1); `lengthM`: 0 to 10000 metres;
 * `frequencyHz`: 1e6 to 100e9 hertz
 * @returns seconds, wavelengths and degrees; exact for the velocity factor of the row
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source speed of light by the SI definition (SI Brochure, 9th edition); velocity factor by the row of the cable
 * @example A half wave of solid polyethylene cable on 868.1 MHz
 * ```ts
 * import { electricalLength } from '@finial/feedline';
 *
 * const wave = electricalLength({ cable: 'RG-213/U', lengthM: 0.114, frequencyHz: 868.1e6 });
 * wave.electricalLengthWavelengths; // ≈ 0.5002
 * wave.phaseDeg; // ≈ 180.1
 * ```
 */
export function electricalLength(length: {
  /** A cable row, or a designation of the built-in catalogue. */
  readonly cable: Cable | string;
  /** Length in metres, 0 to 10000. */
  readonly lengthM: number;
  /** Frequency in hertz, 1e6 to 100e9. */
  readonly frequencyHz: number;
}): ElectricalLength {
  checkObject(length, 'length');
  const { velocityFactor } = checkedCable(length.cable);
  const lengthM = checkRange(length.lengthM, 'lengthM', lengthBounds);
  const frequencyHz = checkRange(length.frequencyHz, 'frequencyHz', frequencyBounds);
  checkRange(velocityFactor, 'cable.velocityFactor', { min: 0.01, max: 1, unit: 'of the speed of light' });
  const delaySeconds = lengthM / (velocityFactor * speedOfLightMPerS);
  const electricalLengthWavelengths = delaySeconds * frequencyHz;
  return { delaySeconds, electricalLengthWavelengths, phaseDeg: 360 * (electricalLengthWavelengths % 1) };
}
