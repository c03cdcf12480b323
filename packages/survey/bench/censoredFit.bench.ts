import type { Observation } from '@finial/survey';
import { expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';

// As a bundle, loaded by Node itself, which is how users have it: the test runner would wrap each import in a getter.
const { code } = await bundled("export { fitPathLoss } from '@finial/survey';");
const { fitPathLoss } = (await import(
  /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
)) as typeof import('@finial/survey');

/** A walk of frames about a law, drawn with a Park-Miller generator so that every run sees the same. */
function drawnWalk(frames: number): Observation[] {
  let state = 20_240_724;
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return Array.from({ length: frames }, () => {
    const distanceM = 100 * 80 ** uniform();
    const noise = Array.from({ length: 12 }, uniform).reduce((sum, u) => sum + u, -6);
    const rssiDbm = -20 - 31 * Math.log10(distanceM) + 7 * noise;
    const received = rssiDbm >= -130;
    return { latitudeDeg: 45, longitudeDeg: 5, distanceM, received, ...(received ? { rssiDbm } : {}) };
  });
}

/** One pass of the likelihood as anybody would write it, tail by the asymptotic series far out and by a sum near: the yardstick. */
function onePassByHand(walk: readonly Observation[]): number {
  let sum = 0;
  for (const { distanceM = 1, rssiDbm } of walk) {
    const mean = -20 - 31 * Math.log10(distanceM);
    if (rssiDbm === undefined) {
      const u = (-130 - mean) / 7;
      let term = u;
      let series = u;
      for (let k = 1; k < 40; k += 1) {
        term *= (u * u) / (2 * k + 1);
        series += term;
      }
      const share = 0.5 + (Math.exp((-u * u) / 2) / Math.sqrt(2 * Math.PI)) * series;
      sum += Math.log(Math.max(share, 1e-300));
    } else {
      const z = (rssiDbm - mean) / 7;
      sum -= (z * z) / 2 + Math.log(7) + Math.log(2 * Math.PI) / 2;
    }
  }
  return sum;
}

/** The fastest of three runs, in seconds: the machine has other work. */
function secondsOf(run: () => unknown): number {
  let best = Infinity;
  for (let attempt = 0; attempt < 3; attempt += 1) {
    const from = performance.now();
    run();
    best = Math.min(best, (performance.now() - from) / 1000);
  }
  return best;
}

test('100 000 frames: in proportion to the frames, and against one pass by hand', () => {
  const walk = drawnWalk(100_000);
  const fit = (frames: readonly Observation[]) => () =>
    fitPathLoss(frames, { signal: 'rssi', censored: true, thresholdDbm: -130 });
  const seconds = secondsOf(fit(walk));
  const quarter = secondsOf(fit(walk.slice(0, 25_000)));
  let sink = 0;
  const pass = secondsOf(() => {
    sink += onePassByHand(walk);
  });
  expect(Number.isFinite(sink)).toBe(true);
  console.log(
    `fitPathLoss, 100 000 frames: ${seconds.toFixed(2)} s, ${(seconds / pass).toFixed(0)} passes by hand; ` +
      `${(seconds / quarter).toFixed(1)} times as long as for a quarter of them`,
  );
  expect(seconds / quarter).toBeLessThan(8);
  expect(seconds / pass).toBeLessThan(250);
});
