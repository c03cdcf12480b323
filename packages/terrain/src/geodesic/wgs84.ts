// The package is CommonJS: some loaders find no named exports in it, all of them find the default.
import geographicLib from 'geographiclib-geodesic';

/** Solver of geodesics on the ellipsoid of the World Geodetic System 1984. */
export function wgs84(): typeof geographicLib.Geodesic.WGS84 {
  return geographicLib.Geodesic.WGS84;
}

/** The fields of a point on a line that the routines here ask the solver for; the rest costs time. */
export function placeOnly(): number {
  return geographicLib.Geodesic.LATITUDE | geographicLib.Geodesic.LONGITUDE;
}

/** An azimuth from the solver (-180 to 180) as a compass shows it: 0 to below 360. */
export function compassDeg(azimuthDeg: number): number {
  const turned = azimuthDeg < 0 ? azimuthDeg + 360 : azimuthDeg;
  // A tiny negative azimuth plus 360 rounds to 360, which a compass calls 0; the sum with 0 drops a negative zero.
  return turned >= 360 ? 0 : turned + 0;
}

/** Writes the places at the given distances along a line into two series. */
export function placesAlong(
  line: ReturnType<typeof geographicLib.Geodesic.WGS84.DirectLine>,
  distanceM: Float64Array,
): { readonly latitudesDeg: Float64Array; readonly longitudesDeg: Float64Array } {
  const latitudesDeg = new Float64Array(distanceM.length);
  const longitudesDeg = new Float64Array(distanceM.length);
  const wanted = placeOnly();
  for (let index = 0; index < distanceM.length; index++) {
    const { lat2, lon2 } = line.Position(distanceM[index] as number, wanted);
    latitudesDeg[index] = lat2 as number;
    longitudesDeg[index] = lon2 as number;
  }
  return { latitudesDeg, longitudesDeg };
}
