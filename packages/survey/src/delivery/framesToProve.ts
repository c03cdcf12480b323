import { checkInteger, checkObject, checkRange } from '@finial/units';
import { betaShareBelow } from '../betaQuantile.js';
import { percent } from './percent.js';

/** A reliability to be proved. */
export interface ReliabilityClaim {
  /** Delivery ratio to prove at the least, 0.01 to 0.9999. */
  readonly atLeastRatio: number;
  /** Missed frames that the proof shall survive, a whole number from 0 to 1000. @defaultValue `0` */
  readonly missedFrames?: number | undefined;
  /** Confidence as a ratio, 0.5 to 0.999999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
}

/** What it takes to prove a reliability. */
export interface ReliabilityProof {
  /** Least number of frames to send. */
  readonly frames: number;
  /** Missed frames that are allowed among them. */
  readonly missedFrames: number;
  /** Confidence that is reached as a ratio: the asked one or more. */
  readonly reachedConfidence: number;
  /** The plan for a person. */
  readonly sentence: string;
}

/**
 * How many frames must be sent, with how few missed, to prove a delivery ratio.
 *
 * The number of allowed misses must be fixed beforehand: going on until the proof succeeds proves less. Frames are independent, so the proof is
 * of one spot, or takes one frame from each of as many spots.
 *
 * @returns the least number of frames, exact
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Cumulative binomial distribution; for no miss ln(1 - confidence) / ln(ratio), rounded up
 * @example
 * ```ts
 * import { framesToProve } from '@finial/survey';
 *
 * framesToProve({ atLeastRatio: 0.9 }).frames; // → 29
 * framesToProve({ atLeastRatio: 0.9, missedFrames: 2 }).frames; // → 61
 * ```
 */
export function framesToProve(claim: ReliabilityClaim): ReliabilityProof {
  checkObject(claim, 'claim');
  const ratio = checkRange(claim.atLeastRatio, 'atLeastRatio', {
    min: 0.01,
    max: 0.9999,
    unit: 'as a ratio',
  });
  const { missedFrames = 0, confidence = 0.95 } = claim;
  checkInteger(missedFrames, 'missedFrames', { min: 0, max: 1000, unit: 'frames' });
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.999999, unit: 'as a ratio' });
  // Chance of so few misses although the ratio is only just the claimed one.
  const luck = (frames: number): number =>
    missedFrames === 0 ? ratio ** frames : betaShareBelow(ratio, frames - missedFrames, missedFrames + 1);
  const isProof = (frames: number): boolean => luck(frames) <= (1 - confidence) * (1 + 1e-12);
  let low = missedFrames;
  let high = 2 * (missedFrames + 1);
  while (!isProof(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isProof(middle)) high = middle;
    else low = middle;
  }
  const allowed = missedFrames === 0 ? 'none' : `at most ${missedFrames}`;
  return {
    frames: high,
    missedFrames,
    reachedConfidence: 1 - luck(high),
    sentence: `${high} frames with ${allowed} missed prove a delivery ratio of at least ${percent(ratio)}, at ${percent(confidence)} confidence.`,
  };
}
