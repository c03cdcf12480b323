import type { Elevation, LandCoverRaster } from '@finial/terrain';
import { checkInteger } from '@finial/units';
import { checkGround, checkQuestion } from './checkQuestion.js';
import { sweepGeometry } from './SweepGeometry.js';
import type { SectorResult, SweepJob } from './SweepJob.js';
import { sweepSector } from './sweepSector.js';

/** What one job found, together with the job. */
export interface SweptSector extends SectorResult {
  /** The job, as {@link mergeSectors} needs it. */
  readonly job: SweepJob;
}

/**
 * Works off one of the jobs of {@link sectorJobs}, to its end and on the calling thread.
 *
 * @param job - as `sectorJobs` made it, also by way of JSON
 * @param elevation - ground heights, the same for all jobs
 * @param landCover - what covers the ground, the same for all jobs; none by default
 * @returns cells and losses in dB as `sweepCoverage` has them, NaN for no data: typed arrays that can be sent or stored
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, `outside-validity` or `missing`
 * @source as the model of the job
 * @example One sector of two, in free space
 * ```ts
 * import { runSectorJob, sectorJobs } from '@finial/propagation';
 *
 * const grid = { kind: 'geographic', northDeg: 51, westDeg: 16, rowStepDeg: 1, columnStepDeg: 1 } as const;
 * const tile = { name: 'plain', columns: 2, rows: 2, heightsM: Int16Array.of(90, 90, 90, 90), voidCount: 0, grid };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const gateway = { position: { latitudeDeg: 50.5, longitudeDeg: 16.5 }, antennaHeightM: 10 };
 * const model = { kind: 'p525' } as const;
 * const question = { gateway, frequencyHz: 868.1e6, model, radiusM: 1000, cellM: 100, receiverHeightM: 1.5 };
 *
 * const [job] = sectorJobs(question, 2);
 * const sector = runSectorJob(job!, elevation);
 * sector.missingCount; // → 0
 * ```
 */
export function runSectorJob(
  job: SweepJob,
  elevation: Elevation,
  landCover?: LandCoverRaster | undefined,
): SweptSector {
  const checked = checkJob(job);
  const ground = { elevation, landCover };
  checkGround(ground, checked.gateway.position);
  return { job: checked, ...sweepSector(checked, ground) };
}

/** Checks a job: its question, and that the radials are there. */
export function checkJob(job: SweepJob): SweepJob {
  const { question } = checkQuestion(job);
  const { radiusM, cellM, radialFactor = 1 } = question;
  const { radialCount: all } = sweepGeometry(radiusM, cellM, radialFactor);
  const firstRadial = checkInteger(job.firstRadial, 'firstRadial', { min: 0, max: all - 1, unit: 'radials' });
  const rest = { min: 1, max: all - firstRadial, unit: 'radials' };
  return { ...question, firstRadial, radialCount: checkInteger(job.radialCount, 'radialCount', rest) };
}
