import { checkObject, checkRange, normalQuantile, type RangeBounds } from '@finial/units';
import { checkProbability } from './checkProbability.js';
import { upperTailProbability } from './normalDistribution.js';

/** What a predicted level may be off by. */
export interface PredictionSpread {
  /** Standard deviation of the level from place to place in dB, 0 to 40. */
  readonly locationSigmaDb: number;
  /**
   * Standard deviation of the model's own error in dB, 0 to 40: see `modelErrors`.
   *
   * @defaultValue 0
   */
  readonly modelErrorDb?: number | undefined;
}

/** A predicted margin and what it may be off by. */
export interface PredictedMargin extends PredictionSpread {
  /** Median level less the level that is needed, in dB, -1000 to 1000. */
  readonly marginDb: number;
}

/** How sure a link is to be, and what its prediction may be off by. */
export interface WantedCertainty extends PredictionSpread {
  /** Probability that the level suffices, as a ratio, 1e-12 to 1 - 1e-12. */
  readonly probability: number;
}

const spreadBounds: RangeBounds = { min: 0, max: 40, unit: 'dB' };

/**
 * Probability that a place gets the level it needs, when the median is predicted to exceed it by a margin.
 *
 * Place and model are taken as independent and normal in decibels; the error of a model stays the same over many places of one hill, so
 * that neighbours fail together. Without any spread the answer is 1 for a margin of 0 dB or more, else 0.
 *
 * @returns probability, 0 to 1, error below 1e-13
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source normal distribution of levels in decibels: Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.7; that independent errors
 * add by their squares is elementary statistics
 * @example A margin of 10 dB, places and model each uncertain
 * ```ts
 * import { marginProbability } from '@finial/propagation';
 *
 * marginProbability({ marginDb: 10, locationSigmaDb: 6, modelErrorDb: 8 }); // ≈ 0.8413
 * ```
 */
export function marginProbability(margin: PredictedMargin): number {
  checkObject(margin, 'margin');
  const marginDb = checkRange(margin.marginDb, 'marginDb', { min: -1000, max: 1000, unit: 'dB' });
  const spreadDb = spreadOf(margin);
  if (spreadDb === 0) return marginDb >= 0 ? 1 : 0;
  return upperTailProbability(-marginDb / spreadDb);
}

/**
 * Margin that a median has to keep above the needed level, so that a place gets it with the wanted probability: the inverse of
 * {@link marginProbability}.
 *
 * @returns dB, negative for a probability below 0.5; error below 1e-9 dB for probabilities from 1e-6 to 1 - 1e-6
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source as {@link marginProbability}
 * @example
 * ```ts
 * import { requiredMarginDb } from '@finial/propagation';
 *
 * requiredMarginDb({ probability: 0.9, locationSigmaDb: 6, modelErrorDb: 8 }); // ≈ 12.82
 * ```
 */
export function requiredMarginDb(certainty: WantedCertainty): number {
  checkObject(certainty, 'certainty');
  const probability = checkProbability(certainty.probability, 'probability');
  return spreadOf(certainty) * normalQuantile(probability);
}

function spreadOf({ locationSigmaDb, modelErrorDb = 0 }: PredictionSpread): number {
  return Math.hypot(
    checkRange(locationSigmaDb, 'locationSigmaDb', spreadBounds),
    checkRange(modelErrorDb, 'modelErrorDb', spreadBounds),
  );
}
