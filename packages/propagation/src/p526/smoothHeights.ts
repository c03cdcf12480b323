/** The smooth surface under a path, fitted to bare terrain without the curvature of the Earth, in metres above sea level. */
export interface SmoothHeights {
  /** The fitted straight line at the two ends. */
  readonly fittedTransmitterM: number;
  readonly fittedReceiverM: number;
  /** Height of the highest terrain above the straight line between the antennas; below 0 where all lies under it. */
  readonly highestObstacleM: number | undefined;
  /** The line at the ends, lowered for that obstacle, before the ground at the ends bounds it. */
  readonly loweredTransmitterM: number;
  readonly loweredReceiverM: number;
  /** Smooth surface at the ends for diffraction: never above the ground there. */
  readonly transmitterM: number;
  readonly receiverM: number;
}

/** An obstacle that only touches the line would share out by 0/0 noise: up to this height it counts as none. */
const touchingM = 1e-10;

/** Fits the smooth surface for the diffraction model. Positional and unchecked. */
export function smoothHeights(
  distanceM: Float64Array,
  heightM: Float64Array,
  transmitterAltitudeM: number,
  receiverAltitudeM: number,
): SmoothHeights {
  const last = distanceM.length - 1;
  const lengthM = distanceM[last] as number;
  const { fittedTransmitterM, fittedReceiverM } = fittedLine(distanceM, heightM);
  let highest = -Infinity;
  let fromTransmitter = -Infinity;
  let fromReceiver = -Infinity;
  for (let index = 1; index < last; index += 1) {
    const from = distanceM[index] as number;
    const to = lengthM - from;
    const over =
      (heightM[index] as number) - (transmitterAltitudeM * to + receiverAltitudeM * from) / lengthM;
    highest = Math.max(highest, over);
    fromTransmitter = Math.max(fromTransmitter, over / from);
    fromReceiver = Math.max(fromReceiver, over / to);
  }
  const lowering = highest > touchingM ? highest / (fromTransmitter + fromReceiver) : 0;
  const loweredTransmitterM = fittedTransmitterM - (lowering > 0 ? lowering * fromTransmitter : 0);
  const loweredReceiverM = fittedReceiverM - (lowering > 0 ? lowering * fromReceiver : 0);
  return {
    fittedTransmitterM,
    fittedReceiverM,
    highestObstacleM: last > 1 ? highest : undefined,
    loweredTransmitterM,
    loweredReceiverM,
    transmitterM: Math.min(loweredTransmitterM, heightM[0] as number),
    receiverM: Math.min(loweredReceiverM, heightM[last] as number),
  };
}

function fittedLine(
  distanceM: Float64Array,
  heightM: Float64Array,
): { readonly fittedTransmitterM: number; readonly fittedReceiverM: number } {
  let area = 0;
  let moment = 0;
  for (let index = 1; index < distanceM.length; index += 1) {
    const near = distanceM[index - 1] as number;
    const far = distanceM[index] as number;
    const nearHeight = heightM[index - 1] as number;
    const farHeight = heightM[index] as number;
    area += (far - near) * (farHeight + nearHeight);
    moment += (far - near) * (farHeight * (2 * far + near) + nearHeight * (far + 2 * near));
  }
  const lengthM = distanceM[distanceM.length - 1] as number;
  return {
    fittedTransmitterM: (2 * area * lengthM - moment) / lengthM / lengthM,
    fittedReceiverM: (moment - area * lengthM) / lengthM / lengthM,
  };
}
