import { freeSpaceLossDb } from '@finial/radio';
import { frequencyHints } from '@finial/units';
import { type CheckedPath, checkPath, type PathLimits } from '../path/checkPath.js';
import type { PathModel, RadioPath } from '../path/RadioPath.js';

/** Free space along the straight line between two antennas. */
export interface FreeSpace {
  /** Straight distance from antenna to antenna in metres, heights included. */
  readonly slantDistanceM: number;
  /** Loss between isotropic antennas in dB. */
  readonly lossDb: number;
}

const limits: PathLimits = {
  frequencyHz: { min: 1e6, max: 3e12, unit: 'hertz', hints: frequencyHints },
  antennaHeightM: { min: 0, max: 20_000, unit: 'metres above the ground' },
  lengthM: { min: 0.01, max: 3e6, unit: 'metres' },
};

/**
 * Loss of a path in free space in dB, whatever the profile holds: the floor that a real path seldom beats.
 *
 * Exact form with the distance along the straight line between the antennas over flat Earth. The rounded constants of other
 * Recommendations (32.4, 92.4) read 0.05 dB lower and are no part of it.
 *
 * @param path - frequency 1 MHz to 3 THz, antennas 0 to 20000 m above their ground, length 1 cm to 3000 km
 * @returns loss in dB, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Recommendation ITU-R P.525, Annex 1, basic transmission loss of a point-to-point link, 20 lg(4πd/λ)
 * @example From a tower to the plain
 * ```ts
 * import { p525 } from '@finial/propagation';
 *
 * const path = {
 *   frequencyHz: 868.1e6, distanceM: [0, 10_000], heightM: [200, 150], transmitterHeightM: 30, receiverHeightM: 2,
 * };
 * p525.freeSpace(path).lossDb; // ≈ 111.22
 * ```
 */
export function freeSpace(path: RadioPath): FreeSpace {
  const { frequencyHz, ...ends } = checkPath(path, limits);
  const slantDistanceM = slant(ends);
  return { slantDistanceM, lossDb: freeSpaceLossDb({ frequencyHz, distanceM: slantDistanceM }) };
}

function slant(path: Pick<CheckedPath, 'lengthM' | 'transmitterAltitudeM' | 'receiverAltitudeM'>): number {
  return Math.hypot(path.lengthM, path.transmitterAltitudeM - path.receiverAltitudeM);
}

/**
 * A path model of free space alone, to compare others with.
 *
 * @returns a function from path to loss, with the one term `freeSpaceLossDb`
 * @source Recommendation ITU-R P.525, Annex 1
 * @example
 * ```ts
 * import { p525 } from '@finial/propagation';
 *
 * const loss = p525.model()({
 *   frequencyHz: 868.1e6, distanceM: [0, 10_000], heightM: [0, 0], transmitterHeightM: 2, receiverHeightM: 2,
 * });
 * loss.lossDb; // ≈ 111.22
 * ```
 */
export function model(): PathModel {
  return (path) => {
    const { lossDb } = freeSpace(path);
    return { lossDb, terms: { freeSpaceLossDb: lossDb }, warnings: [] };
  };
}
