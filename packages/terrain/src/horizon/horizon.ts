import { checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { compassDeg, placesAlong, wgs84 } from '../geodesic/wgs84.js';
import { missingHeight } from '../missingHeight.js';
import type { Elevation, GeoPosition } from '../parts.js';
import { checkElevation, checkPosition } from '../tile/checkElevation.js';
import { type ElevationSampler, elevationSampler } from '../tile/elevationSampler.js';
import { effectiveRadiusM, type RayBending } from './earthRadius.js';
import { elevationAngleRad } from './elevationAngle.js';

/** Where to stand, how far to look and how finely. */
export interface HorizonOptions extends RayBending {
  /** Place of the antenna, WGS 84. */
  readonly position: GeoPosition;
  /** Height of the antenna above the ground there in metres, 0 to 20000. */
  readonly antennaHeightM: number;
  /** How far to look in metres, 1 to 500000; at least one step. */
  readonly radiusM: number;
  /** Distance between neighbouring points of a ray in metres, 0.1 to 100000. The first point lies one step away. */
  readonly stepM: number;
  /** Azimuths to look at in degrees clockwise from true north, -360 to 360; in place of `azimuthStepDeg`. */
  readonly azimuthsDeg?: readonly number[] | undefined;
  /**
   * Turn from one azimuth to the next in degrees, 0.01 to 360, starting at north.
   *
   * @defaultValue 1
   */
  readonly azimuthStepDeg?: number | undefined;
  /**
   * What to do about a void, or where a ray leaves the tiles: refuse, or look past it and say so in `warnings`.
   *
   * @defaultValue `refuse`
   */
  readonly missingHeights?: 'refuse' | 'skip' | undefined;
  /** Stops the work; the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
  /** Told after every few azimuths how much is done. */
  readonly onProgress?: ((progress: HorizonProgress) => void) | undefined;
}

/** How far the work has come. */
export interface HorizonProgress {
  /** Done part of the azimuths, 0 to 1. */
  readonly doneRatio: number;
}

/** The highest point seen along one azimuth. */
export interface SkylinePoint {
  /** Azimuth in degrees clockwise from true north, 0 to below 360. */
  readonly azimuthDeg: number;
  /** Angle of the skyline over the horizontal at the antenna in degrees; negative where the ground falls away. */
  readonly elevationDeg: number;
  /** Distance over ground to the point that makes the skyline in metres. */
  readonly distanceM: number;
  /** Height of the ground at that point in metres above sea level. */
  readonly heightM: number;
  /** Latitude of that point in degrees. */
  readonly latitudeDeg: number;
  /** Longitude of that point in degrees, -180 to 180. */
  readonly longitudeDeg: number;
  /** How many points of the ray had no height. */
  readonly missingCount: number;
}

/** The horizon all round an antenna. */
export interface Skyline {
  /** Height of the ground under the antenna in metres above sea level. */
  readonly groundHeightM: number;
  /** Height of the antenna in metres above sea level. */
  readonly eyeHeightM: number;
  /** One point per azimuth, in the order of the azimuths. */
  readonly points: readonly SkylinePoint[];
  /** What a reader should know: points without heights were passed over. */
  readonly warnings: readonly string[];
}

const azimuthsPerTurn = 8;

/**
 * The skyline seen from an antenna: for each azimuth the point of the ground with the greatest elevation angle.
 *
 * Only bare ground as the data hold it; a ridge narrower than the cells is lower in the data than in the field, and a house next
 * door is not there at all. What lies beyond `radiusM` does not count. Of points at the same angle the nearest is given.
 *
 * @returns one point per azimuth; the angle is exact on the sphere of the effective radius for the points that were read. A sharp
 * edge between two points is missed by up to half a step
 * @throws {@link InputError} (the promise is rejected) `wrong-type`, `not-a-finite-number`, `out-of-range` (also
 * where a ray leaves the tiles), `unknown-option` or `missing` (a void under the antenna or on a ray, while `missingHeights` is
 * `refuse`)
 * @source plane trigonometry in the triangle of the Earth's centre, eye and point; to first order equation 76 of Recommendation ITU-R
 * P.1812, Attachment 1
 * @example A plateau: the ground ahead hides behind the curve of the Earth
 * ```ts
 * import { horizon } from '@finial/terrain';
 *
 * const grid = { kind: 'geographic', northDeg: 51, westDeg: 16, rowStepDeg: 1, columnStepDeg: 1 } as const;
 * const heightsM = Float64Array.of(300, 300, 300, 300);
 * const tile = { name: 'plateau', columns: 2, rows: 2, heightsM, voidCount: 0, grid };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const position = { latitudeDeg: 50.5, longitudeDeg: 16.5 };
 * const options = { position, antennaHeightM: 20, radiusM: 30_000, stepM: 50, azimuthsDeg: [90] };
 * const { points } = await horizon(elevation, options);
 * points[0]?.distanceM; // ≈ 18450
 * ```
 */
export async function horizon(elevation: Elevation, options: HorizonOptions): Promise<Skyline> {
  checkElevation(elevation);
  const {
    position,
    antennaHeightM,
    radiusM,
    stepM,
    missingHeights = 'refuse',
  } = checkObject(options, 'options');
  checkPosition(position, 'position');
  checkRange(antennaHeightM, 'antennaHeightM', { min: 0, max: 20_000, unit: 'metres' });
  checkRange(radiusM, 'radiusM', { min: 1, max: 500_000, unit: 'metres' });
  checkRange(stepM, 'stepM', { min: Math.max(0.1, radiusM / 1_000_000), max: radiusM, unit: 'metres' });
  const refuses = checkOneOf(missingHeights, 'missingHeights', ['refuse', 'skip']) === 'refuse';
  const azimuthsDeg = azimuthsOf(options);
  const earthM = effectiveRadiusM(options);
  const sampler = elevationSampler(elevation);
  const groundHeightM = groundUnder(sampler, position);
  const eyeHeightM = groundHeightM + antennaHeightM;
  const steps = Math.floor(radiusM / stepM + 1e-9);
  const distanceM = Float64Array.from({ length: steps }, (_, index) => (index + 1) * stepM);

  const points: SkylinePoint[] = [];
  const warnings: string[] = [];
  for (const [index, azimuthDeg] of azimuthsDeg.entries()) {
    options.signal?.throwIfAborted();
    const ray = rayOf(sampler, position, azimuthDeg, distanceM);
    if (ray.missingCount > 0 && refuses) throw missingOnRay(sampler, ray, azimuthDeg, distanceM);
    const point = highestOn(ray, eyeHeightM, azimuthDeg, distanceM, earthM);
    if (point !== undefined) points.push(point);
    if (ray.missingCount > 0) warnings.push(missingWarning(ray.missingCount, steps, azimuthDeg));
    if ((index + 1) % azimuthsPerTurn === 0 || index + 1 === azimuthsDeg.length) {
      options.onProgress?.({ doneRatio: (index + 1) / azimuthsDeg.length });
      // A page can draw, and a button that aborts can be pressed, only between turns of the event loop.
      await new Promise((resume) => setTimeout(resume, 0));
    }
  }
  options.signal?.throwIfAborted();
  return { groundHeightM, eyeHeightM, points, warnings };
}

function azimuthsOf({ azimuthsDeg, azimuthStepDeg }: HorizonOptions): readonly number[] {
  if (azimuthsDeg === undefined) return allRound(azimuthStepDeg);
  if (azimuthStepDeg !== undefined) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'azimuthStepDeg',
      received: azimuthStepDeg,
      expected: 'nothing beside azimuthsDeg',
    });
  }
  return checkList(azimuthsDeg, 'azimuthsDeg').map((azimuthDeg, index) =>
    checkRange(azimuthDeg, `azimuthsDeg[${index}]`, { min: -360, max: 360, unit: 'degrees' }),
  );
}

