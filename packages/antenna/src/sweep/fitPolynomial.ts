/** A polynomial fitted to points, in a variable that is 0 at `centre` and 1 at `centre + scale`. */
export interface FittedPolynomial {
  readonly centre: number;
  readonly scale: number;
  /** Constant first. */
  readonly coefficients: readonly number[];
  /** Standard deviation of the points about it; 0 where it goes through all of them. */
  readonly spread: number;
}

/** Least squares through points; needs more points than its degree. */
export function fitPolynomial(x: readonly number[], y: readonly number[], degree: number): FittedPolynomial {
  const [first = 0, last = 0] = [x[0], x.at(-1)];
  const centre = (first + last) / 2;
  const scale = (last - first) / 2;
  // On [-1, 1] the normal equations of a cubic lose three digits at most.
  const powers = x.map((abscissa) =>
    Array.from({ length: degree + 1 }, (_, power) => ((abscissa - centre) / scale) ** power),
  );
  const rows = Array.from({ length: degree + 1 }, (_, row) => [
    ...Array.from({ length: degree + 1 }, (_, column) =>
      powers.reduce((sum, point) => sum + (point[row] as number) * (point[column] as number), 0),
    ),
    powers.reduce((sum, point, index) => sum + (point[row] as number) * (y[index] as number), 0),
  ]);
  const coefficients = solve(rows);
  const squares = powers.reduce((sum, point, index) => {
    const fitted = point.reduce((value, power, place) => value + power * (coefficients[place] as number), 0);
    return sum + (fitted - (y[index] as number)) ** 2;
  }, 0);
  const free = x.length - degree - 1;
  return { centre, scale, coefficients, spread: free > 0 ? Math.sqrt(squares / free) : 0 };
}

/** The polynomial at a place. */
export function polynomialAt({ centre, scale, coefficients }: FittedPolynomial, x: number): number {
  const t = (x - centre) / scale;
  return coefficients.reduceRight((value, coefficient) => value * t + coefficient, 0);
}

/** Its slope at a place. */
export function slopeAt({ centre, scale, coefficients }: FittedPolynomial, x: number): number {
  const t = (x - centre) / scale;
  return (
    coefficients.reduce(
      (sum, coefficient, power) => (power === 0 ? 0 : sum + power * coefficient * t ** (power - 1)),
      0,
    ) / scale
  );
}

/** Where a parabola or cubic has its minimum; nothing where it has none. */
export function minimumOf({ centre, scale, coefficients }: FittedPolynomial): number | undefined {
  const [, b = 0, c = 0, d = 0] = coefficients;
  // b + 2ct + 3dt² = 0 at the root where 2c + 6dt is positive: that is √(c² − 3bd), so the form below never divides by it.
  const root = c * c - 3 * b * d;
  if (root < 0) return undefined;
  const denominator = c + Math.sqrt(root);
  return denominator > 0 ? centre - (scale * b) / denominator : undefined;
}

/** Gaussian elimination with pivoting of the few normal equations. */
function solve(rows: number[][]): readonly number[] {
  const size = rows.length;
  for (let column = 0; column < size; column += 1) {
    const rest = rows.slice(column);
    const pivot = rest.reduce((best, row) =>
      Math.abs(row[column] as number) > Math.abs(best[column] as number) ? row : best,
    );
    const place = rows.indexOf(pivot);
    [rows[column], rows[place]] = [pivot, rows[column] as number[]];
    for (const row of rows) {
      if (row === pivot) continue;
      const share = (row[column] as number) / (pivot[column] as number);
      for (let entry = column; entry <= size; entry += 1)
        row[entry] = (row[entry] as number) - share * (pivot[entry] as number);
    }
  }
  return rows.map((row, index) => (row[size] as number) / (row[index] as number));
}
