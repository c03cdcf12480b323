import type { DiffractionConstants } from '../../p526/diffractionConstants.js';
import {
  distanceTerm,
  type GroundConstants,
  groundBeta,
  heightGain,
  landConstants,
  seaConstants,
  surfaceAdmittance,
} from '../../p526/firstTerm.js';
import type { LinearPolarisation } from '../../path/RadioPath.js';

const dbPerNeper = 10 / Math.LN10;

/** The first term over one kind of ground, with everything that does not depend on the path worked out. */
interface GroundTerm {
  /** K at the effective radius; it grows with the cube root of effective over used radius. */
  readonly admittance: number;
  /** X per β and metre at the effective radius; grows with the square of that root. */
  readonly distancePerM: number;
  /** Y per β and metre at the effective radius; grows with that root. */
  readonly heightPerM: number;
}

/** Diffraction over smooth spherical Earth for every receiver of a radial: a closed form, pass by pass over the receivers. */
export class SphericalEarthSweep {
  /** What scales the first term: 1 beyond the horizon, the missing share of the clearance within, 0 where nothing is missing. */
  private readonly share: Float64Array;
  /** Cube root of effective over used Earth radius; exactly 1 beyond the horizon. */
  private readonly radiusRoot: Float64Array;
  /** Part of each path over land. */
  private readonly weight: Float64Array;
  private readonly land: GroundTerm;
  private readonly sea: GroundTerm;
  private readonly requiredFactor: number;

  constructor(
    receiverCapacity: number,
    private readonly effectiveEarthRadiusM: number,
    frequencyHz: number,
    polarisation: LinearPolarisation,
    constants: DiffractionConstants,
  ) {
    this.share = new Float64Array(receiverCapacity);
    this.radiusRoot = new Float64Array(receiverCapacity);
    this.weight = new Float64Array(receiverCapacity);
    const term = (ground: GroundConstants): GroundTerm => ({
      admittance: surfaceAdmittance(effectiveEarthRadiusM, frequencyHz, polarisation, ground, constants),
      distancePerM:
        constants.distanceFactor * Math.cbrt(frequencyHz / effectiveEarthRadiusM / effectiveEarthRadiusM),
      heightPerM: constants.heightFactor * Math.cbrt((frequencyHz * frequencyHz) / effectiveEarthRadiusM),
    });
    this.land = term(landConstants);
    this.sea = term(seaConstants);
    this.requiredFactor = constants.clearanceFactor * Math.sqrt(constants.speedOfLightMPerS / frequencyHz);
  }

  /** Writes the loss of each receiver in dB: distances, antennas above the smooth surface and share of sea come by receiver. */
  losses(
    count: number,
    distanceM: Float64Array,
    transmitterM: Float64Array,
    receiverM: Float64Array,
    seaRatio: Float64Array,
    lossDb: Float64Array,
  ): void {
    const { share, radiusRoot, land, sea } = this;
    this.weighClearance(count, distanceM, transmitterM, receiverM);
    lossDb.fill(0, 0, count);
    let anySea = false;
    let anyLand = false;
    for (let index = 0; index < count; index += 1) {
      if ((seaRatio[index] as number) < 1) anyLand = true;
      if ((seaRatio[index] as number) > 0) anySea = true;
      this.weight[index] = 1 - (seaRatio[index] as number);
    }
    if (anyLand) this.addFirstTerms(land, count, distanceM, transmitterM, receiverM, this.weight, lossDb);
    if (anySea) this.addFirstTerms(sea, count, distanceM, transmitterM, receiverM, seaRatio, lossDb);
    for (let index = 0; index < count; index += 1) {
      // Only within sight: beyond the horizon the first term stands as it is.
      if (radiusRoot[index] === 1) continue;
      lossDb[index] = (share[index] as number) * Math.max(lossDb[index] as number, 0);
    }
  }

  /** Adds -F(X) - G(Y1) - G(Y2) over one ground, times its weight, where clearance is missing. */
  private addFirstTerms(
    term: GroundTerm,
    count: number,
    distanceM: Float64Array,
    transmitterM: Float64Array,
    receiverM: Float64Array,
    weight: Float64Array,
    lossDb: Float64Array,
  ): void {
    const { share, radiusRoot } = this;
    for (let index = 0; index < count; index += 1) {
      if (share[index] === 0 || weight[index] === 0) continue;
      const root = radiusRoot[index] as number;
      const admittance = term.admittance * root;
      const beta = groundBeta(admittance);
      const x = beta * term.distancePerM * root * root * (distanceM[index] as number);
      const perMetre = beta * beta * term.heightPerM * root;
      const b1 = perMetre * (transmitterM[index] as number);
      const b2 = perMetre * (receiverM[index] as number);
      const loss =
        admittance > 1
          ? -distanceTerm(x) - heightGain(b1, admittance) - heightGain(b2, admittance)
          : minusDistanceTerm(x) - heightGains(b1, b2, admittance);
      lossDb[index] = (lossDb[index] as number) + (weight[index] as number) * loss;
    }
  }

