import { checkObject, InputError } from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import { checkPlace, type PlanePlace } from './PlaneSample.js';

// WGS 84: semi-major axis, flattening, semi-minor axis.
const equatorM = 6_378_137;
const flattening = 1 / 298.257223563;
const poleM = equatorM * (1 - flattening);
const radian = Math.PI / 180;

/** A place, and the gateway that it is seen from. */
export interface PlaceFromGateway {
  /** The gateway: the middle of the plane. */
  readonly origin: Position;
  /** The place. */
  readonly position: Position;
}

/** A place on the plane around a gateway. */
export interface OffsetFromGateway {
  /** The gateway: the middle of the plane. */
  readonly origin: Position;
  /** Where on the plane, within 1000 km of the gateway. */
  readonly place: PlanePlace;
}

/** Beyond this the plane is of no use for a walk, and the series below have been tried no further. */
const farthestM = 1e6;

/**
 * Where a place lies on the plane around a gateway, in metres to the east and the north.
 *
 * The plane is azimuthal equidistant on the WGS 84 ellipsoid: distance and azimuth from the gateway are true, other distances are
 * too long by one part in a million 20 km away. It is the plane of the rasters of coverage in this family of packages.
 *
 * @returns metres, error below 1e-5 m (against Karney's geodesics to 1000 km: 5e-7 m)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range` (also farther away than 1000 km)
 * @source T. Vincenty, Direct and inverse solutions of geodesics on the ellipsoid, Survey Review 23 (1975) 88 (from memory)
 * @example Ten thousandths of a degree east of a gateway on the equator
 * ```ts
 * import { planeOffset } from '@finial/survey';
 *
 * const origin = { latitudeDeg: 0, longitudeDeg: 16.6 };
 * planeOffset({ origin, position: { latitudeDeg: 0, longitudeDeg: 16.61 } }).eastM; // ≈ 1113.195
 * ```
 */
export function planeOffset(question: PlaceFromGateway): PlanePlace {
  const { origin, position } = checkObject(question, 'question');
  checkPosition(origin, 'origin');
  checkPosition(position, 'position');
  return offsetWithin(origin, position, 'position');
}

/** {@link planeOffset} of positions that are checked; a place too far away is refused under the name given. */
export function offsetWithin(origin: Position, position: Position, argument: string): PlanePlace {
  const offset = geodesicOffset(origin, position);
  if (offset !== undefined && Math.hypot(offset.eastM, offset.northM) <= farthestM) return offset;
  throw new InputError({
    code: 'out-of-range',
    argument: `${argument}.latitudeDeg and longitudeDeg`,
    received: position,
    expected: 'a place within 1000 km of the gateway (latitude and longitude changed over?)',
  });
}

/**
 * The place on the Earth at an offset from a gateway: the inverse of `planeOffset`.
 *
 * @returns latitude and longitude in degrees, longitude from -180 to 180; error below 1e-5 m on the ground
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range` (also farther away than 1000 km)
 * @source T. Vincenty, Direct and inverse solutions of geodesics on the ellipsoid, Survey Review 23 (1975) 88 (from memory)
 * @example
 * ```ts
 * import { planePosition } from '@finial/survey';
 *
 * const origin = { latitudeDeg: 0, longitudeDeg: 16.6 };
 * planePosition({ origin, place: { eastM: 1113.195, northM: 0 } }).longitudeDeg; // ≈ 16.61
 * ```
 */
export function planePosition(question: OffsetFromGateway): Position {
  const { origin, place } = checkObject(question, 'question');
  checkPosition(origin, 'origin');
  checkPlace(place, 'place');
  if (Math.hypot(place.eastM, place.northM) > farthestM) {
    const expected = 'a place within 1000 km of the gateway';
    throw new InputError({
      code: 'out-of-range',
      argument: 'place.eastM and northM',
      received: place,
      expected,
    });
  }
  return positionOfOffset(origin, place);
}

/** The unchecked form of {@link planeOffset}; undefined where the iteration fails, nearly at the other end of the Earth. */
function geodesicOffset(origin: Position, position: Position): PlanePlace | undefined {
  const reduced1 = reducedLatitude(origin.latitudeDeg);
  const reduced2 = reducedLatitude(position.latitudeDeg);
  // The shorter way round, also across the date line.
  const turns = Math.round((position.longitudeDeg - origin.longitudeDeg) / 360);
  const longitude = (position.longitudeDeg - origin.longitudeDeg - 360 * turns) * radian;
  let lambda = longitude;
  for (let round = 0; round < 100; round += 1) {
    const east = reduced2.cos * Math.sin(lambda);
    const north = reduced1.cos * reduced2.sin - reduced1.sin * reduced2.cos * Math.cos(lambda);
    const sinSigma = Math.hypot(east, north);
    if (sinSigma === 0) return { eastM: 0, northM: 0 };
    const cosSigma = reduced1.sin * reduced2.sin + reduced1.cos * reduced2.cos * Math.cos(lambda);
    const sigma = Math.atan2(sinSigma, cosSigma);
    const sinAlpha = (reduced1.cos * reduced2.cos * Math.sin(lambda)) / sinSigma;
    const cosSquaredAlpha = 1 - sinAlpha ** 2;
    // Along the equator there is no middle latitude.
    const cosMiddle =
      cosSquaredAlpha === 0 ? 0 : cosSigma - (2 * reduced1.sin * reduced2.sin) / cosSquaredAlpha;
    const next = longitude + longitudeExcess(sinAlpha, cosSquaredAlpha, sigma, cosMiddle);
    if (Math.abs(next - lambda) < 1e-13) {
      const distanceM = arcLengthM(cosSquaredAlpha, sigma, cosMiddle);
      return { eastM: (distanceM * east) / sinSigma, northM: (distanceM * north) / sinSigma };
    }
    lambda = next;
  }
  return undefined;
}

