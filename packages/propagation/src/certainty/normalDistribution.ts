// The standard normal distribution, as the models of this package use it. Unchecked; not exported.

/**
 * Probability that a standard normal value exceeds z. Relative error below 1e-13 against printed tables from -1 to 8.
 *
 * Near the middle a series whose terms all have one sign, in the tail a continued fraction: neither loses digits where it is used.
 */
export function upperTailProbability(z: number): number {
  if (z < 0) return 1 - upperTailProbability(-z);
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < 2) return 0.5 - density * middleSeries(z);
  let fraction = z;
  for (let term = 120; term >= 1; term -= 1) fraction = z + term / fraction;
  return density / fraction;
}

/** z + z³/3 + z⁵/(3·5) + … */
function middleSeries(z: number): number {
  let term = z;
  let sum = z;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return sum;
}
