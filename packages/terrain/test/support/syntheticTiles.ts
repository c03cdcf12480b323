import type { Elevation, ElevationTile } from '../../src/parts.js';

/** A grid of the whole degrees given: heights from a function of latitude and longitude, exact at the cells. */
export function tileOf(
  area: { northDeg: number; westDeg: number; rows: number; columns: number; stepDeg: number },
  heightAt: (latitudeDeg: number, longitudeDeg: number) => number,
): ElevationTile {
  const { northDeg, westDeg, rows, columns, stepDeg } = area;
  const heightsM = Float64Array.from({ length: rows * columns }, (_, cell) =>
    heightAt(northDeg - Math.floor(cell / columns) * stepDeg, westDeg + (cell % columns) * stepDeg),
  );
  const voidCount = heightsM.filter(Number.isNaN).length;
  const grid = {
    kind: 'geographic',
    northDeg,
    westDeg,
    rowStepDeg: stepDeg,
    columnStepDeg: stepDeg,
  } as const;
  return { name: 'synthetic', rows, columns, heightsM, voidCount, grid };
}

/** Ground made of the tiles given. */
export function elevationOf(...tiles: readonly ElevationTile[]): Elevation {
  return { tiles, voidCount: tiles.reduce((count, tile) => count + tile.voidCount, 0), filledCount: 0 };
}
