import { type Dossier, renderHtml, toGeoJson } from '@finial/dossier';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromiumPath, launchChromium } from '../support/chromium.js';
import { islandDossier } from './islandDossier.js';

// Every text that a dossier holds, wherever it came from, is put in place of a hostile one: the page must stay the same page.
let dossier: Dossier;
beforeAll(async () => {
  dossier = await islandDossier();
}, 60_000);

/** The same data with another text in place of each; keys and what the page decides by stay. */
function withTexts(value: unknown, text: string, key = ''): unknown {
  if (typeof value === 'string') return decidedBy.has(key) ? value : text;
  if (Array.isArray(value)) return value.map((each) => withTexts(each, text, key));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, withTexts(each, text, name)]));
}

/** Words of a closed list, which no plan and no file can set to anything else. */
const decidedBy = new Set(['severity', 'kind', 'direction', 'shape', 'charts']);

const hostileDossier = (text: string): Dossier => withTexts(dossier, text) as Dossier;
const tagsOf = (html: string) => html.match(/<[^>]*>/g)?.map((tag) => tag.split(/[\s>]/)[0]);

const hostileTexts = [
  '<script>document.body.dataset.taken = "yes"</script>',
  '"><img src=x onerror="document.body.dataset.taken=1">',
  "' autofocus tabindex=1 onfocus='document.body.dataset.taken=1",
  '</style><script>document.body.dataset.taken = 1</script>',
  '</title></svg><svg onload="document.body.dataset.taken=1">',
  'javascript:document.body.dataset.taken=1',
  ']]><!--',
  '&lt;b&gt;',
  '\u202eright to left',
  '{{7*7}}',
];

describe('hostile text in every text field of a whole dossier', () => {
  test.each(hostileTexts)('%j leaves the tags of the page as they are', (text) => {
    const page = renderHtml(hostileDossier(text));
    expect(tagsOf(page)).toEqual(tagsOf(renderHtml(hostileDossier('calm'))));
    expect(page).not.toContain('\u202e');
  });

  test('the page has every part, so that none escapes this test', () => {
    const page = renderHtml(dossier);
    for (const part of [
      'feedline',
      'antenna',
      'site',
      'terrain',
      'coverage',
      'walk',
      'calibration',
      'beacon',
    ]) {
      expect(page).toContain(`aria-labelledby="${part}"`);
    }
  });

  test.each(hostileTexts)('%j comes back whole from the GeoJSON', (text) => {
    const { features } = JSON.parse(toGeoJson(hostileDossier(text)));
    expect(features[0].properties.name).toBe(text);
  });
});

describe.skipIf(chromiumPath === undefined)('hostile text in Chromium', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchChromium();
  }, 60_000);
  afterAll(() => browser?.close());

  // Without the page's own policy, so that the escaping alone has to hold.
  test.each(hostileTexts)('%j runs nothing', async (text) => {
    const context = await browser.newContext({ bypassCSP: true });
    const page = await context.newPage();
    const requests: string[] = [];
    page.on('request', (request) => requests.push(request.url()));
    await page.setContent(renderHtml(hostileDossier(text)));
    expect(await page.locator('script, img, iframe, [onload], [onerror], [onfocus]').count()).toBe(0);
    expect(await page.evaluate(() => document.body.dataset['taken'])).toBeUndefined();
    expect(requests.filter((url) => !url.startsWith('data:image/png;base64,'))).toEqual([]);
    await context.close();
  });
});
