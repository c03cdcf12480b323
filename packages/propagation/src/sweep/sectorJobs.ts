import { checkInteger } from '@finial/units';
import { checkQuestion } from './checkQuestion.js';
import { sweepGeometry } from './SweepGeometry.js';
import type { SweepJob, SweepQuestion } from './SweepJob.js';
import { splitRadials } from './splitRadials.js';

/**
 * Splits a sweep into sectors that other processes, or other machines, can work off: plain JSON. Each needs the same elevation; the
 * results go back together with {@link mergeSectors}.
 *
 * A sector is some neighbouring radials. What a cell gets does not depend on where the cuts are: the merged raster is bit for bit the one
 * that `sweepCoverage` gives, whatever the number of jobs.
 *
 * @param question - what `sweepCoverage` is asked, without elevation and without what follows the work
 * @param jobsCount - into how many jobs, 1 to the number of radials, which is the circumference in cells (times `radialFactor`)
 * @returns jobs clockwise from north, as even as whole radials allow
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, `outside-validity` or `missing`
 * @source Whole radials as the unit: this package's own choice
 * @example Four sectors of a small area
 * ```ts
 * import { sectorJobs } from '@finial/propagation';
 *
 * const gateway = { position: { latitudeDeg: 41.19, longitudeDeg: -37.43 }, antennaHeightM: 8 };
 * const model = { kind: 'p526', deltaN: 40 } as const;
 * const question = { gateway, frequencyHz: 868.1e6, model, radiusM: 3000, cellM: 30, receiverHeightM: 1.5 };
 * sectorJobs(question, 4).map(({ firstRadial }) => firstRadial); // → [0, 157, 314, 471]
 * ```
 */
export function sectorJobs(question: SweepQuestion, jobsCount: number): readonly SweepJob[] {
  const { question: checked } = checkQuestion(question);
  const { radiusM, cellM, radialFactor = 1 } = checked;
  const { radialCount } = sweepGeometry(radiusM, cellM, radialFactor);
  checkInteger(jobsCount, 'jobsCount', { min: 1, max: radialCount, unit: 'jobs' });
  return splitRadials(checked, radialCount, jobsCount);
}
