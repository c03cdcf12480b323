import { complementaryNormalDeviate } from './complementaryNormalDeviate.js';

/**
 * Standard deviation in dB of the local median within a square of the given side. It fades out over the 10 m above the clutter.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.7 (the factor 0.024; edition 5 misprinted it as 0.0024)
 */
export function outdoorSigmaDb(
  frequencyGHz: number,
  resolutionM: number,
  antennaM: number,
  clutterM: number,
): number {
  const aboveM = Math.max(antennaM - clutterM, 0);
  return (0.52 + 0.024 * frequencyGHz) * resolutionM ** 0.28 * Math.max(1 - aboveM / 10, 0);
}

/** What a location percentage adds to the median over locations in dB: above zero for more than half of them. Equation (67). */
export function locationLossDb(locationPercent: number, sigmaDb: number): number {
  return -complementaryNormalDeviate(locationPercent / 100) * sigmaDb;
}
