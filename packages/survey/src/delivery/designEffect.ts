import { checkInteger, checkObject, checkRange } from '@finial/units';

/** Frames per spot, and how alike they are. */
export interface SpotPlan {
  /** Frames sent at each spot, a whole number from 1 to 100 000. */
  readonly spotFrames: number;
  /** Correlation of frames of one spot, 0 to 1, such as `fitBetaBinomial` finds. */
  readonly correlation: number;
}

/** What staying at a spot is worth. */
export interface DesignEffect {
  /** Variance over that of independent frames. */
  readonly designEffectRatio: number;
  /** Independent frames that the frames of one spot are worth. */
  readonly effectiveSpotFrames: number;
  /** Worth of a spot at most, however long one stays; absent at correlation 0. */
  readonly mostSpotFrames?: number | undefined;
}

/**
 * How little many frames at one spot are worth: the design effect 1 + (m - 1) ρ.
 *
 * From about 1/ρ frames on, walking to another spot tells more than staying.
 *
 * @returns plain ratios and counts, relative error below 1e-14
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source L. Kish, Survey Sampling (1965), section 5.4 (from memory)
 * @example
 * ```ts
 * import { designEffect } from '@finial/survey';
 *
 * designEffect({ spotFrames: 20, correlation: 0.1 }).effectiveSpotFrames; // ≈ 6.9
 * ```
 */
export function designEffect(plan: SpotPlan): DesignEffect {
  const { spotFrames, correlation } = checkSpotPlan(plan);
  const designEffectRatio = 1 + (spotFrames - 1) * correlation;
  return {
    designEffectRatio,
    effectiveSpotFrames: spotFrames / designEffectRatio,
    // Below this the limit is no number that a walk could meet.
    ...(correlation < 1e-12 ? {} : { mostSpotFrames: 1 / correlation }),
  };
}

/** A plan, checked. */
export function checkSpotPlan(plan: SpotPlan): SpotPlan {
  checkObject(plan, 'plan');
  return {
    spotFrames: checkInteger(plan.spotFrames, 'spotFrames', { min: 1, max: 100_000, unit: 'frames' }),
    correlation: checkRange(plan.correlation, 'correlation', { min: 0, max: 1, unit: 'as a correlation' }),
  };
}
