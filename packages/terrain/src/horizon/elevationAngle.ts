/**
 * Elevation angle in radians at which a point appears from an eye, both above a round Earth. Unchecked, for inner loops.
 *
 * Exact on the sphere; the usual parabola (height difference over distance, less distance over twice the radius) is its first term.
 */
export function elevationAngleRad(
  eyeHeightM: number,
  heightM: number,
  distanceM: number,
  radiusM: number,
): number {
  const angle = distanceM / radiusM;
  const half = Math.sin(angle / 2);
  // (radius + height) cos(angle) - (radius + eye) written without the difference of two numbers of the size of the Earth.
  const riseM = heightM - eyeHeightM - 2 * (radiusM + heightM) * half * half;
  return Math.atan2(riseM, (radiusM + heightM) * Math.sin(angle));
}
