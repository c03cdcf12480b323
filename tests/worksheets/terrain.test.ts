import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fromArrayBuffer } from 'geotiff';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Outcome, SheetFile, SheetWork, Value } from '../../docs/worksheets/frame/sheet.js';
import { terrain } from '../../docs/worksheets/terrain/terrain.js';
import { root } from '../support/workspace.js';
import { runSnippet } from './runSnippet.js';

const folder = join(root, 'examples', 'fennimara');
const tile: SheetFile = {
  name: 'elevation.tif',
  bytes: new Uint8Array(readFileSync(join(folder, 'elevation.tif'))),
};
const small = { question: 'coverage', radiusM: 3000, cellM: 60 };

function ask(values: Readonly<Record<string, Value>> = {}, work: Partial<SheetWork> = {}): Promise<Outcome> {
  const held = { ...terrain.defaults, ...values };
  const whole = { signal: new AbortController().signal, onProgress: () => undefined, ...work };
  return Promise.resolve(terrain.compute(held, { elevation: [tile] }, whole));
}

/** The number behind a fact, whatever its spaces. */
function figure(outcome: Outcome, name: string): number {
  const [, text = ''] = outcome.facts.find(([each]) => each === name) ?? [];
  return Number.parseFloat(text.replace(/\u2212/g, '-').replace(/\u202f/g, ''));
}

function download(outcome: Outcome, name: string): string | Uint8Array {
  const file = outcome.downloads?.find((each) => each.name === name);
  if (file === undefined) throw new Error(`no download ${name}`);
  return file.content;
}

const columnsOf = (csv: string): number[][] =>
  csv
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));

/** Heights by the TIFF library alone: bilinear between the centres of four cells. */
async function tileReader(): Promise<(latitudeDeg: number, longitudeDeg: number) => number> {
  const tiff = await fromArrayBuffer(tile.bytes.slice().buffer);
  const image = await tiff.getImage();
  const [band] = (await image.readRasters()) as unknown as ArrayLike<number>[];
  const [west = 0, south = 0, east = 0, north = 0] = image.getBoundingBox();
  const [columns, rows] = [image.getWidth(), image.getHeight()];
  return (latitudeDeg, longitudeDeg) => {
    const x = ((longitudeDeg - west) / (east - west)) * columns - 0.5;
    const y = ((north - latitudeDeg) / (north - south)) * rows - 0.5;
    const [left, top] = [Math.floor(x), Math.floor(y)];
    const at = (column: number, row: number) => band?.[row * columns + column] ?? Number.NaN;
    const upper = at(left, top) * (1 - x + left) + at(left + 1, top) * (x - left);
    const lower = at(left, top + 1) * (1 - x + left) + at(left + 1, top + 1) * (x - left);
    return upper * (1 - y + top) + lower * (y - top);
  };
}

const home = process.cwd();
beforeAll(() => process.chdir(folder));
afterAll(() => process.chdir(home));

describe('the ground to a place', () => {
  test('has the heights of the tile at both ends, and the length of the geodesic', async () => {
    const outcome = await ask();
    const height = await tileReader();
    const rows = columnsOf(download(outcome, 'profile.csv') as string);
    expect(rows[0]?.[1]).toBeCloseTo(height(41.1901, -37.4322), 1);
    expect(rows.at(-1)?.[1]).toBeCloseTo(height(41.2135, -37.4256), 1);
    expect(figure(outcome, 'Ground under the gateway')).toBeCloseTo(height(41.1901, -37.4322), 1);
    // By degrees of latitude and longitude on the ellipsoid at 41.2°: 111.06 and 83.9 km.
    expect(rows.at(-1)?.[0]).toBeCloseTo(Math.hypot(0.0234 * 111_062, 0.0066 * 83_900), -1);
  });

  test('loses what free space loses, and more behind ground', async () => {
    const outcome = await ask();
    const lengthKm = (columnsOf(download(outcome, 'profile.csv') as string).at(-1)?.[0] ?? 0) / 1000;
    const freeDb = 32.45 + 20 * Math.log10(868.1) + 20 * Math.log10(lengthKm);
    expect(figure(outcome, 'Loss in free space')).toBeCloseTo(freeDb, 0);
    expect(figure(outcome, 'Loss by ITU-R P.1812')).toBeGreaterThanOrEqual(freeDb - 0.2);
    expect(outcome.pictures?.[0]?.svg).toMatch(/^<svg class="picture"/);
  });

  test('is computed by the code that is shown', async () => {
    await runSnippet((await ask()).code);
    await runSnippet((await ask({ clutterHeightM: 6, antennaHeightM: 15, fillVoids: true })).code);
  });
});

describe('the skyline', () => {
  test('is the highest ground in each direction', async () => {
    const outcome = await ask({ question: 'skyline' });
    const rows = columnsOf(download(outcome, 'skyline.csv') as string);
    expect(rows.map(([azimuth]) => azimuth)).toEqual(Array.from({ length: 180 }, (_, index) => index * 2));
    const height = await tileReader();
    const eyeM = height(41.1901, -37.4322) + 8;
    const curve = 2 * 8_500_000;
    for (const [, elevationDeg = 0, distanceM = 0, groundM = 0] of rows) {
      const angle = Math.atan2(groundM - eyeM - distanceM ** 2 / curve, distanceM);
      expect(elevationDeg).toBeCloseTo((angle * 180) / Math.PI, 1);
    }
    await runSnippet(outcome.code);
  });
});

