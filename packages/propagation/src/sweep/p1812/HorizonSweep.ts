import { milliradians, raySlope } from '../../p1812/horizons.js';
import { largeBlock, smallBlock } from '../blockMaxima.js';
import type { RadialGround } from '../radial/RadialGround.js';
import { UpperHull } from '../upperHull.js';

/** Fresnel parameters nearer to each other than this part are told apart by the formula of the point-to-point method. */
const tied = 1 + 1e-9;
/** Slopes carry a rounding of about this much. */
const slopeRounding = 1e-15;

/**
 * Horizons over bare ground, kept up while the points of a radial arrive. The answer for the last receiver asked about stays in the fields.
 *
 * The transmitter's horizon is a running maximum. In line of sight the dominant point is none of the hull's: its level curves are convex. But a
 * point that is not steeper than all before it is dominated by one of those for every receiver, so only such records are kept, and as
 * their slopes rise, the last of a group bounds the group.
 */
export class HorizonSweep {
  /** Whether the ground hides the receiver. */
  transhorizon = false;
  /** Index of the point of either horizon; in sight, after {@link findDominant}. */
  transmitterIndex = 0;
  receiverIndex = 0;
  /** Angles above the horizontal in milliradians. */
  transmitterMrad = 0;
  receiverMrad = 0;

  private distanceM: Float64Array;
  private groundM: Float64Array;
  private stepM = 1;
  /** Hull of the points from whose height d²/2a is taken off: with it the bulge of a longer path is a straight line. */
  private readonly hull: UpperHull;
  private count = 0;
  private dominant = 0;
  private readonly slope: Float64Array;
  private readonly inverseM: Float64Array;
  private readonly pointIndex: Int32Array;
  private transmitterM = 0;
  private steepestMrad = 0;

  constructor(
    pointCapacity: number,
    private readonly earthRadiusM: number,
  ) {
    this.hull = new UpperHull(pointCapacity);
    this.slope = new Float64Array(pointCapacity);
    this.inverseM = new Float64Array(pointCapacity);
    this.pointIndex = new Int32Array(pointCapacity);
    this.distanceM = this.groundM = new Float64Array(0);
  }

  /** Begins a radial, whose points will lie evenly. */
  start(transmitterM: number, { distanceM, heightM, stepM }: RadialGround): void {
    this.transmitterM = transmitterM;
    this.distanceM = distanceM;
    this.groundM = heightM;
    this.stepM = stepM;
    this.hull.clear();
    this.count = 0;
    this.dominant = 0;
  }

  /** Takes in the next point. */
  push(index: number): void {
    const distanceM = this.distanceM[index] as number;
    const groundM = this.groundM[index] as number;
    this.hull.push(distanceM, groundM - (distanceM * distanceM) / (2 * this.earthRadiusM));
    const slope = raySlope(groundM - this.transmitterM, distanceM, this.earthRadiusM);
    const { count } = this;
    if (count > 0 && slope <= (this.slope[count - 1] as number)) return;
    this.slope[count] = slope;
    this.inverseM[count] = 1 / distanceM;
    this.pointIndex[count] = index;
    this.steepestMrad = Number.NaN;
    this.count = count + 1;
  }

  /** Finds the horizons of a receiver; in sight, only their angles. At least one point must have come. */
  find(distanceM: number, receiverM: number): void {
    const { transmitterM, earthRadiusM } = this;
    const top = this.count - 1;
    const direct = raySlope(receiverM - transmitterM, distanceM, earthRadiusM);
    this.transhorizon = (this.slope[top] as number) > direct;
    if (!this.transhorizon) {
      this.transmitterMrad = milliradians(direct);
      this.receiverMrad = milliradians(raySlope(transmitterM - receiverM, distanceM, earthRadiusM));
      return;
    }
    this.transmitterIndex = this.pointIndex[top] as number;
    if (Number.isNaN(this.steepestMrad)) this.steepestMrad = milliradians(this.slope[top] as number);
    this.transmitterMrad = this.steepestMrad;
    this.receiverIndex = this.touchedPoint(distanceM, receiverM);
    this.receiverMrad = milliradians(this.fromReceiver(this.receiverIndex, distanceM, receiverM));
  }

