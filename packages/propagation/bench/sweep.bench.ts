import { describe, expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';
import type { SweepQuestion } from '../src/sweep/SweepJob.js';
import { reliefs, syntheticTerrain } from './syntheticTerrain.js';

// As a bundle, loaded by Node itself, which is how users have it: the test runner would wrap each import in a getter.
const folder = './packages/propagation';
const { code } = await bundled(`
  export { sweepGeometry } from '${folder}/src/sweep/SweepGeometry.js';
  export { sweepSector } from '${folder}/src/sweep/sweepSector.js';
  export { ownProfiles } from '${folder}/bench/ownProfiles.js';
`);
const { sweepGeometry, sweepSector, ownProfiles } = (await import(
  /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
)) as typeof import('../src/sweep/SweepGeometry.js') &
  typeof import('../src/sweep/sweepSector.js') &
  typeof import('./ownProfiles.js');

type Land = keyof typeof reliefs;
const lands: readonly Land[] = ['mount', 'gentle', 'flat'];

function asked(radiusM: number): SweepQuestion {
  return {
    gateway: { position: { latitudeDeg: 50, longitudeDeg: 16 }, antennaHeightM: 10 },
    frequencyHz: 868e6,
    model: { kind: 'p526', deltaN: 40 },
    radiusM,
    cellM: 30,
    receiverHeightM: 1.5,
  };
}

/** Nanoseconds per receiver of the sweep and of cells each on their own profile, the best of some runs taken in turn. */
function compare(
  radiusM: number,
  land: Land,
  runs: number,
  every: number,
): { sweepNs: number; ownNs: number } {
  const elevation = syntheticTerrain(reliefs[land], radiusM > 30_000 ? 12 : 11);
  const { radialCount, order } = sweepGeometry(radiusM, 30);
  const question = asked(radiusM);
  let sweepNs = Infinity;
  let ownNs = Infinity;
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    const { missingCount } = sweepSector({ ...question, firstRadial: 0, radialCount }, { elevation });
    const middle = performance.now();
    const { cells, sumDb } = ownProfiles(question, elevation, every);
    const end = performance.now();
    expect(missingCount).toBe(0);
    expect(sumDb / cells).toBeGreaterThan(100);
    sweepNs = Math.min(sweepNs, ((middle - start) * 1e6) / order.length);
    ownNs = Math.min(ownNs, ((end - middle) * 1e6) / cells);
  }
  return { sweepNs, ownNs };
}

describe('the sweep of P.526 against every cell on its own profile', () => {
  test.each(lands)('20 km at 30 m, %s', { timeout: 120_000 }, (land) => {
    const { sweepNs, ownNs } = compare(20_000, land, 4, 211);
    const ratio = ownNs / sweepNs;
    console.log(
      `20 km, ${land}: ${sweepNs.toFixed(0)} ns against ${ownNs.toFixed(0)} ns, ${ratio.toFixed(1)} times`,
    );
    expect(ratio).toBeGreaterThan(30);
  });

  test('50 km at 30 m, and the growth from 5 km', { timeout: 240_000 }, () => {
    const near = compare(5000, 'mount', 5, 97);
    const far = compare(50_000, 'mount', 2, 4001);
    const ratio = far.ownNs / far.sweepNs;
    const growth = far.sweepNs / near.sweepNs;
    console.log(
      `50 km: ${far.sweepNs.toFixed(0)} ns against ${far.ownNs.toFixed(0)} ns, ${ratio.toFixed(1)} times; from 5 to 50 km ${growth.toFixed(2)} times as much per receiver`,
    );
    expect(ratio).toBeGreaterThan(75);
    expect(growth).toBeLessThan(1.5);
  });
});
