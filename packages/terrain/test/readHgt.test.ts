import { expect, test } from 'vitest';
import { elevationBounds, heightAtM, openElevation, sampleHeightsM } from '../src/index.js';
import { hgtFile, refused } from './support/files.js';

// The layout is of the SRTM user guide: big-endian, row by row from the north, edges on the whole degrees.

test('three arc-seconds: corners, void, sign and byte order', async () => {
  const elevation = await openElevation([
    hgtFile('N41W038.hgt', 1201, (row, column) => {
      if (row === 600 && column === 600) return -32768;
      return row === 0 ? 1000 : row === 1200 ? -5 : column;
    }),
  ]);
  expect(elevation.tiles[0]?.heightsM).toBeInstanceOf(Int16Array);
  expect(elevation.voidCount).toBe(1);
  expect(elevationBounds(elevation)).toEqual({ southDeg: 41, westDeg: -38, northDeg: 42, eastDeg: -37 });
  expect(heightAtM(elevation, { latitudeDeg: 42, longitudeDeg: -37.5 })).toBe(1000);
  expect(heightAtM(elevation, { latitudeDeg: 41, longitudeDeg: -37 })).toBe(-5);
  expect(heightAtM(elevation, { latitudeDeg: 41.25, longitudeDeg: -37.75 })).toBeCloseTo(300, 9);
  // Half-way to the last column of the northern half; column 1 is 1/1200 degree east.
  expect(heightAtM(elevation, { latitudeDeg: 41.75, longitudeDeg: -38 + 1.5 / 1200 })).toBeCloseTo(1.5, 6);
  expect(() => heightAtM(elevation, { latitudeDeg: 41.5, longitudeDeg: -37.5 })).toThrow(
    expect.objectContaining({ code: 'missing', argument: 'position' }),
  );
});

test('one arc-second stays 26 MB, south and east', async () => {
  const elevation = await openElevation([hgtFile('S12E179.SRTMGL1.hgt', 3601, (row) => row % 1000)]);
  expect(elevation.tiles[0]?.heightsM.byteLength).toBe(25_934_402);
  expect(elevationBounds(elevation)).toEqual({ southDeg: -12, westDeg: 179, northDeg: -11, eastDeg: 180 });
  expect(heightAtM(elevation, { latitudeDeg: -11 - 500 / 3600, longitudeDeg: 180 })).toBeCloseTo(500, 6);
  // The same meridian by its other name.
  expect(heightAtM(elevation, { latitudeDeg: -11 - 500 / 3600, longitudeDeg: -180 })).toBeCloseTo(500, 6);
});

test('tiles that share an edge join without gap or step', async () => {
  const slope = (east: number) => (_: number, column: number) => 100 + (column + east * 1200) / 10;
  const elevation = await openElevation([
    hgtFile('N41W038.hgt', 1201, (row, column) => Math.round(slope(0)(row, column))),
    hgtFile('N41W037.hgt', 1201, (row, column) => Math.round(slope(1)(row, column))),
  ]);
  const longitudesDeg = Array.from({ length: 41 }, (_, index) => -37 + (index - 20) / 4800);
  const heightsM = sampleHeightsM(
    elevation,
    longitudesDeg.map(() => 41.3),
    longitudesDeg,
  );
  for (const [index, heightM] of heightsM.entries()) {
    expect(Math.abs(heightM - (220 + (index - 20) / 40))).toBeLessThanOrEqual(0.5);
  }
});

test.each([
  ['N41W038.hgt', 1200, 'bytes'],
  ['N91W038.hgt', 1201, 'name'],
  ['N41W181.hgt', 1201, 'name'],
  ['hill.hgt', 1201, 'name'],
])('%s of %i a side is refused', async (name, side, argument) => {
  await refused(openElevation([hgtFile(name, side, () => 0)]), {
    code: 'malformed-file',
    argument,
    file: name,
  });
});

test.each([
  ['N41W038.hgt.gz', [0x1f, 0x8b, 8, 0]],
  ['N41W038.hgt.zip', [0x50, 0x4b, 3, 4]],
])('%s is to be unpacked first', async (name, start) => {
  await refused(openElevation([{ name, bytes: Uint8Array.from(start) }]), {
    code: 'malformed-file',
    message: expect.stringContaining('unpack it first'),
  });
});