/** The unchecked form of {@link planePosition}. */
export function positionOfOffset(origin: Position, { eastM, northM }: PlanePlace): Position {
  const distanceM = Math.hypot(eastM, northM);
  if (distanceM === 0) return { latitudeDeg: origin.latitudeDeg, longitudeDeg: origin.longitudeDeg };
  // By the angle, not by quotients: of the smallest doubles these are no sine and cosine.
  const azimuth = Math.atan2(eastM, northM);
  const sinAzimuth = Math.sin(azimuth);
  const cosAzimuth = Math.cos(azimuth);
  const reduced = reducedLatitude(origin.latitudeDeg);
  const startSigma = Math.atan2(reduced.sin, reduced.cos * cosAzimuth);
  const sinAlpha = reduced.cos * sinAzimuth;
  const cosSquaredAlpha = 1 - sinAlpha ** 2;
  const { a, b } = arcSeries(cosSquaredAlpha);
  let sigma = distanceM / (poleM * a);
  for (let round = 0; round < 100; round += 1) {
    const next = distanceM / (poleM * a) + arcExcess(b, sigma, Math.cos(2 * startSigma + sigma));
    const step = Math.abs(next - sigma);
    sigma = next;
    if (step < 1e-14) break;
  }
  const sinSigma = Math.sin(sigma);
  const cosSigma = Math.cos(sigma);
  const across = reduced.sin * sinSigma - reduced.cos * cosSigma * cosAzimuth;
  const latitude = Math.atan2(
    reduced.sin * cosSigma + reduced.cos * sinSigma * cosAzimuth,
    (1 - flattening) * Math.hypot(sinAlpha, across),
  );
  const lambda = Math.atan2(
    sinSigma * sinAzimuth,
    reduced.cos * cosSigma - reduced.sin * sinSigma * cosAzimuth,
  );
  const excess = longitudeExcess(sinAlpha, cosSquaredAlpha, sigma, Math.cos(2 * startSigma + sigma));
  const longitudeDeg = origin.longitudeDeg + (lambda - excess) / radian;
  return {
    latitudeDeg: latitude / radian,
    longitudeDeg: longitudeDeg - 360 * Math.round(longitudeDeg / 360),
  };
}

function reducedLatitude(latitudeDeg: number): { readonly sin: number; readonly cos: number } {
  const sin = (1 - flattening) * Math.sin(latitudeDeg * radian);
  const cos = Math.cos(latitudeDeg * radian);
  const length = Math.hypot(sin, cos);
  return { sin: sin / length, cos: cos / length };
}

/** How much longer the way in longitude is on the sphere that the formulae use. */
function longitudeExcess(
  sinAlpha: number,
  cosSquaredAlpha: number,
  sigma: number,
  cosMiddle: number,
): number {
  const c = (flattening / 16) * cosSquaredAlpha * (4 + flattening * (4 - 3 * cosSquaredAlpha));
  const inner = cosMiddle + c * Math.cos(sigma) * (2 * cosMiddle ** 2 - 1);
  return (1 - c) * flattening * sinAlpha * (sigma + c * Math.sin(sigma) * inner);
}

function arcLengthM(cosSquaredAlpha: number, sigma: number, cosMiddle: number): number {
  const { a, b } = arcSeries(cosSquaredAlpha);
  return poleM * a * (sigma - arcExcess(b, sigma, cosMiddle));
}

function arcSeries(cosSquaredAlpha: number): { readonly a: number; readonly b: number } {
  const square = (cosSquaredAlpha * (equatorM ** 2 - poleM ** 2)) / poleM ** 2;
  return {
    a: 1 + (square / 16384) * (4096 + square * (-768 + square * (320 - 175 * square))),
    b: (square / 1024) * (256 + square * (-128 + square * (74 - 47 * square))),
  };
}

function arcExcess(b: number, sigma: number, cosMiddle: number): number {
  const sinSigma = Math.sin(sigma);
  const second = Math.cos(sigma) * (2 * cosMiddle ** 2 - 1);
  const third = (b / 6) * cosMiddle * (4 * sinSigma ** 2 - 3) * (4 * cosMiddle ** 2 - 3);
  return b * sinSigma * (cosMiddle + (b / 4) * (second - third));
}
