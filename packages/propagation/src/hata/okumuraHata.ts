import { checkObject, checkOneOf } from '@finial/units';
import { validityCheck } from '../models/validity.js';
import {
  checkHataPath,
  type HataLoss,
  type HataPath,
  type HataTerms,
  hataLoss,
  smallCityGainDb,
} from './HataPath.js';

/** What stands around the mobile in the Okumura-Hata formulas. */
export type HataSurroundings = 'large-city' | 'small-city' | 'suburban' | 'open';

/** A path for {@link okumuraHata}. */
export interface OkumuraHataPath extends HataPath {
  /** What stands around the mobile. `open` means no tall trees or houses for 300 to 400 m before it. */
  readonly surroundings: HataSurroundings;
}

/**
 * Median path loss by Okumura's measurements in and around Tokyo, as Hata put them into formulas.
 *
 * No terrain enters: use it over quasi-smooth ground, and expect errors of 10 dB and more elsewhere. For a large city Hata gives one
 * height gain up to 200 MHz and another from 400 MHz; between, this package changes over at 300 MHz (its choice, a step of some tenths
 * of a dB). Distances beyond 20 km need another exponent and are outside.
 *
 * @returns the loss and its parts; the formula is evaluated without loss, its fit to the curves is within about 1 dB (from memory)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * @source M. Hata, Empirical formula for propagation loss in land mobile radio services, IEEE Trans. Vehicular Technology VT-29 (1980)
 * 317 to 325; formulas from memory, in agreement with three public copies of them
 * @example A tall mast over a suburb
 * ```ts
 * import { okumuraHata } from '@finial/propagation/hata';
 *
 * const suburb = okumuraHata({
 *   frequencyHz: 868e6, baseHeightM: 30, mobileHeightM: 1.5, distanceM: 5000, surroundings: 'suburban',
 * });
 * suburb.lossDb; // ≈ 140.766
 * suburb.perDecadeDb; // ≈ 35.2
 * ```
 */
export function okumuraHata(path: OkumuraHataPath): HataLoss {
  checkObject(path, 'path');
  const validity = validityCheck(path.outsideValidity);
  const terms = checkHataPath(path, { min: 150e6, max: 1500e6 }, validity);
  const surroundings = checkOneOf(path.surroundings, 'surroundings', [
    'large-city',
    'small-city',
    'suburban',
    'open',
  ]);
  return hataLoss(terms, {
    constantDb: 69.55,
    frequencySlopeDb: 26.16,
    mobileHeightGainDb: surroundings === 'large-city' ? largeCityGainDb(terms) : smallCityGainDb(terms),
    surroundingsDb: surroundingsDb(surroundings, terms.frequencyMhz),
    warnings: validity.warnings,
  });
}

function largeCityGainDb({ frequencyMhz, mobileHeightM }: HataTerms): number {
  return frequencyMhz < 300
    ? 8.29 * Math.log10(1.54 * mobileHeightM) ** 2 - 1.1
    : 3.2 * Math.log10(11.75 * mobileHeightM) ** 2 - 4.97;
}

function surroundingsDb(surroundings: HataSurroundings, frequencyMhz: number): number {
  const logFrequency = Math.log10(frequencyMhz);
  if (surroundings === 'suburban') return -2 * Math.log10(frequencyMhz / 28) ** 2 - 5.4;
  if (surroundings === 'open') return -4.78 * logFrequency ** 2 + 18.33 * logFrequency - 40.94;
  return 0;
}
