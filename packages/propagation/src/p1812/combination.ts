import { complementaryNormalDeviate } from './complementaryNormalDeviate.js';

/**
 * Weight of anomalous against median conditions for a time percentage of at most 50: 1 up to the time of anomalous conditions, 0 at 50 %.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.3.5; equation (40) as edition 6 numbers them
 */
export function timeFactor(
  timePercent: number,
  anomalousPercent: number,
  timeDeviate: number = complementaryNormalDeviate(timePercent / 100),
): number {
  if (timePercent <= anomalousPercent) return 1;
  return timeDeviate / complementaryNormalDeviate(anomalousPercent / 100);
}

/** Weight of the line-of-sight side for the angle between the horizons: 1 near zero, 0 well beyond. Equation (57). */
export function angleFactor(angularDistanceMrad: number): number {
  return fading((3 * 0.8 * (angularDistanceMrad - 0.3)) / 0.3);
}

/** Weight of diffraction over ducting for the distance: 1 on short paths, 0 on long ones. Equation (58). */
export function distanceFactor(distanceKm: number): number {
  return fading((3 * 0.5 * (distanceKm - 20)) / 20);
}

/** 1 - (1 + tanh x)/2, which falls from 1 to 0 as x passes 0. */
function fading(x: number): number {
  return 1 / (1 + Math.exp(2 * x));
}

/** Notional least loss of line of sight and diffraction over sea in dB. Equation (59). */
export function leastLineOfSightLossDb(
  timePercent: number,
  anomalousPercent: number,
  timeWeight: number,
  landShare: number,
  lineOfSightDb: number,
  anomalousLineOfSightDb: number,
  diffractionDb: number,
  medianDiffractionPathDb: number,
): number {
  if (timePercent < anomalousPercent) return lineOfSightDb + landShare * diffractionDb;
  const anomalousDb = anomalousLineOfSightDb + landShare * diffractionDb;
  return medianDiffractionPathDb + (anomalousDb - medianDiffractionPathDb) * timeWeight;
}

/** Notional least loss of ducting and line of sight in dB. Equation (60), with the larger exponential taken out of the logarithm. */
export function leastDuctingLossDb(ductingDb: number, lineOfSightDb: number): number {
  const greaterDb = Math.max(ductingDb, lineOfSightDb);
  const gapDb = Math.abs(ductingDb - lineOfSightDb);
  return greaterDb + 2.5 * Math.log1p(Math.exp(-gapDb / 2.5));
}

/** Loss of diffraction or of ducting that helps it, in dB. Equation (61). */
export function ductedDiffractionLossDb(
  diffractionPathDb: number,
  leastDuctingDb: number,
  distanceWeight: number,
): number {
  if (leastDuctingDb > diffractionPathDb) return diffractionPathDb;
  return leastDuctingDb + (diffractionPathDb - leastDuctingDb) * distanceWeight;
}

/** Loss with troposcatter as a second way, whose power adds to the first, in dB. Equation (63), the smaller loss taken out. */
export function withTroposcatterDb(otherDb: number, troposcatterDb: number): number {
  const lesserDb = Math.min(otherDb, troposcatterDb);
  const gapDb = Math.abs(otherDb - troposcatterDb);
  return lesserDb - (5 / Math.LN10) * Math.log1p(Math.exp(-0.2 * Math.LN10 * gapDb));
}
