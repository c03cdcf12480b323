import type { RadialGround } from '../radial/RadialGround.js';
import { ZoneSweep } from './ZoneSweep.js';

/** What the zones of a path say, for every receiver of a radial. Buffers are used again. */
export class ZonesAlong {
  /** Part of the path over the sea, 0 to 1. */
  readonly seaShare: Float64Array;
  /** Longest stretches over land of any kind, and over inland. */
  readonly longestLandM: Float64Array;
  readonly longestInlandM: Float64Array;
  /** Distances over land to the sea; Infinity where there is none. */
  readonly transmitterCoastM: Float64Array;
  readonly receiverCoastM: Float64Array;

  private readonly sweep = new ZoneSweep();

  constructor(receiverCapacity: number) {
    this.seaShare = new Float64Array(receiverCapacity);
    this.longestLandM = new Float64Array(receiverCapacity);
    this.longestInlandM = new Float64Array(receiverCapacity);
    this.transmitterCoastM = new Float64Array(receiverCapacity);
    this.receiverCoastM = new Float64Array(receiverCapacity);
  }

  /** Finds them for every receiver; `isSea` holds zones (see {@link ZoneSweep}). */
  findAlong({ pointCount, distanceM, isSea, receiverCount, ...ground }: RadialGround): void {
    const { sweep } = this;
    sweep.start(isSea[0] as number);
    let next = 1;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const lengthM = ground.receiverDistanceM[receiver] as number;
      for (; next < pointCount && (distanceM[next] as number) < lengthM; next += 1) {
        sweep.push(distanceM[next] as number, isSea[next] as number);
      }
      sweep.find(lengthM, ground.receiverIsSea[receiver] as number);
      this.seaShare[receiver] = sweep.seaShare;
      this.longestLandM[receiver] = sweep.longestLandM;
      this.longestInlandM[receiver] = sweep.longestInlandM;
      this.transmitterCoastM[receiver] = sweep.transmitterCoastM;
      this.receiverCoastM[receiver] = sweep.receiverCoastM;
    }
  }
}
