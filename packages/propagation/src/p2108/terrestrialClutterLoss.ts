import { checkObject, checkOneOf, normalQuantile } from '@finial/units';
import { checkProbability } from '../certainty/checkProbability.js';
import { distanceM as distanceBounds, frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/** A path that begins or ends among the houses of a town. */
export interface TownPath {
  /** Frequency in hertz, 500e6 to 67e9. */
  readonly frequencyHz: number;
  /** Length of the path in metres, from 250; from 1000 where both ends stand among houses. */
  readonly distanceM: number;
  /** Share of places whose loss is not greater, as a ratio, 1e-12 to 1 - 1e-12; 0.5 gives the median. */
  readonly probability: number;
  /**
   * Which ends stand among houses. The loss is that of one end; with `both`, the caller adds it at each.
   *
   * @defaultValue `one`
   */
  readonly clutteredEnds?: 'one' | 'both' | undefined;
  /**
   * What to do with a number outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss of one end among houses. */
export interface TerrestrialClutterLoss {
  /** Loss of one end in dB that is not exceeded at the share of places asked for. */
  readonly lossDb: number;
  /** Its median in dB. */
  readonly medianLossDb: number;
  /** Its standard deviation over places in dB. */
  readonly sigmaDb: number;
  /** The distance that was used, in metres: no more than 2000, beyond which the loss no longer grows. */
  readonly usedDistanceM: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

/** Beyond this the loss does not grow; the quantile of the spread there does not either. */
const saturationDistanceM = 2000;

/**
 * Loss that urban or suburban surroundings add at one end of a path over ground, over many places: for planning where nobody knows the
 * street. The antenna stands well below the roofs.
 *
 * Statistics of towns only: neither for open land nor together with a terminal loss by height or with clutter in the profile.
 * For a sure link ask for a large `probability`, for interference a small one. Below 0 dB (tiny probabilities) nothing is clamped.
 *
 * @returns the loss at one end, with median and spread; the published test values agree within their printed 0.1 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * @source Recommendation ITU-R P.2108-1 (09/2021), section 3.2, equations 3a to 6
 * @example Half the places of a town, and nine in ten
 * ```ts
 * import { terrestrialClutterLoss } from '@finial/propagation/p2108';
 *
 * const town = { frequencyHz: 868e6, distanceM: 1000 };
 * terrestrialClutterLoss({ ...town, probability: 0.5 }).lossDb; // ≈ 24.34
 * terrestrialClutterLoss({ ...town, probability: 0.9 }).lossDb; // ≈ 29.5
 * ```
 */
export function terrestrialClutterLoss(path: TownPath): TerrestrialClutterLoss {
  checkObject(path, 'path');
  const { clutteredEnds = 'one' } = path;
  const { within, warnings } = validityCheck(path.outsideValidity);
  const frequencyHz = within(path.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: 500e6,
    max: 67e9,
  });
  const ends = checkOneOf(clutteredEnds, 'clutteredEnds', ['one', 'both']);
  const distanceM = within(path.distanceM, 'distanceM', {
    possible: distanceBounds,
    min: ends === 'both' ? 1000 : 250,
    max: distanceBounds.max,
  });
  const probability = checkProbability(path.probability, 'probability');
  const deviate = normalQuantile(probability);
  const here = distribution(frequencyHz / 1e9, distanceM / 1000);
  const saturated = distribution(frequencyHz / 1e9, saturationDistanceM / 1000);
  const lossHereDb = here.medianLossDb + here.sigmaDb * deviate;
  const lossSaturatedDb = saturated.medianLossDb + saturated.sigmaDb * deviate;
  // The spread shrinks towards 2 km, so for large shares the nearer path may have the greater loss: equation 6 caps it there too.
  return lossHereDb <= lossSaturatedDb
    ? { lossDb: lossHereDb, ...here, usedDistanceM: distanceM, warnings }
    : { lossDb: lossSaturatedDb, ...saturated, usedDistanceM: saturationDistanceM, warnings };
}

/** Median and spread of one distance, in the Recommendation's gigahertz and kilometres. */
function distribution(frequencyGhz: number, distanceKm: number) {
  const logFrequency = Math.log10(frequencyGhz);
  const farLossDb = -2 * Math.log10(10 ** (-5 * logFrequency - 12.5) + 10 ** -16.5);
  const nearLossDb = 32.98 + 23.9 * Math.log10(distanceKm) + 3 * logFrequency;
  const farWeight = 10 ** (-0.2 * farLossDb);
  const nearWeight = 10 ** (-0.2 * nearLossDb);
  const weight = farWeight + nearWeight;
  return {
    medianLossDb: -5 * Math.log10(weight),
    sigmaDb: Math.sqrt((4 ** 2 * farWeight + 6 ** 2 * nearWeight) / weight),
  };
}
