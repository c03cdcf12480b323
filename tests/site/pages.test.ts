import { createRequire } from 'node:module';
import { join, relative } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath, launchChromium } from '../support/chromium.js';
import { filesBelow, root } from '../support/workspace.js';
import { type ServedSite, serveSite } from './serveSite.js';

const docs = join(root, 'docs');
const written = ['guide', 'worksheets'].flatMap((folder) =>
  filesBelow(join(docs, folder), '.md').map((file) =>
    relative(docs, file).replaceAll('\\', '/').replace(/\.md$/, '.html'),
  ),
);
/** A page of each kind that TypeDoc writes. */
const apiPages = [
  'api/index.html',
  'api/@finial/lora/index.html',
  'api/@finial/lora/functions/timeOnAir.html',
  'api/@finial/propagation/index/namespaces/p526/functions/deltaBullington.html',
  'api/@finial/units/classes/InputError.html',
];
const pages = ['index.html', 'changes.html', 'speed.html', ...written];

/** What a page may load before one does anything, in bytes as a server sends it. */
const firstLoad = 200_000;

describe.skipIf(chromiumPath === undefined)('the site in Chromium', () => {
  let site: ServedSite;
  let browser: Browser;
  beforeAll(async () => {
    site = await serveSite();
    browser = await launchChromium();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await site?.close();
  });

  test.each([...pages, 'sources.html', ...apiPages])(
    '%s loads from its own origin alone, without a complaint',
    async (path) => {
      const { page, context, requests, complaints } = await opened(path);
      expect(
        requests.filter(({ url }) => !url.startsWith(site.origin) && !/^(data|blob):/.test(url)),
      ).toEqual([]);
      expect(complaints).toEqual([]);
      expect(await page.locator('h1').count()).toBe(1);
      await context.close();
    },
  );

  // What a browser fetches when it has nothing else to do, to work without a network later, comes on top and hurries nobody.
  test.each(pages)('%s weighs at most 200 kB until it is loaded', async (path) => {
    const { page, context, requests } = await opened(path);
    const loaded = await page.evaluate(() => {
      const [navigation] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
      const resources = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
      const idle = [...document.querySelectorAll<HTMLLinkElement>('link[rel=prefetch]')].map(
        ({ href }) => href,
      );
      return resources
        .filter(({ startTime }) => startTime <= (navigation?.loadEventStart ?? Number.POSITIVE_INFINITY))
        .filter(({ name, initiatorType }) => initiatorType !== 'link' || !idle.includes(name))
        .map(({ name }) => name);
    });
    const counted = requests.filter(({ url }) => url === page.url() || loaded.includes(url));
    const sizes = await Promise.all(counted.map(async ({ body }) => gzipSync(await body()).length));
    const sum = sizes.reduce((total, size) => total + size, 0);
    const list = counted.map(({ url }, index) => `${sizes[index]} ${url}`).join('\n');
    expect(sum, list).toBeLessThanOrEqual(firstLoad);
    expect(counted.length).toBeGreaterThan(3);
    await context.close();
  });

  test.each([...pages, 'sources.html', ...apiPages])(
    '%s does not scroll sideways at 320 and 390 pixels',
    async (path) => {
      const { page, context } = await opened(path);
      for (const width of [320, 390]) {
        await page.setViewportSize({ width, height: 844 });
        const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(over, `${width}`).toBeLessThanOrEqual(0);
      }
      await context.close();
    },
  );

  test.each([...pages, ...apiPages])('%s has no accessibility fault, light and dark', async (path) => {
    for (const [colorScheme, width] of [
      ['light', 390],
      ['dark', 1280],
    ] as const) {
      const { page, context } = await opened(path, { colorScheme, viewport: { width, height: 844 } });
      expect(await faults(page), colorScheme).toEqual([]);
      await context.close();
    }
  });

  test('search finds timeOnAir', async () => {
    const { page, context } = await opened('index.html');
    await page.locator('#local-search button').click();
    await page.locator('.VPLocalSearchBox input').fill('timeOnAir');
    const first = page.locator('.VPLocalSearchBox .result').first();
    await first.waitFor();
    expect(await first.getAttribute('href')).toContain('timeOnAir');
    await first.click();
    await page.waitForURL(/timeOnAir/);
    expect(await page.locator('h1').textContent()).toContain('timeOnAir');
    await context.close();
  });

  test('each link of the guide and the worksheets leads somewhere', async () => {
    const { page, context } = await opened('index.html');
    const seen = new Set<string>();
    for (const path of pages) {
      await page.goto(`${site.origin}/${path}`);
      for (const address of await page
        .locator('.vp-doc a')
        .evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).href))) {
        seen.add(address.replace(/#.*/, ''));
      }
    }
    const gone = [];
    for (const address of seen) {
      if (address.startsWith(site.origin) && !(await page.request.get(address)).ok()) gone.push(address);
    }
    expect(seen.size).toBeGreaterThan(30);
    expect(gone).toEqual([]);
    await context.close();
  });

  interface Seen {
    readonly page: Page;
    readonly context: BrowserContext;
    readonly requests: { readonly url: string; readonly body: () => Promise<Buffer> }[];
    readonly complaints: string[];
  }

  async function opened(
    path: string,
    options: { colorScheme?: 'light' | 'dark'; viewport?: { width: number; height: number } } = {},
  ): Promise<Seen> {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const requests: { url: string; body: () => Promise<Buffer> }[] = [];
    const complaints: string[] = [];
    page.on('response', (response) => requests.push({ url: response.url(), body: () => response.body() }));
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(`${site.origin}/${path}`, { waitUntil: 'networkidle' });
    return { page, context, requests, complaints };
  }
});

async function faults(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core/axe.min.js') });
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  });
}
