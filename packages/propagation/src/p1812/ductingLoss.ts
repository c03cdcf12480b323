import type { PathScalars } from './PathScalars.js';

/** Least share of time in percent that the duct formulas are asked for: its logarithm must stay finite on very rough, long paths. */
const leastTimePercent = 1e-100;

/**
 * Loss of coupling into and out of the duct, without the angle and the time, in dB (A_f).
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.5; equation (47) as edition 6 numbers them
 */
export function ductCouplingLossDb(frequencyGHz: number, horizonsKm: number, endsDb: number): number {
  return ductCouplingConstantDb(frequencyGHz) + 20 * Math.log10(horizonsKm) + endsDb;
}

/** The part of it that is the same for every path. */
export function ductCouplingConstantDb(frequencyGHz: number): number {
  // Below 500 MHz waves fit the duct badly.
  const lowFrequencyDb = frequencyGHz < 0.5 ? 45.375 - 137 * frequencyGHz + 92.5 * frequencyGHz ** 2 : 0;
  return 102.45 + 20 * Math.log10(frequencyGHz) + lowFrequencyDb;
}

/** Loss at one end that is shielded by its near horizon, in dB (A_s). Equation (48). */
export function siteShieldingDb(frequencyGHz: number, horizonMrad: number, horizonKm: number): number {
  const excessMrad = horizonMrad - 0.1 * horizonKm;
  if (excessMrad <= 0) return 0;
  return (
    20 * Math.log10(1 + 0.361 * excessMrad * Math.sqrt(frequencyGHz * horizonKm)) +
    0.264 * excessMrad * Math.cbrt(frequencyGHz)
  );
}

/** What one end gains by standing near the sea, in dB, at most 0 (A_c). Equation (49). */
export function seaCouplingDb(
  seaShare: number,
  coastKm: number,
  horizonKm: number,
  antennaM: number,
): number {
  if (seaShare < 0.75 || coastKm > horizonKm || coastKm > 5) return 0;
  return -3 * Math.exp(-0.25 * coastKm * coastKm) * (1 + Math.tanh(0.07 * (50 - antennaM)));
}

/** Loss by the angle that the duct must bend through, in dB. Equations (51) and (52). */
export function ductAngleLossDb(
  frequencyGHz: number,
  distanceKm: number,
  earthRadiusKm: number,
  transmitterMrad: number,
  receiverMrad: number,
  transmitterKm: number,
  receiverKm: number,
): number {
  return (
    ductLossPerMradDb(frequencyGHz, earthRadiusKm) *
    ductAngleMrad(distanceKm, earthRadiusKm, transmitterMrad, receiverMrad, transmitterKm, receiverKm)
  );
}

/** What a milliradian of that angle costs in dB (γ_d); the same for every path. */
export function ductLossPerMradDb(frequencyGHz: number, earthRadiusKm: number): number {
  return 5e-5 * earthRadiusKm * Math.cbrt(frequencyGHz);
}

/** That angle in milliradians: what lies above a horizon is shielding, not bending. */
export function ductAngleMrad(
  distanceKm: number,
  earthRadiusKm: number,
  transmitterMrad: number,
  receiverMrad: number,
  transmitterKm: number,
  receiverKm: number,
): number {
  return (
    (1000 * distanceKm) / earthRadiusKm +
    Math.min(transmitterMrad, 0.1 * transmitterKm) +
    Math.min(receiverMrad, 0.1 * receiverKm)
  );
}

/** Factor by which the geometry of the path shortens the time of ducts (μ2). Equations (55) and (55a). */
export function geometryFactor(
  distanceKm: number,
  earthRadiusKm: number,
  transmitterM: number,
  receiverM: number,
  influence: number,
): number {
  const roots = Math.sqrt(transmitterM) + Math.sqrt(receiverM);
  const beyondSight = (500 * distanceKm * distanceKm) / (earthRadiusKm * roots * roots);
  // The exponent is below 0, and the factor not above 1.
  if (beyondSight <= 1) return 1;
  const exponent = Math.max(-0.6 - 3.5e-9 * distanceKm ** 3.1 * influence, -3.4);
  return beyondSight ** exponent;
}

/** Factor by which rough ground between the horizons shortens the time of ducts (μ3). Equation (56). */
export function roughnessFactor(roughnessM: number, betweenHorizonsKm: number): number {
  if (roughnessM <= 10) return 1;
  return Math.exp(-4.6e-5 * (roughnessM - 10) * (43 + 6 * Math.min(betweenHorizonsKm, 40)));
}

