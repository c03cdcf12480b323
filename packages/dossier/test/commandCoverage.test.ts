import { mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { writeAll } from '../src/writeAll.js';
import { finial, refusalLine } from './commandTerminal.js';
import { examplePlan } from './examplePlan.js';
import { grid } from './hillGrid.js';

let folder = '';
let out = '';
const terrain = {
  elevation: ['flat.asc'],
  climate: { deltaN: 45, surfaceRefractivity: 325 },
  coverage: { radiusM: 1500, cellM: 50 },
};
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'finial-'));
  out = join(folder, 'out');
  // The walk is not there: the prediction must not ask for it.
  await writeFile(
    join(folder, 'plan.json'),
    JSON.stringify({ ...examplePlan, terrain, walk: { file: 'gone.csv' } }),
  );
  await writeFile(
    join(folder, 'flat.asc'),
    grid(() => 50),
  );
});

const coverage = (...words: string[]): string[] => ['coverage', join(folder, 'plan.json'), ...words];

describe('finial coverage', () => {
  test('writes polygons and raster, and prints the area by data rate', async () => {
    const { code, out: text, err } = await finial(coverage('--out', out));
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect((await readdir(out)).sort()).toEqual(['coverage.geojson', 'coverage.tif']);
    const { features } = JSON.parse(await readFile(join(out, 'coverage.geojson'), 'utf8'));
    expect(features.map(({ properties }: { properties: { kind: string } }) => properties.kind)).toEqual([
      'gateway',
      ...Array(6).fill('predicted coverage'),
    ]);
    // Little-endian TIFF or BigTIFF, or big-endian: the first two bytes are the same letter twice.
    const tiff = await readFile(join(out, 'coverage.tif'));
    expect(['II', 'MM']).toContain(tiff.subarray(0, 2).toString('latin1'));
    expect(text).toMatch(/DR0, SF12 +-13\d\.\d\d dBm +7\.\d\d km² +100 %/);
  });

  test('--json on level ground: every data rate fills the disc, and no file is written', async () => {
    const { out: text } = await finial(coverage('--json', '--out', out));
    const { bands, radiusM } = JSON.parse(text);
    expect(bands).toHaveLength(6);
    for (const { areaM2 } of bands) expect(areaM2 / (Math.PI * radiusM ** 2)).toBeCloseTo(1, 1);
    // SF12 needs -20 dB (SX1276 data sheet) over 125 kHz at 290 K, with 4 dB of receiver and 3 dB of man-made noise.
    expect(bands[0].neededPowerDbm).toBeCloseTo(
      10 * Math.log10(1.380649e-23 * 290 * 125e3 * 1000) + 7 - 20,
      6,
    );
    expect((await readdir(folder)).sort()).toEqual(['flat.asc', 'plan.json']);
  });

  test('a plan that asks for none is refused by name', async () => {
    const { coverage: _, ...bare } = terrain;
    await writeFile(join(folder, 'plan.json'), JSON.stringify({ ...examplePlan, terrain: bare }));
    expect(refusalLine(await finial(coverage('--out', out)))).toMatch(
      /^plan\.json \(line 1, column \d+\): terrain\.coverage: expected the radius/,
    );
    expect(await readdir(folder)).not.toContain('out');
  });
});

describe('interrupted', () => {
  const interruption = new Error('Interrupted; nothing was written.');

  test('before the work, nothing is made', async () => {
    const result = await finial(coverage('--out', out), { signal: AbortSignal.abort(interruption) });
    expect(result).toMatchObject({ code: 130, out: '', err: 'Interrupted; nothing was written.\n' });
    expect((await readdir(folder)).sort()).toEqual(['flat.asc', 'plan.json']);
  });

  test.each(['coverage', 'dossier'])(
    'during the sweep of %s, old files stay whole and none is left over',
    async (command) => {
      await writeFile(join(folder, 'plan.json'), JSON.stringify({ ...examplePlan, terrain }));
      await mkdir(out);
      await writeFile(join(out, 'coverage.geojson'), 'old');
      const stop = new AbortController();
      const { code, err } = await finial([command, join(folder, 'plan.json'), '--out', out], {
        signal: stop.signal,
        isTerminal: true,
        onErr: (text) => {
          if (text.includes('coverage')) setTimeout(() => stop.abort(interruption), 0);
        },
      });
      expect(code).toBe(130);
      expect(err).toContain('Interrupted');
      expect(await readdir(out)).toEqual(['coverage.geojson']);
      expect(await readFile(join(out, 'coverage.geojson'), 'utf8')).toBe('old');
    },
  );

  test('while files are written, the unfinished ones go, with the folder made for them', async () => {
    const stop = new AbortController();
    const large = new Uint8Array(5e7);
    const writing = writeAll(join(out, 'deep'), { a: 'new', b: large, c: 'new' }, stop.signal);
    setTimeout(() => stop.abort(interruption), 1);
    await expect(writing).rejects.toBe(interruption);
    expect((await readdir(folder)).sort()).toEqual(['flat.asc', 'plan.json']);
  });

  test('at a question, nothing is written', async () => {
    const stop = new AbortController();
    const result = await finial(['plan', 'new', '--out', join(folder, 'new.json')], {
      signal: stop.signal,
      ask: async () => {
        stop.abort(interruption);
        throw stop.signal.reason;
      },
    });
    expect(result.code).toBe(130);
    expect(await readdir(folder)).not.toContain('new.json');
  });
});
