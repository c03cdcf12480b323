import type { Elevation } from '@finial/terrain';
import { heightSampler } from '@finial/terrain';
import { deltaBullingtonKernel } from '../src/p526/deltaBullingtonKernel.js';
import { exactConstants } from '../src/p526/diffractionConstants.js';
import { effectiveEarthRadius } from '../src/p526/effectiveEarthRadius.js';
import { smoothHeights } from '../src/p526/smoothHeights.js';
import { LocalMap } from '../src/sweep/radial/LocalMap.js';
import { sweepGeometry } from '../src/sweep/SweepGeometry.js';
import type { SweepQuestion } from '../src/sweep/SweepJob.js';

/**
 * What a sweep is measured against: for every so many cells, read the cell's own profile with the same fast reader of heights, and put it
 * through the point-to-point kernels. Returns the count of cells and the sum of the losses, so that nothing is optimised away.
 */
export function ownProfiles(
  question: SweepQuestion,
  elevation: Elevation,
  every: number,
): { readonly cells: number; readonly sumDb: number } {
  const { radiusM, cellM, gateway, frequencyHz, receiverHeightM, model } = question;
  const { order, size, pointCount } = sweepGeometry(radiusM, cellM);
  const radius = effectiveEarthRadius({ deltaN: model.kind === 'p526' ? model.deltaN : 40 });
  const map = new LocalMap(gateway.position, radiusM);
  const sampler = heightSampler(elevation);
  const latitudeDeg = new Float64Array(pointCount + 1);
  const longitudeDeg = new Float64Array(pointCount + 1);
  let cells = 0;
  let sumDb = 0;
  for (let index = 0; index < order.length; index += every) {
    const cell = order[index] as number;
    const south = Math.floor(cell / size) - (size - 1) / 2;
    const east = (cell % size) - (size - 1) / 2;
    const lengthCells = Math.sqrt(south * south + east * east);
    const last = Math.ceil(lengthCells);
    const distanceM = new Float64Array(last + 1);
    for (let point = 0; point < last; point += 1) distanceM[point] = point * cellM;
    distanceM[last] = lengthCells * cellM;
    const heightM = new Float64Array(last + 1);
    map.placesOnLine(Math.atan2(east, -south), distanceM, last + 1, latitudeDeg, longitudeDeg);
    sampler.fill(latitudeDeg, longitudeDeg, last + 1, heightM);
    const from = (heightM[0] as number) + gateway.antennaHeightM;
    const to = (heightM[last] as number) + receiverHeightM;
    const surface = smoothHeights(distanceM, heightM, from, to);
    const { lossDb } = deltaBullingtonKernel(
      distanceM,
      heightM,
      from,
      to,
      from - surface.transmitterM,
      to - surface.receiverM,
      radius,
      frequencyHz,
      'vertical',
      0,
      exactConstants,
    );
    const slant = Math.sqrt((lengthCells * cellM) ** 2 + (to - from) ** 2);
    sumDb += lossDb + 20 * Math.log10((4 * Math.PI * slant * frequencyHz) / exactConstants.speedOfLightMPerS);
    cells += 1;
  }
  return { cells, sumDb };
}
