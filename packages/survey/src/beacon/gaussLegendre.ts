/** Points and weights of a rule that integrates from a lower to an upper bound. */
export interface QuadratureRule {
  readonly points: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss-Legendre rule with n points between two bounds; unchecked.
 *
 * Source: NIST Digital Library of Mathematical Functions, 3.5(v): points are the zeros of the Legendre polynomial, found by Newton.
 */
export function gaussLegendre(n: number, low: number, high: number): QuadratureRule {
  const points = new Float64Array(n);
  const weights = new Float64Array(n);
  const half = (high - low) / 2;
  for (let i = 0; i < n; i += 1) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 50; step += 1) {
      const [value, derivative] = legendre(n, x);
      slope = derivative;
      const move = value / derivative;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    points[n - 1 - i] = low + half * (1 + x);
    weights[n - 1 - i] = (2 * half) / ((1 - x * x) * slope * slope);
  }
  return { points, weights };
}

/** Legendre polynomial of degree n and its derivative, by the three-term recurrence. */
function legendre(n: number, x: number): readonly [value: number, derivative: number] {
  let before = 1;
  let value = x;
  for (let degree = 2; degree <= n; degree += 1) {
    const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree;
    before = value;
    value = next;
  }
  return [value, (n * (x * value - before)) / (x * x - 1)];
}
