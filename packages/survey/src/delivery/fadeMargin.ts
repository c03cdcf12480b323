import { checkInteger, checkObject, checkRange, normalQuantile } from '@finial/units';
import { studentQuantile } from '../calibrate/studentDistribution.js';
import { crossing } from './crossing.js';
import { noncentralStudentShare } from './noncentralStudentShare.js';

const shadowingBounds = { min: 0, max: 40, unit: 'dB' };
const spotBounds = { min: 2, max: 10_000, unit: 'spots' };

/** Shadowing that is known. */
export interface LogNormalFade {
  /** Probability that a place lies above the threshold, 0.5 to 0.999999. */
  readonly probability: number;
  /** Standard deviation of shadowing in dB, 0 to 40. */
  readonly shadowingDb: number;
}

/** Shadowing that a walk has measured. */
export interface MeasuredFade {
  /** Probability that the next place lies above the threshold, 0.75 to 0.999999. */
  readonly probability: number;
  /** Standard deviation of the walked spots in dB (divisor: spots - 1), 0 to 40. */
  readonly sampleDeviationDb: number;
  /** Number of walked spots, a whole number from 2 to 10 000. */
  readonly spotCount: number;
}

/** A claim about most places from a walk of some. */
export interface ToleratedFade {
  /** Share of places that shall lie above the threshold, 0.5 to 0.9999. */
  readonly probability: number;
  /** Confidence that they do as a ratio, 0.5 to 0.9999. */
  readonly confidence: number;
  /** Standard deviation of the walked spots in dB (divisor: spots - 1), 0 to 40. */
  readonly sampleDeviationDb: number;
  /** Number of walked spots, a whole number from 2 to 10 000. */
  readonly spotCount: number;
}

/** Fast fading on top of shadowing. */
export interface SuzukiFade {
  /** Probability of lying below, 1e-6 to 0.999999. */
  readonly probability: number;
  /** Standard deviation of shadowing in dB, 0 to 40. */
  readonly shadowingDb: number;
}

/**
 * Margin in dB between the mean level and the threshold for a wanted share of places, where mean and deviation are known.
 *
 * @returns dB, 0 or more, relative error below 1e-14
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Quantile of the normal distribution times the deviation: T. S. Rappaport, Wireless Communications, 2nd edition (2002), section 4.9.2
 * (from memory)
 * @example
 * ```ts
 * import { logNormalMarginDb } from '@finial/survey';
 *
 * logNormalMarginDb({ probability: 0.9, shadowingDb: 8 }); // ≈ 10.25
 * ```
 */
export function logNormalMarginDb(fade: LogNormalFade): number {
  checkObject(fade, 'fade');
  const probability = checkRange(fade.probability, 'probability', {
    min: 0.5,
    max: 0.999999,
    unit: 'as a probability',
  });
  return normalQuantile(probability) * checkRange(fade.shadowingDb, 'shadowingDb', shadowingBounds);
}

/**
 * Margin in dB for one more place, where mean and deviation come from a walk of some spots.
 *
 * It holds on average over walks: of one walk in two the true share is lower. For a claim take {@link toleranceMarginDb}.
 *
 * @returns dB below the walk's mean, relative error below 1e-12
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Prediction interval t · s · √(1 + 1/N): NIST/SEMATECH e-Handbook of Statistical Methods, chapter 7 (from memory)
 * @example
 * ```ts
 * import { predictionMarginDb } from '@finial/survey';
 *
 * predictionMarginDb({ probability: 0.9, sampleDeviationDb: 8, spotCount: 12 }); // ≈ 11.35
 * ```
 */
export function predictionMarginDb(fade: MeasuredFade): number {
  checkObject(fade, 'fade');
  const probability = checkRange(fade.probability, 'probability', {
    min: 0.75,
    max: 0.999999,
    unit: 'as a probability',
  });
  const deviationDb = checkRange(fade.sampleDeviationDb, 'sampleDeviationDb', shadowingBounds);
  const spotCount = checkInteger(fade.spotCount, 'spotCount', spotBounds);
  return studentQuantile(1 - probability, spotCount - 1) * deviationDb * Math.sqrt(1 + 1 / spotCount);
}

