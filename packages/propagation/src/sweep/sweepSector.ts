import { p526Radials } from './p526/p526Radials.js';
import { PredictionSweep } from './p1812/PredictionSweep.js';
import { hataRadials } from './radial/hataRadials.js';
import { p525Radials } from './radial/p525Radials.js';
import type { RadialModel } from './radial/RadialGround.js';
import { RadialReader } from './radial/RadialReader.js';
import { type SweepGeometry, sweepGeometry } from './SweepGeometry.js';
import type { SectorResult, SweepJob } from './SweepJob.js';
import type { SweptGround } from './SweptGround.js';

/** Computes a job to its end. Unchecked. */
export function sweepSector(job: SweepJob, ground: SweptGround): SectorResult {
  const steps = sweepRadials(job, ground);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * Computes a job radial by radial: yields how many are done, so that the caller can show progress or stop. Nothing is allocated per
 * receiver. Each radial depends on its own number alone, so that shares put together again are bit for bit the whole. Unchecked.
 */
export function* sweepRadials(job: SweepJob, ground: SweptGround): Generator<number, SectorResult, void> {
  const geometry = sweepGeometry(job.radiusM, job.cellM, job.radialFactor ?? 1);
  const { firstRadial, radialCount } = job;
  const from = geometry.start[firstRadial] as number;
  const cells = (geometry.start[firstRadial + radialCount] as number) - from;
  const cellIndex = new Int32Array(cells);
  const lossDb = new Float32Array(cells).fill(Number.NaN);
  const reader = new RadialReader(job, geometry, ground);
  const model = radialModel(job, geometry);
  let missingCount = 0;
  for (let done = 0; done < radialCount; done += 1) {
    const radial = firstRadial + done;
    reader.read(radial);
    model.lossesAlong(reader.ground);
    const at = (geometry.start[radial] as number) - from;
    const { receiverCount, lossDb: found } = reader.ground;
    const count = receiverCount + reader.missingCount;
    for (let index = 0; index < count; index += 1) cellIndex[at + index] = reader.cell[index] as number;
    for (let index = 0; index < receiverCount; index += 1) lossDb[at + index] = found[index] as number;
    missingCount += reader.missingCount;
    yield done + 1;
  }
  return { cellIndex, lossDb, missingCount };
}

function radialModel(job: SweepJob, geometry: SweepGeometry): RadialModel {
  const { model } = job;
  switch (model.kind) {
    case 'p525':
      return p525Radials(job);
    case 'p526':
      return p526Radials(job, model.deltaN, geometry);
    case 'p1812':
      return new PredictionSweep({
        model,
        frequencyHz: job.frequencyHz,
        polarisation: job.polarisation ?? 'vertical',
        transmitterHeightM: job.gateway.antennaHeightM,
        receiverHeightM: job.receiverHeightM,
        radiusM: job.radiusM,
        pointCapacity: geometry.pointCount,
        receiverCapacity: geometry.mostReceivers,
      });
    case 'hata':
      return hataRadials(job, model);
  }
}
