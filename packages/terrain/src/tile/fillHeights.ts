import type { ElevationTile, GeographicGrid } from '../parts.js';
import { edgeShare } from './tileHeight.js';

/**
 * Fills in the heights that are still NaN and lie between four known cells of a tile in degrees, bit for bit as the sampler gives them.
 * A place on the very edge of the tile or beside a void becomes infinite: there the sampler must be asked, and no later tile may answer.
 * Unchecked, for inner loops: a sweep reads millions of places.
 */
export function fillHeights(
  tile: ElevationTile,
  grid: GeographicGrid,
  latitudesDeg: Float64Array,
  longitudesDeg: Float64Array,
  count: number,
  heightsM: Float64Array,
): void {
  const { heightsM: cells, columns, rows } = tile;
  const voidValue = tile.voidValue ?? Number.NaN;
  const { northDeg, westDeg, rowStepDeg, columnStepDeg } = grid;
  const middleDeg = ((columns - 1) / 2) * columnStepDeg;
  for (let index = 0; index < count; index += 1) {
    const known = heightsM[index] as number;
    if (!Number.isNaN(known)) continue;
    let eastDeg = (longitudesDeg[index] as number) - westDeg;
    // Beside the date line, the turn nearest to the middle of the tile is meant.
    const offDeg = eastDeg - middleDeg;
    if (offDeg >= 180 || offDeg < -180) eastDeg -= 360 * Math.round(offDeg / 360);
    const row = (northDeg - (latitudesDeg[index] as number)) / rowStepDeg;
    const column = eastDeg / columnStepDeg;
    if (!(row >= 0 && column >= 0 && row < rows - 1 && column < columns - 1)) {
      const isOnEdge =
        row >= -edgeShare &&
        column >= -edgeShare &&
        row <= rows - 1 + edgeShare &&
        column <= columns - 1 + edgeShare;
      if (isOnEdge) heightsM[index] = Infinity;
      continue;
    }
    const top = Math.floor(row);
    const left = Math.floor(column);
    const corner = top * columns + left;
    const northWest = cells[corner] as number;
    const northEast = cells[corner + 1] as number;
    const southWest = cells[corner + columns] as number;
    const southEast = cells[corner + columns + 1] as number;
    const right = column - left;
    const down = row - top;
    const upper = northWest * (1 - right) + northEast * right;
    const lower = southWest * (1 - right) + southEast * right;
    const heightM = upper * (1 - down) + lower * down;
    const isKnown =
      northWest !== voidValue &&
      northEast !== voidValue &&
      southWest !== voidValue &&
      southEast !== voidValue &&
      Number.isFinite(heightM);
    // Two stores: one of "either" would make the engine allocate a number for each height.
    if (isKnown) heightsM[index] = heightM;
    else heightsM[index] = Infinity;
  }
}
