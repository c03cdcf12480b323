import { speedOfLightMPerS } from '@finial/radio';
import type { RadialGround } from './RadialGround.js';

/** Free space along the straight line between the antennas, by Recommendation ITU-R P.525 in its exact form. */
export class FreeSpaceSweep {
  private readonly lossAtOneMetreDb: number;

  constructor(
    frequencyHz: number,
    private readonly receiverHeightM: number,
  ) {
    this.lossAtOneMetreDb = 20 * Math.log10((4 * Math.PI * frequencyHz) / speedOfLightMPerS);
  }

  /** Writes the loss of each receiver in dB. */
  lossesAlong(ground: RadialGround, transmitterAltitudeM: number, lossDb: Float64Array): void {
    const { receiverCount, receiverDistanceM } = ground;
    const perNeper = 10 / Math.LN10;
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      const along = receiverDistanceM[receiver] as number;
      const rise = (ground.receiverHeightM[receiver] as number) + this.receiverHeightM - transmitterAltitudeM;
      lossDb[receiver] = this.lossAtOneMetreDb + perNeper * Math.log(along * along + rise * rise);
    }
  }
}
