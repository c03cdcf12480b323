import { knifeEdgeJ } from './knifeEdgeJ.js';

/** The one edge that stands for all obstacles of a path, with what it is made of. Slopes are metres per metre. */
export interface BullingtonEdge {
  /** Whether the straight ray over the curved Earth is free. */
  readonly lineOfSight: boolean;
  /** Steepest slope from the transmitter to a point between the ends; `undefined` without such a point. */
  readonly transmitterSlopeRatio: number | undefined;
  /** Slope from antenna to antenna, rise over distance. */
  readonly directSlopeRatio: number;
  /** Steepest slope from the receiver; `undefined` in line of sight. */
  readonly receiverSlopeRatio: number | undefined;
  /** Distance of the edge from the transmitter in metres: the worst point in line of sight, else where the two slopes meet. */
  readonly edgeDistanceM: number | undefined;
  /** ν of that edge: √2 times its height over the first Fresnel radius; `undefined` without a point between the ends. */
  readonly nuRatio: number | undefined;
  /** J(ν) in dB. */
  readonly knifeEdgeLossDb: number;
  /** Loss in dB beyond that of free space: J(ν) and the addition for what one edge cannot show. */
  readonly lossDb: number;
}

/** Bullington's construction. Positional and unchecked; heights and altitudes above sea level, in metres. */
export function bullingtonKernel(
  distanceM: Float64Array,
  obstacleHeightM: Float64Array,
  transmitterAltitudeM: number,
  receiverAltitudeM: number,
  effectiveEarthRadiusM: number,
  wavelengthM: number,
): BullingtonEdge {
  const last = distanceM.length - 1;
  const lengthM = distanceM[last] as number;
  const curvature = 1 / (2 * effectiveEarthRadiusM);
  const directSlopeRatio = (receiverAltitudeM - transmitterAltitudeM) / lengthM;
  let steepest = -Infinity;
  let steepestIndex = 0;
  for (let index = 1; index < last; index += 1) {
    const from = distanceM[index] as number;
    const height = (obstacleHeightM[index] as number) + curvature * from * (lengthM - from);
    const slope = (height - transmitterAltitudeM) / from;
    if (slope > steepest) {
      steepest = slope;
      steepestIndex = index;
    }
  }
  if (steepestIndex === 0) return withoutObstacle(directSlopeRatio);
  if (steepest < directSlopeRatio) {
    let nu = -Infinity;
    let nuIndex = 0;
    for (let index = 1; index < last; index += 1) {
      const from = distanceM[index] as number;
      const to = lengthM - from;
      const line = (transmitterAltitudeM * to + receiverAltitudeM * from) / lengthM;
      const over = (obstacleHeightM[index] as number) + curvature * from * to - line;
      const here = over * Math.sqrt(lengthM / (from * to));
      if (here > nu) {
        nu = here;
        nuIndex = index;
      }
    }
    return {
      lineOfSight: true,
      transmitterSlopeRatio: steepest,
      directSlopeRatio,
      receiverSlopeRatio: undefined,
      edgeDistanceM: distanceM[nuIndex],
      ...losses(nu * Math.sqrt(2 / wavelengthM), lengthM),
    };
  }
  let receiverSlope = -Infinity;
  for (let index = 1; index < last; index += 1) {
    const from = distanceM[index] as number;
    const to = lengthM - from;
    const height = (obstacleHeightM[index] as number) + curvature * from * to;
    receiverSlope = Math.max(receiverSlope, (height - receiverAltitudeM) / to);
  }
  const overTransmitter = steepest - directSlopeRatio;
  const overReceiver = receiverSlope + directSlopeRatio;
  // Printed by way of the meeting point d_b, which is 0/0 where a point only touches the ray. Putting d_b into ν leaves this product,
  // good there too and alike from both ends; a rounding must not carry it below 0.
  const product = Math.max(0, overTransmitter * overReceiver);
  const apart = overTransmitter + overReceiver;
  return {
    lineOfSight: false,
    transmitterSlopeRatio: steepest,
    directSlopeRatio,
    receiverSlopeRatio: receiverSlope,
    edgeDistanceM:
      apart > 0 && overReceiver > 0 ? (overReceiver / apart) * lengthM : distanceM[steepestIndex],
    ...losses(Math.sqrt(((2 * lengthM) / wavelengthM) * product), lengthM),
  };
}

function losses(
  nuRatio: number,
  lengthM: number,
): Pick<BullingtonEdge, 'nuRatio' | 'knifeEdgeLossDb' | 'lossDb'> {
  const knifeEdgeLossDb = knifeEdgeJ(nuRatio);
  return { nuRatio, knifeEdgeLossDb, lossDb: withMoreEdges(knifeEdgeLossDb, lengthM) };
}

/** The empirical addition to the loss of the one edge for what it cannot show. */
export function withMoreEdges(knifeEdgeLossDb: number, lengthM: number): number {
  return knifeEdgeLossDb + (1 - Math.exp(-knifeEdgeLossDb / 6)) * (10 + 2e-5 * lengthM);
}

function withoutObstacle(directSlopeRatio: number): BullingtonEdge {
  return {
    lineOfSight: true,
    transmitterSlopeRatio: undefined,
    directSlopeRatio,
    receiverSlopeRatio: undefined,
    edgeDistanceM: undefined,
    nuRatio: undefined,
    knifeEdgeLossDb: 0,
    lossDb: 0,
  };
}
