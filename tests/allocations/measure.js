// @ts-check
// How much memory one call takes from the heap, on built packages: node --expose-gc --min-semi-space-size=512 --max-semi-space-size=512 tests/allocations/measure.js
// The young generation is made so large that nothing is collected during a measurement; where something was, the row says so.
import { readFileSync } from 'node:fs';
import { PerformanceObserver } from 'node:perf_hooks';
import { solveWires } from '@finial/antenna';
import { timeOnAir, timesOnAirSeconds } from '@finial/lora';
import { sweepCoverage } from '@finial/propagation';
import { fitPathLoss, readSurvey } from '@finial/survey';
import { openElevation } from '@finial/terrain';

const collect = globalThis.gc ?? (() => undefined);
let collections = 0;
new PerformanceObserver((list) => {
  collections += list.getEntries().length;
}).observe({ entryTypes: ['gc'] });

/**
 * @param {string} name
 * @param {number} repeats
 * @param {() => unknown} call
 */
async function measure(name, repeats, call) {
  await call();
  collect();
  await new Promise((resume) => setTimeout(resume, 20));
  collections = 0;
  const before = process.memoryUsage();
  for (let repeat = 0; repeat < repeats; repeat += 1) await call();
  const after = process.memoryUsage();
  await new Promise((resume) => setTimeout(resume, 20));
  const heap = (after.heapUsed - before.heapUsed) / repeats;
  const buffers = (after.arrayBuffers - before.arrayBuffers) / repeats;
  const note = collections > 0 ? `  (${collections} collections: too small)` : '';
  console.log(
    `${name.padEnd(52)} ${inWords(heap).padStart(10)} heap ${inWords(buffers).padStart(10)} buffers${note}`,
  );
}

/** @param {number} bytes */
function inWords(bytes) {
  if (Math.abs(bytes) < 10_000) return `${Math.round(bytes)} B`;
  return Math.abs(bytes) < 1e7 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

const example = new URL('../../examples/fennimara/', import.meta.url);
const log = readFileSync(new URL('walk.csv', example), 'utf8');
const tile = readFileSync(new URL('elevation.tif', example));
const elevation = await openElevation([{ name: 'elevation.tif', bytes: tile }]);
const { observations } = readSurvey(log);
const gateway = { latitudeDeg: 41.1901, longitudeDeg: -37.4322 };

/** @type {import('@finial/lora').Frame} */
const frame = { spreadingFactor: 9, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 25 };
const payloadBytes = Uint8Array.from({ length: 10_000 }, (_, index) => index % 200);

await measure('timeOnAir, one frame', 20_000, () => timeOnAir(frame));
await measure('timesOnAirSeconds, 10 000 frames', 20, () =>
  timesOnAirSeconds({ spreadingFactor: 9, bandwidthHz: 125e3, codingRate: 5, payloadBytes }),
);
await measure(`readSurvey, ${observations.length} rows`, 5, () => readSurvey(log));
await measure(`fitPathLoss, ${observations.length} frames, missed ones counted`, 5, () =>
  fitPathLoss(observations, { gateway, censored: true, signal: 'effective' }),
);
await measure('sweepCoverage, 8 km at 30 m (223 000 receivers)', 1, () =>
  sweepCoverage({
    elevation,
    gateway: { position: gateway, antennaHeightM: 8 },
    frequencyHz: 868.1e6,
    model: { kind: 'p526', deltaN: 46 },
    radiusM: 8000,
    cellM: 30,
    receiverHeightM: 1.5,
  }),
);
await measure('solveWires, a dipole', 20, () =>
  solveWires([{ start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.1607 }, radiusM: 0.001 }], {
    frequencyHz: 868.1e6,
    source: { wire: 0, positionRatio: 0.5 },
  }),
);
