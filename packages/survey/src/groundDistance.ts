import { checkObject, checkRange } from '@finial/units';
import type { Position } from './Observation.js';

/** Mean radius (2a + b)/3 of the GRS 80 ellipsoid, which WGS84 shares to a tenth of a millimetre. */
const earthRadiusM = 6_371_008.8;

/**
 * Distance over ground between two places, in metres, on a sphere.
 *
 * Against the WGS84 ellipsoid it is up to 0.56 % too long (along a meridian at the equator) and up to 0.45 % too short (near a
 * pole); in a path-loss fit 0.56 % is 0.02 dB per unit of exponent. Heights are left out: near a tall mast the slant distance is
 * longer.
 *
 * @returns metres, 0 to 20.016e6; rounding error below 1e-6 m short of nearly opposite points, where it grows to 0.2 m
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`; `from` is the first place, `to` the second
 * @source Haversine formula: R. W. Sinnott, Sky and Telescope 68 (1984) 159 (from memory); radius: H. Moritz, Geodetic Reference
 * System 1980, Journal of Geodesy 74 (2000) 128, R1 = 6 371 008.7714 m
 * @example From a node to the gateway on the roof
 * ```ts
 * import { groundDistanceM } from '@finial/survey';
 *
 * const node = { latitudeDeg: 45.7038934, longitudeDeg: 4.9390279 };
 * groundDistanceM(node, { latitudeDeg: 45.786304, longitudeDeg: 4.8797596 }); // ≈ 10253
 * ```
 */
export function groundDistanceM(from: Position, to: Position): number {
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  return groundDistanceKernel(from.latitudeDeg, from.longitudeDeg, to.latitudeDeg, to.longitudeDeg);
}

/** Refuses what is no place on earth. */
export function checkPosition(position: Position, argument: string): Position {
  const { latitudeDeg, longitudeDeg } = checkObject(position, argument);
  checkRange(latitudeDeg, `${argument}.latitudeDeg`, { min: -90, max: 90, unit: 'degrees' });
  checkRange(longitudeDeg, `${argument}.longitudeDeg`, { min: -180, max: 180, unit: 'degrees' });
  return position;
}

/** The unchecked form of {@link groundDistanceM}, for loops over checked observations. */
export function groundDistanceKernel(
  fromLatitudeDeg: number,
  fromLongitudeDeg: number,
  toLatitudeDeg: number,
  toLongitudeDeg: number,
): number {
  const radian = Math.PI / 180;
  const sinLatitude = Math.sin(((toLatitudeDeg - fromLatitudeDeg) / 2) * radian);
  const sinLongitude = Math.sin(((toLongitudeDeg - fromLongitudeDeg) / 2) * radian);
  const cosines = Math.cos(fromLatitudeDeg * radian) * Math.cos(toLatitudeDeg * radian);
  const haversine = sinLatitude ** 2 + cosines * sinLongitude ** 2;
  // Rounding lifts opposite points a hair above 1, where asin has no value.
  return 2 * earthRadiusM * Math.asin(Math.sqrt(Math.min(haversine, 1)));
}
