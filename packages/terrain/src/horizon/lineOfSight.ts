import { checkFinite, checkObject, checkRange, InputError } from '@finial/units';
import { effectiveRadiusM, type RayBending } from './earthRadius.js';

/** The ground between two antennas; a {@link TerrainProfile} is one. */
export interface GroundLine {
  /** Distance of each point from the first antenna in metres, rising from 0 in steps of at least 1 mm; three points or more. */
  readonly distanceM: Float64Array | readonly number[];
  /** Height of each point in metres above sea level, -12000 to 9000. */
  readonly heightM: Float64Array | readonly number[];
}

/** The antennas over a profile. */
export interface LineOfSightOptions extends RayBending {
  /** Height of the antenna over the first point in metres above ground, 0 to 20000. */
  readonly fromHeightM: number;
  /** Height of the antenna over the last point in metres above ground, 0 to 20000. */
  readonly toHeightM: number;
  /**
   * Height of houses and trees on each point in metres, 0 to 200; the two end points do not count.
   *
   * @defaultValue none: bare ground
   */
  readonly clutterHeightM?: Float64Array | readonly number[] | undefined;
  /** Wavelength in metres, 0.0001 to 100000; with it, the result says how much of the first Fresnel zone is free. */
  readonly wavelengthM?: number | undefined;
}

/** How the straight line between two antennas passes over the ground. */
export interface LineOfSight {
  /** Whether nothing rises above the line; touching it counts as visible. */
  readonly visible: boolean;
  /** Least height of the line over ground and clutter in metres; negative where it is blocked. */
  readonly clearanceM: number;
  /** Place in the profile of the point that comes nearest to the line, or blocks it most. */
  readonly obstacleIndex: number;
  /** Distance of that point from the first antenna in metres. */
  readonly obstacleDistanceM: number;
  /** Height of the top of that point, clutter included, in metres above sea level. */
  readonly obstacleHeightM: number;
  /** Height by which the round Earth lifts that point towards the line in metres. */
  readonly obstacleBulgeM: number;
  /** Height of the line over that point in metres above sea level. */
  readonly lineHeightM: number;
  /** Height of the line over ground and clutter at every point in metres; at the two ends the heights of the antennas. */
  readonly clearancesM: Float64Array;
  /** Least clearance in radii of the first Fresnel zone: 0 where the line touches, 1 where the zone is free; with `wavelengthM`. */
  readonly fresnelClearanceRatio?: number | undefined;
  /** Distance from the first antenna of the point with that least ratio in metres; with `wavelengthM`. */
  readonly fresnelDistanceM?: number | undefined;
}

/**
 * Whether two antennas see each other over a profile, and by how much the line between them clears the ground.
 *
 * Geometry only. A free line is no promise of a link, nor a blocked one the end of it: at 868 MHz a signal gets over a single ridge
 * with a loss that a diffraction model states. The least Fresnel clearance need not lie where the least clearance in metres lies: near
 * an antenna the zone is narrow.
 *
 * @returns clearances in metres; the parabola for the Earth's bulge is within 0.4 % up to 2000 km
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` or `missing` (fewer than three points)
 * @source Recommendation ITU-R P.1812, section 4.3.1 (bulge 500 C_e d_i (d − d_i)); radius of the first Fresnel zone:
 * Recommendation ITU-R P.526, section 2 (from memory)
 * @example A ridge of 60 m halfway along 10 km
 * ```ts
 * import { lineOfSight } from '@finial/terrain';
 *
 * const ground = { distanceM: [0, 5000, 10_000], heightM: [20, 60, 20] };
 * const line = lineOfSight(ground, { fromHeightM: 30, toHeightM: 10, wavelengthM: 0.3453 });
 * line.clearanceM; // ≈ -21.47
 * line.fresnelClearanceRatio; // ≈ -0.731
 * ```
 */
