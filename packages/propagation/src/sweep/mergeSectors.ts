import { checkList, checkObject, InputError } from '@finial/units';
import { checkQuestion } from './checkQuestion.js';
import { coverageRaster } from './coverageRaster.js';
import { checkJob, type SweptSector } from './runSectorJob.js';
import { type SweepGeometry, sweepGeometry } from './SweepGeometry.js';
import type { CoverageRaster, SweepJob } from './SweepJob.js';

/**
 * Puts the results of all jobs of {@link sectorJobs} into one raster, in whatever order they came.
 *
 * Each radial must be there once: a lost job, one that was worked off twice and one of another question are refused.
 *
 * @param sectors - what `runSectorJob` gave for each job
 * @returns bit for bit the raster that `sweepCoverage` gives for the same question; losses in dB, NaN for no data
 * @throws {@link InputError} `missing` (a sector), `out-of-range` (two have the same radial, other questions, cells that are no sector's),
 * `wrong-type`, or what a bad question deserves
 * @source none: nothing is computed
 * @example Both halves of a small area
 * ```ts
 * import { mergeSectors, runSectorJob, sectorJobs } from '@finial/propagation';
 *
 * const grid = { kind: 'geographic', northDeg: 51, westDeg: 16, rowStepDeg: 1, columnStepDeg: 1 } as const;
 * const tile = { name: 'plain', columns: 2, rows: 2, heightsM: Int16Array.of(90, 90, 90, 90), voidCount: 0, grid };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const gateway = { position: { latitudeDeg: 50.5, longitudeDeg: 16.5 }, antennaHeightM: 10 };
 * const model = { kind: 'p525' } as const;
 * const question = { gateway, frequencyHz: 868.1e6, model, radiusM: 1000, cellM: 100, receiverHeightM: 1.5 };
 *
 * const raster = mergeSectors(sectorJobs(question, 2).map((job) => runSectorJob(job, elevation)));
 * raster.columns; // → 21
 * ```
 */
export function mergeSectors(sectors: readonly SweptSector[]): CoverageRaster {
  const checked = checkList(sectors, 'sectors').map((sector, place) =>
    checkSector(sector, `sectors[${place}]`),
  );
  const { question, warnings } = checkQuestion((checked[0] as SweptSector).job);
  const { radiusM, cellM, radialFactor = 1 } = question;
  const geometry = sweepGeometry(radiusM, cellM, radialFactor);
  const asked = JSON.stringify(question);
  for (const [place, { job }] of checked.entries()) {
    if (JSON.stringify(checkQuestion(job).question) === asked) continue;
    throw refusal(`sectors[${place}].job`, job, 'the same question as the first sector has');
  }
  checkWhole(checked, geometry.radialCount);
  const counted = checked.map((sector, place) => checkCells(sector, geometry, `sectors[${place}]`));
  return coverageRaster(question, warnings, counted);
}

function checkSector(sector: SweptSector, name: string): SweptSector {
  checkObject(sector, name);
  const { cellIndex, lossDb } = sector;
  if (!(cellIndex instanceof Int32Array)) throw notSeries(`${name}.cellIndex`, cellIndex, 'an Int32Array');
  if (!(lossDb instanceof Float32Array)) throw notSeries(`${name}.lossDb`, lossDb, 'a Float32Array');
  return { ...sector, job: checkJob(checkObject(sector.job, `${name}.job`)) };
}

/** Every radial once, in whatever order. */
function checkWhole(sectors: readonly SweptSector[], radialCount: number): void {
  const jobs = sectors.map(({ job }) => job).sort((a, b) => a.firstRadial - b.firstRadial);
  let next = 0;
  for (const job of [...jobs, { firstRadial: radialCount, radialCount: 0 }]) {
    if (job.firstRadial > next) {
      throw new InputError({
        code: 'missing',
        argument: 'sectors',
        received: undefined,
        expected: `the sector of the radials ${next} to ${job.firstRadial - 1}`,
      });
    }
    if (job.firstRadial < next) {
      throw refusal('sectors', `radial ${job.firstRadial} again`, 'each radial in one sector only');
    }
    next += job.radialCount;
  }
}

/** The cells must be those of the job's radials, and a loss is a number or no data. */
function checkCells(sector: SweptSector, geometry: SweepGeometry, name: string): SweptSector {
  const { job, cellIndex, lossDb } = sector;
  const cells = cellsOf(job, geometry);
  if (!holdsSame(cellIndex, cells, geometry.size ** 2)) {
    throw refusal(`${name}.cellIndex`, 'other cells', "the cells of the job's radials");
  }
  if (lossDb.length !== cells.length) {
    throw refusal(`${name}.lossDb`, lossDb.length, `${cells.length} losses, one for each cell`);
  }
  const endless = lossDb.findIndex((loss) => Math.abs(loss) === Number.POSITIVE_INFINITY);
  if (endless >= 0)
    throw refusal(`${name}.lossDb[${endless}]`, lossDb[endless], 'decibels, or NaN for no data');
  const missingCount = lossDb.reduce((count, loss) => count + Number(Number.isNaN(loss)), 0);
  if (sector.missingCount === missingCount) return sector;
  throw refusal(`${name}.missingCount`, sector.missingCount, `${missingCount}, as many as lossDb has`);
}

function cellsOf({ firstRadial, radialCount }: SweepJob, { order, start }: SweepGeometry): Int32Array {
  return order.subarray(start[firstRadial], start[firstRadial + radialCount]);
}

/** Whether two lists of different cells hold the same ones, in any order: cells without ground come last on their radial. */
function holdsSame(found: Int32Array, wanted: Int32Array, rasterCells: number): boolean {
  const open = new Uint8Array(rasterCells);
  for (const cell of wanted) open[cell] = 1;
  for (const cell of found) {
    if (open[cell] !== 1) return false;
    open[cell] = 0;
  }
  return found.length === wanted.length;
}

function refusal(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'out-of-range', argument, received, expected });
}

function notSeries(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'wrong-type', argument, received, expected });
}
