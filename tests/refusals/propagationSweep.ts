import { runSectorJob, type SweepQuestion, sectorJobs } from '@finial/propagation';
import type { Calls } from './Call.js';

/** Flat ground of a few kilometres, with a gateway in the middle. */
const elevation = {
  tiles: [
    {
      name: 'plain',
      columns: 2,
      rows: 2,
      heightsM: Int16Array.of(90, 95, 100, 90),
      voidCount: 0,
      grid: { kind: 'geographic', northDeg: 50.05, westDeg: 15.95, rowStepDeg: 0.1, columnStepDeg: 0.1 },
    },
  ],
  voidCount: 0,
  filledCount: 0,
};
const landCover = { codes: elevation, classOfCode: { 90: 'open', 95: 'trees', 100: 'trees' } };

const sweep = {
  gateway: { position: { latitudeDeg: 50, longitudeDeg: 16 }, antennaHeightM: 12 },
  frequencyHz: 868.1e6,
  polarisation: 'vertical',
  model: { kind: 'p526', deltaN: 40 },
  radiusM: 300,
  cellM: 60,
  receiverHeightM: 1.5,
  clutterHeightM: 5,
  radialFactor: 2,
  seaLevelM: 0,
};
const predicted = {
  kind: 'p1812',
  deltaN: 45,
  surfaceRefractivity: 325,
  timePercent: 10,
  locationPercent: 90,
  locationSigmaDb: 5.5,
};

const constants = ['options.elevation', 'options.landCover'];
const noData = ['result.lossDb'];
const sectors = sectorJobs(sweep as SweepQuestion, 2).map((job) => runSectorJob(job, elevation as never));
/** The sweep's part of the calls of `@finial/propagation`. */
export const sweepCalls: Calls = {
  sweepCoverage: {
    args: [{ ...sweep, elevation, landCover, workers: 0 }],
    constants,
    noData,
  },
  'sweepCoverage of the whole prediction': {
    args: [{ ...sweep, elevation, model: predicted }],
    constants,
    noData,
  },
  'sweepCoverage of a formula': {
    args: [
      { ...sweep, elevation, model: { kind: 'hata', surroundings: 'suburban', outsideValidity: 'allow' } },
    ],
    constants,
    noData,
  },
  sectorJobs: [sweep, 3],
  runSectorJob: {
    args: [{ ...sweep, firstRadial: 2, radialCount: 5 }, elevation],
    constants: ['elevation'],
    noData,
  },
  mergeSectors: { args: [sectors], noData: ['sectors[0].lossDb', 'sectors[1].lossDb'] },
};
