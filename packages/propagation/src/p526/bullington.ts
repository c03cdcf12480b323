import { wavelengthM } from '@finial/radio';
import { checkObject } from '@finial/units';
import { checkPath } from '../path/checkPath.js';
import type { RadioPath } from '../path/RadioPath.js';
import { type BullingtonEdge, bullingtonKernel } from './bullingtonKernel.js';
import { diffractionLimits } from './diffractionLimits.js';
import { effectiveEarthRadius, type RefractionSettings } from './effectiveEarthRadius.js';

/**
 * Diffraction by Bullington's construction in dB beyond free space: all obstacles of a path are replaced by one edge where the steepest
 * rays from the two antennas meet.
 *
 * A part of {@link deltaBullington}, and on smooth or rolling ground too low by itself. A path without a point between its ends has no
 * edge and no loss.
 *
 * @param path - frequency 30 MHz to 100 GHz, antennas 0.1 to 10000 m above their ground, length 1 m to 3000 km (bounds of this package,
 * not of the Recommendation)
 * @returns the loss and the edge; evaluation error below 1e-9 dB
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Recommendation ITU-R P.526, section 4.5.1 (Bullington model); the same as P.1812-6, equations 13 to 21
 * @example A ridge halfway
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const edge = p526.bullington({
 *   frequencyHz: 868.1e6, distanceM: [0, 2500, 5000], heightM: [0, 30, 0], transmitterHeightM: 20, receiverHeightM: 2,
 * });
 * edge.edgeDistanceM; // ≈ 2500
 * edge.lossDb; // ≈ 25.20
 * ```
 */
export function bullington(path: RadioPath, settings: RefractionSettings = {}): BullingtonEdge {
  const checked = checkPath(path, diffractionLimits);
  const radiusM = effectiveEarthRadius(checkObject(settings, 'settings'));
  return bullingtonKernel(
    checked.distanceM,
    checked.obstacleHeightM,
    checked.transmitterAltitudeM,
    checked.receiverAltitudeM,
    radiusM,
    wavelengthM(checked.frequencyHz),
  );
}
