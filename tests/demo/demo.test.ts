import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import type { Dossier } from '@finial/dossier';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath, launchChromium } from '../support/chromium.js';

const built = existsSync('packages/dossier/dist/finial.js');
const out = mkdtempSync(join(tmpdir(), 'finial-demo-'));
const pagePath = join(out, 'dossier.html');

// The demo as a person runs it: the built command on the example's own files.
beforeAll(async () => {
  expect(built, 'the packages are built before the tests (the test command does it)').toBe(true);
  const words = ['packages/dossier/bin/finial.js', 'dossier', 'examples/fennimara/plan.json', '--out', out];
  const { stdout, stderr } = await promisify(execFile)(process.execPath, words);
  expect(stderr).toBe('');
  expect(stdout).toContain('Lantern House');
}, 60_000);

describe("the demo's dossier", () => {
  const read = (): Dossier => JSON.parse(readFileSync(join(out, 'dossier.json'), 'utf8')) as Dossier;

  test('counts the frames that the log holds', () => {
    const log = readFileSync('examples/fennimara/walk.csv', 'utf8').trimEnd().split('\n');
    const header = log.find((line) => line.startsWith('time_utc')) ?? '';
    const rows = log.slice(log.indexOf(header) + 1).map((line) => line.split(','));
    const column = header.split(',').indexOf('received');
    expect(read().walk).toMatchObject({
      rows: rows.length,
      delivery: { sent: rows.length, received: rows.filter((row) => row[column] === '1').length },
    });
  });

  test('finds the spots in the hollows, and does not forbid the gateway', () => {
    const { verdict } = read();
    expect(verdict.findings.map(({ rule }) => rule)).toContain('hollow-spots');
    expect(verdict.severity).not.toBe('stop');
  });
});

describe.skipIf(chromiumPath === undefined)('the page in Chromium', () => {
  let browser: Browser;
  let page: Page;
  const requests: string[] = [];
  const complaints: string[] = [];
  beforeAll(async () => {
    browser = await launchChromium();
    page = await browser.newPage();
    page.on('request', (request) => requests.push(request.url()));
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(pathToFileURL(pagePath).href);
  }, 60_000);
  afterAll(() => browser?.close());

  test('is styled by its own sheet, asks for nothing else and complains of nothing', async () => {
    expect(requests).toEqual([pathToFileURL(pagePath).href]);
    expect(complaints).toEqual([]);
    const border = await page
      .locator('.verdict')
      .evaluate((element) => getComputedStyle(element).borderLeftWidth);
    expect(border).toBe('8px');
  });

  test('shows both budgets, the map and the levels as pictures with names', async () => {
    const names = await page.locator('svg[role=img] title').allTextContents();
    expect(names).toEqual(expect.arrayContaining(['Uplink: node to gateway', 'Downlink: gateway to node']));
    const dossier = JSON.parse(readFileSync(join(out, 'dossier.json'), 'utf8')) as Dossier;
    expect(await page.locator('#spot-map, svg[aria-labelledby^=spot-map] circle.spot').count()).toBe(
      dossier.walk?.spots.length,
    );
    expect(await page.locator('section[aria-labelledby=walk] line.missed').count()).toBe(
      (dossier.walk?.delivery.sent ?? 0) - (dossier.walk?.delivery.received ?? 0),
    );
  });

  test('a dot on the coverage map leads to its ground, by keyboard too', async () => {
    const dot = page.locator('svg[aria-labelledby^=coverage-map] a').first();
    const name = (await dot.getAttribute('aria-label'))?.split(':')[0] ?? '';
    await dot.focus();
    await page.keyboard.press('Enter');
    const shown = page.locator('figure.path:visible');
    expect(await shown.count()).toBe(1);
    expect(await shown.locator('figcaption b').textContent()).toBe(`${name}.`);
    expect(await shown.locator('path.hill').count()).toBe(1);
    await shown.locator('a').click();
    expect(new URL(page.url()).hash).toBe('#coverage');
  });

  test('shows the relief under its maps from its own bytes', async () => {
    expect(await page.locator('use[href="#relief"]').count()).toBeGreaterThanOrEqual(3);
    const width = await page
      .locator('use[href="#relief"]')
      .first()
      .evaluate((use) => use.getBoundingClientRect().width);
    expect(width).toBeGreaterThan(100);
  });

  test.each([320, 390, 768, 1280])('fits %i pixels without scrolling sideways', async (width) => {
    await page.setViewportSize({ width, height: 844 });
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
  });

  test.each(['light', 'dark'] as const)(
    'has no accessibility fault in %s, tables folded and unfolded',
    async (colorScheme) => {
      const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
      const context = await browser.newContext({ bypassCSP: true, colorScheme });
      const tab = await context.newPage();
      await tab.goto(pathToFileURL(pagePath).href);
      await tab.addScriptTag({ path: axePath });
      for (const open of [false, true]) {
        await tab.evaluate((unfold) => {
          for (const details of document.querySelectorAll('details')) details.open = unfold;
        }, open);
        const faults = await tab.evaluate(async () => {
          const { axe } = window as unknown as {
            axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
          };
          const { violations } = await axe.run();
          return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
        });
        expect(faults).toEqual([]);
      }
      await context.close();
    },
  );
});
