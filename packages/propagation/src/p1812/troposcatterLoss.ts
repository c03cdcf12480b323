/**
 * Basic transmission loss by troposcatter in dB. The time must not exceed 50 %.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.4; equation (44) and (45) as edition 6 numbers them
 */
export function troposcatterLossDb(
  frequencyGHz: number,
  distanceKm: number,
  angularDistanceMrad: number,
  surfaceRefractivity: number,
  timePercent: number,
): number {
  const frequencyDb = 25 * Math.log10(frequencyGHz) - 2.5 * Math.log10(frequencyGHz / 2) ** 2;
  return (
    190.1 +
    frequencyDb +
    20 * Math.log10(distanceKm) +
    0.573 * angularDistanceMrad -
    0.15 * surfaceRefractivity -
    10.125 * Math.log10(50 / timePercent) ** 0.7
  );
}
