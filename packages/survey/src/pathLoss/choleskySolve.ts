import { cholesky as factorOf, type LowerFactor, solveLower, solveUpper } from '../cholesky.js';

/** Cholesky's factor of a small symmetric matrix in rows; `undefined` where it is not positive definite. Unchecked. */
export function cholesky(matrix: readonly Float64Array[]): LowerFactor | undefined {
  const size = matrix.length;
  const flat = new Float64Array(size * size);
  for (const [row, values] of matrix.entries()) flat.set(values, row * size);
  return factorOf(flat, size);
}

/** Solves L·Lᵀ·x = b. */
export function choleskySolve(lower: LowerFactor, right: Float64Array): Float64Array {
  return solveUpper(lower, solveLower(lower, right.slice()));
}

/** The inverse of L·Lᵀ, row by row. */
export function choleskyInverse(lower: LowerFactor): Float64Array[] {
  return Array.from({ length: lower.size }, (_, i) => {
    const unit = new Float64Array(lower.size);
    unit[i] = 1;
    return choleskySolve(lower, unit);
  });
}

/** A square matrix of zeros. */
export function zeros(size: number): Float64Array[] {
  return Array.from({ length: size }, () => new Float64Array(size));
}
