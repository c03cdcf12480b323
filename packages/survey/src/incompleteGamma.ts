import { deviance, stirlingError } from './betaQuantile.js';

/**
 * x^shape e^-x / Γ(shape + 1), from deviances as in the beta quantile; unchecked.
 */
export function poissonWeight(x: number, shape: number): number {
  return Math.exp(-stirlingError(shape) - deviance(shape, x)) / Math.sqrt(2 * Math.PI * shape);
}

/**
 * Shares of the gamma distribution below and above x (the regularised incomplete gamma functions P and Q); unchecked, x above 0.
 *
 * The smaller share is computed itself where it matters: one less the other has no digits left in a tail.
 *
 * Source: NIST Digital Library of Mathematical Functions 8.7.1 (series) and 8.9.2 (continued fraction).
 */
export function gammaShares(x: number, shape: number): { readonly below: number; readonly above: number } {
  const weight = poissonWeight(x, shape);
  if (x < shape + 1) {
    const below = weight * lowerSeries(shape, x);
    return { below, above: 1 - below };
  }
  const above = weight * shape * upperFraction(shape, x);
  return { below: 1 - above, above };
}

function lowerSeries(shape: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < 1_000_000 && term > 1e-17 * sum; n += 1) {
    term *= x / (shape + n);
    sum += term;
  }
  return sum;
}

/** Lentz's evaluation. */
function upperFraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 1_000_000; n += 1) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 2e-16) break;
  }
  return fraction;
}
