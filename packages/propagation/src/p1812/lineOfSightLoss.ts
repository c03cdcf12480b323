import { freeSpaceConstantDb } from './constants.js';
import { decibels } from './decibels.js';

/**
 * Free-space loss in dB over the slant distance, with the constant of this model.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.2; equation (8) as edition 6 numbers them
 */
export function slantFreeSpaceLossDb(frequencyGHz: number, distanceKm: number, riseM: number): number {
  return unitFreeSpaceLossDb(frequencyGHz) + slantSpreadingDb(distanceKm, riseM);
}

/** The part of it that is the same for every path: the loss over 1 km. */
export function unitFreeSpaceLossDb(frequencyGHz: number): number {
  return freeSpaceConstantDb + 20 * Math.log10(frequencyGHz);
}

/** The part of it that the path decides. */
export function slantSpreadingDb(distanceKm: number, riseM: number): number {
  const riseKm = riseM / 1000;
  return decibels(distanceKm * distanceKm + riseKm * riseKm);
}

/**
 * What multipath and focusing change of it in dB; below zero for less than half of the time.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.2; equation (9) and (11) as edition 6 numbers them
 */
export function focusingDb(timePercent: number, horizonsKm: number): number {
  return focusingPerDecadeDb(horizonsKm) * Math.log10(timePercent / 50);
}

/** That for a tenfold time. */
export function focusingPerDecadeDb(horizonsKm: number): number {
  return 2.6 * (1 - Math.exp(-0.1 * horizonsKm));
}
