import { exactConstants } from '../../p526/diffractionConstants.js';
import { effectiveEarthRadius } from '../../p526/effectiveEarthRadius.js';
import { FreeSpaceSweep } from '../radial/FreeSpaceSweep.js';
import type { RadialGround, RadialModel } from '../radial/RadialGround.js';
import { seaRatios } from '../radial/seaRatios.js';
import type { SweepGeometry } from '../SweepGeometry.js';
import type { SweepQuestion } from '../SweepJob.js';
import { DiffractionSweep } from './DiffractionSweep.js';
import { SmoothSurfaceSweep } from './SmoothSurfaceSweep.js';

/** Free space and delta-Bullington diffraction along radials. */
export function p526Radials(
  question: SweepQuestion,
  deltaN: number,
  geometry: Pick<SweepGeometry, 'pointCount' | 'mostReceivers'>,
): RadialModel {
  const { pointCount: pointCapacity, mostReceivers: receiverCapacity } = geometry;
  const { frequencyHz, receiverHeightM, polarisation = 'vertical', gateway } = question;
  const diffraction = new DiffractionSweep({
    effectiveEarthRadiusM: effectiveEarthRadius({ deltaN }),
    frequencyHz,
    polarisation,
    constants: exactConstants,
    pointCapacity,
    receiverCapacity,
  });
  const freeSpace = new FreeSpaceSweep(frequencyHz, receiverHeightM);
  const surface = new SmoothSurfaceSweep(pointCapacity, receiverCapacity);
  const diffractionDb = new Float64Array(receiverCapacity);
  const seaRatio = new Float64Array(receiverCapacity);
  return {
    lossesAlong(ground: RadialGround) {
      const transmitterAltitudeM = (ground.heightM[0] as number) + gateway.antennaHeightM;
      if (question.seaLevelM !== undefined) seaRatios(ground, seaRatio);
      surface.heightsAlong(ground, transmitterAltitudeM, receiverHeightM);
      diffraction.lossesAlong(
        ground,
        transmitterAltitudeM,
        receiverHeightM,
        surface,
        seaRatio,
        diffractionDb,
      );
      freeSpace.lossesAlong(ground, transmitterAltitudeM, ground.lossDb);
      for (let receiver = 0; receiver < ground.receiverCount; receiver += 1) {
        ground.lossDb[receiver] = (ground.lossDb[receiver] as number) + (diffractionDb[receiver] as number);
      }
    },
  };
}