/**
 * Margin in dB below a walk's mean above which a wanted share of all places lies, with a wanted confidence: a one-sided tolerance limit.
 *
 * The spots must be independent and the levels normal in decibels. The handbook's printed factors come from an approximation that is
 * a few parts in a thousand off; these are from the distribution itself.
 *
 * @returns dB below the walk's mean, relative error below 1e-9
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source NIST/SEMATECH e-Handbook of Statistical Methods 7.2.6.3, by the non-central t distribution
 * @example
 * ```ts
 * import { toleranceMarginDb } from '@finial/survey';
 *
 * toleranceMarginDb({ probability: 0.9, confidence: 0.95, sampleDeviationDb: 8, spotCount: 20 }); // ≈ 15.41
 * ```
 */
export function toleranceMarginDb(fade: ToleratedFade): number {
  checkObject(fade, 'fade');
  const bounds = { min: 0.5, max: 0.9999, unit: 'as a probability' };
  const probability = checkRange(fade.probability, 'probability', bounds);
  const confidence = checkRange(fade.confidence, 'confidence', { ...bounds, unit: 'as a ratio' });
  const deviationDb = checkRange(fade.sampleDeviationDb, 'sampleDeviationDb', shadowingBounds);
  const spotCount = checkInteger(fade.spotCount, 'spotCount', spotBounds);
  const root = Math.sqrt(spotCount);
  const shift = normalQuantile(probability) * root;
  const share = (factor: number): number =>
    noncentralStudentShare(factor * root, { degreesOfFreedom: spotCount - 1, shift });
  let high = 1;
  while (share(high) < confidence) high *= 2;
  return crossing(share, confidence, { low: 0, high }) * deviationDb;
}

/**
 * How far a Rayleigh-fading signal lies from its mean power, in dB, at the level that it falls below with a given probability.
 *
 * Rayleigh fading stands for many reflections and no direct path, for a node or surroundings that move; a fixed node in view of the
 * gateway fades less.
 *
 * @param probability - of lying below, 1e-6 to 0.999999
 * @returns dB over the mean power, negative for a fade: 10 lg(-ln(1 - p)), relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Power under Rayleigh fading is exponentially distributed: T. S. Rappaport, Wireless Communications, 2nd edition (2002), section
 * 5.6.1 (from memory)
 * @example
 * ```ts
 * import { rayleighFadeDb } from '@finial/survey';
 *
 * rayleighFadeDb(0.1); // ≈ -9.77
 * ```
 */
export function rayleighFadeDb(probability: number): number {
  checkRange(probability, 'probability', { min: 1e-6, max: 0.999999, unit: 'as a probability' });
  return 10 * Math.log10(-Math.log1p(-probability));
}

/**
 * The same where the mean power itself is log-normally shadowed (Suzuki's distribution), in dB over the median of the local mean power.
 *
 * @returns dB, negative for a fade, error below 1e-9 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source H. Suzuki, IEEE Transactions on Communications 25 (1977) 673 (from memory), integrated numerically
 * @example
 * ```ts
 * import { suzukiFadeDb } from '@finial/survey';
 *
 * suzukiFadeDb({ probability: 0.1, shadowingDb: 6 }); // ≈ -13.02
 * ```
 */
export function suzukiFadeDb(fade: SuzukiFade): number {
  checkObject(fade, 'fade');
  const probability = checkRange(fade.probability, 'probability', {
    min: 1e-6,
    max: 0.999999,
    unit: 'as a probability',
  });
  const shadowingDb = checkRange(fade.shadowingDb, 'shadowingDb', shadowingBounds);
  // Nine deviations of shadowing, and the ends of Rayleigh fading.
  const reach = 9 * shadowingDb + 80;
  const share = (fadeDb: number): number => suzukiShareBelow(fadeDb, shadowingDb);
  return crossing(share, probability, { low: -reach, high: reach });
}

/** The trapezium rule, whose error for such a smooth bell falls faster than any power of the step. */
function suzukiShareBelow(fadeDb: number, shadowingDb: number): number {
  const step = 0.02;
  let sum = 0;
  for (let z = -9; z <= 9; z += step) {
    const overMean = 10 ** ((fadeDb - shadowingDb * z) / 10);
    sum -= Math.exp((-z * z) / 2) * Math.expm1(-overMean);
  }
  return (sum * step) / Math.sqrt(2 * Math.PI);
}
