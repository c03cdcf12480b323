import { checkObject, checkRange, InputError } from '@finial/units';
import { compassDeg, placesAlong, wgs84 } from './geodesic/wgs84.js';
import { missingHeight } from './missingHeight.js';
import type { Elevation, GeoPosition, TerrainProfile } from './parts.js';
import { checkElevation, checkPosition } from './tile/checkElevation.js';
import { elevationSampler } from './tile/elevationSampler.js';

/** How finely the ground is read. */
export interface ProfileOptions {
  /**
   * Greatest distance between neighbouring points in metres, 0.1 to 100000. The points are spread evenly, so the step that the
   * profile states may be a little shorter. Finer than the cells of the elevation data brings nothing new.
   */
  readonly stepM: number;
}

/** More points than any model needs; a step in the wrong unit would ask for more memory than there is. */
const maximumPoints = 1_000_000;

/**
 * Heights of the ground along the geodesic between two places.
 *
 * Points are evenly spaced and include both ends; heights between the cells of the data are interpolated bilinearly. The line
 * crosses the 180° meridian and the poles like any other. Reversing the ends reverses the profile (between opposite places of the
 * Earth, several lines are equally short and the two may differ). A model of the surface holds roofs and tree tops: then leave
 * clutter heights out.
 *
 * @returns series of equal length, two points or more; places within 1e-7 m of the geodesic
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` (places less than 1 mm apart, more than a million
 * points, the path leaves the tiles) or `missing` (the path crosses a void); the message says where
 * @source C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013) 43-55
 * @example A hillside that rises from 100 m to 200 m
 * ```ts
 * import { profile } from '@finial/terrain';
 *
 * const grid = { kind: 'geographic', northDeg: 50.1, westDeg: 16, rowStepDeg: 0.1, columnStepDeg: 0.1 } as const;
 * const heightsM = Float64Array.of(100, 200, 100, 200);
 * const tile = { name: 'hillside', columns: 2, rows: 2, heightsM, voidCount: 0, grid };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const from = { latitudeDeg: 50.05, longitudeDeg: 16.02 };
 * const { heightM } = profile(elevation, from, { latitudeDeg: 50.05, longitudeDeg: 16.08 }, { stepM: 3000 });
 * [...heightM].map(Math.round); // → [120, 150, 180]
 * ```
 */
export function profile(
  elevation: Elevation,
  from: GeoPosition,
  to: GeoPosition,
  options: ProfileOptions,
): TerrainProfile {
  checkElevation(elevation);
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  const { stepM } = checkObject(options, 'options');
  checkRange(stepM, 'stepM', { min: 0.1, max: 100_000, unit: 'metres' });

  const line = wgs84().InverseLine(from.latitudeDeg, from.longitudeDeg, to.latitudeDeg, to.longitudeDeg);
  const lengthM = line.s13;
  const steps = stepsOf(lengthM, stepM, to);
  const distanceM = Float64Array.from({ length: steps + 1 }, (_, index) => (lengthM * index) / steps);
  const { latitudesDeg, longitudesDeg } = placesAlong(line, distanceM);
  // The ends are known exactly; the line returns them with a rounding error that could fall off the edge of a tile.
  setPlace(0, from);
  setPlace(steps, to);
  const sampler = elevationSampler(elevation);
  const heightM = latitudesDeg.map((latitudeDeg, index) =>
    sampler.heightM(latitudeDeg, longitudesDeg[index] as number),
  );
  const hole = heightM.findIndex(Number.isNaN);
  if (hole >= 0) {
    const place = [latitudesDeg[hole] as number, longitudesDeg[hole] as number] as const;
    throw missingHeight(sampler, place, `${distanceM[hole]?.toFixed(0)} m along the path`);
  }
  return {
    from: { latitudeDeg: from.latitudeDeg, longitudeDeg: from.longitudeDeg },
    to: { latitudeDeg: to.latitudeDeg, longitudeDeg: to.longitudeDeg },
    distanceM,
    heightM,
    latitudesDeg,
    longitudesDeg,
    azimuthDeg: compassDeg(line.azi1),
    stepM: lengthM / steps,
  };

  function setPlace(index: number, place: GeoPosition): void {
    latitudesDeg[index] = place.latitudeDeg;
    longitudesDeg[index] = place.longitudeDeg;
  }
}

function stepsOf(lengthM: number, stepM: number, to: GeoPosition): number {
  if (lengthM < 0.001) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'to',
      received: to,
      expected: 'a place at least 1 mm away from the other end',
    });
  }
  const steps = Math.ceil(lengthM / stepM);
  if (steps < maximumPoints) return steps;
  throw new InputError({
    code: 'out-of-range',
    argument: 'stepM',
    received: stepM,
    expected: `a step that cuts ${lengthM.toFixed(0)} m into fewer than ${maximumPoints} points`,
  });
}
