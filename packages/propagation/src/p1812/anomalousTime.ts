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
  return 1 - Math.exp(-4.12e-4 * Math.exp(2.41 * Math.log(longestInlandKm)));
}

/**
 * Share of time in percent for which refractivity falls by more than 100 N-units per km in the lowest 100 m (β0).
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1; equation (2), (4) and (5) as edition 6 numbers them
 */
export function anomalousTimePercent(latitudeDeg: number, longestLandKm: number, influence: number): number {
  const byLand =
    Math.exp((-Math.LN10 * longestLandKm) / (16 - 6.6 * influence)) +
    Math.exp(-5 * Math.LN10 * (0.496 + 0.354 * influence));
  const northDeg = Math.abs(latitudeDeg);
  // Printed as μ1 = byLand^0.2, not above 1, and times a power of itself (μ4): one power of byLand is both.
  const exponent = northDeg > 70 ? 1 + 0.3 : 1 - 0.935 + 0.0176 * northDeg;
  return Math.exp(greatestTimeLog(northDeg) + 0.2 * exponent * Math.log(Math.min(byLand, 1)));
}

/** The most that it can be at a latitude: over the sea. It falls towards the poles, down to 4.17 % at 70°. */
export function greatestAnomalousTimePercent(latitudeDeg: number): number {
  return Math.exp(greatestTimeLog(Math.abs(latitudeDeg)));
}

/** Natural logarithm of it. */
function greatestTimeLog(northDeg: number): number {
  return northDeg > 70 ? Math.log(4.17) : Math.LN10 * (-0.015 * northDeg + 1.67);
}
