/**
 * Solves a dense complex system in place by elimination with row exchanges. The matrix holds its rows one after the other, real
 * and imaginary parts in turn; it is overwritten, and so is `right`, with the solution.
 *
 * @returns whether the matrix could be solved: false when a pivot is zero or not finite
 */
export function solveComplexInPlace(matrix: Float64Array, right: Float64Array, count: number): boolean {
  const width = 2 * count;
  for (let column = 0; column < count; column++) {
    const pivotRow = largestIn(matrix, column, count);
    exchangeRows(matrix, right, column, pivotRow, width);
    const top = column * width;
    const pivotReal = matrix[top + 2 * column] as number;
    const pivotImaginary = matrix[top + 2 * column + 1] as number;
    const size = pivotReal * pivotReal + pivotImaginary * pivotImaginary;
    if (!(size > 0 && size < Infinity)) return false;
    for (let row = column + 1; row < count; row++) {
      const start = row * width;
      const real = matrix[start + 2 * column] as number;
      const imaginary = matrix[start + 2 * column + 1] as number;
      if (real === 0 && imaginary === 0) continue;
      const factorReal = (real * pivotReal + imaginary * pivotImaginary) / size;
      const factorImaginary = (imaginary * pivotReal - real * pivotImaginary) / size;
      subtractRow(matrix, start, top, 2 * column + 2, width, factorReal, factorImaginary);
      subtractRow(right, 2 * row, 2 * column, 0, 2, factorReal, factorImaginary);
    }
  }
  substituteBack(matrix, right, count);
  return true;
}

function largestIn(matrix: Float64Array, column: number, count: number): number {
  let best = column;
  let bestSize = -1;
  for (let row = column; row < count; row++) {
    const at = 2 * (row * count + column);
    const real = matrix[at] as number;
    const imaginary = matrix[at + 1] as number;
    const size = real * real + imaginary * imaginary;
    if (size > bestSize) {
      bestSize = size;
      best = row;
    }
  }
  return best;
}

function exchangeRows(matrix: Float64Array, right: Float64Array, a: number, b: number, width: number): void {
  if (a === b) return;
  const kept = matrix.slice(a * width, (a + 1) * width);
  matrix.copyWithin(a * width, b * width, (b + 1) * width);
  matrix.set(kept, b * width);
  const keptRight = right.slice(2 * a, 2 * a + 2);
  right.copyWithin(2 * a, 2 * b, 2 * b + 2);
  right.set(keptRight, 2 * b);
}

/** values[row + i] -= factor · values[top + i] for complex i from `from` to `to`: nearly all the time is spent here. */
function subtractRow(
  values: Float64Array,
  row: number,
  top: number,
  from: number,
  to: number,
  factorReal: number,
  factorImaginary: number,
): void {
  for (let index = from; index < to; index += 2) {
    const real = values[top + index] as number;
    const imaginary = values[top + index + 1] as number;
    values[row + index] = (values[row + index] as number) - factorReal * real + factorImaginary * imaginary;
    values[row + index + 1] =
      (values[row + index + 1] as number) - factorReal * imaginary - factorImaginary * real;
  }
}

function substituteBack(matrix: Float64Array, right: Float64Array, count: number): void {
  for (let row = count - 1; row >= 0; row--) {
    const start = 2 * row * count;
    let real = right[2 * row] as number;
    let imaginary = right[2 * row + 1] as number;
    for (let column = row + 1; column < count; column++) {
      const a = matrix[start + 2 * column] as number;
      const b = matrix[start + 2 * column + 1] as number;
      const x = right[2 * column] as number;
      const y = right[2 * column + 1] as number;
      real -= a * x - b * y;
      imaginary -= a * y + b * x;
    }
    const a = matrix[start + 2 * row] as number;
    const b = matrix[start + 2 * row + 1] as number;
    const size = a * a + b * b;
    right[2 * row] = (real * a + imaginary * b) / size;
    right[2 * row + 1] = (imaginary * a - real * b) / size;
  }
}
