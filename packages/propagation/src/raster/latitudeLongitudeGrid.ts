import { destination, type GeoPosition, geodesic } from '@finial/terrain';
import { checkRange, InputError } from '@finial/units';
import { beside, offsetOf, wrapped } from './placement.js';
import { intervalsFor, PlaneMap, type PlanePoint } from './planeMap.js';
import { type CoverageLayer, checkLayer, type RasterFrame } from './RasterFrame.js';

/** A layer, and how fine its grid of degrees shall be. */
export interface GridQuestion extends CoverageLayer {
  /**
   * Degrees from one row to the next, 1e-6 to 1.
   *
   * @defaultValue one cell of the coverage
   */
  readonly rowStepDeg?: number | undefined;
  /**
   * Degrees from one column to the next, 1e-6 to 10.
   *
   * @defaultValue one cell of the coverage at the latitude of the gateway
   */
  readonly columnStepDeg?: number | undefined;
}

/** A view on a regular grid of degrees, as maps and files want it. */
export interface LatitudeLongitudeGrid {
  /** Count of columns. */
  readonly columns: number;
  /** Count of rows. */
  readonly rows: number;
  /** Latitude of the centre of the first (northernmost) row in degrees. */
  readonly northDeg: number;
  /** Longitude of the centre of the first (westernmost) column in degrees, -180 to 180. The last may lie beyond 180 at the date line. */
  readonly westDeg: number;
  /** Degrees from one row to the next. */
  readonly rowStepDeg: number;
  /** Degrees from one column to the next. */
  readonly columnStepDeg: number;
  /** One figure for each point of the grid, row by row from the north-west corner; NaN means no data. */
  readonly figures: Float32Array;
}

/** Most points of the grid: memory. */
const mostPoints = 2 ** 27;

/**
 * A view on a regular grid of latitude and longitude. Each point takes the figure of the cell that it lies in; nothing is averaged, so that
 * classes such as data rates stay what they are.
 *
 * @returns the grid; points are placed with an error below a hundredth of a cell
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `unknown-option` or `out-of-range` (also where the area reaches within a
 * tenth of a degree of a pole, or the steps give more than 134 million points)
 * @source as {@link cellPosition}
 * @example A coverage at 60° N: a degree of longitude is half as long as one of latitude
 * ```ts
 * import { latitudeLongitudeGrid } from '@finial/propagation';
 *
 * const lossDb = new Float32Array(201 * 201).fill(120);
 * const raster = {
 *   kind: 'coverage' as const, columns: 201, rows: 201, cellM: 100, radiusM: 10_000,
 *   origin: { latitudeDeg: 60, longitudeDeg: 25 }, lossDb,
 * };
 * const grid = latitudeLongitudeGrid({ raster, figures: lossDb });
 * grid.columnStepDeg / grid.rowStepDeg; // ≈ 1.997
 * grid.figures[grid.columns * 100 + 100]; // → 120
 * ```
 */
export function latitudeLongitudeGrid(layer: GridQuestion): LatitudeLongitudeGrid {
  checkLayer(layer, 'layer');
  const { raster } = layer;
  const frame = frameAround(raster, layer);
  const { columns, rows, northDeg, westDeg, rowStepDeg, columnStepDeg } = frame;
  const { origin } = raster;
  const edges = {
    left: westDeg,
    right: westDeg + (columns - 1) * columnStepDeg,
    top: northDeg,
    bottom: northDeg - (rows - 1) * rowStepDeg,
  };
  const map = new PlaneMap(edges, intervalsFor(raster.radiusM), (longitudeDeg, latitudeDeg) => {
    const { eastM, northM } = offsetOf(origin, { latitudeDeg, longitudeDeg: wrapped(longitudeDeg) });
    return { x: eastM, y: northM };
  });
  const figures = new Float32Array(rows * columns);
  const point: PlanePoint = { x: 0, y: 0 };
  for (let row = 0, index = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, index++) {
      map.locate(westDeg + column * columnStepDeg, northDeg - row * rowStepDeg, point);
      figures[index] = figureAt(layer, point);
    }
  }
  return { ...frame, westDeg: wrapped(westDeg), figures };
}

