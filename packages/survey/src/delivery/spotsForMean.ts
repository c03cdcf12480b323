import { checkInteger, checkObject, checkRange, normalQuantile } from '@finial/units';
import { studentQuantile } from '../calibrate/studentDistribution.js';

/** How well a mean level shall be known. */
export interface WantedMean {
  /** Standard deviation of spots about the mean in dB, 0.1 to 40. */
  readonly shadowingDb: number;
  /** Wanted half-width of the mean's interval in dB, 0.01 to 40. */
  readonly halfWidthDb: number;
  /** Confidence of the two-sided interval as a ratio, 0.5 to 0.999999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
}

/** How many spots that takes. */
export interface SpotsForMean {
  /** Spots where the deviation is known beforehand. */
  readonly knownDeviationSpotCount: number;
  /** Spots where the deviation is found by the same walk (Student's t), 2 or more: the number to plan with. */
  readonly spotCount: number;
}

/**
 * How many spots the mean level (or the bias of a prediction) needs to be known to a few decibels.
 *
 * Spots must be farther apart than the shadowing's decorrelation distance, or two of them are one.
 *
 * @returns whole numbers, rounded up
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 7.2.2.2 (from memory): (z s/E)², then with t
 * @example
 * ```ts
 * import { spotsForMean } from '@finial/survey';
 *
 * spotsForMean({ shadowingDb: 8, halfWidthDb: 2 }).spotCount; // → 64
 * ```
 */
export function spotsForMean(wanted: WantedMean): SpotsForMean {
  checkObject(wanted, 'wanted');
  const shadowingDb = checkRange(wanted.shadowingDb, 'shadowingDb', { min: 0.1, max: 40, unit: 'dB' });
  const halfWidthDb = checkRange(wanted.halfWidthDb, 'halfWidthDb', { min: 0.01, max: 40, unit: 'dB' });
  const { confidence = 0.95 } = wanted;
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.999999, unit: 'as a ratio' });
  const tail = (1 - confidence) / 2;
  const knownDeviationSpotCount = Math.max(
    1,
    Math.ceil(((normalQuantile(tail) * shadowingDb) / halfWidthDb) ** 2),
  );
  const isEnough = (spots: number): boolean =>
    (studentQuantile(tail, spots - 1) * shadowingDb) / Math.sqrt(spots) <= halfWidthDb;
  let low = 1;
  let high = Math.max(2, knownDeviationSpotCount);
  while (!isEnough(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return { knownDeviationSpotCount, spotCount: high };
}

/** Spots spread evenly in the logarithm of distance. */
export interface SpreadOfSpots {
  /** Standard deviation of spots about the law in dB, 0.1 to 40. */
  readonly shadowingDb: number;
  /** Number of spots, a whole number from 3 to 1e6. */
  readonly spotCount: number;
  /** Distance of the nearest spot in metres, 0.01 to 19e6. */
  readonly nearestDistanceM: number;
  /** Distance of the farthest spot in metres, at least 1 % more than the nearest and up to 20.1e6. */
  readonly farthestDistanceM: number;
}

/**
 * Standard error with which a walk will find the path-loss exponent, a plain number.
 *
 * Distances are equal steps in their logarithm: the spread of distances counts, not the number of metres walked.
 *
 * @returns standard error of the exponent, relative error below 1e-12
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Least squares: s / √Σ(x - x̄)² with x = 10 lg d, NIST/SEMATECH e-Handbook of Statistical Methods 4.1.4.1
 * @example
 * ```ts
 * import { exponentStandardError } from '@finial/survey';
 *
 * exponentStandardError({ shadowingDb: 8, spotCount: 40, nearestDistanceM: 100, farthestDistanceM: 5000 }); // ≈ 0.2515
 * ```
 */
export function exponentStandardError(spread: SpreadOfSpots): number {
  checkObject(spread, 'spread');
  const shadowingDb = checkRange(spread.shadowingDb, 'shadowingDb', { min: 0.1, max: 40, unit: 'dB' });
  const spotCount = checkInteger(spread.spotCount, 'spotCount', { min: 3, max: 1e6, unit: 'spots' });
  const nearestBounds = { min: 0.01, max: 19e6, unit: 'metres' };
  const nearest = checkRange(spread.nearestDistanceM, 'nearestDistanceM', nearestBounds);
  const farthestBounds = { min: 1.01 * nearest, max: 20.1e6, unit: 'metres' };
  const farthest = checkRange(spread.farthestDistanceM, 'farthestDistanceM', farthestBounds);
  const step = (10 * Math.log10(farthest / nearest)) / (spotCount - 1);
  // Squares of the whole numbers about their mean add up to n(n² - 1)/12.
  return shadowingDb / (step * Math.sqrt((spotCount * (spotCount * spotCount - 1)) / 12));
}
