import type { Elevation } from '@finial/terrain';

/** Kinds of land for a comparison: relief in metres from the lowest to the highest cell, about. */
export const reliefs: Readonly<Record<'mount' | 'gentle' | 'flat', number>> = {
  mount: 760,
  gentle: 77,
  flat: 0,
};

/** A square of rough ground of 30 m cells around 50° north, 16° east, the same in every run. */
export function syntheticTerrain(reliefM: number, levels: number): Elevation {
  const cells = 2 ** levels + 1;
  const heights = diamondSquare(cells, reliefM);
  const heightsM = Int16Array.from(heights, Math.round);
  const rowStepDeg = 30 / 111_229;
  const columnStepDeg = 30 / 71_696;
  const half = (cells - 1) / 2;
  const grid = {
    kind: 'geographic',
    northDeg: 50 + half * rowStepDeg,
    westDeg: 16 - half * columnStepDeg,
    rowStepDeg,
    columnStepDeg,
  } as const;
  const tile = { name: 'synthetic', columns: cells, rows: cells, heightsM, voidCount: 0, grid };
  return { tiles: [tile], voidCount: 0, filledCount: 0 };
}

/** Midpoint displacement in two dimensions; each halving of the distance shrinks the displacement by 0.55. */
function diamondSquare(cells: number, reliefM: number): Float32Array {
  const heights = new Float32Array(cells * cells);
  let state = 1;
  const random = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296 - 0.5;
  };
  const at = (row: number, column: number): number =>
    heights[
      Math.min(cells - 1, Math.max(0, row)) * cells + Math.min(cells - 1, Math.max(0, column))
    ] as number;
  let spread = reliefM * 0.8;
  for (let step = cells - 1; step > 1; step /= 2, spread *= 0.55) {
    const half = step / 2;
    for (let row = half; row < cells; row += step) {
      for (let column = half; column < cells; column += step) {
        const corners = at(row - half, column - half) + at(row - half, column + half);
        const others = at(row + half, column - half) + at(row + half, column + half);
        heights[row * cells + column] = (corners + others) / 4 + spread * random();
      }
    }
    for (let row = 0; row < cells; row += half) {
      for (let column = (row + half) % step; column < cells; column += step) {
        const sum =
          at(row - half, column) + at(row + half, column) + at(row, column - half) + at(row, column + half);
        heights[row * cells + column] = sum / 4 + spread * random();
      }
    }
  }
  return heights;
}