function allRound(azimuthStepDeg = 1): readonly number[] {
  checkRange(azimuthStepDeg, 'azimuthStepDeg', { min: 0.01, max: 360, unit: 'degrees' });
  // A step such as 360/7 must not add an eighth azimuth a rounding error short of north.
  const count = Math.ceil(360 / azimuthStepDeg - 1e-9);
  return Array.from({ length: count }, (_, index) => index * azimuthStepDeg);
}

function groundUnder(sampler: ElevationSampler, { latitudeDeg, longitudeDeg }: GeoPosition): number {
  const heightM = sampler.heightM(latitudeDeg, longitudeDeg);
  if (!Number.isNaN(heightM)) return heightM;
  throw missingHeight(sampler, [latitudeDeg, longitudeDeg], 'under the antenna');
}

/** The ground along one azimuth. */
interface Ray {
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  readonly heightM: Float64Array;
  readonly missingCount: number;
}

function rayOf(
  sampler: ElevationSampler,
  from: GeoPosition,
  azimuthDeg: number,
  distanceM: Float64Array,
): Ray {
  const lastM = distanceM.at(-1) as number;
  const line = wgs84().DirectLine(from.latitudeDeg, from.longitudeDeg, azimuthDeg, lastM);
  const { latitudesDeg, longitudesDeg } = placesAlong(line, distanceM);
  const heightM = latitudesDeg.map((latitudeDeg, index) =>
    sampler.heightM(latitudeDeg, longitudesDeg[index] as number),
  );
  const missingCount = heightM.reduce((count, height) => count + (Number.isNaN(height) ? 1 : 0), 0);
  return { latitudesDeg, longitudesDeg, heightM, missingCount };
}

function highestOn(
  { latitudesDeg, longitudesDeg, heightM, missingCount }: Ray,
  eyeHeightM: number,
  azimuthDeg: number,
  distanceM: Float64Array,
  earthM: number,
): SkylinePoint | undefined {
  let highest = -1;
  let highestRad = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < heightM.length; index++) {
    const angleRad = elevationAngleRad(
      eyeHeightM,
      heightM[index] as number,
      distanceM[index] as number,
      earthM,
    );
    // A comparison with NaN is false, which leaves points without a height out.
    if (angleRad > highestRad) {
      highest = index;
      highestRad = angleRad;
    }
  }
  if (highest < 0) return undefined;
  return {
    azimuthDeg: compassDeg(azimuthDeg % 360),
    elevationDeg: (highestRad * 180) / Math.PI,
    distanceM: distanceM[highest] as number,
    heightM: heightM[highest] as number,
    latitudeDeg: latitudesDeg[highest] as number,
    longitudeDeg: longitudesDeg[highest] as number,
    missingCount,
  };
}

function missingOnRay(
  sampler: ElevationSampler,
  { heightM, latitudesDeg, longitudesDeg }: Ray,
  azimuthDeg: number,
  distanceM: Float64Array,
): InputError {
  const index = heightM.findIndex(Number.isNaN);
  const place = [latitudesDeg[index] as number, longitudesDeg[index] as number] as const;
  const ray = `${distanceM[index]?.toFixed(0)} m away on azimuth ${azimuthDeg}`;
  return missingHeight(sampler, place, `${ray} (missingHeights 'skip' looks past it)`);
}

function missingWarning(missingCount: number, steps: number, azimuthDeg: number): string {
  return missingCount === steps
    ? `azimuth ${azimuthDeg}: none of ${steps} points has a height, so the azimuth is left out`
    : `azimuth ${azimuthDeg}: ${missingCount} of ${steps} points have no height, the skyline may be higher there`;
}
