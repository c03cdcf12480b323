/** Lower triangle L of a symmetric positive definite matrix, L·Lᵀ; `undefined` where it is not positive definite. Unchecked. */
export function cholesky(matrix: readonly Float64Array[]): Float64Array[] | undefined {
  const lower = matrix.map((row) => new Float64Array(row.length));
  for (const [i, row] of matrix.entries()) {
    for (let j = 0; j <= i; j += 1) {
      let sum = row[j] as number;
      for (let k = 0; k < j; k += 1) sum -= at(lower, i, k) * at(lower, j, k);
      if (i !== j) (lower[i] as Float64Array)[j] = sum / at(lower, j, j);
      // NaN fails the comparison too.
      else if (sum > 0) (lower[i] as Float64Array)[i] = Math.sqrt(sum);
      else return undefined;
    }
  }
  return lower;
}

/** Solves L·Lᵀ·x = b. */
export function choleskySolve(lower: readonly Float64Array[], right: Float64Array): Float64Array {
  const x = right.slice();
  for (let i = 0; i < x.length; i += 1) {
    let sum = x[i] as number;
    for (let k = 0; k < i; k += 1) sum -= at(lower, i, k) * (x[k] as number);
    x[i] = sum / at(lower, i, i);
  }
  for (let i = x.length - 1; i >= 0; i -= 1) {
    let sum = x[i] as number;
    for (let k = i + 1; k < x.length; k += 1) sum -= at(lower, k, i) * (x[k] as number);
    x[i] = sum / at(lower, i, i);
  }
  return x;
}

/** The inverse of L·Lᵀ, row by row. */
export function choleskyInverse(lower: readonly Float64Array[]): Float64Array[] {
  return lower.map((_, i) => {
    const unit = new Float64Array(lower.length);
    unit[i] = 1;
    return choleskySolve(lower, unit);
  });
}

/** A square matrix of zeros. */
export function zeros(size: number): Float64Array[] {
  return Array.from({ length: size }, () => new Float64Array(size));
}

function at(matrix: readonly Float64Array[], row: number, column: number): number {
  return (matrix[row] as Float64Array)[column] as number;
}
