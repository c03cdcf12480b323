import { checkObject, checkRange } from '@finial/units';
import type { GeoPosition } from '../parts.js';
import { checkPosition } from '../tile/checkElevation.js';
import { wgs84 } from './wgs84.js';

/** A start, a direction and a length. */
export interface Departure {
  /** Where the line starts, WGS 84. */
  readonly from: GeoPosition;
  /** Azimuth at the start in degrees clockwise from true north, -360 to 360. */
  readonly azimuthDeg: number;
  /** Length of the line in metres, 0 to 20004000 (half round the Earth over the poles). */
  readonly distanceM: number;
}

/**
 * The place at the end of a geodesic of known start, azimuth and length on the WGS 84 ellipsoid.
 *
 * The azimuth is from true north. A compass shows magnetic north, which is some degrees off in most places.
 *
 * @returns the place, longitude -180 to 180, error below 1e-7 m on the ground
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013) 43-55, section 3 (direct problem)
 * @example Ten kilometres due east of a gateway
 * ```ts
 * import { destination } from '@finial/terrain';
 *
 * const from = { latitudeDeg: 0, longitudeDeg: 16.6 };
 * destination({ from, azimuthDeg: 90, distanceM: 10_000 }).longitudeDeg; // ≈ 16.68983
 * ```
 */
export function destination(departure: Departure): GeoPosition {
  const { from, azimuthDeg, distanceM } = checkObject(departure, 'departure');
  checkPosition(from, 'from');
  checkRange(azimuthDeg, 'azimuthDeg', { min: -360, max: 360, unit: 'degrees' });
  checkRange(distanceM, 'distanceM', { min: 0, max: 20_004_000, unit: 'metres' });
  const { lat2, lon2 } = wgs84().Direct(from.latitudeDeg, from.longitudeDeg, azimuthDeg, distanceM);
  return { latitudeDeg: lat2 as number, longitudeDeg: lon2 as number };
}
