import { destination, type GeoPosition, geodesic } from '@finial/terrain';

// The grid of a coverage is azimuthal equidistant around the gateway: east and north are the length of the geodesic from there, turned
// by its azimuth. Unchecked.

/** Steps to the east and to the north of the gateway, in metres. */
export interface Offset {
  readonly eastM: number;
  readonly northM: number;
}

const degrees = 180 / Math.PI;

/** Azimuth of an offset in degrees, 0 to below 360. */
export function azimuthOf({ eastM, northM }: Offset): number {
  const azimuthDeg = Math.atan2(eastM, northM) * degrees;
  return azimuthDeg < 0 ? azimuthDeg + 360 : azimuthDeg + 0;
}

/** The place at an offset from the gateway. */
export function positionAt(origin: GeoPosition, offset: Offset): GeoPosition {
  const distanceM = Math.hypot(offset.eastM, offset.northM);
  return destination({ from: origin, azimuthDeg: azimuthOf(offset), distanceM });
}

/** The offset of a place from the gateway. */
export function offsetOf(origin: GeoPosition, position: GeoPosition): Offset & { distanceM: number } {
  const { distanceM, azimuthDeg } = geodesic({ from: origin, to: position });
  const azimuth = azimuthDeg / degrees;
  return { eastM: distanceM * Math.sin(azimuth), northM: distanceM * Math.cos(azimuth), distanceM };
}

/** A longitude as -180 to below 180. */
export function wrapped(longitudeDeg: number): number {
  const turned = (((longitudeDeg + 180) % 360) + 360) % 360;
  return turned - 180;
}

/** A longitude as the nearest to another, past 180 at the date line if need be. */
export function beside(longitudeDeg: number, nearDeg: number): number {
  return nearDeg + wrapped(longitudeDeg - nearDeg);
}
