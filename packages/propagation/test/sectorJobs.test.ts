import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  mergeSectors,
  runSectorJob,
  type SweepQuestion,
  type SweptSector,
  sectorJobs,
  sweepCoverage,
} from '../src/index.js';
import { rollingGround, smallQuestion } from './sweepGround.js';

const elevation = rollingGround((row, column) => row > 30 && column < 20);
const questions: readonly SweepQuestion[] = [
  smallQuestion,
  { ...smallQuestion, model: { kind: 'p525' }, radialFactor: 2 },
  {
    ...smallQuestion,
    model: { kind: 'p1812', deltaN: 45, surfaceRefractivity: 325, timePercent: 10 },
    clutterHeightM: 8,
    seaLevelM: 190,
  },
];

/** By way of JSON, as a job travels. */
function sectorsOf(question: SweepQuestion, jobsCount: number): SweptSector[] {
  return sectorJobs(question, jobsCount).map((job) =>
    runSectorJob(JSON.parse(JSON.stringify(job)) as typeof job, elevation),
  );
}

describe('jobs', () => {
  test('cover every radial once, whatever their number', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 158 }), (jobsCount) => {
        const jobs = sectorJobs(smallQuestion, jobsCount);
        expect(jobs).toHaveLength(jobsCount);
        let next = 0;
        for (const { firstRadial, radialCount } of jobs) {
          expect(firstRadial).toBe(next);
          expect(radialCount).toBeGreaterThan(0);
          next += radialCount;
        }
        // The circumference in cells: 2π 1500 / 60 = 157.08, rounded up.
        expect(next).toBe(158);
      }),
    );
  });

  test.each([0, 159, 1.5, Number.NaN, '2', undefined])('%s jobs are refused', (jobsCount) => {
    expect(() => sectorJobs(smallQuestion, jobsCount as number)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'jobsCount' }),
    );
  });

  test.each([
    ['firstRadial', { firstRadial: 158 }],
    ['radialCount', { firstRadial: 100, radialCount: 59 }],
    ['radialCount', { radialCount: 0 }],
    ['cellM', { cellM: 0 }],
  ])('%s outside the question is refused', (argument, wrong) => {
    const [job] = sectorJobs(smallQuestion, 2);
    expect(() => runSectorJob({ ...(job as SweptSector['job']), ...wrong }, elevation)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('merged sectors', () => {
  test.each(questions)('are bit for bit the raster of one sweep with $model.kind', async (question) => {
    const whole = await sweepCoverage({ ...question, elevation });
    expect(whole.missingCount).toBeGreaterThan(0);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer(), (jobsCount, turn) => {
        const sectors = sectorsOf(question, jobsCount).sort(
          (a, b) => ((a.job.firstRadial * turn) % 7) - ((b.job.firstRadial * turn) % 7),
        );
        const merged = mergeSectors(sectors);
        expect(merged).toEqual(whole);
        expect(Buffer.from(merged.lossDb.buffer).equals(Buffer.from(whole.lossDb.buffer))).toBe(true);
      }),
      { numRuns: 8 },
    );
  });

  const sectors = sectorsOf(smallQuestion, 3);
  const [first, second, third] = sectors as [SweptSector, SweptSector, SweptSector];
  const [other] = sectorsOf({ ...smallQuestion, receiverHeightM: 2 }, 3);
  const changed = (change: Partial<SweptSector>): SweptSector[] => [first, { ...second, ...change }, third];

  test.each([
    ['a lost one', 'missing', 'sectors', [first, third]],
    ['a lost last one', 'missing', 'sectors', [first, second]],
    ['one twice', 'out-of-range', 'sectors', [first, second, second, third]],
    ['one of another question', 'out-of-range', 'sectors[2].job', [second, third, other]],
    ['none', 'missing', 'sectors', []],
    ['no list', 'wrong-type', 'sectors', undefined],
    ['other cells', 'out-of-range', 'sectors[1].cellIndex', changed({ cellIndex: first.cellIndex })],
    ['a cell twice', 'out-of-range', 'sectors[1].cellIndex', changed({ cellIndex: twice(second.cellIndex) })],
    ['too few losses', 'out-of-range', 'sectors[1].lossDb', changed({ lossDb: new Float32Array(3) })],
    [
      'an endless loss',
      'out-of-range',
      'sectors[1].lossDb[0]',
      changed({
        lossDb: second.lossDb.map((loss, place) => (place === 0 ? Number.POSITIVE_INFINITY : loss)),
      }),
    ],
    ['a wrong count', 'out-of-range', 'sectors[1].missingCount', changed({ missingCount: -1 })],
    [
      'a list for an array',
      'wrong-type',
      'sectors[1].lossDb',
      changed({ lossDb: [1, 2] as unknown as Float32Array }),
    ],
    ['no job', 'wrong-type', 'sectors[1].job', changed({ job: undefined as unknown as SweptSector['job'] })],
  ])('refuse %s', (_, code, argument, wrong) => {
    expect(() => mergeSectors(wrong as SweptSector[])).toThrow(
      expect.objectContaining({ name: 'InputError', code, argument }),
    );
  });
});

function twice(cells: Int32Array): Int32Array {
  return cells.map((cell, place) => (place === 0 ? (cells[1] as number) : cell));
}