  /** Finds for each receiver how much of the clearance is missing, and the Earth radius that the first term then takes. */
  private weighClearance(
    count: number,
    distanceM: Float64Array,
    transmitterM: Float64Array,
    receiverM: Float64Array,
  ): void {
    const { share, radiusRoot, effectiveEarthRadiusM, requiredFactor } = this;
    const horizonFactor = 2 * effectiveEarthRadiusM;
    for (let index = 0; index < count; index += 1) {
      const d = distanceM[index] as number;
      const from = transmitterM[index] as number;
      const to = receiverM[index] as number;
      const roots = Math.sqrt(from) + Math.sqrt(to);
      const inSightM2 = horizonFactor * roots * roots;
      if (d * d >= inSightM2) {
        share[index] = 1;
        radiusRoot[index] = 1;
        continue;
      }
      // Most near cells: even the lower antenna, less the most that the bulge can take, clears the most that can be asked.
      const leastClearance = Math.min(from, to) - (d * d) / (4 * horizonFactor);
      if (
        leastClearance > 0 &&
        leastClearance * leastClearance > 0.25 * requiredFactor * requiredFactor * d
      ) {
        share[index] = 0;
        continue;
      }
      const near = 0.5 * d * (1 + nearnessRatio(d, from, to, effectiveEarthRadiusM));
      const far = d - near;
      const clearance = (from * far + to * near) / d - (near * far) / horizonFactor;
      const required = requiredFactor * Math.sqrt((near * far) / d);
      const missing = 1 - clearance / required;
      share[index] = Math.max(0, missing);
      if (missing > 0) radiusRoot[index] = Math.cbrt(inSightM2 / (d * d));
    }
  }
}

/**
 * Where the ray passes nearest above the smooth Earth, from -1 (transmitter) to 1 (receiver): the root b of m b³ - (m + 1) b + c = 0 that
 * the Recommendation writes with an arc cosine. Within sight m is below 1, and Newton's steps from c/(m + 1) come from one side.
 */
function nearnessRatio(d: number, from: number, to: number, earthRadiusM: number): number {
  const sum = from + to;
  const c = (from - to) / sum;
  const m = (d * d) / (4 * earthRadiusM * sum);
  let b = c / (m + 1);
  for (let step = 0; step < 12; step += 1) {
    const square = b * b;
    const change = (b * (m * square - m - 1) + c) / (3 * m * square - m - 1);
    b -= change;
    // The step squares the error: what is left is rounding.
    if (change * change < 1e-14) break;
  }
  return b;
}

/** -F(X) in dB. */
function minusDistanceTerm(x: number): number {
  const log = Math.log(x);
  return x >= 1.6 ? 17.6 * x - 11 - dbPerNeper * log : 2 * dbPerNeper * log + 5.6488 * Math.exp(1.425 * log);
}

/**
 * G(Y1) + G(Y2) in dB for K up to 1. The floor under G then lies below every G of a B above 2, so it bounds only the other branch, before
 * the logarithm; and one logarithm serves both, G = rest + 5 lg(factor).
 */
function heightGains(b1: number, b2: number, admittance: number): number {
  const least = 1.2589254117941673 * admittance;
  let factor = 1;
  let rest = 0;
  if (b1 > 2) {
    factor /= b1 - 1.1;
    rest += 17.6 * Math.sqrt(b1 - 1.1) - 8;
  } else {
    const low = Math.max(b1 + 0.1 * b1 * b1 * b1, least);
    factor *= low * low * low * low;
  }
  if (b2 > 2) {
    factor /= b2 - 1.1;
    rest += 17.6 * Math.sqrt(b2 - 1.1) - 8;
  } else {
    const low = Math.max(b2 + 0.1 * b2 * b2 * b2, least);
    factor *= low * low * low * low;
  }
  return rest + 0.5 * dbPerNeper * Math.log(factor);
}
