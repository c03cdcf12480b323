import { checkObject, checkRange } from '@finial/units';
import { distanceBounds, frequencyBounds } from './bounds.js';
import { speedOfLightMPerS } from './physicalConstants.js';

/** A straight path between two antennas. */
export interface FreeSpacePath {
  /** Carrier frequency in hertz, 1e6 to 3e12; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /** Distance between the antennas in metres, 1e-6 to 1e12. */
  readonly distanceM: number;
}

/**
 * Basic transmission loss between isotropic antennas in free space, in decibels. Positive means loss.
 *
 * Nearer than a few wavelengths the far-field assumption fails; the formula is still evaluated (below a distance of λ/4π it
 * is negative) and nothing is clamped. The Recommendation's own rounded form, 32.4 + 20 lg f + 20 lg d with MHz and km, reads
 * 0.05 dB lower: models that are defined with that rounded constant keep their own.
 *
 * @returns loss in dB, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.525, Annex 1, basic transmission loss of a point-to-point link, 20 lg(4πd/λ)
 * @example A node 10 km away on 868.1 MHz
 * ```ts
 * import { freeSpaceLossDb } from '@finial/radio';
 *
 * freeSpaceLossDb({ frequencyHz: 868.1e6, distanceM: 10_000 }); // ≈ 111.22
 * ```
 */
export function freeSpaceLossDb(path: FreeSpacePath): number {
  checkObject(path, 'path');
  const frequencyHz = checkRange(path.frequencyHz, 'frequencyHz', frequencyBounds);
  const distanceM = checkRange(path.distanceM, 'distanceM', distanceBounds);
  return 20 * Math.log10((4 * Math.PI * distanceM * frequencyHz) / speedOfLightMPerS);
}
