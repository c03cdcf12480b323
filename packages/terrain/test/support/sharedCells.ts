import type { Elevation } from '../../src/parts.js';
import { sharedGrid } from './sharedGrid.js';

/** A grid of measured heights, read here line by line, independently of the package. */
export interface SharedCells {
  readonly columns: number;
  readonly rows: number;
  /** Heights in metres, row by row from the north. */
  readonly heightsM: Float64Array;
}

/** The cells of a grid that lies beside the repository, or `undefined` where it is not there. */
export function sharedCells(name: string): SharedCells | undefined {
  const text = sharedGrid(name);
  if (text === undefined) return undefined;
  const lines = text.trim().split('\n');
  const header = new Map(lines.slice(0, 6).map((line) => line.trim().split(/\s+/) as [string, string]));
  const cells = lines.slice(6).flatMap((line) => line.trim().split(/\s+/).map(Number));
  return {
    columns: Number(header.get('ncols')),
    rows: Number(header.get('nrows')),
    heightsM: Float64Array.from(cells),
  };
}

/** The grid laid on the ground in degrees. */
export function laidOut(
  { columns, rows, heightsM }: SharedCells,
  { northDeg, westDeg, stepDeg }: { northDeg: number; westDeg: number; stepDeg: number },
): Elevation {
  const grid = {
    kind: 'geographic',
    northDeg,
    westDeg,
    rowStepDeg: stepDeg,
    columnStepDeg: stepDeg,
  } as const;
  return {
    tiles: [{ name: 'shared', columns, rows, heightsM, voidCount: 0, grid }],
    voidCount: 0,
    filledCount: 0,
  };
}
