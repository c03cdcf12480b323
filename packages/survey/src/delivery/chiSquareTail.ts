import { gammaShares } from '../incompleteGamma.js';

/**
 * Share of the chi-square distribution above x (the regularised incomplete gamma function); unchecked, x from 0 up.
 *
 * Asked for the upper tail itself: one less the lower share has no digits left where a test is decided.
 *
 * Source: NIST Digital Library of Mathematical Functions 8.7.1 (series) and 8.9.2 (continued fraction).
 */
export function chiSquareTail(x: number, degreesOfFreedom: number): number {
  const shape = degreesOfFreedom / 2;
  const at = x / 2;
  // The square of so small an x is no number any longer.
  if (at < 1e-150) return 1;
  return gammaShares(at, shape).above;
}
