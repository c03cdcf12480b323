/** Solves a·x = b for a square matrix in rows, by elimination with row exchanges; overwrites both and returns b; unchecked. */
export function solveLinear(rows: readonly Float64Array[], b: Float64Array): Float64Array {
  const n = b.length;
  const order = [...rows];
  for (let column = 0; column < n; column += 1) {
    let best = column;
    for (let i = column + 1; i < n; i += 1) {
      if (Math.abs(at(order, i, column)) > Math.abs(at(order, best, column))) best = i;
    }
    [order[column], order[best]] = [order[best] as Float64Array, order[column] as Float64Array];
    [b[column], b[best]] = [b[best] as number, b[column] as number];
    const pivotRow = order[column] as Float64Array;
    for (let i = column + 1; i < n; i += 1) {
      const row = order[i] as Float64Array;
      const factor = (row[column] as number) / (pivotRow[column] as number);
      if (factor === 0) continue;
      for (let j = column; j < n; j += 1) row[j] = (row[j] as number) - factor * (pivotRow[j] as number);
      b[i] = (b[i] as number) - factor * (b[column] as number);
    }
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = b[i] as number;
    for (let j = i + 1; j < n; j += 1) sum -= at(order, i, j) * (b[j] as number);
    b[i] = sum / at(order, i, i);
  }
  return b;
}

function at(rows: readonly Float64Array[], i: number, j: number): number {
  return (rows[i] as Float64Array)[j] as number;
}
