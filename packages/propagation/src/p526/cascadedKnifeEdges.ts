import { wavelengthM } from '@finial/radio';
import { checkObject } from '@finial/units';
import { checkPath } from '../path/checkPath.js';
import type { RadioPath } from '../path/RadioPath.js';
import { diffractionLimits } from './diffractionLimits.js';
import { effectiveEarthRadius, type RefractionSettings } from './effectiveEarthRadius.js';
import { knifeEdgeJ } from './knifeEdgeJ.js';

/** Diffraction at up to three edges of a profile. */
export interface CascadedKnifeEdges {
  /** Distance of the principal edge from the transmitter in metres; `undefined` without a point between the ends. */
  readonly principalDistanceM: number | undefined;
  /** ν of the principal edge. */
  readonly principalNuRatio: number | undefined;
  /** J(ν) of the principal edge in dB. */
  readonly principalLossDb: number;
  /** Distance of the edge between transmitter and principal edge in metres; `undefined` where there is none that counts. */
  readonly transmitterSideDistanceM: number | undefined;
  /** J(ν) of that edge in dB. */
  readonly transmitterSideLossDb: number;
  /** Distance of the edge between principal edge and receiver from the transmitter in metres; `undefined` where there is none that counts. */
  readonly receiverSideDistanceM: number | undefined;
  /** J(ν) of that edge in dB. */
  readonly receiverSideLossDb: number;
  /** The empirical addition in dB. */
  readonly additionDb: number;
  /** Loss in dB beyond that of free space: all of the above, the edges of the sides weighted down where the principal one is weak. */
  readonly lossDb: number;
}

/** An edge among the points of a profile. */
interface Edge {
  readonly index: number;
  readonly nu: number;
}

/**
 * Diffraction at the principal edge of a path and at the worst edge on either side of it, in dB beyond free space.
 *
 * A second opinion on paths with two or three clear ridges, after Deygout's construction with an empirical addition. On smooth ground it
 * counts edges that are none; there {@link deltaBullington} is the better answer. The addition is 10 dB and 0.04 dB per kilometre,
 * weighted by 1 - exp(-J/6), so that it fades out with the principal edge.
 *
 * @param path - as for {@link deltaBullington}
 * @returns the loss and its edges
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Recommendation ITU-R P.526, section 4.4.2 (cascaded knife edges), from memory
 * @example Two ridges
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const edges = p526.cascadedKnifeEdges({
 *   frequencyHz: 868.1e6, distanceM: [0, 1000, 2000, 3000, 5000], heightM: [0, 40, 0, 30, 0],
 *   transmitterHeightM: 20, receiverHeightM: 2,
 * });
 * edges.principalDistanceM; // → 1000
 * edges.receiverSideDistanceM; // → 3000
 * ```
 */
export function cascadedKnifeEdges(path: RadioPath, settings: RefractionSettings = {}): CascadedKnifeEdges {
  const { distanceM, obstacleHeightM, ...ends } = checkPath(path, diffractionLimits);
  const radiusM = effectiveEarthRadius(checkObject(settings, 'settings'));
  const waveM = wavelengthM(ends.frequencyHz);
  const last = distanceM.length - 1;
  const worst = (from: number, fromHeightM: number, to: number, toHeightM: number): Edge | undefined =>
    worstEdge(distanceM, obstacleHeightM, from, fromHeightM, to, toHeightM, radiusM, waveM);
  const principal = worst(0, ends.transmitterAltitudeM, last, ends.receiverAltitudeM);
  const principalLossDb = lossOf(principal);
  const counts = principal !== undefined && principalLossDb > 0;
  const topM = counts ? (obstacleHeightM[principal.index] as number) : 0;
  const near = counts ? worst(0, ends.transmitterAltitudeM, principal.index, topM) : undefined;
  const far = counts ? worst(principal.index, topM, last, ends.receiverAltitudeM) : undefined;
  const transmitterSideLossDb = lossOf(near);
  const receiverSideLossDb = lossOf(far);
  const weight = 1 - Math.exp(-principalLossDb / 6);
  const additionDb = weight * (10 + 4e-5 * ends.lengthM);
  return {
    principalDistanceM: principal && distanceM[principal.index],
    principalNuRatio: principal?.nu,
    principalLossDb,
    transmitterSideDistanceM: transmitterSideLossDb > 0 && near ? distanceM[near.index] : undefined,
    transmitterSideLossDb,
    receiverSideDistanceM: receiverSideLossDb > 0 && far ? distanceM[far.index] : undefined,
    receiverSideLossDb,
    additionDb,
    lossDb: principalLossDb + weight * (transmitterSideLossDb + receiverSideLossDb) + additionDb,
  };
}

function lossOf(edge: Edge | undefined): number {
  return edge === undefined ? 0 : knifeEdgeJ(edge.nu);
}

/** The point with the greatest ν between two others; the first one where several are alike. */
function worstEdge(
  distanceM: Float64Array,
  heightM: Float64Array,
  from: number,
  fromHeightM: number,
  to: number,
  toHeightM: number,
  radiusM: number,
  waveM: number,
): Edge | undefined {
  const start = distanceM[from] as number;
  const end = distanceM[to] as number;
  let found: Edge | undefined;
  for (let index = from + 1; index < to; index += 1) {
    const near = (distanceM[index] as number) - start;
    const far = end - (distanceM[index] as number);
    const line = (fromHeightM * far + toHeightM * near) / (end - start);
    const over = (heightM[index] as number) + (near * far) / (2 * radiusM) - line;
    const nu = over * Math.sqrt((2 / waveM) * ((end - start) / (near * far)));
    if (found === undefined || nu > found.nu) found = { index, nu };
  }
  return found;
}
