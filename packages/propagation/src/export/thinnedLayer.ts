/** Figures on a square grid. */
export interface SquareLayer {
  readonly columns: number;
  readonly figures: Float32Array;
}

/** Means over blocks of cells; no data where fewer than half the cells of a block have any. Unchecked. */
export function thinnedLayer(figures: Float32Array, columns: number, block: number): SquareLayer {
  if (block === 1) return { columns, figures };
  const across = Math.ceil(columns / block);
  const sums = new Float64Array(across * across);
  const counts = new Float64Array(across * across);
  for (let index = 0; index < figures.length; index++) {
    const figure = figures[index] as number;
    if (figure - figure !== 0) continue;
    const row = Math.floor(Math.floor(index / columns) / block);
    const place = row * across + Math.floor((index % columns) / block);
    sums[place] = (sums[place] as number) + figure;
    counts[place] = (counts[place] as number) + 1;
  }
  const half = (block * block) / 2;
  const means = Float32Array.from(sums, (sum, place) =>
    (counts[place] as number) >= half ? sum / (counts[place] as number) : Number.NaN,
  );
  return { columns: across, figures: means };
}
