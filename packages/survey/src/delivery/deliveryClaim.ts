import { checkInteger, checkObject, checkRange } from '@finial/units';
import { betaQuantile } from '../betaQuantile.js';
import type { FrameCount } from '../deliveryRatio.js';
import { percent } from './percent.js';

/** How sure a claim shall be. */
export interface ClaimOptions {
  /** Confidence of the one-sided claim as a ratio, 0.75 to 0.999999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
}

/** What a count of frames proves, each bound by itself. */
export interface DeliveryClaim {
  /** Frames received. */
  readonly received: number;
  /** Frames sent. */
  readonly sent: number;
  /** Received over sent. */
  readonly ratio: number;
  /** At least this share comes through, at the one-sided confidence. */
  readonly atLeastRatio: number;
  /** At most this share comes through, at the one-sided confidence. */
  readonly atMostRatio: number;
  /** Confidence of each bound as a ratio. */
  readonly confidence: number;
  /** The claim for a person. */
  readonly sentence: string;
}

/**
 * What share of frames a count at one spot proves: the one-sided exact bounds, for claims of 'at least' or 'at most'.
 *
 * Exact means that the chance of a wrong claim is never above one less the confidence. It holds for the place, the time and the power of
 * the frames that were counted, taken as independent; counts of several spots belong in `deliveryAcrossSpots`. Both bounds together
 * hold at a confidence of one less twice the tail.
 *
 * @returns the bounds, relative error below 1e-10
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404; NIST/SEMATECH e-Handbook 7.2.4.2
 * @example Twenty of twenty
 * ```ts
 * import { deliveryClaim } from '@finial/survey';
 *
 * const claim = deliveryClaim({ received: 20, sent: 20 });
 * claim.atLeastRatio; // ≈ 0.8609
 * claim.sentence; // → '20 of 20 frames came through: at least 86.0 % do, at 95 % confidence.'
 * ```
 */
export function deliveryClaim(frames: FrameCount, options: ClaimOptions = {}): DeliveryClaim {
  checkObject(frames, 'frames');
  const sent = checkInteger(frames.sent, 'sent', { min: 1, max: 1e9, unit: 'frames' });
  const received = checkInteger(frames.received, 'received', { min: 0, max: sent, unit: 'frames' });
  const confidence = checkClaimConfidence(options);
  const { atLeastRatio, atMostRatio } = exactBounds({ received, sent }, 1 - confidence);
  return {
    received,
    sent,
    ratio: received / sent,
    atLeastRatio,
    atMostRatio,
    confidence,
    sentence: `${received} of ${sent} frames came through: ${claimed(atLeastRatio)}, at ${percent(confidence)} confidence.`,
  };
}

/** The confidence of a one-sided claim, checked. */
export function checkClaimConfidence(options: ClaimOptions): number {
  const { confidence = 0.95 } = checkObject(options, 'options');
  return checkRange(confidence, 'confidence', { min: 0.75, max: 0.999999, unit: 'as a ratio' });
}

/**
 * Clopper-Pearson bounds with `tail` on each side; unchecked. Counts need not be whole. Less than half a frame on a side proves nothing
 * there: the bound is 0 or 1, which errs on the safe side.
 */
export function exactBounds(
  { received, sent }: FrameCount,
  tail: number,
): { readonly atLeastRatio: number; readonly atMostRatio: number } {
  const missed = sent - received;
  return {
    atLeastRatio: lowerBound(received, missed, tail),
    atMostRatio: 1 - lowerBound(missed, received, tail),
  };
}

function lowerBound(hits: number, misses: number, tail: number): number {
  // All frames: the power law itself, which holds for parts of a frame, too.
  if (misses === 0) return tail ** (1 / hits);
  return hits < 0.5 ? 0 : betaQuantile(tail, hits, misses + 1);
}

/** The lower bound in words, rounded so that it never promises more. */
export function claimed(atLeastRatio: number): string {
  return `at least ${percent(Math.floor(atLeastRatio * 1000) / 1000, 1)} do`;
}