/** Loss by the time percentage in dB (A_p); `ductPercent` is the time of ducts on this path (β). Equations (53) and (54). */
export function ductTimeLossDb(timePercent: number, ductPercent: number, distanceKm: number): number {
  const beta = Math.max(ductPercent, leastTimePercent);
  const logBeta = Math.log10(beta);
  const logRatio = Math.log10(timePercent) - logBeta;
  const power = Math.exp(Math.LN10 * ductExponent(logBeta, distanceKm) * logRatio);
  return -12 + (1.2 + 3.7e-3 * distanceKm) * logRatio + 12 * power;
}

/**
 * A bound that this loss does not fall below on paths up to a length, where the time of ducts is at most `greatestPercent`.
 *
 * Write u = -log β and t for the log of the time: the power of (53) is 10^(Γ(u) (t + u)). The logarithm of Γ(u) (t + u) rises with u
 * only while 2.0058 - 1.012 t - 0.012 u outweighs a product that grows with u, so it rises first and falls after: it is least at an end.
 */
export function leastDuctTimeLossDb(
  timePercent: number,
  greatestPercent: number,
  greatestDistanceKm: number,
): number {
  const logRatio = Math.log10(timePercent / greatestPercent);
  if (logRatio < 0) return -12 + (1.2 + 3.7e-3 * greatestDistanceKm) * logRatio;
  const powerLog = (percent: number): number =>
    ductExponent(Math.log10(percent), greatestDistanceKm) * Math.log10(timePercent / percent);
  return -12 + 1.2 * logRatio + 12 * 10 ** Math.min(powerLog(greatestPercent), powerLog(leastTimePercent));
}

/** Γ, for the logarithm of β. */
function ductExponent(logBeta: number, distanceKm: number): number {
  return (
    1.076 *
    Math.exp(
      -1.012 * Math.log(2.0058 - logBeta) -
        (9.51 - 4.8 * logBeta + 0.198 * logBeta * logBeta) * 1e-6 * Math.exp(1.13 * Math.log(distanceKm)),
    )
  );
}

/** Loss by ducting and layer reflection, with what it is made of. */
export interface DuctingLoss {
  readonly shieldingDb: number;
  readonly seaDb: number;
  readonly couplingDb: number;
  readonly angleDb: number;
  readonly geometryFactor: number;
  readonly roughnessFactor: number;
  readonly ductPercent: number;
  readonly timeDb: number;
  readonly lossDb: number;
}

/** Basic transmission loss by ducting and layer reflection. Equations (46) to (56) put together. */
export function ductingLoss(path: PathScalars, timePercent: number): DuctingLoss {
  const { frequencyGHz, distanceKm, earthRadiusKm, transmitterHorizonKm, receiverHorizonKm } = path;
  const shieldingDb =
    siteShieldingDb(frequencyGHz, path.transmitterHorizonMrad, transmitterHorizonKm) +
    siteShieldingDb(frequencyGHz, path.receiverHorizonMrad, receiverHorizonKm);
  const seaDb =
    seaCouplingDb(path.seaShare, path.transmitterCoastKm, transmitterHorizonKm, path.transmitterM) +
    seaCouplingDb(path.seaShare, path.receiverCoastKm, receiverHorizonKm, path.receiverM);
  const horizonsKm = transmitterHorizonKm + receiverHorizonKm;
  const couplingDb = ductCouplingLossDb(frequencyGHz, horizonsKm, shieldingDb + seaDb);
  const angleDb = ductAngleLossDb(
    frequencyGHz,
    distanceKm,
    earthRadiusKm,
    path.transmitterHorizonMrad,
    path.receiverHorizonMrad,
    transmitterHorizonKm,
    receiverHorizonKm,
  );
  const byGeometry = geometryFactor(
    distanceKm,
    earthRadiusKm,
    path.ductTransmitterM,
    path.ductReceiverM,
    path.inlandInfluence,
  );
  const byRoughness = roughnessFactor(path.roughnessM, distanceKm - horizonsKm);
  const ductPercent = path.anomalousTimePercent * byGeometry * byRoughness;
  const timeDb = ductTimeLossDb(timePercent, ductPercent, distanceKm);
  return {
    shieldingDb,
    seaDb,
    couplingDb,
    angleDb,
    geometryFactor: byGeometry,
    roughnessFactor: byRoughness,
    ductPercent,
    timeDb,
    lossDb: couplingDb + angleDb + timeDb,
  };
}
