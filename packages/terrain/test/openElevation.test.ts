import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { heightAtM, openElevation } from '../src/index.js';
import { openElevationFiles } from '../src/node.js';
import { refused, textFile } from './support/files.js';

const header = 'ncols 5\nnrows 5\nxllcenter 10\nyllcenter 50\ncellsize 1\nNODATA_value -9999\n';
const plane = (row: number, column: number) => 100 + 10 * row + column;

function grid(heightAt: (row: number, column: number) => number, head = header) {
  const lines = [0, 1, 2, 3, 4].map((row) =>
    [0, 1, 2, 3, 4].map((column) => heightAt(row, column)).join(' '),
  );
  return textFile('grid.asc', head + lines.join('\n'));
}

describe('voids', () => {
  const hole = (row: number, column: number) =>
    row >= 1 && row <= 3 && column >= 1 && column <= 3 ? -9999 : plane(row, column);

  test('are kept and counted unless asked', async () => {
    const elevation = await openElevation([grid(hole)]);
    expect([elevation.voidCount, elevation.filledCount]).toEqual([9, 0]);
    expect(() => heightAtM(elevation, { latitudeDeg: 52, longitudeDeg: 12 })).toThrow(
      expect.objectContaining({ code: 'missing' }),
    );
    // On the rim itself every cell that counts is known.
    expect(heightAtM(elevation, { latitudeDeg: 54, longitudeDeg: 12.5 })).toBeCloseTo(102.5, 9);
  });

  test('close from the rim by means of neighbours', async () => {
    const elevation = await openElevation([grid(hole)], { voids: 'fill' });
    expect([elevation.voidCount, elevation.filledCount]).toEqual([0, 9]);
    // By hand: cell (1, 1) has five known neighbours, 100 101 102 110 120.
    expect(heightAtM(elevation, { latitudeDeg: 53, longitudeDeg: 11 })).toBeCloseTo(533 / 5, 9);
    // The hole is symmetrical about its middle and the ground is a plane, so the middle is the plane's.
    expect(heightAtM(elevation, { latitudeDeg: 52, longitudeDeg: 12 })).toBeCloseTo(plane(2, 2), 9);
  });

  test('take the height of another tile where one covers them', async () => {
    const elevation = await openElevation([grid(hole), grid(() => 777)], { voids: 'fill' });
    expect(elevation.filledCount).toBe(9);
    expect(heightAtM(elevation, { latitudeDeg: 52, longitudeDeg: 12 })).toBe(777);
    expect(heightAtM(elevation, { latitudeDeg: 54, longitudeDeg: 14 })).toBe(plane(0, 4));
  });

  test('of a tile that is all void stay', async () => {
    const elevation = await openElevation([grid(() => -9999)], { voids: 'fill' });
    expect([elevation.voidCount, elevation.filledCount]).toEqual([25, 0]);
  });
});

describe('files', () => {
  const text = `${header}${'1 '.repeat(25)}`;

  test('come as bytes, buffer, blob or File', async () => {
    const bytes = new TextEncoder().encode(text);
    const elevation = await openElevation([
      { name: 'a.asc', bytes },
      { name: 'b.asc', bytes: bytes.buffer },
      { name: 'c.asc', blob: new Blob([bytes]) },
      new File([bytes], 'd.asc'),
    ]);
    expect(elevation.tiles.map(({ name }) => name)).toEqual(['a.asc', 'b.asc', 'c.asc', 'd.asc']);
  });

  test('of other kinds are refused', async () => {
    await refused(openElevation([textFile('a.txt', 'hello')]), { code: 'malformed-file', file: 'a.txt' });
    await refused(openElevation([textFile('a.asc', '')]), { received: 'an empty file' });
    await refused(openElevation([]), { code: 'missing', argument: 'files' });
    await refused(openElevation([{ name: 'a.asc', bytes: text as never }]), { argument: 'files[0].bytes' });
    await refused(openElevation([{ bytes: new Uint8Array(3) } as never]), { argument: 'files[0].name' });
    await refused(openElevation([{ name: 'a.asc' } as never]), { argument: 'files[0].bytes' });
    await refused(openElevation('a.asc' as never), { code: 'wrong-type', argument: 'files' });
    await refused(openElevation([textFile('a.asc', text)], { voids: 'mend' as never }), {
      argument: 'voids',
    });
    const coordinates = { kind: 'utm', zone: 61, hemisphere: 'north' } as const;
    await refused(openElevation([textFile('a.asc', text)], { coordinates }), {
      argument: 'coordinates.zone',
    });
    const latin1 = Uint8Array.from([...new TextEncoder().encode(header), 0xe9]);
    await refused(openElevation([{ name: 'a.asc', bytes: latin1 }]), { received: 'bytes that are no text' });
  });

  test('are told one by one, and a signal stops them', async () => {
    const told: unknown[] = [];
    const files = [textFile('a.asc', text), textFile('b.asc', text)];
    await openElevation(files, { onProgress: (progress) => told.push(progress) });
    expect(told).toEqual([
      { step: 'a.asc', doneRatio: 0.5 },
      { step: 'b.asc', doneRatio: 1 },
    ]);
    const stop = new AbortController();
    const stopped = openElevation(files, {
      signal: stop.signal,
      onProgress: () => stop.abort(new Error('enough')),
    });
    await expect(stopped).rejects.toThrow('enough');
  });

  test('on disk that are not there are named', async () => {
    await refused(openElevationFiles(['nowhere/N41W038.hgt']), {
      code: 'missing',
      received: 'nowhere/N41W038.hgt',
    });
    await refused(openElevationFiles([7 as never]), { code: 'wrong-type', argument: 'paths[0]' });
  });
});

test('nothing that the root entry loads comes from Node', () => {
  const open = [fileURLToPath(new URL('../src/index.ts', import.meta.url))];
  const seen = new Set(open);
  const foreign: string[] = [];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    for (const { fileName } of ts.preProcessFile(readFileSync(file, 'utf8')).importedFiles) {
      if (!fileName.startsWith('.')) {
        foreign.push(fileName);
        continue;
      }
      const next = fileURLToPath(new URL(fileName.replace(/\.js$/, '.ts'), `file://${file}`));
      if (!seen.has(next)) open.push(next);
      seen.add(next);
    }
  }
  expect([...new Set(foreign)].sort()).toEqual([
    '@finial/units',
    'geographiclib-geodesic',
    'geotiff',
    'proj4',
  ]);
});
