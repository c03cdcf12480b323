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

/**
 * The value that a standard normal variable stays below with the given probability, 1e-12 to 1 - 1e-12. Error below 1e-12 near the
 * middle, and as far as the probability itself is resolved in the tails.
 *
 * A rational start (error below 4.5e-4) and three steps of Halley's method, which treble the digits each.
 *
 * Source of the start: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964), 26.2.23.
 */
export function normalQuantile(probability: number): number {
  const tail = Math.min(probability, 1 - probability);
  const t = Math.sqrt(-2 * Math.log(tail));
  const top = (0.010328 * t + 0.802853) * t + 2.515517;
  const bottom = ((0.001308 * t + 0.189269) * t + 1.432788) * t + 1;
  let z = Math.max(t - top / bottom, 0);
  for (let step = 0; step < 3; step += 1) {
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const newton = (upperTailProbability(z) - tail) / density;
    z += newton / (1 + (z * newton) / 2);
  }
  return probability < 0.5 ? -z : z;
}
