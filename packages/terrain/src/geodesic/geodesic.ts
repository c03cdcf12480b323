import { checkObject } from '@finial/units';
import type { GeoPosition } from '../parts.js';
import { checkPosition } from '../tile/checkElevation.js';
import { compassDeg, wgs84 } from './wgs84.js';

/** Two places on the ground. */
export interface GeodesicEnds {
  /** Where the line starts, WGS 84. */
  readonly from: GeoPosition;
  /** Where the line ends, WGS 84. */
  readonly to: GeoPosition;
}

/** The shortest line over the ellipsoid between two places. */
export interface GeodesicLine {
  /** Length in metres, 0 or more. */
  readonly distanceM: number;
  /** Azimuth at the start in degrees clockwise from true north, 0 to below 360. */
  readonly azimuthDeg: number;
  /** Azimuth at the end, still in the direction of travel, in degrees clockwise from true north, 0 to below 360. */
  readonly finalAzimuthDeg: number;
}

/**
 * Length and azimuths of the shortest line between two places on the WGS 84 ellipsoid.
 *
 * Heights are left out: the line lies on the ellipsoid. Between coincident places the length is 0 and both azimuths are 0;
 * between opposite places of the Earth several lines are equally short and one of them is given. At a pole the azimuth counts
 * from the meridian of the longitude given. To aim an antenna back at the start, turn the final azimuth by 180°.
 *
 * @returns metres and degrees, error of the length below 1e-7 m, of the azimuths below 1e-9° on lines longer than 1 km
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013) 43-55, section 4 (inverse problem)
 * @example From a node to a gateway
 * ```ts
 * import { geodesic } from '@finial/terrain';
 *
 * const from = { latitudeDeg: 35.60777, longitudeDeg: -139.44815 };
 * const line = geodesic({ from, to: { latitudeDeg: -11.17491, longitudeDeg: -69.95921 } });
 * line.distanceM; // ≈ 8935244.56
 * line.azimuthDeg; // ≈ 111.0987
 * ```
 */
export function geodesic(ends: GeodesicEnds): GeodesicLine {
  const { from, to } = checkObject(ends, 'ends');
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  const { s12, azi1, azi2 } = wgs84().Inverse(
    from.latitudeDeg,
    from.longitudeDeg,
    to.latitudeDeg,
    to.longitudeDeg,
  );
  const distanceM = s12 as number;
  if (distanceM === 0) return { distanceM: 0, azimuthDeg: 0, finalAzimuthDeg: 0 };
  return { distanceM, azimuthDeg: compassDeg(azi1 as number), finalAzimuthDeg: compassDeg(azi2 as number) };
}
