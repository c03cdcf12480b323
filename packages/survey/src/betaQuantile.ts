/**
 * Lower quantile of the beta distribution: the x at which a share `probability` lies below; unchecked.
 *
 * For shapes from 0.5 to 1e9 and probabilities from 1e-12 to 0.5. For an upper quantile swap the shapes and take 1 - x, which keeps
 * the tail's digits. Relative error below 5e-14 against a table of 60-digit values for shapes up to a thousand.
 */
export function betaQuantile(probability: number, shapeA: number, shapeB: number): number {
  let low = 0;
  let high = 1;
  let x = shapeA / (shapeA + shapeB);
  for (let step = 0; step < 200; step += 1) {
    const share = betaShareBelow(x, shapeA, shapeB);
    if (share === probability) return x;
    if (share > probability) high = x;
    else low = x;
    // Newton on the logarithms of both sides, where the curve is nearly straight in the tail; halving where it leaves the bracket.
    const slope = betaWeight(x, shapeA, shapeB) / (1 - x) / share;
    const newton = x * Math.exp(Math.log(probability / share) / slope);
    const next = newton > low && newton < high ? newton : low > 0 ? Math.sqrt(low * high) : high / 4;
    if (Math.abs(next - x) <= 2e-16 * x) return next;
    x = next;
  }
  return x;
}

/** Share of the beta distribution below x (the regularised incomplete beta function), for 0 < x < 1; unchecked. */
export function betaShareBelow(x: number, shapeA: number, shapeB: number): number {
  const weight = betaWeight(x, shapeA, shapeB);
  // The fraction settles fast only on the near side of the mean; the other side is the complement.
  return x < (shapeA + 1) / (shapeA + shapeB + 2)
    ? (weight * continuedFraction(x, shapeA, shapeB)) / shapeA
    : 1 - (weight * continuedFraction(1 - x, shapeB, shapeA)) / shapeB;
}

/**
 * x^a (1-x)^b / B(a, b), from deviances instead of log-gammas, whose large terms would cancel for thousands of frames.
 *
 * Source: C. Loader, Fast and Accurate Computation of Binomial Probabilities (2000), saddle-point form.
 */
function betaWeight(x: number, shapeA: number, shapeB: number): number {
  const sum = shapeA + shapeB;
  const corrections = stirlingError(sum) - stirlingError(shapeA) - stirlingError(shapeB);
  const deviances = deviance(shapeA, sum * x) + deviance(shapeB, sum * (1 - x));
  return Math.exp(corrections - deviances) * Math.sqrt((shapeA * shapeB) / (2 * Math.PI * sum));
}

/** ln Γ(z+1) less Stirling's formula (z + 1/2) ln z - z + ln(2π)/2: series from 16 on, recurrence below. */
export function stirlingError(z: number): number {
  let climbed = 0;
  let at = z;
  for (; at < 16; at += 1) climbed += (at + 0.5) * Math.log1p(1 / at) - 1;
  const square = at * at;
  const series = 1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - 1 / 1188 / square) / square) / square) / square;
  return climbed + series / at;
}

/** k ln(k/m) + m - k, by a series where k is near m and the terms would cancel. */
export function deviance(k: number, m: number): number {
  const difference = k - m;
  if (Math.abs(difference) > 0.1 * (k + m)) return k * Math.log(k / m) + m - k;
  const v = difference / (k + m);
  let sum = difference * v;
  let term = 2 * k * v;
  for (let j = 3; ; j += 2) {
    term *= v * v;
    const next = sum + term / j;
    if (next === sum) return sum;
    sum = next;
  }
}

/** Lentz's evaluation of NIST Digital Library of Mathematical Functions 8.17.22. */
function continuedFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  // About √max(a, b) rounds are needed; the bound is met for shapes of 1e9.
  for (let m = 1; m < 200_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < 2e-16) break;
  }
  return fraction;
}
