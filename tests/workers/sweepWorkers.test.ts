import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { type CoverageOptions, sweepCoverage } from '@finial/propagation';
import { type Elevation, openElevation } from '@finial/terrain';
import { beforeAll, describe, expect, test } from 'vitest';
import { elevationFile, question } from '../../examples/sector-jobs/question.js';
import { bundled } from '../support/bundled.js';

const scriptFolder = mkdtempSync(join(tmpdir(), 'finial-workers-'));

let elevation: Elevation;
let workerUrl: URL;
beforeAll(async () => {
  elevation = await openElevation([{ name: 'elevation.tif', bytes: readFileSync(elevationFile) }]);
  // Threads of Node load files, and the sources are none that it could load: bundled, they are.
  const worker = "import { answerSweeps } from '@finial/propagation/sweepWorker'; answerSweeps();";
  workerUrl = script('sweepWorker', (await bundled(worker)).code);
});

const optionsOf = (more: Partial<CoverageOptions> = {}): CoverageOptions => ({
  ...question,
  elevation,
  workers: 2,
  workerUrl,
  ...more,
});

/** Address of a script that stands in for the worker's. */
function script(name: string, code: string): URL {
  const path = join(scriptFolder, `${name}.mjs`);
  writeFileSync(path, code);
  return pathToFileURL(path);
}

describe('workers in Node', () => {
  test.each([1, 2, 3])('%i of them give bit for bit the raster of one thread', async (workers) => {
    const alone = await sweepCoverage(optionsOf({ workers: 0 }));
    expect(await sweepCoverage(optionsOf({ workers }))).toEqual(alone);
  });

  test('the built package finds its script by itself, and the process ends', async () => {
    expect(
      existsSync('packages/propagation/dist/index.js'),
      'built before the tests, by the test command',
    ).toBe(true);
    const code = `
      import { sweepCoverage } from '@finial/propagation';
      import { openElevationFiles } from '@finial/terrain/node';
      const elevation = await openElevationFiles(['examples/fennimara/elevation.tif']);
      const { lossDb } = await sweepCoverage({ ...JSON.parse(process.argv[1]), elevation, workers: 2 });
      process.stdout.write(Buffer.from(lossDb.buffer).toString('hex'));`;
    const small = { ...question, radiusM: 600 };
    const words = ['--input-type=module', '-e', code, JSON.stringify(small)];
    const { stdout } = await promisify(execFile)(process.execPath, words);
    const { lossDb } = await sweepCoverage({ ...small, elevation });
    expect(stdout).toBe(Buffer.from(lossDb.buffer).toString('hex'));
  });

  test('more workers than radials are no fault', async () => {
    const tiny = { radiusM: 30, workers: 9 };
    expect(await sweepCoverage(optionsOf(tiny))).toEqual(
      await sweepCoverage(optionsOf({ ...tiny, workers: 0 })),
    );
  });

  test('the heights stay with the caller, shared or not', async () => {
    const [tile] = elevation.tiles;
    const heightsM = new Int16Array(new SharedArrayBuffer(2 * (tile?.heightsM.length ?? 0)));
    heightsM.set(tile?.heightsM ?? []);
    const shared = { ...elevation, tiles: [{ ...tile, heightsM }] } as Elevation;
    const small = { radiusM: 600 };
    const raster = await sweepCoverage(optionsOf({ ...small, elevation: shared }));
    expect(raster).toEqual(await sweepCoverage(optionsOf(small)));
    expect(tile?.heightsM).toHaveLength(520 * 440);
  });

  test('progress grows and ends at 1', async () => {
    const doneRatios: number[] = [];
    await sweepCoverage(optionsOf({ onProgress: ({ doneRatio }) => doneRatios.push(doneRatio) }));
    expect(doneRatios.length).toBeGreaterThan(8);
    expect(doneRatios.every((ratio, place) => ratio > (doneRatios[place - 1] ?? 0))).toBe(true);
    expect(doneRatios.at(-1)).toBe(1);
  });

  test('an abort ends them at once, whatever they do', async () => {
    const control = new AbortController();
    const busy = script('busy', 'for (;;) {}');
    const asked = sweepCoverage(optionsOf({ workerUrl: busy, signal: control.signal }));
    setTimeout(() => control.abort(new Error('enough')), 200);
    await expect(asked).rejects.toThrow('enough');
  });

  test('what a listener throws ends the sweep', async () => {
    const onProgress = (): void => {
      throw new Error('no more');
    };
    await expect(sweepCoverage(optionsOf({ onProgress }))).rejects.toThrow('no more');
  });

  test.each([
    ['is not there', undefined, /Cannot find module/],
    ['throws', "throw new Error('out of paper');", /out of paper/],
    ['ends by itself', 'process.exit(7);', /ended by itself with code 7/],
    ['is no module', 'export {', /Unexpected end of input|Unexpected token/],
  ])('a script that %s is told, and nothing hangs', async (name, code, message) => {
    const url =
      code === undefined ? new URL('nowhere.mjs', workerUrl) : script(name.replaceAll(' ', '-'), code);
    await expect(sweepCoverage(optionsOf({ workerUrl: url }))).rejects.toThrow(message);
  });

  test('an error in a sector arrives with its words, an InputError as one', async () => {
    // Land cover that is known under the gateway only: the workers find out.
    const [tile] = elevation.tiles;
    const heightsM = new Int16Array(520 * 440).fill(10);
    const row = 250;
    heightsM.fill(99, 0, 520 * row);
    const codes = { ...elevation, tiles: [{ ...tile, heightsM }] } as Elevation;
    const landCover = { codes, classOfCode: { 10: 'trees' } } as const;
    await expect(sweepCoverage(optionsOf({ landCover }))).rejects.toMatchObject({
      name: 'InputError',
      code: 'unknown-option',
      argument: 'landCover.classOfCode',
      received: 99,
    });
    const broken = script(
      'broken',
      `import { parentPort } from 'node:worker_threads';
       parentPort.on('message', () => parentPort.postMessage({ kind: 'failure', failure: { name: 'TypeError', message: 'x is no y' } }));`,
    );
    await expect(sweepCoverage(optionsOf({ workerUrl: broken }))).rejects.toThrow('TypeError: x is no y');
  });
});
