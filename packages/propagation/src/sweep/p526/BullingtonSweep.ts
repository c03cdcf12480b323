import { knifeEdgeJ } from '../../p526/knifeEdgeJ.js';
import { BlockMaxima, largeBlock, smallBlock } from '../blockMaxima.js';
import type { RadialGround } from '../radial/RadialGround.js';
import { UpperHull } from '../upperHull.js';

/** ν up to which a knife edge loses nothing. */
const harmlessNu = 0.78;

/**
 * Bullington's loss for every receiver of a radial, equal to the construction on each receiver's own profile.
 *
 * With the curvature folded into the points, y = g - d²/(2a), neither the slopes from the gateway nor the hull depend on the receiver: the
 * bulge that a longer path adds is a straight line in d. So what the points say is kept up as they come, and a receiver costs a few
 * steps however far it is. Each step is a pass over all receivers of the radial, in buffers that are used again.
 */
export class BullingtonSweep {
  private readonly hull: UpperHull;
  /** Slope from the gateway's antenna to point k, at k - 1. */
  private readonly slopes: BlockMaxima;
  /** 1 over the distance of point k, at k - 1. */
  private readonly inverseM: Float64Array;
  private readonly curvature: number;

  constructor(
    pointCapacity: number,
    effectiveEarthRadiusM: number,
    private readonly wavelengthM: number,
  ) {
    this.hull = new UpperHull(pointCapacity);
    this.slopes = new BlockMaxima(pointCapacity);
    this.inverseM = new Float64Array(pointCapacity);
    this.curvature = 1 / (2 * effectiveEarthRadiusM);
  }

  /** Writes the loss of each receiver in dB; 0 where no point lies before it. */
  lossesAlong(
    ground: RadialGround,
    transmitterAltitudeM: number,
    receiverHeightM: number,
    lossDb: Float64Array,
  ): void {
    this.findSlopes(ground, transmitterAltitudeM);
    this.findObstructed(ground, transmitterAltitudeM, receiverHeightM, lossDb);
    this.findInSight(ground, transmitterAltitudeM, receiverHeightM, lossDb);
    withLosses(lossDb, ground.receiverDistanceM, ground.receiverCount);
  }

  private findSlopes({ pointCount, distanceM, obstacleM }: RadialGround, transmitterAltitudeM: number): void {
    const { slopes, inverseM, curvature } = this;
    for (let point = 1; point < pointCount; point += 1) {
      const from = distanceM[point] as number;
      const y = (obstacleM[point] as number) - curvature * from * from;
      inverseM[point - 1] = 1 / from;
      slopes.push(point - 1, (y - transmitterAltitudeM) / from);
    }
  }

  /** Writes ν of the receivers behind an obstacle, NaN for those in sight. */
  private findObstructed(
    { pointCount, distanceM, obstacleM, receiverCount, receiverDistanceM, receiverHeightM }: RadialGround,
    transmitterAltitudeM: number,
    antennaM: number,
    nu: Float64Array,
  ): void {
    const { hull, curvature, wavelengthM } = this;
    const slopes = this.slopes.values;
    hull.clear();
    let next = 1;
    let steepest = -Infinity;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const lengthM = receiverDistanceM[receiver] as number;
      for (; next < pointCount && (distanceM[next] as number) < lengthM; next += 1) {
        const from = distanceM[next] as number;
        hull.push(from, (obstacleM[next] as number) - curvature * from * from);
        steepest = Math.max(steepest, slopes[next - 1] as number);
      }
      const level = (receiverHeightM[receiver] as number) + antennaM - curvature * lengthM * lengthM;
      const direct = (level - transmitterAltitudeM) / lengthM;
      nu[receiver] = Number.NaN;
      if (next === 1 || steepest < direct) continue;
      const vertex = hull.tangentFrom(lengthM, level);
      const back = ((hull.y[vertex] as number) - level) / (lengthM - (hull.x[vertex] as number));
      const product = (steepest - direct) * (back + direct);
      nu[receiver] = product > 0 ? Math.sqrt(((2 * lengthM) / wavelengthM) * product) : 0;
    }
  }

  /**
   * Writes ν of the receivers in sight: the greatest -(direct - slope) √(2/λ) / √(1/d - 1/length) over the points before each, or a
   * harmless ν where none is worse.
   *
   * The worst point may lie below the hull: the Fresnel zone is narrow near the ends. So whole blocks are passed over whose best slope and
   * best distance together would not do, and the search starts from the worst point of the receiver before. Fractions
   * are compared crosswise.
   */
  private findInSight(
    { pointCount, distanceM, receiverCount, receiverDistanceM, receiverHeightM }: RadialGround,
    transmitterAltitudeM: number,
    antennaM: number,
    nu: Float64Array,
  ): void {
    const { inverseM, curvature, wavelengthM } = this;
    const { values, small, large } = this.slopes;
    // A hair more, so that a harmless path stays on the harmless side of the step in J when the root is taken.
    const harmless = ((harmlessNu * harmlessNu * wavelengthM) / 2) * (1 + 1e-12);
    let count = 0;
    let worst = 0;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const lengthM = receiverDistanceM[receiver] as number;
      while (count + 1 < pointCount && (distanceM[count + 1] as number) < lengthM) count += 1;
      if (!Number.isNaN(nu[receiver])) continue;
      const level = (receiverHeightM[receiver] as number) + antennaM - curvature * lengthM * lengthM;
      const direct = (level - transmitterAltitudeM) / lengthM;
      const inverseLength = 1 / lengthM;
      let clear = harmless;
      let weight = 1;
      if (worst < count) {
        const under = direct - (values[worst] as number);
        const seed = (inverseM[worst] as number) - inverseLength;
        if (under * under < clear * seed) {
          clear = under * under;
          weight = seed;
        }
      }
      for (let block = 0; block < count; block += largeBlock) {
        // The last block may hold points beyond the receiver, even such that rise above its ray.
        const inBlock = Math.max(0, direct - (large[block >> 6] as number));
        if (inBlock * inBlock * weight >= clear * ((inverseM[block] as number) - inverseLength)) continue;
        const end = Math.min(block + largeBlock, count);
        for (let part = block; part < end; part += smallBlock) {
          const inPart = Math.max(0, direct - (small[part >> 3] as number));
          if (inPart * inPart * weight >= clear * ((inverseM[part] as number) - inverseLength)) continue;
          const stop = Math.min(part + smallBlock, end);
          for (let index = part; index < stop; index += 1) {
            const under = direct - (values[index] as number);
            const here = (inverseM[index] as number) - inverseLength;
            if (under * under * weight < clear * here) {
              clear = under * under;
              weight = here;
              worst = index;
            }
          }
        }
      }
      nu[receiver] = -Math.sqrt(((2 / wavelengthM) * clear) / weight);
    }
  }
}

/** Turns each ν into the loss of Bullington's edge; 0 where there is none. */
function withLosses(nuThenLossDb: Float64Array, lengthM: Float64Array, count: number): void {
  for (let index = 0; index < count; index += 1) {
    const j = knifeEdgeJ(nuThenLossDb[index] as number);
    nuThenLossDb[index] = j > 0 ? j + (1 - Math.exp(-j / 6)) * (10 + 2e-5 * (lengthM[index] as number)) : 0;
  }
}
