import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { faultOf } from './faultOf.js';
import { found } from './found.js';
import { Random } from './Random.js';
import { runTarget } from './runTarget.js';
import type { Target } from './Target.js';
import { allTargets, inputOf } from './targets.js';

// The long runs are those of run.js; this pass shows that every target still runs, and that what was found stays mended.
// Its threads need the built package, which run.js takes.
const withThreads = 'propagation.sweepCoverage';
const targets = (await allTargets()).filter(({ name }) => !name.startsWith(withThreads));

beforeAll(() => {
  // The GeoTIFF reader warns of damaged files on the console.
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
});
afterAll(() => vi.restoreAllMocks());

describe('what was found', () => {
  test.each(found.map(({ what, call }) => [what, call] as const))(
    '%s',
    async (_, call) => {
      expect(await faultOf({ name: 'found', args: () => [], call }, [])).toBeUndefined();
    },
    5000,
  );
});

describe('a short pass', () => {
  test.each(targets.map((target) => [target.name, target] as const))('%s', async (name, target) => {
    const isReader = /^(text|bytes|value)\./.test(name);
    const budget = isReader ? { inputs: 300, seconds: 0.5 } : { inputs: 200, seconds: 0.05 };
    const { faults } = await runTarget(target, { seed: 1, ...budget });
    expect(faults.map(({ index, what }) => `--replay "${name}:1:${index}" ${what}`)).toEqual([]);
  });
});

// The check itself: a run that cannot fail proves nothing.
describe('the run', () => {
  const target = (call: (value: number) => unknown): Target => ({
    name: 'one number',
    args: (random) => [random.whole(0, 9)],
    call: call as Target['call'],
  });
  const faultsOf = async (call: (value: number) => unknown): Promise<readonly string[]> =>
    (await runTarget(target(call), { seed: 1, inputs: 100, seconds: 5 })).faults.map(({ what }) => what);

  test('finds what throws, what is not finite, what writes into prototypes, and long messages', async () => {
    expect(await faultsOf((value) => value / (value - value))).toContainEqual(
      expect.stringMatching(/NaN|Infinity/),
    );
    expect(await faultsOf(() => ({ a: [new Float64Array([1, Number.NaN])] }))).toEqual([
      'result.a[0][1] is NaN',
    ]);
    expect(await faultsOf((value) => (undefined as never)[value])).toContainEqual(
      expect.stringContaining('TypeError'),
    );
    expect(await faultsOf((value) => value)).toEqual([]);
    const prototype = Object.prototype as { polluted?: number };
    expect(
      await faultsOf(() => {
        prototype.polluted = 1;
      }),
    ).toEqual(['wrote into a prototype that all objects share']);
    delete prototype.polluted;
  });

  test('makes the same input of the same words, and another of others', () => {
    const [reader] = targets;
    if (reader === undefined) throw new Error('no targets');
    expect(inputOf(reader, 1, 7)).toEqual(inputOf(reader, 1, 7));
    expect(inputOf(reader, 1, 7)).not.toEqual(inputOf(reader, 1, 8));
    expect(inputOf(reader, 1, 7)).not.toEqual(inputOf(reader, 2, 7));
  });

  test('draws evenly', () => {
    const random = new Random('even');
    const counts = new Array<number>(10).fill(0);
    for (let draw = 0; draw < 10_000; draw++) {
      const place = random.whole(0, 9);
      counts[place] = (counts[place] ?? 0) + 1;
    }
    for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(150);
  });
});
