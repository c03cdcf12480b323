import { checkRange } from '@finial/units';
import { frequencyBounds } from './bounds.js';
import { speedOfLightMPerS } from './physicalConstants.js';

/**
 * Wavelength in vacuum in metres. In air it is about 0.03 % shorter, in a cable shorter by the cable's velocity factor.
 *
 * @param frequencyHz - 1e6 to 3e12; 868.1 MHz is `868.1e6`
 * @returns metres, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SI Brochure, 9th edition (2019), section 2.2 (c); wavelength is c divided by frequency
 * @example The wave of a European LoRaWAN channel
 * ```ts
 * import { wavelengthM } from '@finial/radio';
 *
 * wavelengthM(868.1e6); // ≈ 0.345343
 * ```
 */
export function wavelengthM(frequencyHz: number): number {
  return speedOfLightMPerS / checkRange(frequencyHz, 'frequencyHz', frequencyBounds);
}
