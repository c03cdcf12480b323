import { deviance, stirlingError } from '../betaQuantile.js';

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
  const weight = Math.exp(-stirlingError(shape) - deviance(shape, at)) / Math.sqrt(2 * Math.PI * shape);
  return at < shape + 1 ? 1 - weight * lowerSeries(shape, at) : weight * shape * upperFraction(shape, at);
}

function lowerSeries(shape: number, at: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < 1_000_000 && term > 1e-17 * sum; n += 1) {
    term *= at / (shape + n);
    sum += term;
  }
  return sum;
}

/** Lentz's evaluation. */
function upperFraction(shape: number, at: number): number {
  let b = at + 1 - shape;
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