  /** Finds the point that stands for both horizons of a receiver in sight: apart, as only ducts ask for it. */
  findDominant(distanceM: number, receiverM: number): void {
    const direct = raySlope(receiverM - this.transmitterM, distanceM, this.earthRadiusM);
    this.transmitterIndex = this.receiverIndex = this.dominantPoint(distanceM, receiverM, direct);
  }

  /** Distance of the transmitter's horizon from the transmitter, in metres. */
  transmitterDistanceM(): number {
    return this.distanceM[this.transmitterIndex] as number;
  }

  /** Distance of the receiver's horizon from the transmitter, in metres. */
  receiverDistanceM(): number {
    return this.distanceM[this.receiverIndex] as number;
  }

  private touchedPoint(distanceM: number, receiverM: number): number {
    const { hull, stepM } = this;
    const loweredM = receiverM - (distanceM * distanceM) / (2 * this.earthRadiusM);
    const vertex = hull.tangentFrom(distanceM, loweredM);
    const index = Math.round((hull.x[vertex] as number) / stepM);
    if (vertex + 1 >= hull.count) return index;
    // Of two points that touch the same ray the method takes the one nearer to the receiver.
    const next = Math.round((hull.x[vertex + 1] as number) / stepM);
    const slope = this.fromReceiver(index, distanceM, receiverM);
    return this.fromReceiver(next, distanceM, receiverM) >= slope ? next : index;
  }

  private fromReceiver(index: number, distanceM: number, receiverM: number): number {
    const riseM = (this.groundM[index] as number) - receiverM;
    return raySlope(riseM, distanceM - (this.distanceM[index] as number), this.earthRadiusM);
  }

  /** The last point with the greatest Fresnel parameter: with x its slope and m the direct one, (m - x)²/(1/d - 1/D) is least there. */
  private dominantPoint(distanceM: number, receiverM: number, directSlope: number): number {
    const { slope, inverseM, count } = this;
    const direct = directSlope - slopeRounding;
    const inverse = 1 / distanceM;
    // Neighbouring receivers mostly share their dominant point: it gives the first bound.
    let found = this.dominant;
    let gap = Math.max(0, direct - (slope[found] as number));
    let least = ((gap * gap) / ((inverseM[found] as number) - inverse)) * tied;
    let parameter = this.fresnelParameter(found, distanceM, receiverM);
    for (let block = 0; block < count; block += largeBlock) {
      const end = Math.min(block + largeBlock, count);
      gap = direct - (slope[end - 1] as number);
      if (gap > 0 && gap * gap > least * ((inverseM[block] as number) - inverse)) continue;
      for (let part = block; part < end; part += smallBlock) {
        const stop = Math.min(part + smallBlock, end);
        gap = direct - (slope[stop - 1] as number);
        if (gap > 0 && gap * gap > least * ((inverseM[part] as number) - inverse)) continue;
        for (let record = part; record < stop; record += 1) {
          gap = Math.max(0, direct - (slope[record] as number));
          const span = (inverseM[record] as number) - inverse;
          if (gap * gap > least * span || record === found) continue;
          const candidate = this.fresnelParameter(record, distanceM, receiverM);
          if (candidate < parameter || (candidate === parameter && record < found)) continue;
          found = record;
          parameter = candidate;
          least = Math.min(least, ((gap * gap) / span) * tied);
        }
      }
    }
    this.dominant = found;
    return this.pointIndex[found] as number;
  }

  /** As the point-to-point method has it, in the same order of operations. */
  private fresnelParameter(record: number, totalM: number, receiverM: number): number {
    const index = this.pointIndex[record] as number;
    const nearM = this.distanceM[index] as number;
    const farM = totalM - nearM;
    const lineM = (this.transmitterM * farM + receiverM * nearM) / totalM;
    const riseM = (this.groundM[index] as number) + (nearM / this.earthRadiusM) * (farM / 2) - lineM;
    return riseM / Math.sqrt(nearM * farM);
  }
}
