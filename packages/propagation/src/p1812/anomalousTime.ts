/** Radius of the Earth in metres by which a median ray is straight, from the median fall of refractivity in N-units per km (above 0). */
export function medianEarthRadiusM(radiusM: number, deltaN: number): number {
  return (radiusM * 157) / (157 - deltaN);
}

/**
 * How much the longest inland stretch weakens ducts, 0 to 1.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1; equation (3) as edition 6 numbers them
 */
export function inlandInfluence(longestInlandKm: number): number {
  return 1 - Math.exp(-4.12e-4 * longestInlandKm ** 2.41);
}

/**
 * Share of time in percent for which refractivity falls by more than 100 N-units per km in the lowest 100 m (β0).
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1; equation (2), (4) and (5) as edition 6 numbers them
 */
export function anomalousTimePercent(latitudeDeg: number, longestLandKm: number, influence: number): number {
  const byLand = 10 ** (-longestLandKm / (16 - 6.6 * influence)) + 10 ** (-5 * (0.496 + 0.354 * influence));
  const mu1 = Math.min(byLand ** 0.2, 1);
  const northDeg = Math.abs(latitudeDeg);
  if (northDeg > 70) return 4.17 * mu1 * mu1 ** 0.3;
  return 10 ** (-0.015 * northDeg + 1.67) * mu1 * mu1 ** (-0.935 + 0.0176 * northDeg);
}
