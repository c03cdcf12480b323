import { checkRange, InputError } from '@finial/units';
import type { Elevation, GeoPosition } from './parts.js';
import { checkElevation, checkPosition } from './tile/checkElevation.js';
import { type ElevationSampler, elevationSampler } from './tile/elevationSampler.js';

/**
 * Height of the ground at a position in metres above sea level, bilinear between the four cells around it.
 *
 * Where tiles overlap, the first that has a value holds. Between tiles that lie side by side without sharing an edge the four
 * corners come from both, so that there is neither gap nor step. A position beyond the centres of the outermost cells is outside,
 * although a cell that stands for an area reaches half a cell further: there is nothing to interpolate with.
 *
 * @param elevation - from {@link openElevation}
 * @param position - latitude -90 to 90 and longitude -180 to 180 degrees
 * @returns height in metres; the interpolation errs below a micrometre, the tiles themselves by metres
 * @throws {@link InputError} `out-of-range` outside all tiles, `missing` at a void, `not-a-finite-number`
 * @source Bilinear interpolation in rows and columns: common practice, no source
 * @example The middle of a grid
 * ```ts
 * import { heightAtM, openElevation } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 160\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * heightAtM(elevation, { latitudeDeg: 50.25, longitudeDeg: 7.25 }); // ≈ 130
 * ```
 */
export function heightAtM(elevation: Elevation, position: GeoPosition): number {
  checkElevation(elevation);
  checkPosition(position, 'position');
  const { latitudeDeg, longitudeDeg } = position;
  const sampler = elevationSampler(elevation);
  const heightM = sampler.heightM(latitudeDeg, longitudeDeg);
  if (!Number.isNaN(heightM)) return heightM;
  throw noHeight(sampler, position, 'position');
}

/** Why there is no height at a position: outside all tiles, or a void. */
function noHeight(sampler: ElevationSampler, position: GeoPosition, argument: string): InputError {
  const { latitudeDeg, longitudeDeg } = position;
  const isVoid = sampler.covers(latitudeDeg, longitudeDeg);
  return new InputError({
    code: isVoid ? 'missing' : 'out-of-range',
    argument,
    received: `latitude ${latitudeDeg}, longitude ${longitudeDeg}`,
    expected: isVoid
      ? "a position whose cells have heights (a void; voids: 'fill' fills them)"
      : 'a position inside the tiles',
  });
}

/**
 * Heights of many positions in metres above sea level, as {@link heightAtM} gives them; NaN where there is none, be it a void or
 * outside all tiles.
 *
 * @param latitudesDeg - -90 to 90 degrees each
 * @param longitudesDeg - -180 to 180 degrees each, as many as latitudes
 * @returns one height per position in metres, NaN for no data
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`: a coordinate, or lists of different lengths; `wrong-type`
 * @source Bilinear interpolation in rows and columns: common practice, no source
 * @example One inside, one outside
 * ```ts
 * import { openElevation, sampleHeightsM } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 160\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * const heightsM = sampleHeightsM(elevation, [50.5, 51], [7.25, 7]);
 * [...heightsM]; // → [130, Number.NaN]
 * ```
 */
export function sampleHeightsM(
  elevation: Elevation,
  latitudesDeg: ArrayLike<number>,
  longitudesDeg: ArrayLike<number>,
): Float64Array {
  checkElevation(elevation);
  checkSeries(latitudesDeg, 'latitudesDeg', 90);
  checkSeries(longitudesDeg, 'longitudesDeg', 180);
  if (latitudesDeg.length !== longitudesDeg.length) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'longitudesDeg',
      received: longitudesDeg.length,
      expected: `as many longitudes as latitudes, ${latitudesDeg.length}`,
    });
  }
  const sampler = elevationSampler(elevation);
  return Float64Array.from({ length: latitudesDeg.length }, (_, index) =>
    sampler.heightM(latitudesDeg[index] as number, longitudesDeg[index] as number),
  );
}

function checkSeries(values: ArrayLike<number>, argument: string, most: number): void {
  const isSeries = Array.isArray(values) || (ArrayBuffer.isView(values) && !(values instanceof DataView));
  if (!isSeries) {
    throw new InputError({
      code: 'wrong-type',
      argument,
      received: values,
      expected: 'a list or typed array of numbers',
    });
  }
  const bounds = { min: -most, max: most, unit: 'degrees' };
  for (let index = 0; index < values.length; index++) {
    const value: unknown = values[index];
    // The name is put together for a refusal only: a sweep comes here with millions.
    if (typeof value === 'number' && value >= -most && value <= most) continue;
    checkRange(value, `${argument}[${index}]`, bounds);
  }
}
