import type { RadialGround } from '../radial/RadialGround.js';
import { UpperHull } from '../upperHull.js';

/** An obstacle that only touches the line would share out by 0/0 noise: up to this height it counts as none, as point to point. */
const touchingM = 1e-10;

/**
 * Heights of both antennas above the smooth surface for every receiver of a radial: running sums for the fitted line, and a hull of the bare,
 * uncurved terrain for the highest obstacle and the slope back to it. Buffers are used again for every radial.
 */
export class SmoothSurfaceSweep {
  /** Height of the gateway's antenna above the smooth surface at the gateway, for each receiver. */
  readonly transmitterM: Float64Array;
  /** Height of each receiving antenna above the smooth surface. */
  readonly receiverM: Float64Array;
  /** The fitted line at both ends before an obstacle lowers it, in metres above sea level. */
  readonly fittedTransmitterM: Float64Array;
  readonly fittedReceiverM: Float64Array;

  private readonly hull: UpperHull;

  constructor(pointCapacity: number, receiverCapacity: number) {
    this.hull = new UpperHull(pointCapacity);
    this.transmitterM = new Float64Array(receiverCapacity);
    this.receiverM = new Float64Array(receiverCapacity);
    this.fittedTransmitterM = new Float64Array(receiverCapacity);
    this.fittedReceiverM = new Float64Array(receiverCapacity);
  }

  /** Finds the heights for every receiver. */
  heightsAlong(ground: RadialGround, transmitterAltitudeM: number, receiverHeightM: number): void {
    this.fitLines(ground);
    const { hull, fittedTransmitterM, fittedReceiverM } = this;
    const { pointCount, distanceM, heightM, receiverCount, receiverDistanceM } = ground;
    const gatewayGroundM = heightM[0] as number;
    hull.clear();
    let next = 1;
    let steepest = -Infinity;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const lengthM = receiverDistanceM[receiver] as number;
      for (; next < pointCount && (distanceM[next] as number) < lengthM; next += 1) {
        const height = heightM[next] as number;
        hull.push(distanceM[next] as number, height);
        steepest = Math.max(steepest, (height - transmitterAltitudeM) / (distanceM[next] as number));
      }
      const groundM = ground.receiverHeightM[receiver] as number;
      const receiverAltitudeM = groundM + receiverHeightM;
      let atTransmitterM = fittedTransmitterM[receiver] as number;
      let atReceiverM = fittedReceiverM[receiver] as number;
      const direct = (receiverAltitudeM - transmitterAltitudeM) / lengthM;
      if (steepest > direct) {
        const highest = this.highestObstacle(transmitterAltitudeM, direct);
        const fromTransmitter = steepest - direct;
        const fromReceiver = this.slopeFromReceiver(lengthM, receiverAltitudeM) + direct;
        const lowering = highest > touchingM ? highest / (fromTransmitter + fromReceiver) : 0;
        atTransmitterM -= lowering * fromTransmitter;
        atReceiverM -= lowering * fromReceiver;
      }
      this.transmitterM[receiver] = transmitterAltitudeM - Math.min(atTransmitterM, gatewayGroundM);
      this.receiverM[receiver] = receiverAltitudeM - Math.min(atReceiverM, groundM);
    }
  }

  /** The line fitted to the bare ground between the ends, both included: sums over the points and the last gap up to the receiver. */
  private fitLines(ground: RadialGround): void {
    const { fittedTransmitterM, fittedReceiverM } = this;
    const { pointCount, distanceM, heightM, receiverCount, receiverDistanceM } = ground;
    let area = 0;
    let moment = 0;
    let next = 1;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const lengthM = receiverDistanceM[receiver] as number;
      let near = distanceM[next - 1] as number;
      let nearHeight = heightM[next - 1] as number;
      for (; next < pointCount && (distanceM[next] as number) < lengthM; next += 1) {
        const far = distanceM[next] as number;
        const farHeight = heightM[next] as number;
        area += (far - near) * (farHeight + nearHeight);
        moment += (far - near) * (farHeight * (2 * far + near) + nearHeight * (far + 2 * near));
        near = far;
        nearHeight = farHeight;
      }
      const height = ground.receiverHeightM[receiver] as number;
      const gap = lengthM - near;
      const wholeArea = area + gap * (height + nearHeight);
      const wholeMoment = moment + gap * (height * (2 * lengthM + near) + nearHeight * (lengthM + 2 * near));
      fittedTransmitterM[receiver] = (2 * wholeArea * lengthM - wholeMoment) / (lengthM * lengthM);
      fittedReceiverM[receiver] = (wholeMoment - wholeArea * lengthM) / (lengthM * lengthM);
    }
  }

  /** Height of the highest terrain above the straight line from antenna to antenna. */
  private highestObstacle(transmitterAltitudeM: number, direct: number): number {
    const { hull } = this;
    const vertex = hull.highestAbove(direct);
    return (hull.y[vertex] as number) - transmitterAltitudeM - direct * (hull.x[vertex] as number);
  }

  private slopeFromReceiver(lengthM: number, receiverAltitudeM: number): number {
    const { hull } = this;
    const vertex = hull.tangentFrom(lengthM, receiverAltitudeM);
    return ((hull.y[vertex] as number) - receiverAltitudeM) / (lengthM - (hull.x[vertex] as number));
  }
}
