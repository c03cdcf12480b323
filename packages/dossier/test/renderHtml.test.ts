import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import { deliveryClass } from '../src/page/spotMap.js';
import { stylesheet, stylesheetHash } from '../src/page/stylesheet.js';
import { decimal, distance, duration, percent } from '../src/page/wording.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { exampleLog, examplePlan } from './examplePlan.js';

const withWalk: Plan = { ...examplePlan, walk: { file: 'walk.csv' } };

test('the policy admits exactly the style sheet of the page', () => {
  expect(stylesheetHash).toBe(createHash('sha256').update(stylesheet).digest('base64'));
});

describe('a page', () => {
  test('needs nothing but itself', async () => {
    const page = renderHtml(await assembleDossier(withWalk, { 'walk.csv': exampleLog }));
    expect(page).toContain('default-src &#39;none&#39;');
    expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|https?:\/\//);
    expect(page).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });

  test('shows the numbers of its dossier', async () => {
    const dossier = await assembleDossier(withWalk, { 'walk.csv': exampleLog });
    const page = renderHtml(dossier);
    expect(page).toContain('13 of 18 frames arrived');
    expect(page).toContain(`margin ${dossier.linkBudget.uplink.marginDb.toFixed(1)}`);
    for (const { spot } of dossier.walk?.spots ?? []) expect(page).toContain(`${spot}</th>`);
  });

  test('without a walk it says what is missing', async () => {
    expect(renderHtml(await assembleDossier(examplePlan, {}))).toContain('Not in this dossier');
  });
});

test.each([
  [-33.9, 18.4, '33.90000° S, 18.40000° E'],
  [41.2, -37.4, '41.20000° N, 37.40000° W'],
])(
  'a place at %d, %d says on which side of equator and meridian it lies',
  async (latitudeDeg, longitudeDeg, words) => {
    const gateway = { ...examplePlan.gateway, position: { latitudeDeg, longitudeDeg } };
    expect(renderHtml(await assembleDossier({ ...examplePlan, gateway }, {}))).toContain(words);
  },
);

describe('hostile text stays text', () => {
  const hostile = [
    '<script>alert(1)</script>',
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    '</style><script>alert(1)</script>',
    '</title><svg onload=alert(1)>',
    '&lt;b&gt;',
    '\u202eright to left',
    '{{7*7}}',
  ];

  test.each(hostile)('%j in every text field', async (text) => {
    const plan: Plan = {
      ...withWalk,
      name: text,
      link: { distanceM: 3000, losses: [{ name: text, lossDb: 3 }] },
    };
    const log = exampleLog.replaceAll('quay', `"${text.replaceAll('"', '""')}"`);
    const page = renderHtml(await assembleDossier(plan, { 'walk.csv': log }));
    const calm = renderHtml(
      await assembleDossier(
        { ...plan, name: 'x', link: { ...plan.link, losses: [{ name: 'x', lossDb: 3 }] } },
        { 'walk.csv': exampleLog.replaceAll('quay', 'x') },
      ),
    );
    // The same tags, whatever the texts say.
    const tags = (html: string) => html.match(/<[^>]*>/g)?.map((tag) => tag.split(/[\s>]/)[0]);
    expect(tags(page)).toEqual(tags(calm));
    expect(page).not.toContain('\u202e');
  });
});

describe('numbers in words', () => {
  test.each([
    [0, 1, '0.0'],
    [-0.04, 1, '0.0'],
    [-3.25, 1, '−3.3'],
    [1234.5, 1, '1\u202f234.5'],
    [1234567, 0, '1\u202f234\u202f567'],
    [123.4, 0, '123'],
  ])('%d with %d digits is %s', (value, digits, words) => expect(decimal(value, digits)).toBe(words));

  test('a ratio short of one is not called all of them', () => {
    expect(percent(0.999)).toBe('>99\u00a0%');
    expect(percent(0.001)).toBe('<1\u00a0%');
    expect(percent(1)).toBe('100\u00a0%');
    expect(percent(0)).toBe('0\u00a0%');
  });

  test('lengths and times take the unit that reads best', () => {
    expect([distance(0.2), distance(250), distance(1500), distance(12_345)]).toEqual([
      '0.20\u00a0m',
      '250\u00a0m',
      '1.50\u00a0km',
      '12.3\u00a0km',
    ]);
    expect([duration(0.0617), duration(5), duration(600), duration(9000)]).toEqual([
      '61.7\u00a0ms',
      '5.00\u00a0s',
      '10.0\u00a0min',
      '2.5\u00a0h',
    ]);
  });

  test.each([
    [1, 0],
    [0.9, 0],
    [0.89, 1],
    [0.4, 2],
    [0.1, 3],
    [0, 4],
  ])('a delivery of %d is class %d', (ratio, index) => expect(deliveryClass(ratio)).toBe(index));
});
