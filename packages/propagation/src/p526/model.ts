import { checkObject } from '@finial/units';
import { freeSpace } from '../p525/freeSpace.js';
import type { PathModel } from '../path/RadioPath.js';
import { deltaBullington } from './deltaBullington.js';
import { effectiveEarthRadius, type RefractionSettings } from './effectiveEarthRadius.js';

/**
 * A path model of free space and delta-Bullington diffraction: what the hills cost, and nothing else. No troposcatter, no ducting, no
 * location variability; beyond the horizon P.1812 is the whole method.
 *
 * @returns a function from path to loss, with the terms `freeSpaceLossDb` and `diffractionLossDb`
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendations ITU-R P.525 (exact form) and P.526-16 (11/2025), section 4.5.2
 * @example One of several models for the same path
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const loss = p526.model({ deltaN: 40 })({
 *   frequencyHz: 868.1e6, distanceM: [0, 2500, 5000], heightM: [0, 30, 0], transmitterHeightM: 20, receiverHeightM: 2,
 * });
 * loss.terms['freeSpaceLossDb']; // ≈ 105.20
 * loss.lossDb; // ≈ 139.93
 * ```
 */
export function model(settings: RefractionSettings = {}): PathModel {
  const effectiveEarthRadiusM = effectiveEarthRadius(checkObject(settings, 'settings'));
  return (path) => {
    const diffraction = deltaBullington(path, { effectiveEarthRadiusM });
    const freeSpaceLossDb = freeSpace(path).lossDb;
    return {
      lossDb: freeSpaceLossDb + diffraction.lossDb,
      terms: { freeSpaceLossDb, diffractionLossDb: diffraction.lossDb },
      warnings: diffraction.warnings,
    };
  };
}
