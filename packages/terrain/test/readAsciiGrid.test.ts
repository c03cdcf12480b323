import { describe, expect, test } from 'vitest';
import { elevationBounds, heightAtM, openElevation } from '../src/index.js';
import { refused, textFile } from './support/files.js';
import { sharedGrid } from './support/sharedGrid.js';

const header = 'ncols 3\nnrows 2\nxllcorner 10\nyllcorner 50\ncellsize 1\nNODATA_value -1\n';

test('corner and centre are half a cell apart', async () => {
  const corner = await openElevation([textFile('a.asc', `${header}1 2 3\n4 5 -1`)]);
  expect(elevationBounds(corner)).toEqual({ southDeg: 50.5, westDeg: 10.5, northDeg: 51.5, eastDeg: 12.5 });
  expect(corner.voidCount).toBe(1);
  expect(heightAtM(corner, { latitudeDeg: 51.5, longitudeDeg: 11.5 })).toBe(2);
  const text = header.replaceAll('llcorner', 'llcenter').replace('NODATA_value -1\n', '').toUpperCase();
  const centre = await openElevation([textFile('a.asc', `${text}1 2 3\r\n4 5 -9999\r\n`)]);
  expect(elevationBounds(centre)).toEqual({ southDeg: 50, westDeg: 10, northDeg: 51, eastDeg: 12 });
  expect(centre.voidCount, 'without its own line, no data is -9999').toBe(1);
});

test.each([
  ['a word in the heights', `${header}1 2 3\n4 x 6`, { line: 8, column: 3, argument: 'heightsM' }],
  ['a decimal comma', `${header}1 2,5 3\n4 5 6`, { line: 7, column: 3, received: '2,5' }],
  ['hexadecimal', `${header}1 2 0x10\n4 5 6`, { line: 7, column: 5 }],
  ['infinity', `${header}1 2 Infinity\n4 5 6`, { line: 7, column: 5 }],
  ['too few', `${header}1 2 3\n4 5      `, { line: 8, column: 3, received: 5 }],
  ['too many', `${header}1 2 3\n4 5 6\n7`, { line: 9, column: 1, received: '7' }],
  ['no corner', header.replace('xllcorner 10\n', '').concat('1 2 3 4 5 6'), { argument: 'xllcorner' }],
  ['a header line twice', `ncols 3\n${header}1 2 3 4 5 6`, { argument: 'ncols', line: 2, column: 1 }],
  ['an unknown header line', `${header}byteorder msbfirst\n1 2 3 4 5 6`, { argument: 'header', line: 7 }],
  ['half a column', header.replace('ncols 3', 'ncols 2.5').concat('1 2 3 4'), { argument: 'ncols', line: 1 }],
  [
    'cells of no size',
    header.replace('size 1', 'size 0').concat('1 2 3 4 5 6'),
    { argument: 'cellsize', line: 5 },
  ],
  ['more cells than bytes', header.replace('ncols 3', 'ncols 300000').concat('1 2 3'), { argument: 'nrows' }],
  ['an undeclared no-data value', `${header}1 2 3\n4 5 -32768`, { received: -32768 }],
])('%s is refused with its place', async (_, text, members) => {
  await refused(openElevation([textFile('bad.asc', text)]), {
    code: 'malformed-file',
    file: 'bad.asc',
    ...members,
  });
});

test('metres taken for degrees ask for the option', async () => {
  const text = 'ncols 2\nnrows 2\nxllcorner 500000\nyllcorner 5000000\ncellsize 10\n1 2 3 4';
  await refused(openElevation([textFile('a.asc', text)]), {
    message: expect.stringContaining("option 'coordinates'"),
  });
  const elevation = await openElevation([textFile('a.asc', text)], {
    coordinates: { kind: 'utm', zone: 33, hemisphere: 'north' },
  });
  expect(elevation.tiles[0]?.grid).toMatchObject({
    kind: 'utm',
    zone: 33,
    northM: 5_000_015,
    westM: 500_005,
  });
});

const jacksboro = sharedGrid('jacksboro.asc');
const volcano = sharedGrid('volcano.asc');

// Counts, extremes and corners of the sources: see the README beside the grids; single cells read off the text by eye.
describe.skipIf(jacksboro === undefined || volcano === undefined)(
  'grids of others (beside the repository)',
  () => {
    test('Jacksboro fault: 344 by 403 heights of 236 to 1076 metres', async () => {
      const elevation = await openElevation([textFile('jacksboro.asc', jacksboro ?? '')]);
      const [tile] = elevation.tiles;
      expect([tile?.rows, tile?.columns, elevation.voidCount]).toEqual([344, 403, 0]);
      expect(extremes(tile?.heightsM)[0]).toBe(236);
      expect(extremes(tile?.heightsM)[1]).toBe(1076);
      const north = 36.44625 + 343.5 / 1200;
      const west = -84.41375 + 0.5 / 1200;
      expect(heightAtM(elevation, { latitudeDeg: north, longitudeDeg: west })).toBeCloseTo(483, 6);
      const between = { latitudeDeg: north - 0.5 / 1200, longitudeDeg: west + 0.5 / 1200 };
      expect(heightAtM(elevation, between)).toBeCloseTo((483 + 487 + 475 + 486) / 4, 6);
    });

    test('Maunga Whau: 87 by 61 heights of 94 to 195 metres, in metres', async () => {
      const elevation = await openElevation([textFile('volcano.asc', volcano ?? '')], {
        coordinates: { kind: 'utm', zone: 60, hemisphere: 'north' },
      });
      const [tile] = elevation.tiles;
      expect([tile?.rows, tile?.columns]).toEqual([87, 61]);
      expect(extremes(tile?.heightsM)[0]).toBe(94);
      expect(extremes(tile?.heightsM)[1]).toBe(195);
    });
  },
);

function extremes(heightsM: ArrayLike<number> = []): readonly number[] {
  return Array.from(heightsM).reduce<readonly number[]>(
    ([least = Number.POSITIVE_INFINITY, most = Number.NEGATIVE_INFINITY], heightM) => [
      Math.min(least, heightM),
      Math.max(most, heightM),
    ],
    [],
  );
}
