import { checkInteger, checkObject, checkRange, InputError } from '@finial/units';
import type { ElevationBounds } from './elevationBounds.js';
import { heightSampler } from './heightSampler.js';
import type { Elevation } from './parts.js';
import { checkElevation } from './tile/checkElevation.js';

/** What is to be lit, and from where. */
export interface ReliefOptions {
  /** Edges of the picture in degrees; west must lie west of east, across the date line too. */
  readonly bounds: ElevationBounds;
  /** Columns of the picture, 2 to 2000. */
  readonly columns: number;
  /** Rows of the picture, 2 to 2000. */
  readonly rows: number;
  /** Azimuth of the light in degrees from north, clockwise, -360 to 360. @defaultValue `315` */
  readonly sunAzimuthDeg?: number | undefined;
  /** Elevation of the light above the horizon in degrees, 1 to 90. @defaultValue `45` */
  readonly sunElevationDeg?: number | undefined;
  /** Factor by which heights are stretched before they are lit, 0.1 to 20: hills look flat at 1. @defaultValue `1` */
  readonly exaggerationRatio?: number | undefined;
}

/** A lit picture of the ground. */
export interface ShadedRelief {
  /** Edges of the picture in degrees. */
  readonly bounds: ElevationBounds;
  /** Columns of the picture. */
  readonly columns: number;
  /** Rows of the picture. */
  readonly rows: number;
  /** Share of the light that each cell gets, 0 (turned away) to 1 (faces the light), row by row from the north-west; NaN where the ground is not known. */
  readonly litRatio: Float32Array;
}

/** Metres of a degree of latitude on a sphere of the Earth's mean radius: slopes are good to 0.4 %. */
const metresPerDegree = 111_195;

/**
 * The ground lit from one side, as maps show relief: the cosine of the angle between the light and the slope of each cell. No ground
 * throws a shadow on other ground.
 *
 * @param elevation - from {@link openElevation}
 * @param options - see {@link ReliefOptions}; level ground gets the sine of `sunElevationDeg`
 * @returns shares of light, each within 0.004 of that of the slope through its eight neighbours
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source B. K. P. Horn, Proceedings of the IEEE 69 (1981) 14: slope from eight neighbours (from memory); Lambert's cosine law
 * @example Level ground under a sun at 30 degrees
 * ```ts
 * import { openElevation, shadedRelief } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 120\n120 120\n';
 * const elevation = await openElevation([{ name: 'plain.asc', bytes: new TextEncoder().encode(text) }]);
 * const bounds = { southDeg: 50.1, northDeg: 50.4, westDeg: 7.1, eastDeg: 7.4 };
 * shadedRelief(elevation, { bounds, columns: 4, rows: 4, sunElevationDeg: 30 }).litRatio[5]; // ≈ 0.5
 * ```
 */
export function shadedRelief(elevation: Elevation, options: ReliefOptions): ShadedRelief {
  checkElevation(elevation);
  const { bounds, columns, rows, exaggerationRatio = 1 } = checkObject(options, 'options');
  checkInteger(columns, 'columns', { min: 2, max: 2000, unit: 'cells' });
  checkInteger(rows, 'rows', { min: 2, max: 2000, unit: 'cells' });
  const light = lightOf(options);
  const stretch = checkRange(exaggerationRatio, 'exaggerationRatio', {
    min: 0.1,
    max: 20,
    unit: 'as a ratio',
  });
  const { columnDeg, rowDeg } = cellSize(checkObject(bounds, 'bounds'), columns, rows);
  const heights = heightsAround(elevation, { bounds, columns, rows, columnDeg, rowDeg });
  const litRatio = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row += 1) {
    const latitudeDeg = bounds.northDeg - (row + 0.5) * rowDeg;
    const eastStepM = columnDeg * metresPerDegree * Math.cos((latitudeDeg * Math.PI) / 180);
    const northStepM = rowDeg * metresPerDegree;
    for (let column = 0; column < columns; column += 1) {
      const { right, up } = differences(heights, columns + 2, row + 1, column + 1);
      const east = (stretch * right) / (8 * eastStepM);
      const north = (stretch * up) / (8 * northStepM);
      const lit =
        (light.up - east * light.east - north * light.north) / Math.sqrt(1 + east ** 2 + north ** 2);
      litRatio[row * columns + column] = Math.max(0, lit);
    }
  }
  return { bounds, columns, rows, litRatio };
}

