/** The factor L of a symmetric positive matrix L·Lᵀ, row by row with full rows. */
export interface LowerFactor {
  readonly size: number;
  readonly rows: Float64Array;
}

/**
 * Cholesky's factor of a symmetric matrix of which only the lower triangle is read; unchecked. Undefined where the matrix is not
 * positive, or so nearly singular that twelve digits are gone.
 *
 * Source: G. H. Golub, C. F. Van Loan, Matrix Computations, section 4.2 (from memory).
 */
export function cholesky(matrix: Float64Array, size: number): LowerFactor | undefined {
  const rows = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    const rowI = i * size;
    for (let j = 0; j < i; j += 1) {
      const rowJ = j * size;
      let sum = matrix[rowI + j] as number;
      for (let k = 0; k < j; k += 1) sum -= (rows[rowI + k] as number) * (rows[rowJ + k] as number);
      rows[rowI + j] = sum / (rows[rowJ + j] as number);
    }
    const diagonal = matrix[rowI + i] as number;
    let rest = diagonal;
    for (let k = 0; k < i; k += 1) rest -= (rows[rowI + k] as number) ** 2;
    if (!(rest > diagonal * 1e-12)) return undefined;
    rows[rowI + i] = Math.sqrt(rest);
  }
  return { size, rows };
}

/** Solves L·x = b in place of b; unchecked. */
export function solveLower({ size, rows }: LowerFactor, b: Float64Array): Float64Array {
  for (let i = 0; i < size; i += 1) {
    const row = i * size;
    let sum = b[i] as number;
    for (let k = 0; k < i; k += 1) sum -= (rows[row + k] as number) * (b[k] as number);
    b[i] = sum / (rows[row + i] as number);
  }
  return b;
}

/** Solves Lᵀ·x = b in place of b; unchecked. */
export function solveUpper({ size, rows }: LowerFactor, b: Float64Array): Float64Array {
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = b[i] as number;
    for (let k = i + 1; k < size; k += 1) sum -= (rows[k * size + i] as number) * (b[k] as number);
    b[i] = sum / (rows[i * size + i] as number);
  }
  return b;
}

/** Logarithm of the determinant of L·Lᵀ; unchecked. */
export function logDeterminant({ size, rows }: LowerFactor): number {
  let sum = 0;
  for (let i = 0; i < size; i += 1) sum += 2 * Math.log(rows[i * size + i] as number);
  return sum;
}

/** Sum of the products of two series of one length; unchecked. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
