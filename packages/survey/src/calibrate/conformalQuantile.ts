import { checkInteger, checkObject, checkRange, InputError } from '@finial/units';
import { betaQuantile } from '../betaQuantile.js';

/** Scores of spots that a prediction was tried on. */
export interface ConformalQuestion {
  /**
   * One number per spot in dB, -1000 to 1000: how bad the prediction was there, such as the magnitude of the error, or predicted minus
   * measured where only a lower bound is wanted. The spots must not have been used to make the prediction.
   */
  readonly scoresDb: readonly number[];
  /** Further spots whose score is only known to be larger than any bound, 0 to 1e6: those that were not heard. @defaultValue `0` */
  readonly unboundedSpots?: number | undefined;
  /** Share of new spots that shall score no worse than the quantile, 0.5 to 0.9999. @defaultValue `0.9` */
  readonly confidence?: number | undefined;
}

/** The score that a new spot will not exceed. */
export interface ConformalQuantile {
  /** The quantile in dB; absent where the spots are too few, or too many were not heard, for any bound. */
  readonly quantileDb?: number | undefined;
  /** Which score it is, counted from 1 in rising order. */
  readonly rankIndex: number;
  /** Scores in all, unbounded ones included. */
  readonly spots: number;
  /** Least number of spots that give a bound at this confidence. */
  readonly leastSpots: number;
  /** Share of new spots that lie within the quantile, averaged over walks: never below the confidence. */
  readonly coverageRatio: number;
  /** Share that is exceeded with probability 0.9 for the very walk at hand, whose spots may have been lucky. */
  readonly coverageLowerRatio: number;
}

/**
 * The score that a new spot will not exceed with a given confidence, whatever the distribution of the scores.
 *
 * It holds if the new spot is like the walked ones: drawn from the same area in the same way. It promises nothing about a place of
 * another kind, and one number per spot is essential: frames of a spot are alike.
 *
 * @returns the score of rank ⌈(n + 1) · confidence⌉, exact
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source V. Vovk, A. Gammerman and G. Shafer, Algorithmic Learning in a Random World (2005); J. Lei and others, Journal of the American
 * Statistical Association 113 (2018) 1094 (both from memory)
 * @example Nine spots give a bound at 90 %, eight would not
 * ```ts
 * import { conformalQuantile } from '@finial/survey';
 *
 * conformalQuantile({ scoresDb: [3, 1, 7, 2, 5, 4, 9, 6, 8] }).quantileDb; // → 9
 * conformalQuantile({ scoresDb: [3, 1, 7, 2, 5, 4, 9, 6] }).quantileDb; // → undefined
 * ```
 */
export function conformalQuantile(question: ConformalQuestion): ConformalQuantile {
  const { scoresDb, unboundedSpots = 0, confidence = 0.9 } = checkObject(question, 'question');
  if (!Array.isArray(scoresDb)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'scoresDb',
      received: scoresDb,
      expected: 'a list of dB',
    });
  }
  scoresDb.forEach((score, i) => {
    checkRange(score, `scoresDb[${i}]`, { min: -1000, max: 1000, unit: 'dB' });
  });
  checkInteger(unboundedSpots, 'unboundedSpots', { min: 0, max: 1e6, unit: 'spots' });
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.9999, unit: 'as a confidence' });
  const spots = scoresDb.length + unboundedSpots;
  if (spots === 0) {
    throw new InputError({
      code: 'missing',
      argument: 'scoresDb',
      received: scoresDb,
      expected: 'at least one score',
    });
  }
  // (n + 1) · confidence in binary may land just above a whole number: the guard keeps the rank from being one too high.
  const outside = Math.floor((spots + 1) * (1 - confidence) + 1e-9);
  const rankIndex = spots + 1 - outside;
  const quantileDb = [...scoresDb].sort((one, other) => one - other)[rankIndex - 1];
  return {
    ...(quantileDb === undefined ? {} : { quantileDb }),
    rankIndex,
    spots,
    leastSpots: Math.ceil(1 / (1 - confidence) - 1 - 1e-9),
    coverageRatio: rankIndex / (spots + 1),
    coverageLowerRatio: outside === 0 ? 1 : betaQuantile(0.1, rankIndex, outside),
  };
}