describe('coverage', () => {
  test('grows with slower data rates, and stays within the circle', async () => {
    const outcome = await ask(small);
    const [table] = outcome.tables ?? [];
    const areas = table?.rows.map(([, , area = '']) => Number.parseFloat(area)) ?? [];
    expect(table?.rows.map(([name]) => name)).toEqual([
      'DR0, SF12',
      'DR1, SF11',
      'DR2, SF10',
      'DR3, SF9',
      'DR4, SF8',
      'DR5, SF7',
    ]);
    expect(areas).toEqual([...areas].sort((a, b) => b - a));
    expect(areas[0]).toBeLessThanOrEqual(Math.PI * 3 ** 2 + 0.1);
    expect(areas.at(-1)).toBeGreaterThan(0);
    // Thermal noise -174 dBm per hertz in 125 kHz, noise figure 4, man-made noise 3, SF12 at -20 dB.
    const needed = Number.parseFloat((table?.rows[0]?.[1] ?? '').replace('\u2212', '-'));
    expect(needed).toBeCloseTo(-174 + 10 * Math.log10(125_000) + 4 + 3 - 20, 0);
    await runSnippet(outcome.code);
  });

  test('is larger where nothing stands in the way', async () => {
    const [hills, free] = await Promise.all([ask(small), ask({ ...small, model: 'p525' })]);
    const fastest = (outcome: Outcome): number =>
      Number.parseFloat(outcome.tables?.[0]?.rows.at(-1)?.[2] ?? '');
    expect(fastest(free)).toBeGreaterThan(fastest(hills));
    await runSnippet((await ask({ ...small, model: 'p526', region: 'US915', frequencyHz: 903.9e6 })).code);
  });

  test('can be saved: areas as GeoJSON, power as GeoTIFF', async () => {
    const outcome = await ask(small);
    const { features } = JSON.parse(download(outcome, 'coverage.geojson') as string);
    expect(features).toHaveLength(6);
    const bytes = download(outcome, 'coverage.tif') as Uint8Array;
    const image = await (await fromArrayBuffer(bytes.slice().buffer as ArrayBuffer)).getImage();
    const [west = 0, south = 0, east = 0, north = 0] = image.getBoundingBox();
    expect([(south + north) / 2, (west + east) / 2]).toEqual([
      expect.closeTo(41.1901, 3),
      expect.closeTo(-37.4322, 3),
    ]);
  });

  test('shows the relief below the areas, and a legend', async () => {
    const [picture] = (await ask(small)).pictures ?? [];
    expect(picture?.svg).toContain('data:image/png;base64,');
    expect(picture?.svg.match(/class="cover cover-\d"/g)).toHaveLength(12);
  });

  test('tells how far it is, and stops when it is told to', async () => {
    const controller = new AbortController();
    const told: number[] = [];
    const onProgress = (doneRatio: number): void => {
      told.push(doneRatio);
      if (doneRatio > 0.1) controller.abort();
    };
    const asked = ask({ question: 'coverage', cellM: 20 }, { signal: controller.signal, onProgress });
    await expect(asked).rejects.toMatchObject({ name: 'AbortError' });
    expect(told.length).toBeGreaterThan(1);
    expect(told.at(-1)).toBeLessThan(1);
  });
});

describe('what is refused, by field', () => {
  const fieldOf = async (values: Readonly<Record<string, Value>>): Promise<string | undefined> => {
    const error = await ask(values).then(
      () => undefined,
      (thrown: { argument: string; name: string }) => thrown,
    );
    expect(error?.name).toBe('InputError');
    const argument = error?.argument ?? '';
    const keys = terrain.groups.flatMap(({ fields }) => fields.map(({ key }) => key));
    return terrain.fieldOf?.[argument] ?? argument.split(/[.[\]]+/).findLast((part) => keys.includes(part));
  };

  test.each([
    ['a gateway off the tile', { latitudeDeg: 10 }, 'latitudeDeg'],
    ['no latitude', { latitudeDeg: Number.NaN }, 'latitudeDeg'],
    ['no longitude', { longitudeDeg: Number.NaN }, 'longitudeDeg'],
    ['a place off the tile', { toLatitudeDeg: 42 }, 'toLatitudeDeg'],
    ['no longitude of the place', { toLongitudeDeg: Number.NaN }, 'toLongitudeDeg'],
    ['no height of the gateway', { antennaHeightM: Number.NaN }, 'antennaHeightM'],
    ['a node below the ground', { nodeHeightM: -1 }, 'nodeHeightM'],
    ['a frequency in megahertz', { frequencyHz: 868.1 }, 'frequencyHz'],
    ['air that is none', { deltaN: 1e6 }, 'deltaN'],
    ['a skyline of no size', { question: 'skyline', skylineRadiusM: 0 }, 'skylineRadiusM'],
    ['an area of no size', { question: 'coverage', radiusM: Number.NaN }, 'radiusM'],
    ['cells of no size', { question: 'coverage', cellM: 0 }, 'cellM'],
    ['no noise figure', { question: 'coverage', noiseFigureDb: Number.NaN }, 'noiseFigureDb'],
    ['no gain', { ...small, gatewayGainDbi: Number.NaN }, 'gatewayGainDbi'],
    ['no loss at the node', { ...small, otherLossDb: Number.NaN }, 'otherLossDb'],
  ])('%s', async (_, values, field) => {
    expect(await fieldOf(values)).toBe(field);
  });

  test('a file that is no tile, by its name', async () => {
    const notes: SheetFile = { name: 'notes.pdf', bytes: new TextEncoder().encode('%PDF-1.4') };
    const work = { signal: new AbortController().signal, onProgress: () => undefined };
    const asked = Promise.resolve(terrain.compute(terrain.defaults, { elevation: [notes] }, work));
    await expect(asked).rejects.toMatchObject({ name: 'InputError', file: 'notes.pdf' });
  });
});
