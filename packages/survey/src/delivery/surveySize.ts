import { checkObject, checkRange, normalQuantile } from '@finial/units';
import { checkSpotPlan, designEffect, type SpotPlan } from './designEffect.js';
import { percent } from './percent.js';

/** How well a delivery ratio shall be known. */
export interface WantedWidth {
  /** Delivery ratio that is expected, 0 to 1; 0.5 needs the most frames. */
  readonly expectedRatio: number;
  /** Wanted half-width of the interval as a ratio, 0.001 to 0.45: 0.05 for plus or minus 5 per cent. */
  readonly halfWidthRatio: number;
  /** Confidence of the two-sided interval as a ratio, 0.5 to 0.999999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
}

/** How a survey is planned. */
export interface SurveyQuestion extends WantedWidth, SpotPlan {}

/** How large a survey must be. */
export interface SurveySize {
  /** Independent frames that would do. */
  readonly independentFrames: number;
  /** What spots cost: frames needed over independent frames. */
  readonly designEffectRatio: number;
  /** Spots to walk to. */
  readonly spotCount: number;
  /** Frames to send at all spots. */
  readonly totalFrames: number;
  /** The plan for a person. */
  readonly sentence: string;
}

/**
 * Least number of independent frames whose Wilson interval has a wanted half-width.
 *
 * For frames at one spot; a survey of many spots needs {@link surveySize}.
 *
 * @returns a whole number of frames, 1 or more
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209, half-width solved for the number (a quadratic)
 * @example
 * ```ts
 * import { framesForWidth } from '@finial/survey';
 *
 * framesForWidth({ expectedRatio: 0.9, halfWidthRatio: 0.05 }); // → 141
 * ```
 */
export function framesForWidth(wanted: WantedWidth): number {
  checkObject(wanted, 'wanted');
  const p = checkRange(wanted.expectedRatio, 'expectedRatio', { min: 0, max: 1, unit: 'as a ratio' });
  const halfWidthBounds = { min: 0.001, max: 0.45, unit: 'as a ratio' };
  const halfWidth = checkRange(wanted.halfWidthRatio, 'halfWidthRatio', halfWidthBounds);
  const { confidence = 0.95 } = wanted;
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.999999, unit: 'as a ratio' });
  const square = normalQuantile((1 - confidence) / 2) ** 2;
  // E²(n + z²)² = z²(p(1-p) n + z²/4); the half-width falls as n grows.
  const linear = square * (1 - (p * (1 - p)) / (2 * halfWidth ** 2));
  const constant = square * square * (1 - 1 / (4 * halfWidth ** 2));
  const root = -linear + Math.sqrt(linear * linear - constant);
  return Math.max(1, Math.ceil(root - 1e-9));
}

/**
 * How many spots and frames a survey needs for a delivery ratio of wanted sureness.
 *
 * Normal theory: for fewer than some 15 spots add a fifth. More frames at a spot are cheap to send and soon worth nothing.
 *
 * @returns whole numbers, rounded up
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Frames as in {@link framesForWidth}, times the design effect of {@link designEffect}
 * @example
 * ```ts
 * import { surveySize } from '@finial/survey';
 *
 * const size = surveySize({ expectedRatio: 0.9, halfWidthRatio: 0.05, spotFrames: 20, correlation: 0.1 });
 * size.spotCount; // → 21
 * size.sentence;
 * // → '21 spots with 20 frames each (420 in all) tell a delivery ratio of 90 % to 5 percentage points, at 95 % confidence.'
 * ```
 */
export function surveySize(question: SurveyQuestion): SurveySize {
  checkObject(question, 'question');
  const { spotFrames, correlation } = checkSpotPlan(question);
  const independentFrames = framesForWidth(question);
  const { designEffectRatio } = designEffect({ spotFrames, correlation });
  const spotCount = Math.ceil((independentFrames * designEffectRatio) / spotFrames - 1e-9);
  const totalFrames = spotCount * spotFrames;
  const { expectedRatio, halfWidthRatio, confidence = 0.95 } = question;
  return {
    independentFrames,
    designEffectRatio,
    spotCount,
    totalFrames,
    sentence:
      `${spotCount} spots with ${spotFrames} frames each (${totalFrames} in all) tell a delivery ratio of ${percent(expectedRatio)} ` +
      `to ${Number((100 * halfWidthRatio).toFixed(2))} percentage points, at ${percent(confidence)} confidence.`,
  };
}
