import { knifeEdgeJ } from '../../p526/knifeEdgeJ.js';
import type { RadialGround } from '../radial/RadialGround.js';

/**
 * Bullington's loss over a smooth profile with the radial's own points: all heights 0, the antennas above the smooth surface. The worst
 * points are then known up to the grid, so no search over the profile is needed; the result is that of the discrete points all the same.
 */
export class SmoothBullingtonSweep {
  private readonly curvature: number;
  private readonly nu: Float64Array;

  constructor(
    receiverCapacity: number,
    effectiveEarthRadiusM: number,
    private readonly wavelengthM: number,
  ) {
    this.curvature = 1 / (2 * effectiveEarthRadiusM);
    this.nu = new Float64Array(receiverCapacity);
  }

  /**
   * Takes the smooth loss off each spherical loss above 0 and keeps what is left, 0 or more: the delta of the method, in place. Points 1 to
   * `pointsBefore` lie before a receiver.
   */
  reduce(
    { stepM, receiverCount, receiverDistanceM }: RadialGround,
    transmitterM: Float64Array,
    receiverM: Float64Array,
    pointsBefore: Int32Array,
    sphericalDb: Float64Array,
  ): void {
    const { nu } = this;
    for (let index = 0; index < receiverCount; index += 1) {
      nu[index] = pointsBefore[index] !== 0 && (sphericalDb[index] as number) > 0 ? Number.NaN : -1;
    }
    this.findObstructed(receiverCount, stepM, receiverDistanceM, transmitterM, receiverM, pointsBefore);
    this.findInSight(receiverCount, stepM, receiverDistanceM, transmitterM, receiverM, pointsBefore);
    for (let index = 0; index < receiverCount; index += 1) {
      const spherical = pointsBefore[index] === 0 ? 0 : (sphericalDb[index] as number);
      const j = knifeEdgeJ(nu[index] as number);
      const more = 10 + 2e-5 * (receiverDistanceM[index] as number);
      const smooth = j > 0 ? j + (1 - Math.exp(-j / 6)) * more : 0;
      sphericalDb[index] = Math.max(0, spherical - smooth);
    }
  }

  /** Writes ν where the bulge hides the receiver. The steepest point lies near √(height/curvature), at one of the two points beside it. */
  private findObstructed(
    count: number,
    stepM: number,
    distanceM: Float64Array,
    transmitterM: Float64Array,
    receiverM: Float64Array,
    pointsBefore: Int32Array,
  ): void {
    const { nu, curvature, wavelengthM } = this;
    for (let index = 0; index < count; index += 1) {
      if (!Number.isNaN(nu[index])) continue;
      const d = distanceM[index] as number;
      const from = transmitterM[index] as number;
      const to = receiverM[index] as number;
      const roots = Math.sqrt(from) + Math.sqrt(to);
      // Within the horizon of the bulge itself no point of it can hide the receiver.
      if (curvature * d * d < roots * roots * (1 - 1e-9)) continue;
      const last = pointsBefore[index] as number;
      const direct = (to - from) / d - curvature * d;
      const near = stepM * between(1, Math.floor(Math.sqrt(from / curvature) / stepM), last);
      const next = Math.min(near + stepM, last * stepM);
      const steepest = Math.max(-curvature * near - from / near, -curvature * next - from / next);
      if (steepest < direct) continue;
      const far = stepM * between(1, Math.floor((d - Math.sqrt(to / curvature)) / stepM), last);
      const beyond = Math.min(far + stepM, last * stepM);
      const back = Math.max(
        curvature * (d + far) - to / (d - far),
        curvature * (d + beyond) - to / (d - beyond),
      );
      nu[index] = Math.sqrt(((2 * d) / wavelengthM) * Math.max(0, (steepest - direct) * (back + direct)));
    }
  }

  /**
   * Writes ν where the receiver is in sight. As a function of z = d2/d1, (clearance/d1)² / (1/d1 - 1/d) has one lowest place, the one
   * positive root of (to - from z)(1 + z)² + c d² z (1 - z) = 0; a walk over the points beside it finds the discrete one.
   */
  private findInSight(
    count: number,
    stepM: number,
    distanceM: Float64Array,
    transmitterM: Float64Array,
    receiverM: Float64Array,
    pointsBefore: Int32Array,
  ): void {
    const { nu, curvature, wavelengthM } = this;
    for (let index = 0; index < count; index += 1) {
      if (!Number.isNaN(nu[index])) continue;
      const d = distanceM[index] as number;
      const from = transmitterM[index] as number;
      const slope = ((receiverM[index] as number) - from) / d;
      const last = pointsBefore[index] as number;
      const place = d / (1 + lowestPlace(curvature * d * d, from, receiverM[index] as number));
      let at = between(1, Math.round(place / stepM), last);
      let least = clearance(at * stepM, d, from, slope, curvature);
      const start = at;
      while (at > 1) {
        const here = clearance((at - 1) * stepM, d, from, slope, curvature);
        if (here >= least) break;
        least = here;
        at -= 1;
      }
      while (at >= start && at < last) {
        const here = clearance((at + 1) * stepM, d, from, slope, curvature);
        if (here >= least) break;
        least = here;
        at += 1;
      }
      nu[index] = -Math.sqrt(((2 * d) / wavelengthM) * least);
    }
  }
}

/** The point, kept among the points 1 to last. */
function between(first: number, point: number, last: number): number {
  return Math.max(first, Math.min(point, last));
}

/** Square of the height of the ray over the bulge at a place, over both distances: ν² λ / (2 d). */
function clearance(near: number, d: number, from: number, slope: number, curvature: number): number {
  const far = d - near;
  const height = from + slope * near - curvature * near * far;
  return (height * height) / (near * far);
}

/** Root of the equation for the lowest place, to some thousandths: the points beside it are compared anyway. */
function lowestPlace(bulge: number, from: number, to: number): number {
  let z = Math.sqrt(to / from);
  for (let step = 0; step < 4; step += 1) {
    const one = 1 + z;
    const value = (to - from * z) * one * one + bulge * z * (1 - z);
    const slope = one * (2 * to - from * (1 + 3 * z)) + bulge * (1 - 2 * z);
    const next = z - value / slope;
    // A step below 0 leaves the range; the walk along the points then does the rest.
    if (!(next > 0)) break;
    const isSettled = Math.abs(next - z) < 0.02 * next;
    z = next;
    if (isSettled) break;
  }
  return z;
}
