import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { elevationBounds, heightAtM, openElevation } from '../src/index.js';
import { openElevationFiles } from '../src/node.js';
import { refused } from './support/files.js';
import { degrees4326, type GeotiffRecipe, writeGeotiff, zoneKeys } from './support/writeGeotiff.js';

// 37 by 21 cells of 0.01 degree with the outer corner at 50° N, 7° E; no two neighbours alike.
const columns = 37;
const rows = 21;
const heights = Int16Array.from({ length: columns * rows }, (_, index) => ((index * 7919) % 1200) - 50);
const recipe: GeotiffRecipe = {
  columns,
  rows,
  heights,
  scale: [0.01, 0.01, 0],
  tie: [0, 0, 0, 7, 50, 0],
  geoKeys: degrees4326,
  noData: '-32768\0',
};

function open(changes: Partial<GeotiffRecipe>, options = {}) {
  return openElevation([{ name: 'test.tif', bytes: writeGeotiff({ ...recipe, ...changes }) }], options);
}

describe('layouts of TIFF 6.0', () => {
  const blocks = [{ rowsPerStrip: 4 }, { rowsPerStrip: 21 }, { tileColumns: 16, tileRows: 16 }];
  const compressions = ['none', 'lzw', 'deflate'] as const;
  // Differences in a big-endian file are refused, see below.
  const cases = blocks.flatMap((block) =>
    compressions.flatMap((compression) =>
      [true, false].flatMap((littleEndian) =>
        (littleEndian ? [false, true] : [false]).map((predictor) => ({
          block,
          compression,
          littleEndian,
          predictor,
        })),
      ),
    ),
  );
  test.each(cases)(
    '$block $compression, little-endian $littleEndian, predictor $predictor',
    async (layout) => {
      const [tile] = (await open(layout)).tiles;
      expect(tile?.heightsM).toEqual(heights);
      expect(tile?.voidValue).toBe(-32768);
    },
  );

  test('a table of LZW that overflows starts anew', async () => {
    const long = Int16Array.from({ length: 200 * 200 }, (_, index) => (index * index * 31) % 4001);
    const [tile] = (
      await open({ columns: 200, rows: 200, heights: long, compression: 'lzw', block: { rowsPerStrip: 200 } })
    ).tiles;
    expect(tile?.heightsM).toEqual(long);
  });

  test.each([
    ['bytes', Uint8Array, Int16Array],
    ['unsigned 16 bits', Uint16Array, Float32Array],
    ['32-bit floats', Float32Array, Float32Array],
    ['64-bit floats', Float64Array, Float64Array],
  ] as const)('%s', async (_, Written, Kept) => {
    const written = new Written(Array.from({ length: columns * rows }, (__, index) => index % 250));
    const [tile] = (await open({ heights: written, noData: '249' })).tiles;
    expect(tile?.heightsM).toEqual(Kept.from(written));
    expect(tile?.voidCount).toBe(Array.from(written).filter((value) => value === 249).length);
  });
});

