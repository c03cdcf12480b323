import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Elevation } from '../parts.js';
import { checkElevation } from '../tile/checkElevation.js';
import { type ClutterClass, clutterClasses } from './clutterClasses.js';
import { clutterHeightM } from './clutterHeight.js';
import { nearestCellValues } from './nearestCellValues.js';

/** A raster of land-cover codes and what its codes mean. */
export interface LandCoverRaster {
  /** The raster, opened like ground heights: each cell holds the code of its cover. */
  readonly codes: Elevation;
  /** Class of each code, as the owner of the raster defines them: `{ 10: 'trees', 80: 'water' }`. */
  readonly classOfCode: Readonly<Record<string, ClutterClass>>;
}

/** What covers the ground: one class everywhere, or a raster. */
export type LandCover = ClutterClass | LandCoverRaster;

/** Places in a row; a {@link TerrainProfile} is one. */
export interface PlaceSeries {
  /** Latitude of each place in degrees, -90 to 90. */
  readonly latitudesDeg: Float64Array | readonly number[];
  /** Longitude of each place in degrees, -180 to 180. */
  readonly longitudesDeg: Float64Array | readonly number[];
}

/** Ground cover along a profile. */
export interface ClutterProfile {
  /** Class of the cover at each point. */
  readonly classes: readonly ClutterClass[];
  /** Representative height of the cover at each point in metres. */
  readonly clutterHeightM: Float64Array;
}

/**
 * Class and representative height of the ground cover at each point of a profile.
 *
 * The cell that a point lies in holds: codes are names, and nothing lies between two names. The two end points get their heights like
 * the others; the models leave them out themselves.
 *
 * @returns one class and one height in metres per point
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option` (a class that is none, a code without
 * a class) or `missing` (a point without a code)
 * @source heights: Recommendation ITU-R P.1812-6 and later, section 3.2 (from memory)
 * @example Woods all the way
 * ```ts
 * import { clutterProfile } from '@finial/terrain';
 *
 * const places = { latitudesDeg: [49.2, 49.3], longitudesDeg: [16.6, 16.6] };
 * [...clutterProfile('trees', places).clutterHeightM]; // → [15, 15]
 * ```
 */
export function clutterProfile(landCover: LandCover, profile: PlaceSeries): ClutterProfile {
  const { latitudesDeg, longitudesDeg } = checkPlaces(profile);
  const classes =
    typeof landCover === 'string'
      ? latitudesDeg.map(() => landCover)
      : classesFrom(checkObject(landCover, 'landCover'), latitudesDeg, longitudesDeg);
  return { classes, clutterHeightM: Float64Array.from(classes, clutterHeightM) };
}

function classesFrom(
  { codes, classOfCode }: LandCoverRaster,
  latitudesDeg: readonly number[],
  longitudesDeg: readonly number[],
): readonly ClutterClass[] {
  checkElevation(codes, 'landCover.codes');
  const names = clutterClasses.map(({ name }) => name);
  const table = new Map(
    Object.entries(checkObject(classOfCode, 'landCover.classOfCode')).map(([code, name]) => [
      code,
      checkOneOf(name, `landCover.classOfCode.${code}`, names),
    ]),
  );
  const values = nearestCellValues(codes, latitudesDeg, longitudesDeg);
  return Array.from(values, (code, index) => {
    const found = table.get(String(code));
    if (found !== undefined) return found;
    const place = `at latitude ${latitudesDeg[index]?.toFixed(6)}, longitude ${longitudesDeg[index]?.toFixed(6)}`;
    throw Number.isNaN(code)
      ? new InputError({
          code: 'missing',
          argument: 'landCover.codes',
          received: undefined,
          expected: `a code ${place} (a void, or outside every tile)`,
        })
      : new InputError({
          code: 'unknown-option',
          argument: 'landCover.classOfCode',
          received: code,
          expected: `one of the codes ${[...table.keys()].join(', ')} ${place}`,
        });
  });
}

function checkPlaces(profile: PlaceSeries): {
  readonly latitudesDeg: readonly number[];
  readonly longitudesDeg: readonly number[];
} {
  checkObject(profile, 'profile');
  const latitudesDeg = checkSeries(profile.latitudesDeg, 'profile.latitudesDeg', 90);
  const longitudesDeg = checkSeries(profile.longitudesDeg, 'profile.longitudesDeg', 180);
  if (latitudesDeg.length === longitudesDeg.length) return { latitudesDeg, longitudesDeg };
  throw new InputError({
    code: 'out-of-range',
    argument: 'profile.longitudesDeg',
    received: longitudesDeg.length,
    expected: `${latitudesDeg.length} entries, as many as latitudes`,
  });
}

function checkSeries(series: unknown, argument: string, max: number): readonly number[] {
  if (!Array.isArray(series) && !(series instanceof Float64Array)) {
    throw new InputError({
      code: 'wrong-type',
      argument,
      received: series,
      expected: 'a list or Float64Array',
    });
  }
  return Array.from(series, (value: unknown, index) =>
    checkRange(value, `${argument}[${index}]`, { min: -max, max, unit: 'degrees' }),
  );
}
