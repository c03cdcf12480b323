import { degreesToRadians } from '@finial/units';
import type { Elevation, ElevationTile } from './parts.js';
import { checkElevation } from './tile/checkElevation.js';

// Mean radius of the Earth (2a + b) / 3 for WGS 84.
const earthRadiusM = 6_371_008.8;

/**
 * The least distance between neighbouring cells of all tiles in metres: a profile with a finer step only interpolates more often.
 *
 * Of tiles in degrees, columns are measured at the middle latitude of the tile, on a sphere; near the poles they draw
 * together, and the step goes to nothing there.
 *
 * @returns metres, more than 0; within 0.6 % for tiles in degrees (the sphere), 0.2 % in UTM zones (their scale)
 * @throws {@link InputError} `wrong-type`, `missing` or `out-of-range`: not an elevation
 * @source mean radius: H. Moritz, Geodetic Reference System 1980, Journal of Geodesy 74 (2000), R1 (from memory)
 * @example Half an arc-minute at 50 degrees north
 * ```ts
 * import { finestStepM, openElevation } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 160\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * finestStepM(elevation); // ≈ 35551
 * ```
 */
export function finestStepM(elevation: Elevation): number {
  checkElevation(elevation);
  return Math.min(...elevation.tiles.map(tileStepM));
}

function tileStepM({ grid, rows }: ElevationTile): number {
  if (grid.kind === 'utm') return Math.min(grid.rowStepM, grid.columnStepM);
  const middleDeg = grid.northDeg - ((rows - 1) / 2) * grid.rowStepDeg;
  const perRow = grid.rowStepDeg;
  const perColumn = grid.columnStepDeg * Math.cos(degreesToRadians(middleDeg));
  return degreesToRadians(Math.min(perRow, perColumn)) * earthRadiusM;
}
