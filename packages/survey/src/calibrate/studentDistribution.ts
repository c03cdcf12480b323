import { betaQuantile, betaShareBelow } from '../betaQuantile.js';

/**
 * The t above which a share `tail` of Student's distribution lies; unchecked, for tails up to 0.25 and 1 to 1e6 degrees of freedom.
 *
 * Source: NIST Digital Library of Mathematical Functions 8.17 (the incomplete beta function), with x = ν/(ν + t²).
 */
export function studentQuantile(tail: number, degreesOfFreedom: number): number {
  const x = betaQuantile(2 * tail, degreesOfFreedom / 2, 0.5);
  return Math.sqrt((degreesOfFreedom * (1 - x)) / x);
}

/** Probability that Student's t lies farther from zero than `t`, on either side; unchecked. */
export function studentProbability(t: number, degreesOfFreedom: number): number {
  if (t === 0) return 1;
  const x = degreesOfFreedom / (degreesOfFreedom + t * t);
  // A t of 1e160 and more: its square is no number any longer, and the tail is empty.
  return x === 0 ? 0 : x === 1 ? 1 : betaShareBelow(x, degreesOfFreedom / 2, 0.5);
}
