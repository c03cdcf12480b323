import type { CoverageRaster, SweepQuestion } from '../src/index.js';

const north50 = { latitudeDeg: 50, longitudeDeg: 16 };

/** A coverage of plain data, without a sweep: the loss of each cell by its steps to the east and north in metres. */
export function rasterOf(
  lossDb: (eastM: number, northM: number) => number,
  changes: {
    readonly origin?: CoverageRaster['origin'];
    readonly radiusCells?: number;
    readonly cellM?: number;
    readonly model?: SweepQuestion['model'];
    readonly antennaHeightM?: number;
  } = {},
): CoverageRaster {
  const { origin = north50, radiusCells = 10, cellM = 100, antennaHeightM = 30 } = changes;
  const size = 2 * radiusCells + 1;
  const cells = Float32Array.from({ length: size * size }, (_, index) => {
    const across = (index % size) - radiusCells;
    const down = Math.floor(index / size) - radiusCells;
    const isMiddle = across === 0 && down === 0;
    const isOutside = across ** 2 + down ** 2 > radiusCells ** 2;
    return isMiddle || isOutside ? Number.NaN : lossDb(across * cellM, -down * cellM);
  });
  const radiusM = radiusCells * cellM;
  return {
    kind: 'coverage',
    columns: size,
    rows: size,
    cellM,
    radiusM,
    origin,
    lossDb: cells,
    missingCount: 0,
    warnings: [],
    question: {
      gateway: { position: origin, antennaHeightM },
      frequencyHz: 868.1e6,
      model: changes.model ?? { kind: 'p525' },
      radiusM,
      cellM,
      receiverHeightM: 1.5,
    },
  };
}

/** Level ground of one height around a place, two degrees wide. */
export function plain({ latitudeDeg, longitudeDeg }: CoverageRaster['origin'], heightM = 100) {
  const tile = {
    name: 'plain',
    columns: 3,
    rows: 3,
    heightsM: new Float32Array(9).fill(heightM),
    voidCount: 0,
    grid: {
      kind: 'geographic' as const,
      northDeg: latitudeDeg + 1,
      westDeg: longitudeDeg - 1,
      rowStepDeg: 1,
      columnStepDeg: 1,
    },
  };
  return { tiles: [tile], voidCount: 0, filledCount: 0 };
}
