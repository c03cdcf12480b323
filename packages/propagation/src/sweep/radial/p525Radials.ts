import type { SweepQuestion } from '../SweepJob.js';
import { FreeSpaceSweep } from './FreeSpaceSweep.js';
import type { RadialModel } from './RadialGround.js';

/** Free space along radials. */
export function p525Radials({ frequencyHz, receiverHeightM, gateway }: SweepQuestion): RadialModel {
  const freeSpace = new FreeSpaceSweep(frequencyHz, receiverHeightM);
  return {
    lossesAlong(ground) {
      freeSpace.lossesAlong(ground, (ground.heightM[0] as number) + gateway.antennaHeightM, ground.lossDb);
    },
  };
}
