/**
 * Inverse complementary cumulative normal distribution I(x): above zero for x below 0.5. Positional and unchecked, x from 1e-6 to 1 - 1e-6.
 *
 * The rational approximation of the Recommendation, off by up to 4.5e-4, belongs to the model: a better inverse would move results
 * by some 0.01 dB away from the published ones. At exactly 0.5 it gives 1.3e-9 rather than zero.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Attachment 2 to Annex 1
 */
export function complementaryNormalDeviate(x: number): number {
  return x <= 0.5 ? upperDeviate(x) : -upperDeviate(1 - x);
}

function upperDeviate(x: number): number {
  const t = Math.sqrt(-2 * Math.log(x));
  const numerator = (0.010328 * t + 0.802853) * t + 2.515516698;
  const denominator = ((0.001308 * t + 0.189269) * t + 1.432788) * t + 1;
  return t - numerator / denominator;
}