describe('where the cells lie (OGC GeoTIFF 1.1, 7.1.2 and annex B)', () => {
  const first = { latitudeDeg: 49.995, longitudeDeg: 7.005 };

  test('a pixel that is an area has its centre half a cell inside', async () => {
    const elevation = await open({});
    expect(heightAtM(elevation, first)).toBeCloseTo(heights[0] as number, 6);
    const bounds = elevationBounds(elevation);
    expect(bounds.northDeg).toBeCloseTo(49.995, 12);
    expect(bounds.westDeg).toBeCloseTo(7.005, 12);
    expect(bounds.southDeg).toBeCloseTo(49.795, 12);
    expect(bounds.eastDeg).toBeCloseTo(7.365, 12);
  });

  test('a pixel that is a point has its centre on the tie point', async () => {
    const geoKeys = [
      [1024, 2],
      [1025, 2],
      [2048, 4326],
    ] as const;
    const bounds = elevationBounds(await open({ geoKeys }));
    expect([bounds.northDeg, bounds.westDeg]).toEqual([50, 7]);
  });

  test('a tie point may lie in the middle of the raster', async () => {
    const elevation = await open({ tie: [10, 5, 0, 7.1, 49.95, 0] });
    expect(heightAtM(elevation, first)).toBeCloseTo(heights[0] as number, 4);
  });

  test('a transformation says the same', async () => {
    const matrix = [0.01, 0, 0, 7, 0, -0.01, 0, 50, 0, 0, 0, 0, 0, 0, 0, 1];
    const { scale: _, tie: __, ...bare } = recipe;
    const bytes = writeGeotiff({ ...bare, matrix });
    const elevation = await openElevation([{ name: 'test.tif', bytes }]);
    expect(heightAtM(elevation, first)).toBeCloseTo(heights[0] as number, 6);
  });

  // 33.3° N 44.4° E is 38N 444140.54 3684706.36: GeographicLib, manual page of GeoConvert(1), section Description.
  test('a zone of the UTM grid, by a published position', async () => {
    const tie = [0, 0, 0, 444140.54 - 5 * 30 - 15, 3684706.36 + 7 * 30 + 15, 0];
    const elevation = await open({ geoKeys: zoneKeys(32638), scale: [30, 30, 0], tie });
    const want = heights[7 * columns + 5] as number;
    // The position is rounded to 1 cm; heights differ by at most 1200 m over a 30 m cell.
    expect(Math.abs(heightAtM(elevation, { latitudeDeg: 33.3, longitudeDeg: 44.4 }) - want)).toBeLessThan(
      0.5,
    );
  });

  // South of the equator northings count down from 10 000 km: the mirror image of the position above.
  test('a southern zone', async () => {
    const tie = [0, 0, 0, 444140.54 - 5 * 30 - 15, 1e7 - 3684706.36 + 7 * 30 + 15, 0];
    const elevation = await open({ geoKeys: zoneKeys(32738), scale: [30, 30, 0], tie });
    const want = heights[7 * columns + 5] as number;
    expect(Math.abs(heightAtM(elevation, { latitudeDeg: -33.3, longitudeDeg: 44.4 }) - want)).toBeLessThan(
      0.5,
    );
  });
});

describe('no data', () => {
  test.each([
    ['with a zero byte', '-9999\0'],
    ['without one', '-9999'],
    ['with blanks', ' -9999 \0'],
  ])('the tag %s', async (_, noData) => {
    const elevation = await open({ noData, heights: heights.map((h, index) => (index === 40 ? -9999 : h)) });
    expect(elevation.voidCount).toBe(1);
    expect(elevation.tiles[0]?.voidValue).toBe(-9999);
  });

  test('the tag with more digits than a 32-bit float', async () => {
    const least = -3.4028234663852886e38;
    const floats = Float32Array.from(heights, (h, index) => (index % 100 === 0 ? least : h));
    expect((await open({ heights: floats, noData: `${least}` })).voidCount).toBe(8);
  });

  test('NaN, with the tag and without', async () => {
    const floats = Float32Array.from(heights, (h, index) => (index === 3 ? Number.NaN : h));
    expect((await open({ heights: floats, noData: 'nan' })).voidCount).toBe(1);
    expect((await open({ heights: floats, noData: '' })).voidCount).toBe(1);
  });

  test('an undeclared value is no height', async () => {
    const holed = heights.map((h, index) => (index === 40 ? -32768 : h));
    await refused(open({ noData: '', heights: holed }), {
      received: -32768,
      argument: 'heightsM (row 2, column 4)',
    });
  });
});

