import { checkObject, checkOneOf } from '@finial/units';
import { validityCheck } from '../models/validity.js';
import { checkHataPath, type HataLoss, type HataPath, hataLoss, smallCityGainDb } from './HataPath.js';

/** A path for {@link cost231Hata}. */
export interface Cost231HataPath extends HataPath {
  /** What stands around the mobile: a medium city or its suburbs, or the centre of a metropolis. */
  readonly surroundings: 'medium-city' | 'metropolitan';
}

/**
 * Median path loss by the continuation of Okumura-Hata to 1500 to 2000 MHz.
 *
 * Not for 868 or 915 MHz: use `okumuraHata` there. No terrain enters. Streets much narrower than the base antenna is high, and base
 * antennas below the roofs, are outside.
 *
 * @returns the loss and its parts; the formula is evaluated without loss
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * @source COST Action 231, Digital mobile radio towards future generation systems, final report (1999), section 4.4; from memory
 * @example
 * ```ts
 * import { cost231Hata } from '@finial/propagation/hata';
 *
 * cost231Hata({
 *   frequencyHz: 1800e6, baseHeightM: 30, mobileHeightM: 1.5, distanceM: 1000, surroundings: 'medium-city',
 * }).lossDb; // ≈ 136.197
 * ```
 */
export function cost231Hata(path: Cost231HataPath): HataLoss {
  checkObject(path, 'path');
  const validity = validityCheck(path.outsideValidity);
  const terms = checkHataPath(path, { min: 1500e6, max: 2000e6 }, validity);
  const surroundings = checkOneOf(path.surroundings, 'surroundings', ['medium-city', 'metropolitan']);
  return hataLoss(terms, {
    constantDb: 46.3,
    frequencySlopeDb: 33.9,
    mobileHeightGainDb: smallCityGainDb(terms),
    surroundingsDb: surroundings === 'metropolitan' ? 3 : 0,
    warnings: validity.warnings,
  });
}
