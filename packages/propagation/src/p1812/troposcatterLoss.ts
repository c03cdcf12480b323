import { decibels } from './decibels.js';

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
  return (
    troposcatterConstantDb(frequencyGHz, surfaceRefractivity, timePercent) +
    troposcatterPathDb(distanceKm, angularDistanceMrad)
  );
}

/** The part of it that is the same for every path. */
export function troposcatterConstantDb(
  frequencyGHz: number,
  surfaceRefractivity: number,
  timePercent: number,
): number {
  const frequencyDb = 25 * Math.log10(frequencyGHz) - 2.5 * Math.log10(frequencyGHz / 2) ** 2;
  return 190.1 + frequencyDb - 0.15 * surfaceRefractivity - 10.125 * Math.log10(50 / timePercent) ** 0.7;
}

/** The part of it that the path decides. */
export function troposcatterPathDb(distanceKm: number, angularDistanceMrad: number): number {
  return decibels(distanceKm * distanceKm) + 0.573 * angularDistanceMrad;
}
