import { deflateSync } from 'node:zlib';
import { isInputError } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lzwDecoded } from '../src/formats/lzwDecoded.js';
import { openElevation } from '../src/index.js';
import { lzw } from './support/lzw.js';
import { degrees4326, type GeotiffRecipe, writeGeotiff } from './support/writeGeotiff.js';

const recipe: GeotiffRecipe = {
  columns: 64,
  rows: 64,
  heights: new Int16Array(64 * 64).fill(7),
  block: { rowsPerStrip: 64 },
  scale: [0.1, 0.1, 0],
  tie: [0, 0, 0, 7, 50, 0],
  geoKeys: degrees4326,
};

async function refusalOf(bytes: Uint8Array): Promise<string> {
  try {
    await openElevation([{ name: 'a.tif', bytes }]);
  } catch (error) {
    if (isInputError(error)) return error.message;
    throw error;
  }
  return 'accepted';
}

/** A file whose only strip, which is its end, is another one. */
function withStrip(
  strip: Uint8Array,
  compression: 'lzw' | 'deflate',
  changes: readonly [tag: number, value: number][] = [],
) {
  const file = writeGeotiff({ ...recipe, compression });
  const view = new DataView(file.buffer);
  const entries = Array.from({ length: view.getUint16(8, true) }, (_, index) => 10 + 12 * index);
  const entryOf = (tag: number) => entries.find((at) => view.getUint16(at, true) === tag) ?? 0;
  const start = view.getUint32(entryOf(273) + 8, true);
  view.setUint32(entryOf(279) + 8, strip.length, true);
  for (const [tag, value] of changes) view.setUint16(entryOf(tag) + 8, value, true);
  const bytes = new Uint8Array(start + strip.length);
  bytes.set(file.subarray(0, start));
  bytes.set(strip, start);
  return bytes;
}

describe('LZW', () => {
  test('gives back what was packed, and no more than was asked for', () => {
    const bytes = fc.uint8Array({ maxLength: 9000 }).chain((random) =>
      fc.constantFrom(
        random,
        random.map((byte) => byte & 1),
        new Uint8Array(random.length),
      ),
    );
    fc.assert(
      fc.property(bytes, fc.nat(9000), (plain, most) => {
        expect(lzwDecoded(lzw(plain), most)).toEqual(plain.slice(0, most));
      }),
      { numRuns: 200 },
    );
  });

  test('any bytes end at once: decoded up to the limit, or refused', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 3000 }), (block) => {
        try {
          expect(lzwDecoded(block, 10_000).length).toBeLessThanOrEqual(10_000);
        } catch (error) {
          expect(String(error)).toContain('a code that cannot be');
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('damage in a file is refused within the time of a whole one', async () => {
    const strip = lzw(new Uint8Array(8192).map((_, index) => index * 7));
    for (let at = 10; at < strip.length; at += 97) {
      const damaged = strip.slice();
      damaged.fill(0xff, at, at + 2);
      expect(await refusalOf(withStrip(damaged, 'lzw'))).toMatch(
        /accepted|expected a whole GeoTIFF|metres, or a no-data/,
      );
    }
  }, 5000);
});

test('a strip that unpacks to gigabytes is cut where the strip ends', async () => {
  const bomb = deflateSync(new Uint8Array(64e6));
  const before = process.memoryUsage().arrayBuffers;
  const { tiles } = await openElevation([{ name: 'a.tif', bytes: withStrip(bomb, 'deflate') }]);
  expect(tiles[0]?.heightsM).toEqual(new Int16Array(64 * 64));
  expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20e6);
});

test('a short file that claims many cells is refused before memory is asked for', async () => {
  const claims = withStrip(deflateSync(new Uint8Array(10)), 'deflate', [
    [256, 16_000],
    [257, 16_000],
  ]);
  expect(await refusalOf(claims)).toMatch(/ImageWidth: expected at least 2 by 2 and, in a file of \d+ bytes/);
});

test('fewer blocks than the image needs are refused before any is looked for', async () => {
  const short = withStrip(deflateSync(new Uint8Array(8192)), 'deflate', [[257, 2000]]);
  expect(await refusalOf(short)).toContain('StripOffsets: expected 32 blocks of heights, got 1');
});