function figureAt({ raster, figures }: CoverageLayer, { x, y }: PlanePoint): number {
  const middle = (raster.columns - 1) / 2;
  const column = Math.round(x / raster.cellM) + middle;
  const row = middle - Math.round(y / raster.cellM);
  if (column < 0 || row < 0 || column >= raster.columns || row >= raster.rows) return Number.NaN;
  const figure = figures[row * raster.columns + column] as number;
  return figure - figure === 0 ? figure : Number.NaN;
}

/** The grid around a coverage, with one of its points on the gateway. */
function frameAround(raster: RasterFrame, question: GridQuestion): Omit<LatitudeLongitudeGrid, 'figures'> {
  const { origin, cellM } = raster;
  const reachM = ((raster.columns + 1) / 2) * cellM;
  const { north, south, east, west } = reachOf(origin, reachM);
  const { rowStepDeg = stepDeg(origin, 0, cellM), columnStepDeg = stepDeg(origin, 90, cellM) } = question;
  checkRange(rowStepDeg, 'rowStepDeg', { min: 1e-6, max: 1, unit: 'degrees' });
  checkRange(columnStepDeg, 'columnStepDeg', { min: 1e-6, max: 10, unit: 'degrees' });
  const above = Math.max(1, Math.ceil((north - origin.latitudeDeg) / rowStepDeg));
  const below = Math.max(1, Math.ceil((origin.latitudeDeg - south) / rowStepDeg));
  const left = Math.max(1, Math.ceil((origin.longitudeDeg - west) / columnStepDeg));
  const right = Math.max(1, Math.ceil((east - origin.longitudeDeg) / columnStepDeg));
  const [rows, columns] = [above + below + 1, left + right + 1];
  if (rows * columns > mostPoints) {
    const expected = `steps that give at most ${mostPoints} points`;
    throw new InputError({
      code: 'out-of-range',
      argument: 'rowStepDeg, columnStepDeg',
      received: rows * columns,
      expected,
    });
  }
  const northDeg = origin.latitudeDeg + above * rowStepDeg;
  if (Math.max(northDeg, below * rowStepDeg - origin.latitudeDeg) > 90) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'rowStepDeg',
      received: rowStepDeg,
      expected: 'a grid that ends before the pole',
    });
  }
  return {
    columns,
    rows,
    northDeg,
    westDeg: origin.longitudeDeg - left * columnStepDeg,
    rowStepDeg,
    columnStepDeg,
  };
}

function stepDeg(from: GeoPosition, azimuthDeg: number, distanceM: number): number {
  const { latitudeDeg, longitudeDeg } = destination({ from, azimuthDeg, distanceM });
  if (azimuthDeg === 0) return Math.abs(latitudeDeg - from.latitudeDeg);
  return Math.abs(wrapped(longitudeDeg - from.longitudeDeg));
}

/** The outermost latitudes and longitudes of a circle; at high latitudes its easternmost place does not lie due east. */
function reachOf(
  origin: GeoPosition,
  reachM: number,
): { north: number; south: number; east: number; west: number } {
  const nearestPole = { latitudeDeg: origin.latitudeDeg < 0 ? -90 : 90, longitudeDeg: origin.longitudeDeg };
  // A tenth of a degree of latitude is 11.2 km.
  if (geodesic({ from: origin, to: nearestPole }).distanceM < reachM + 11_200) {
    const expected =
      'an area that keeps a tenth of a degree away from the poles, where longitudes run together';
    throw new InputError({
      code: 'out-of-range',
      argument: 'raster.origin.latitudeDeg',
      received: origin.latitudeDeg,
      expected,
    });
  }
  const rim = Array.from({ length: 720 }, (_, half) =>
    destination({ from: origin, azimuthDeg: half / 2, distanceM: reachM }),
  );
  const latitudes = rim.map(({ latitudeDeg }) => latitudeDeg);
  const longitudes = rim.map(({ longitudeDeg }) => beside(longitudeDeg, origin.longitudeDeg));
  return {
    north: Math.max(...latitudes),
    south: Math.min(...latitudes),
    east: Math.max(...longitudes),
    west: Math.min(...longitudes),
  };
}
