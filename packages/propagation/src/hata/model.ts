import { checkObject, checkOneOf } from '@finial/units';
import { antennaHeightM, distanceM, frequencyHz } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';
import { checkPath } from '../path/checkPath.js';
import type { PathModel } from '../path/RadioPath.js';
import { type HataSurroundings, okumuraHata } from './okumuraHata.js';

/** Okumura-Hata with everything fixed but the path. */
export interface HataSettings {
  /** What stands around the lower antenna. */
  readonly surroundings: HataSurroundings;
  /**
   * What to do with a path outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/**
 * Okumura-Hata as a model of paths: the higher of the two antennas above its ground counts as the base station, so that both directions
 * lose the same.
 *
 * The heights of the profile are checked but not used: the formulas know no terrain, and the base height is taken above the ground under
 * the antenna. Where that stands on a hill, hand `okumuraHata` the height above the average ground instead.
 *
 * @throws {@link InputError} `wrong-type` or `unknown-option`; the model throws what `okumuraHata` does, and what a bad path deserves
 * @source as `okumuraHata`
 * @example
 * ```ts
 * import { model } from '@finial/propagation/hata';
 *
 * const suburb = model({ surroundings: 'suburban' });
 * suburb({
 *   frequencyHz: 868e6, distanceM: [0, 5000], heightM: [12, 15], transmitterHeightM: 1.5, receiverHeightM: 30,
 * }).lossDb; // ≈ 140.766
 * ```
 */
export function model(settings: HataSettings): PathModel {
  checkObject(settings, 'settings');
  const surroundings = checkOneOf(settings.surroundings, 'surroundings', [
    'large-city',
    'small-city',
    'suburban',
    'open',
  ]);
  const { outsideValidity } = settings;
  validityCheck(outsideValidity);
  return (path) => {
    const checked = checkPath(path, { frequencyHz, antennaHeightM, lengthM: distanceM });
    const { transmitterHeightM, receiverHeightM } = checked;
    const { lossDb, warnings, ...parts } = okumuraHata({
      frequencyHz: checked.frequencyHz,
      baseHeightM: Math.max(transmitterHeightM, receiverHeightM),
      mobileHeightM: Math.min(transmitterHeightM, receiverHeightM),
      distanceM: checked.lengthM,
      surroundings,
      outsideValidity,
    });
    const { lossAtOneKilometreDb, mobileHeightGainDb, surroundingsDb } = parts;
    const distanceDb = lossDb - lossAtOneKilometreDb + mobileHeightGainDb - surroundingsDb;
    return {
      lossDb,
      terms: { lossAtOneKilometreDb, mobileHeightDb: -mobileHeightGainDb, distanceDb, surroundingsDb },
      warnings,
    };
  };
}