function lightOf({ sunAzimuthDeg = 315, sunElevationDeg = 45 }: ReliefOptions): {
  readonly east: number;
  readonly north: number;
  readonly up: number;
} {
  const unit = 'degrees';
  const azimuth = (checkRange(sunAzimuthDeg, 'sunAzimuthDeg', { min: -360, max: 360, unit }) * Math.PI) / 180;
  const elevation =
    (checkRange(sunElevationDeg, 'sunElevationDeg', { min: 1, max: 90, unit }) * Math.PI) / 180;
  const level = Math.cos(elevation);
  return { east: level * Math.sin(azimuth), north: level * Math.cos(azimuth), up: Math.sin(elevation) };
}

/** Least and greatest side of a cell in degrees: below it heights do not differ, above it there is no slope to speak of. */
const leastCellDeg = 1e-7;

function cellSize(
  bounds: ElevationBounds,
  columns: number,
  rows: number,
): { readonly columnDeg: number; readonly rowDeg: number } {
  // Slopes along a parallel lose their meaning at a pole.
  const latitude = { min: -89.9, max: 89.9, unit: 'degrees' };
  const longitude = { min: -180, max: 180, unit: 'degrees' };
  const south = checkRange(bounds.southDeg, 'bounds.southDeg', latitude);
  const north = checkRange(bounds.northDeg, 'bounds.northDeg', latitude);
  const west = checkRange(bounds.westDeg, 'bounds.westDeg', longitude);
  const east = checkRange(bounds.eastDeg, 'bounds.eastDeg', longitude);
  const rowDeg = (north - south) / rows;
  const columnDeg = (east - west + (east < west ? 360 : 0)) / columns;
  refuseSmall(rowDeg, 'bounds.northDeg', north, `at least ${leastCellDeg} degrees a row north of southDeg`);
  refuseSmall(columnDeg, 'bounds.eastDeg', east, `at least ${leastCellDeg} degrees a column east of westDeg`);
  return { columnDeg, rowDeg };
}

function refuseSmall(cellDeg: number, argument: string, received: number, expected: string): void {
  if (cellDeg < leastCellDeg) throw new InputError({ code: 'out-of-range', argument, received, expected });
}

/** Heights at the cells' centres, with a border of one cell around the picture. */
function heightsAround(
  elevation: Elevation,
  grid: {
    readonly bounds: ElevationBounds;
    readonly columns: number;
    readonly rows: number;
    readonly columnDeg: number;
    readonly rowDeg: number;
  },
): Float64Array {
  const { bounds, columns, rows, columnDeg, rowDeg } = grid;
  const width = columns + 2;
  const heights = new Float64Array(width * (rows + 2));
  const sampler = heightSampler(elevation);
  const latitudes = new Float64Array(width);
  const longitudes = Float64Array.from({ length: width }, (_, column) => {
    const longitude = bounds.westDeg + (column - 0.5) * columnDeg;
    return longitude > 180 ? longitude - 360 : longitude;
  });
  for (let row = 0; row < rows + 2; row += 1) {
    latitudes.fill(bounds.northDeg - (row - 0.5) * rowDeg);
    sampler.fill(latitudes, longitudes, width, heights.subarray(row * width, (row + 1) * width));
  }
  return heights;
}

/** Eight times the difference of height from cell to cell, towards the right and upwards; a neighbour that is not known counts as level with the middle. */
function differences(
  heights: Float64Array,
  width: number,
  row: number,
  column: number,
): { readonly right: number; readonly up: number } {
  const middle = heights[row * width + column] as number;
  const at = (down: number, right: number): number => {
    const height = heights[(row + down) * width + column + right] as number;
    return Number.isNaN(height) ? middle : height;
  };
  const right = at(-1, 1) + 2 * at(0, 1) + at(1, 1) - at(-1, -1) - 2 * at(0, -1) - at(1, -1);
  const up = at(-1, -1) + 2 * at(-1, 0) + at(-1, 1) - at(1, -1) - 2 * at(1, 0) - at(1, 1);
  return { right, up };
}
