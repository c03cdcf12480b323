/** Horizons of both ends over bare ground. Angles in milliradians above the horizontal, distances in metres. */
export interface Horizons {
  readonly transhorizon: boolean;
  readonly transmitterMrad: number;
  readonly receiverMrad: number;
  readonly transmitterDistanceM: number;
  readonly receiverDistanceM: number;
  readonly transmitterIndex: number;
  readonly receiverIndex: number;
}

/**
 * Horizons of a path with at least one point between its ends. On a line-of-sight path the point that rises highest into the Fresnel
 * zones stands for both horizons. Ties: the first point for the transmitter, the last for the receiver and in line of sight.
 *
 * This looks at bare ground with the median Earth radius; the diffraction method looks at clutter too and may differ on what is in sight.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Attachment 1 to Annex 1; equation (76) to (83) as edition 6 numbers them
 */
export function horizons(
  distanceM: Float64Array,
  groundM: Float64Array,
  transmitterM: number,
  receiverM: number,
  earthRadiusM: number,
): Horizons {
  const last = distanceM.length - 1;
  const totalM = distanceM[last] as number;
  const direct = raySlope(receiverM - transmitterM, totalM, earthRadiusM);
  let slope = Number.NEGATIVE_INFINITY;
  let index = 0;
  for (let i = 1; i < last; i++) {
    const candidate = raySlope((groundM[i] as number) - transmitterM, distanceM[i] as number, earthRadiusM);
    if (candidate > slope) {
      slope = candidate;
      index = i;
    }
  }
  if (slope <= direct) {
    return inSight(distanceM, groundM, transmitterM, receiverM, earthRadiusM);
  }
  const receiverIndex = receiverHorizonIndex(distanceM, groundM, receiverM, earthRadiusM);
  const receiverDistanceM = totalM - (distanceM[receiverIndex] as number);
  return {
    transhorizon: true,
    transmitterMrad: milliradians(slope),
    receiverMrad: milliradians(
      raySlope((groundM[receiverIndex] as number) - receiverM, receiverDistanceM, earthRadiusM),
    ),
    transmitterDistanceM: distanceM[index] as number,
    receiverDistanceM,
    transmitterIndex: index,
    receiverIndex,
  };
}

/** Slope, a plain ratio, of a ray that leaves an antenna for a point higher by `riseM` (below 0: lower) at a distance. */
export function raySlope(riseM: number, distanceM: number, earthRadiusM: number): number {
  return riseM / distanceM - distanceM / (2 * earthRadiusM);
}

/** Angle in milliradians of a slope. */
export function milliradians(slope: number): number {
  return 1000 * Math.atan(slope);
}

function receiverHorizonIndex(
  distanceM: Float64Array,
  groundM: Float64Array,
  receiverM: number,
  earthRadiusM: number,
): number {
  const last = distanceM.length - 1;
  const totalM = distanceM[last] as number;
  let slope = Number.NEGATIVE_INFINITY;
  let index = 0;
  for (let i = 1; i < last; i++) {
    const candidate = raySlope(
      (groundM[i] as number) - receiverM,
      totalM - (distanceM[i] as number),
      earthRadiusM,
    );
    if (candidate >= slope) {
      slope = candidate;
      index = i;
    }
  }
  return index;
}

function inSight(
  distanceM: Float64Array,
  groundM: Float64Array,
  transmitterM: number,
  receiverM: number,
  earthRadiusM: number,
): Horizons {
  const totalM = distanceM[distanceM.length - 1] as number;
  const index = dominantPoint(distanceM, groundM, transmitterM, receiverM, earthRadiusM);
  const transmitterDistanceM = distanceM[index] as number;
  return {
    transhorizon: false,
    transmitterMrad: milliradians(raySlope(receiverM - transmitterM, totalM, earthRadiusM)),
    receiverMrad: milliradians(raySlope(transmitterM - receiverM, totalM, earthRadiusM)),
    transmitterDistanceM,
    receiverDistanceM: totalM - transmitterDistanceM,
    transmitterIndex: index,
    receiverIndex: index,
  };
}

/** The last point between the ends that has the greatest diffraction parameter; it is the same for every wavelength. */
function dominantPoint(
  distanceM: Float64Array,
  groundM: Float64Array,
  transmitterM: number,
  receiverM: number,
  earthRadiusM: number,
): number {
  const last = distanceM.length - 1;
  const totalM = distanceM[last] as number;
  let greatest = Number.NEGATIVE_INFINITY;
  let index = 0;
  for (let i = 1; i < last; i++) {
    const nearM = distanceM[i] as number;
    const farM = totalM - nearM;
    const lineM = (transmitterM * farM + receiverM * nearM) / totalM;
    const riseM = (groundM[i] as number) + (nearM / earthRadiusM) * (farM / 2) - lineM;
    const parameter = riseM / Math.sqrt(nearM * farM);
    if (parameter >= greatest) {
      greatest = parameter;
      index = i;
    }
  }
  return index;
}

/** Angle between the two horizon rays in milliradians; about zero in line of sight. Equation (84). */
export function angularDistanceMrad(
  totalM: number,
  earthRadiusM: number,
  transmitterMrad: number,
  receiverMrad: number,
): number {
  return (1000 * totalM) / earthRadiusM + transmitterMrad + receiverMrad;
}
