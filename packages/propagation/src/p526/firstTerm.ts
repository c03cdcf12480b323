import type { LinearPolarisation } from '../path/RadioPath.js';
import type { DiffractionConstants } from './diffractionConstants.js';

/** Electrical constants of the ground below a path. */
export interface GroundConstants {
  /** Relative permittivity. */
  readonly permittivityRatio: number;
  /** Conductivity in siemens per metre. */
  readonly conductivitySPerM: number;
}

/** Land and sea as the diffraction method takes them. */
export const landConstants: GroundConstants = { permittivityRatio: 22, conductivitySPerM: 0.003 };
export const seaConstants: GroundConstants = { permittivityRatio: 80, conductivitySPerM: 5 };

/** The first term of the residue series for one kind of ground, with what it is made of. */
export interface FirstTerm {
  /** Normalized surface admittance K, a plain number. */
  readonly admittanceRatio: number;
  /** β, a plain number that holds ground and polarisation: nearly 1 at hundreds of megahertz. */
  readonly betaRatio: number;
  /** Normalized distance X, a plain number. */
  readonly distanceRatio: number;
  /** F(X) in dB. */
  readonly distanceTermDb: number;
  /** G(Y) of the transmitter. */
  readonly transmitterGainDb: number;
  /** G(Y) of the receiver. */
  readonly receiverGainDb: number;
  /** -F(X) - G(Y1) - G(Y2) in dB; negative where the first term alone no longer describes the path. */
  readonly lossDb: number;
}

/** First term of diffraction over spherical Earth of one kind. Positional and unchecked. */
export function firstTerm(
  distanceM: number,
  transmitterHeightM: number,
  receiverHeightM: number,
  earthRadiusM: number,
  frequencyHz: number,
  polarisation: LinearPolarisation,
  ground: GroundConstants,
  constants: DiffractionConstants,
): FirstTerm {
  const admittance = surfaceAdmittance(earthRadiusM, frequencyHz, polarisation, ground, constants);
  const beta = groundBeta(admittance);
  const distance =
    constants.distanceFactor * beta * Math.cbrt(frequencyHz / earthRadiusM / earthRadiusM) * distanceM;
  const perMetre = constants.heightFactor * beta * Math.cbrt((frequencyHz * frequencyHz) / earthRadiusM);
  const distanceTermDb = distanceTerm(distance);
  const transmitterGainDb = heightGain(beta * perMetre * transmitterHeightM, admittance);
  const receiverGainDb = heightGain(beta * perMetre * receiverHeightM, admittance);
  return {
    admittanceRatio: admittance,
    betaRatio: beta,
    distanceRatio: distance,
    distanceTermDb,
    transmitterGainDb,
    receiverGainDb,
    lossDb: -distanceTermDb - transmitterGainDb - receiverGainDb,
  };
}

/** K. */
export function surfaceAdmittance(
  earthRadiusM: number,
  frequencyHz: number,
  polarisation: LinearPolarisation,
  { permittivityRatio, conductivitySPerM }: GroundConstants,
  { admittanceFactor, conductivityFactor }: DiffractionConstants,
): number {
  const imaginary = (conductivityFactor * conductivitySPerM) / frequencyHz;
  const squared = imaginary * imaginary;
  const horizontal =
    admittanceFactor /
    Math.cbrt(earthRadiusM * frequencyHz) /
    Math.sqrt(Math.sqrt((permittivityRatio - 1) ** 2 + squared));
  return polarisation === 'horizontal'
    ? horizontal
    : horizontal * Math.sqrt(permittivityRatio * permittivityRatio + squared);
}

/** β. */
export function groundBeta(admittance: number): number {
  const k2 = admittance * admittance;
  const k4 = k2 * k2;
  return (1 + 1.6 * k2 + 0.67 * k4) / (1 + 4.5 * k2 + 1.53 * k4);
}

/** F(X) in dB. The two branches do not meet exactly at X = 1.6. */
export function distanceTerm(x: number): number {
  return x >= 1.6 ? 11 + 10 * Math.log10(x) - 17.6 * x : -20 * Math.log10(x) - 5.6488 * x ** 1.425;
}

/** G in dB of B = βY, not below 2 + 20 log K: without that floor low antennas would lose too much. */
export function heightGain(b: number, admittance: number): number {
  const gainDb =
    b > 2 ? 17.6 * Math.sqrt(b - 1.1) - 5 * Math.log10(b - 1.1) - 8 : 20 * Math.log10(b + 0.1 * b * b * b);
  return Math.max(gainDb, 2 + 20 * Math.log10(admittance));
}
