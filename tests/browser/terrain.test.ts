import { readFileSync } from 'node:fs';
import { heightAtM, openElevation } from '@finial/terrain';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bundled } from '../support/bundled.js';
import { chromiumPath, launchChromium } from '../support/chromium.js';

const name = 'elevation.tif';
const bytes = readFileSync(`examples/fennimara/${name}`);
const place = { latitudeDeg: 41.21, longitudeDeg: -37.39 };

describe.skipIf(chromiumPath === undefined)('elevation files in a browser', () => {
  let browser: Awaited<ReturnType<typeof launchChromium>>;
  beforeAll(async () => {
    browser = await launchChromium();
  }, 60_000);
  afterAll(() => browser?.close());

  test('a File that a visitor chose gives the height that Node reads', async () => {
    const { code } = await bundled(
      "import { heightAtM, openElevation } from '@finial/terrain'; Object.assign(globalThis, { heightAtM, openElevation });",
    );
    const page = await browser.newPage();
    await page.addScriptTag({ type: 'module', content: code });
    const heightM = await page.evaluate(
      async ([base64, fileName, at]) => {
        const terrain = globalThis as unknown as typeof import('@finial/terrain');
        const contents = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
        const elevation = await terrain.openElevation([new File([contents], fileName)]);
        return terrain.heightAtM(elevation, at);
      },
      [bytes.toString('base64'), name, place] as const,
    );
    expect(heightM).toBe(heightAtM(await openElevation([{ name, bytes }]), place));
    expect(heightM).toBeGreaterThan(0);
  }, 60_000);
});
