import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type SweepQuestion, sweepCoverage } from '@finial/propagation';
import { openElevation } from '@finial/terrain';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { elevationFile, question as wideQuestion } from '../../examples/sector-jobs/question.js';
import { bundled } from '../support/bundled.js';
import { chromiumPath, launchChromium } from '../support/chromium.js';

const name = 'elevation.tif';
const bytes = readFileSync(elevationFile);
const question: SweepQuestion = { ...wideQuestion, radiusM: 1200 };

type Packages = Pick<typeof import('@finial/propagation'), 'sweepCoverage'> &
  Pick<typeof import('@finial/terrain'), 'openElevation'>;

describe.skipIf(chromiumPath === undefined)('a sweep in a browser', () => {
  let browser: Awaited<ReturnType<typeof launchChromium>>;
  let server: Server;
  beforeAll(async () => {
    browser = await launchChromium();
    server = await serve(await scripts());
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  async function openPage(path: string): Promise<Awaited<ReturnType<typeof browser.newPage>>> {
    const page = await browser.newPage();
    const { port } = server.address() as AddressInfo;
    await page.goto(`http://127.0.0.1:${port}${path}`);
    await page.waitForFunction(() => 'sweepCoverage' in globalThis);
    return page;
  }

  test.each([
    ['memory that is shared', '/isolated/', true],
    ['a copy for each', '/open/', false],
  ])(
    'two workers with %s give the raster of Node',
    async (_, path, isIsolated) => {
      const page = await openPage(path);
      const answer = await page.evaluate(
        async ([base64, fileName, asked]) => {
          const { openElevation, sweepCoverage } = globalThis as unknown as Packages;
          const contents = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
          const elevation = await openElevation([new File([contents], fileName)]);
          let started = 0;
          const WebWorker = globalThis.Worker;
          globalThis.Worker = class extends WebWorker {
            constructor(script: URL | string, options?: WorkerOptions) {
              super(script, options);
              started += 1;
            }
          };
          const doneRatios: number[] = [];
          const raster = await sweepCoverage({
            ...asked,
            elevation,
            workers: 2,
            onProgress: ({ doneRatio }) => doneRatios.push(doneRatio),
          });
          return {
            raster: { ...raster, lossDb: Array.from(raster.lossDb) },
            doneRatios,
            started,
            isIsolated: crossOriginIsolated,
            isKept: elevation.tiles[0]?.heightsM.length,
          };
        },
        [bytes.toString('base64'), name, question] as const,
      );
      expect(answer).toMatchObject({ started: 2, isIsolated, isKept: 520 * 440 });
      const elevation = await openElevation([{ name, bytes }]);
      const expected = await sweepCoverage({ ...question, elevation });
      expect({ ...answer.raster, lossDb: Float32Array.from(answer.raster.lossDb) }).toEqual(expected);
      expect(answer.doneRatios).toEqual([...answer.doneRatios].sort((a, b) => a - b));
      expect(answer.doneRatios.at(-1)).toBe(1);
      await page.close();
    },
    60_000,
  );

  test('a script that is not there is told, and nothing hangs', async () => {
    const page = await openPage('/open/');
    const message = await page.evaluate(
      async ([base64, fileName, asked]) => {
        const { openElevation, sweepCoverage } = globalThis as unknown as Packages;
        const contents = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
        const elevation = await openElevation([new File([contents], fileName)]);
        const request = { ...asked, elevation, workers: 2, workerUrl: '/nowhere.js' };
        return await sweepCoverage(request).then(
          () => 'no error',
          (error: Error) => error.message,
        );
      },
      [bytes.toString('base64'), name, question] as const,
    );
    expect(message).toMatch(/script could not be loaded/);
    await page.close();
  }, 60_000);
});

/** The page's script, and beside it the one that its workers run, as a bundler leaves them. */
async function scripts(): Promise<ReadonlyMap<string, string>> {
  const page = await bundled(
    "import { openElevation } from '@finial/terrain'; import { sweepCoverage } from '@finial/propagation'; Object.assign(globalThis, { openElevation, sweepCoverage });",
  );
  const worker = await bundled(
    "import { answerSweeps } from '@finial/propagation/sweepWorker'; answerSweeps();",
  );
  return new Map([
    ['main.js', page.code],
    ['sweepWorker.js', worker.code],
  ]);
}

/** Pages below `/isolated/` may share memory between threads, those below `/open/` may not. */
function serve(files: ReadonlyMap<string, string>): Promise<Server> {
  const server = createServer((request, response) => {
    const [, folder, file = ''] = (request.url ?? '').split('/');
    const code = files.get(file);
    const body = file === '' ? '<script type="module" src="main.js"></script>' : code;
    response.writeHead(body === undefined ? 404 : 200, {
      'content-type': code === undefined ? 'text/html' : 'text/javascript',
      ...(folder === 'isolated' && {
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-embedder-policy': 'require-corp',
      }),
    });
    response.end(body);
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}
