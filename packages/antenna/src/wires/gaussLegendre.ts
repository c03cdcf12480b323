/** Points and weights of a quadrature rule. */
export interface QuadratureRule {
  readonly points: Float64Array;
  readonly weights: Float64Array;
}

/** Gauss-Legendre rule on the interval 0 to 1, exact for polynomials up to degree 2 · count - 1. */
export function gaussLegendre(count: number): QuadratureRule {
  const points = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let index = 0; index < count; index++) {
    let x = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5));
    let derivative = 0;
    // Newton's iteration from this start doubles the digits each time; seven rounds reach the last bit for any count.
    for (let round = 0; round < 7; round++) {
      let current = 1;
      let previous = 0;
      for (let degree = 1; degree <= count; degree++) {
        const next = ((2 * degree - 1) * x * current - (degree - 1) * previous) / degree;
        previous = current;
        current = next;
      }
      derivative = (count * (x * current - previous)) / (x * x - 1);
      x -= current / derivative;
    }
    points[index] = (1 - x) / 2;
    weights[index] = 1 / ((1 - x * x) * derivative * derivative);
  }
  return { points, weights };
}

/**
 * The same rule with its points drawn towards both ends by t = u² (3 - 2u), for integrands that bend sharply there.
 */
export function gradedGaussLegendre(count: number): QuadratureRule {
  const { points, weights } = gaussLegendre(count);
  return {
    points: points.map((u) => u * u * (3 - 2 * u)),
    weights: weights.map((weight, index) => {
      const u = points[index] as number;
      return weight * 6 * u * (1 - u);
    }),
  };
}
