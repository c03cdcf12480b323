import { freeSpaceConstantDb } from './constants.js';

/**
 * Free-space loss in dB over the slant distance, with the constant of this model.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.2; equation (8) as edition 6 numbers them
 */
export function slantFreeSpaceLossDb(frequencyGHz: number, distanceKm: number, riseM: number): number {
  const riseKm = riseM / 1000;
  const squareKm2 = distanceKm * distanceKm + riseKm * riseKm;
  return freeSpaceConstantDb + 20 * Math.log10(frequencyGHz) + 10 * Math.log10(squareKm2);
}

/**
 * What multipath and focusing change of it in dB; below zero for less than half of the time.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.2; equation (9) and (11) as edition 6 numbers them
 */
export function focusingDb(timePercent: number, horizonsKm: number): number {
  return 2.6 * (1 - Math.exp(-0.1 * horizonsKm)) * Math.log10(timePercent / 50);
}