export function lineOfSight(profile: GroundLine, options: LineOfSightOptions): LineOfSight {
  const { distanceM, heightM } = checkGround(profile);
  const { fromHeightM, toHeightM, wavelengthM } = checkObject(options, 'options');
  checkRange(fromHeightM, 'fromHeightM', antennaBounds);
  checkRange(toHeightM, 'toHeightM', antennaBounds);
  const clutterHeightM = checkClutter(options.clutterHeightM, distanceM.length);
  if (wavelengthM !== undefined) {
    checkRange(wavelengthM, 'wavelengthM', { min: 1e-4, max: 1e5, unit: 'metres' });
  }
  const radiusM = effectiveRadiusM(options);

  const last = distanceM.length - 1;
  const lengthM = distanceM[last] as number;
  const startM = (heightM[0] as number) + fromHeightM;
  const endM = (heightM[last] as number) + toHeightM;
  const lineAt = (index: number) => startM + ((endM - startM) * (distanceM[index] as number)) / lengthM;
  const topAt = (index: number) => (heightM[index] as number) + (clutterHeightM?.[index] ?? 0);
  const bulgeAt = (index: number) => legs(index) / (2 * radiusM);
  const legs = (index: number) => (distanceM[index] as number) * (lengthM - (distanceM[index] as number));

  const clearancesM = Float64Array.from(
    distanceM,
    (_, index) => lineAt(index) - topAt(index) - bulgeAt(index),
  );
  clearancesM[0] = fromHeightM;
  clearancesM[last] = toHeightM;
  const obstacleIndex = leastInside(clearancesM);
  const clearanceM = clearancesM[obstacleIndex] as number;
  const flat = {
    visible: clearanceM >= 0,
    clearanceM,
    obstacleIndex,
    obstacleDistanceM: distanceM[obstacleIndex] as number,
    obstacleHeightM: topAt(obstacleIndex),
    obstacleBulgeM: bulgeAt(obstacleIndex),
    lineHeightM: lineAt(obstacleIndex),
    clearancesM,
  };
  if (wavelengthM === undefined) return flat;
  const ratios = clearancesM.map(
    (clearance, index) => clearance / Math.sqrt((wavelengthM * legs(index)) / lengthM),
  );
  const narrowest = leastInside(ratios);
  return {
    ...flat,
    fresnelClearanceRatio: ratios[narrowest] as number,
    fresnelDistanceM: distanceM[narrowest] as number,
  };
}

const antennaBounds = { min: 0, max: 20_000, unit: 'metres' };

/** Where the least value between the two ends stands; the first of equals. */
function leastInside(values: Float64Array): number {
  let least = 1;
  for (let index = 2; index < values.length - 1; index++) {
    if ((values[index] as number) < (values[least] as number)) least = index;
  }
  return least;
}

function checkGround(profile: GroundLine): GroundLine {
  const { distanceM, heightM } = checkObject(profile, 'profile');
  checkSeries(distanceM, 'profile.distanceM', undefined);
  checkSeries(heightM, 'profile.heightM', distanceM.length);
  if (distanceM.length < 3) {
    const expected = 'three points or more: a shorter step';
    throw new InputError({
      code: 'missing',
      argument: 'profile.distanceM',
      received: distanceM.length,
      expected,
    });
  }
  for (let index = 0; index < distanceM.length; index++) {
    const before = index === 0 ? undefined : (distanceM[index - 1] as number);
    checkDistance(distanceM[index], before, index);
    checkRange(heightM[index], `profile.heightM[${index}]`, { min: -12_000, max: 9000, unit: 'metres' });
  }
  return { distanceM, heightM };
}

function checkDistance(value: unknown, before: number | undefined, index: number): void {
  const argument = `profile.distanceM[${index}]`;
  const distanceM = checkFinite(value, argument, 'metres');
  const rises = before === undefined ? distanceM === 0 : distanceM >= before + 0.001;
  if (rises && distanceM <= 20_100_000) return;
  const expected =
    before === undefined ? '0 metres at the first point' : `${before + 0.001} to 20100000 metres`;
  throw new InputError({ code: 'out-of-range', argument, received: value, expected });
}

function checkClutter(clutter: LineOfSightOptions['clutterHeightM'], length: number): typeof clutter {
  if (clutter === undefined) return undefined;
  checkSeries(clutter, 'clutterHeightM', length);
  for (let index = 0; index < length; index++) {
    checkRange(clutter[index], `clutterHeightM[${index}]`, { min: 0, max: 200, unit: 'metres' });
  }
  return clutter;
}

function checkSeries(series: unknown, argument: string, length: number | undefined): void {
  if (!Array.isArray(series) && !(series instanceof Float64Array)) {
    throw new InputError({
      code: 'wrong-type',
      argument,
      received: series,
      expected: 'a list or Float64Array',
    });
  }
  if (length !== undefined && series.length !== length) {
    const expected = `${length} entries, one per point of the profile`;
    throw new InputError({ code: 'out-of-range', argument, received: series.length, expected });
  }
}
