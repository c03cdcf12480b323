import { checkObject } from '@finial/units';
import { type CheckedPath, checkPath } from '../path/checkPath.js';
import type { RadioPath } from '../path/RadioPath.js';
import { seaRatio } from '../path/seaRatio.js';
import { deltaBullingtonKernel } from './deltaBullingtonKernel.js';
import { type DiffractionConstants, exactConstants } from './diffractionConstants.js';
import { diffractionLimits } from './diffractionLimits.js';
import { effectiveEarthRadius, type RefractionSettings } from './effectiveEarthRadius.js';
import { smoothHeights } from './smoothHeights.js';

/** Diffraction by the delta-Bullington method, with every quantity on the way to it. */
export interface DeltaBullington {
  /** Effective radius of the Earth in metres that was used. */
  readonly effectiveEarthRadiusM: number;
  /** Part of the path over the sea, 0 to 1. */
  readonly seaRatio: number;
  /** Whether the straight ray over the curved Earth and the clutter is free. */
  readonly lineOfSight: boolean;
  /** Steepest slope from the transmitter, rise over distance; `undefined` without a point between the ends. */
  readonly transmitterSlopeRatio: number | undefined;
  /** Slope from antenna to antenna. */
  readonly directSlopeRatio: number;
  /** Steepest slope from the receiver; `undefined` in line of sight. */
  readonly receiverSlopeRatio: number | undefined;
  /** Distance of the edge that stands for all obstacles from the transmitter in metres. */
  readonly edgeDistanceM: number | undefined;
  /** ν of that edge; `undefined` without a point between the ends. */
  readonly nuRatio: number | undefined;
  /** J(ν) in dB. */
  readonly knifeEdgeLossDb: number;
  /** Bullington over the real profile in dB. */
  readonly bullingtonLossDb: number;
  /** Height of the highest bare terrain above the flat line between the antennas in metres, negative below it. */
  readonly highestObstacleM: number | undefined;
  /** Smooth surface at the transmitter in metres above sea level. */
  readonly smoothSurfaceAtTransmitterM: number;
  /** Smooth surface at the receiver in metres above sea level. */
  readonly smoothSurfaceAtReceiverM: number;
  /** Height of the transmitting antenna above the smooth surface in metres. */
  readonly smoothTransmitterHeightM: number;
  /** Height of the receiving antenna above the smooth surface in metres. */
  readonly smoothReceiverHeightM: number;
  /** ν of the edge over the smooth profile; `undefined` without a point between the ends. */
  readonly smoothNuRatio: number | undefined;
  /** Bullington over the smooth profile in dB. */
  readonly smoothBullingtonLossDb: number;
  /** Distance in metres to which the antennas see each other over the smooth Earth. */
  readonly smoothLineOfSightM: number;
  /** First term over land and sea together in dB; `undefined` where the clearance over the smooth Earth suffices. */
  readonly firstTermLossDb: number | undefined;
  /** Diffraction over the smooth spherical Earth in dB. */
  readonly sphericalEarthLossDb: number;
  /** Loss in dB beyond that of free space. */
  readonly lossDb: number;
  /** What a reader should know of this result. */
  readonly warnings: readonly string[];
}

/**
 * Diffraction loss of a path over real terrain in dB beyond free space, by the delta-Bullington method: Bullington's one edge for the
 * real profile, plus what spherical Earth costs more than the same construction over a smooth profile.
 *
 * The standards' choice for a general path; a median over what the profile does not show. Clutter at the points counts as terrain, except
 * at the two ends. The result depends on the spacing of the points: 30 to 100 m is usual. It has steps of hundredths of a dB where the
 * formulas' pieces meet, and as defined it falls a little (up to 3 dB, over a plain at 868 MHz) while a lone ridge rises through the line
 * between the antennas, since the smooth surface is then lowered. A path without a point between its ends has no
 * loss, and the result warns.
 *
 * @param path - frequency 30 MHz to 100 GHz, antennas 0.1 to 10000 m above their ground, length 1 m to 3000 km (bounds of this package,
 * not of the Recommendation)
 * @returns the loss and its parts; within 0.0003 dB of the published validation cases
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Recommendation ITU-R P.526-16 (11/2025), section 4.5.2; the same as P.1812-6, equations 13 to 39 and 85 to 90, in
 * self-consistent units
 * @example A ridge halfway
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const path = {
 *   frequencyHz: 868.1e6, distanceM: [0, 1000, 2500, 4000, 5000], heightM: [0, 5, 30, 5, 0],
 *   transmitterHeightM: 20, receiverHeightM: 2,
 * };
 * p526.deltaBullington(path, { deltaN: 40 }).lossDb; // ≈ 30.24
 * ```
 */
export function deltaBullington(path: RadioPath, settings: RefractionSettings = {}): DeltaBullington {
  const checked = checkPath(path, diffractionLimits);
  return deltaBullingtonOf(checked, effectiveEarthRadius(checkObject(settings, 'settings')), exactConstants);
}

/** The method for a checked path and given constants: the validation cases come with their own speed of light. */
export function deltaBullingtonOf(
  path: CheckedPath,
  effectiveEarthRadiusM: number,
  constants: DiffractionConstants,
): DeltaBullington {
  const { distanceM, heightM, transmitterAltitudeM, receiverAltitudeM } = path;
  const surface = smoothHeights(distanceM, heightM, transmitterAltitudeM, receiverAltitudeM);
  const smoothTransmitterHeightM = transmitterAltitudeM - surface.transmitterM;
  const smoothReceiverHeightM = receiverAltitudeM - surface.receiverM;
  const sea = seaRatio(distanceM, path.zone);
  const { actual, smooth, spherical, lossDb } = deltaBullingtonKernel(
    distanceM,
    path.obstacleHeightM,
    transmitterAltitudeM,
    receiverAltitudeM,
    smoothTransmitterHeightM,
    smoothReceiverHeightM,
    effectiveEarthRadiusM,
    path.frequencyHz,
    path.polarisation,
    sea,
    constants,
  );
  const { lossDb: bullingtonLossDb, ...edge } = actual;
  return {
    effectiveEarthRadiusM,
    seaRatio: sea,
    ...edge,
    bullingtonLossDb,
    highestObstacleM: surface.highestObstacleM,
    smoothSurfaceAtTransmitterM: surface.transmitterM,
    smoothSurfaceAtReceiverM: surface.receiverM,
    smoothTransmitterHeightM,
    smoothReceiverHeightM,
    smoothNuRatio: smooth.nuRatio,
    smoothBullingtonLossDb: smooth.lossDb,
    smoothLineOfSightM: spherical.lineOfSightM,
    firstTermLossDb: spherical.firstTermLossDb,
    sphericalEarthLossDb: spherical.lossDb,
    lossDb,
    warnings:
      distanceM.length > 2 ? [] : ['the profile has no point between its ends: no diffraction was counted'],
  };
}