describe('refusals', () => {
  test.each([
    [
      'another datum',
      {
        geoKeys: [
          [1024, 2],
          [1025, 1],
          [2048, 4269],
        ],
      },
      'coordinate system',
    ],
    ['another projection', { geoKeys: zoneKeys(3857) }, 'coordinate system'],
    ['no keys', { geoKeys: [] }, 'coordinate system'],
    ['heights in feet', { geoKeys: [...degrees4326, [4099, 9002]] }, 'VerticalUnitsGeoKey'],
    ['a grid in feet', { geoKeys: [...zoneKeys(32610), [3076, 9002]] }, 'ProjLinearUnitsGeoKey'],
    ['angles in grads', { geoKeys: [...degrees4326, [2054, 9105]] }, 'GeogAngularUnitsGeoKey'],
    ['differences in a big-endian file', { littleEndian: false, predictor: true }, 'Predictor'],
    ['two bands', { bands: 2 }, 'SamplesPerPixel'],
    ['rows from the south', { scale: [0.01, -0.01, 0] }, 'ModelPixelScale'],
    ['two tie points', { tie: [0, 0, 0, 7, 50, 0, 9, 9, 0, 7.1, 49.9, 0] }, 'ModelTiepoint'],
    [
      'a rotated raster',
      { matrix: [0.01, 0.001, 0, 7, 0.001, -0.01, 0, 50, 0, 0, 0, 0, 0, 0, 0, 1] },
      'ModelTransformation',
    ],
    [
      'a scale of heights',
      { metadata: '<GDALMetadata><Item name="SCALE" sample="0" role="scale">0.1</Item></GDALMetadata>' },
      'scale',
    ],
    ['a no-data tag that is no number', { noData: '-32768,0' }, 'GDAL_NODATA'],
    ['a place off the Earth', { tie: [0, 0, 0, 7, 500, 0] }, 'tile.grid.northDeg'],
  ] as const)('%s', async (_, changes, argument) => {
    await refused(open(changes), { code: 'malformed-file', argument, file: 'test.tif' });
  });

  test('another datum is taken for WGS 84 where the caller says so', async () => {
    const geoKeys = [
      [1024, 2],
      [1025, 1],
      [2048, 4269],
    ] as const;
    const elevation = await open({ geoKeys }, { coordinates: { kind: 'geographic' } });
    expect(elevation.tiles[0]?.grid.kind).toBe('geographic');
  });

  test('what the file says itself goes before the option', async () => {
    const elevation = await open({}, { coordinates: { kind: 'utm', zone: 5, hemisphere: 'south' } });
    expect(elevation.tiles[0]?.grid.kind).toBe('geographic');
  });

  test('a file cut short, as a part of a larger Buffer', async () => {
    const whole = readFileSync(
      fileURLToPath(new URL('../../../examples/fennimara/elevation.tif', import.meta.url)),
    );
    const cut = whole.subarray(0, whole.length / 2);
    await refused(openElevation([{ name: 'cut.tif', bytes: cut }]), {
      code: 'malformed-file',
      file: 'cut.tif',
    });
    // The same file behind some other bytes is read where it lies.
    const pooled = Buffer.concat([Buffer.alloc(64, 7), whole]).subarray(64);
    const [tile] = (await openElevation([{ name: 'whole.tif', bytes: pooled }])).tiles;
    expect(tile?.columns).toBe(520);
  });

  test.each(['none', 'lzw', 'deflate'] as const)('a file cut short anywhere (%s)', async (compression) => {
    const bytes = writeGeotiff({ ...recipe, compression });
    for (let length = 4; length < bytes.length; length += 53) {
      await refused(openElevation([{ name: 'cut.tif', bytes: bytes.slice(0, length) }]), {
        code: 'malformed-file',
      });
    }
  });
});

test('bytes may lie in the middle of a larger buffer', async () => {
  const bytes = writeGeotiff(recipe);
  const larger = new Uint8Array(bytes.length + 20);
  larger.set(bytes, 7);
  const elevation = await openElevation([{ name: 'test.tif', bytes: larger.subarray(7, 7 + bytes.length) }]);
  expect(elevation.tiles[0]?.heightsM).toEqual(heights);
});

test('the island of the examples, against its own last bytes', async () => {
  const path = fileURLToPath(new URL('../../../examples/fennimara/elevation.tif', import.meta.url));
  const elevation = await openElevationFiles([path]);
  const [tile] = elevation.tiles;
  // examples/README.md: 520 by 440 cells of one arc-second, heights uncompressed, little-endian, at the end of the file.
  expect([tile?.columns, tile?.rows, elevation.voidCount]).toEqual([520, 440, 0]);
  expect(tile?.grid).toMatchObject({ kind: 'geographic', rowStepDeg: 1 / 3600, columnStepDeg: 1 / 3600 });
  const bytes = readFileSync(path);
  const start = bytes.length - 520 * 440 * 2;
  const want = Int16Array.from({ length: 520 * 440 }, (_, index) => bytes.readInt16LE(start + 2 * index));
  expect(tile?.heightsM).toEqual(want);
});
