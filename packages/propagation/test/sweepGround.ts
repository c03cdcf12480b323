import type { Elevation } from '@finial/terrain';
import type { SweepQuestion } from '../src/sweep/SweepJob.js';

/** Where the gateways of these tests stand: the middle of the ground. */
export const middle = { latitudeDeg: 50, longitudeDeg: 16 };

/** Rolling ground about the middle, 3 arc-seconds from cell to cell, some 2 km to each side; voids where a caller wants them. */
export function rollingGround(isVoid: (row: number, column: number) => boolean = () => false): Elevation {
  const rows = 41;
  const columns = 61;
  const stepDeg = 3 / 3600;
  const voidValue = -32768;
  const heightsM = Int16Array.from({ length: rows * columns }, (_, cell) => {
    const row = Math.floor(cell / columns);
    const column = cell % columns;
    if (isVoid(row, column)) return voidValue;
    return Math.round(200 + 40 * Math.sin(row / 3) + 30 * Math.cos(column / 4) + ((row * column) % 7));
  });
  const voidCount = heightsM.filter((height) => height === voidValue).length;
  const grid = {
    kind: 'geographic',
    northDeg: middle.latitudeDeg + 20 * stepDeg,
    westDeg: middle.longitudeDeg - 30 * stepDeg,
    rowStepDeg: stepDeg,
    columnStepDeg: stepDeg,
  } as const;
  const tile = { name: 'rolling', rows, columns, heightsM, voidValue, voidCount, grid };
  return { tiles: [tile], voidCount, filledCount: 0 };
}

/** A small sweep over it. */
export const smallQuestion: SweepQuestion = {
  gateway: { position: middle, antennaHeightM: 12 },
  frequencyHz: 868.1e6,
  model: { kind: 'p526', deltaN: 40 },
  radiusM: 1500,
  cellM: 60,
  receiverHeightM: 1.5,
};
