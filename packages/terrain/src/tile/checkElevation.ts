import {
  checkFinite,
  checkInteger,
  checkList,
  checkObject,
  checkOneOf,
  checkPositive,
  checkRange,
  InputError,
} from '@finial/units';
import type { Elevation, ElevationTile, GeoPosition } from '../parts.js';

/** The most cells of one tile: memory, and what a broken header claims. */
export const mostCells: number = 2 ** 28;

/** Refuses what is no elevation: everything but the heights themselves, of which there may be millions. */
export function checkElevation(elevation: Elevation, argument = 'elevation'): void {
  checkObject(elevation, argument);
  checkList(elevation.tiles, `${argument}.tiles`).forEach((tile, index) => {
    checkTile(tile, `${argument}.tiles[${index}]`);
  });
  checkCount(elevation.voidCount, `${argument}.voidCount`, 0, Number.MAX_SAFE_INTEGER);
  checkCount(elevation.filledCount, `${argument}.filledCount`, 0, Number.MAX_SAFE_INTEGER);
}

/** Refuses what is no position. */
export function checkPosition(position: GeoPosition, argument: string): void {
  checkObject(position, argument);
  checkRange(position.latitudeDeg, `${argument}.latitudeDeg`, { min: -90, max: 90, unit: 'degrees' });
  checkRange(position.longitudeDeg, `${argument}.longitudeDeg`, { min: -180, max: 180, unit: 'degrees' });
}

function checkTile(tile: ElevationTile, argument: string): void {
  checkObject(tile, argument);
  if (typeof tile.name !== 'string') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${argument}.name`,
      received: tile.name,
      expected: 'a text',
    });
  }
  const rows = checkCount(tile.rows, `${argument}.rows`, 2, mostCells);
  const columns = checkCount(tile.columns, `${argument}.columns`, 2, mostCells);
  checkHeights(tile.heightsM, rows * columns, `${argument}.heightsM`);
  checkCount(tile.voidCount, `${argument}.voidCount`, 0, rows * columns);
  const { voidValue } = tile;
  if (voidValue !== undefined && !Number.isNaN(voidValue)) {
    checkFinite(voidValue, `${argument}.voidValue`, 'metres');
  }
  checkGrid(tile, argument);
}

function checkHeights(heightsM: ElevationTile['heightsM'], cells: number, argument: string): void {
  const isRaster = [Int16Array, Float32Array, Float64Array].some((kind) => heightsM instanceof kind);
  if (isRaster && heightsM.length === cells) return;
  throw new InputError({
    code: isRaster ? 'out-of-range' : 'wrong-type',
    argument,
    received: isRaster ? heightsM.length : heightsM,
    expected: isRaster
      ? `${cells} heights, rows times columns`
      : 'an Int16Array, a Float32Array or a Float64Array',
  });
}

/** Refuses cells that cannot lie on the Earth: then the coordinates are not what they were taken for. */
export function checkGrid({ grid, rows, columns }: ElevationTile, argument: string): void {
  const at = `${argument}.grid`;
  checkObject(grid, at);
  checkOneOf(grid.kind, `${at}.kind`, ['geographic', 'utm']);
  if (grid.kind === 'geographic') {
    const unit = 'degrees';
    checkPositive(grid.rowStepDeg, `${at}.rowStepDeg`, unit);
    checkPositive(grid.columnStepDeg, `${at}.columnStepDeg`, unit);
    const heightDeg = (rows - 1) * grid.rowStepDeg;
    const widthDeg = (columns - 1) * grid.columnStepDeg;
    checkRange(heightDeg, `${at}.rowStepDeg times rows`, { min: 0, max: 180 + 1e-9, unit });
    checkRange(widthDeg, `${at}.columnStepDeg times columns`, { min: 0, max: 360 + 1e-9, unit });
    checkRange(grid.northDeg, `${at}.northDeg`, { min: -90 + heightDeg - 1e-9, max: 90 + 1e-9, unit });
    checkRange(grid.westDeg, `${at}.westDeg`, { min: -360, max: 360, unit });
    return;
  }
  const unit = 'metres';
  checkCount(grid.zone, `${at}.zone`, 1, 60);
  checkOneOf(grid.hemisphere, `${at}.hemisphere`, ['north', 'south']);
  checkPositive(grid.rowStepM, `${at}.rowStepM`, unit);
  checkPositive(grid.columnStepM, `${at}.columnStepM`, unit);
  // Wider than the zone itself: rasters reach over its edge, and northern zones are counted on south of the equator.
  const north = { min: -10e6, max: 20e6, unit };
  const east = { min: -1e6, max: 2e6, unit };
  checkRange(grid.northM, `${at}.northM`, north);
  checkRange(grid.westM, `${at}.westM`, east);
  checkRange(grid.northM - (rows - 1) * grid.rowStepM, `${at}.rowStepM (southernmost row)`, north);
  checkRange(grid.westM + (columns - 1) * grid.columnStepM, `${at}.columnStepM (last column)`, east);
}

function checkCount(value: unknown, argument: string, min: number, max: number): number {
  return checkInteger(value, argument, { min, max, unit: argument.endsWith('zone') ? 'zones' : 'cells' });
}
