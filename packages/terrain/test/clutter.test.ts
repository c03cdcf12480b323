import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clutterClasses } from '../src/clutter/clutterClasses.js';
import { clutterHeightM } from '../src/clutter/clutterHeight.js';
import { clutterProfile, type LandCover } from '../src/clutter/clutterProfile.js';
import { profile } from '../src/profile.js';
import { elevationOf, tileOf } from './support/syntheticTiles.js';

// Recommendation ITU-R P.1812-6 and later, default representative heights (from memory; two public implementations agree).
test.each([
  ['water', 0],
  ['open', 0],
  ['suburban', 10],
  ['urban', 15],
  ['trees', 15],
  ['dense-urban', 20],
] as const)('%s stands for %d m', (name, heightM) => {
  expect(clutterHeightM(name)).toBe(heightM);
  expect(clutterClasses.find((row) => row.name === name)?.heightM).toBe(heightM);
});

const area = { northDeg: 1, westDeg: 10, rows: 3, columns: 5, stepDeg: 0.5 };
const codes = elevationOf(
  tileOf(area, (latitude, longitude) => (latitude < 0.5 ? 80 : longitude < 11 ? 10 : 50)),
);
const classOfCode = { 10: 'trees', 50: 'suburban', 80: 'water' } as const;
const places = (...rows: readonly (readonly [number, number])[]) => ({
  latitudesDeg: rows.map(([latitude]) => latitude),
  longitudesDeg: rows.map(([, longitude]) => longitude),
});

describe('a raster of codes', () => {
  test('the cell that a place lies in holds, and nothing is interpolated', () => {
    const along = places([0.9, 10.7], [0.9, 10.8], [0.3, 10.2], [0.2, 10.2]);
    const got = clutterProfile({ codes, classOfCode }, along);
    expect(got.classes).toEqual(['trees', 'suburban', 'trees', 'water']);
    expect([...got.clutterHeightM]).toEqual([15, 10, 15, 0]);
  });

  test('a cell reaches half a step beyond its centre at the edge of the raster', () => {
    expect(clutterProfile({ codes, classOfCode }, places([1.24, 9.76])).classes).toEqual(['trees']);
    expect(() => clutterProfile({ codes, classOfCode }, places([1.26, 10]))).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'landCover.codes' }),
    );
  });

  test('a terrain profile goes in as it is', () => {
    const ground = elevationOf(tileOf(area, () => 100));
    const from = { latitudeDeg: 0.9, longitudeDeg: 10.1 };
    const path = profile(ground, from, { latitudeDeg: 0.9, longitudeDeg: 11.9 }, { stepM: 1000 });
    const got = clutterProfile({ codes, classOfCode }, path);
    expect(got.clutterHeightM).toHaveLength(path.heightM.length);
    got.classes.forEach((name, index) => {
      // Codes change midway between the columns at 10.5 and 11 degrees.
      expect(name).toBe((path.longitudesDeg[index] as number) < 10.75 ? 'trees' : 'suburban');
    });
  });

  test('where rasters overlap, the first that has a code holds', () => {
    const holed = tileOf(area, (latitude) => (latitude === 1 ? Number.NaN : 50));
    const both = { codes: elevationOf(holed, ...codes.tiles), classOfCode };
    expect(clutterProfile(both, places([1, 10], [0.5, 10])).classes).toEqual(['trees', 'suburban']);
  });

  test('a code without a class is refused with its place', () => {
    const cover = { codes, classOfCode: { 10: 'trees' } } as const;
    expect(() => clutterProfile(cover, places([0.9, 10.1], [0.9, 11.4]))).toThrow(
      expect.objectContaining({
        code: 'unknown-option',
        received: 50,
        message: expect.stringContaining('latitude 0.900000, longitude 11.400000'),
      }),
    );
  });

  test('a class that is none is refused with its code', () => {
    const cover = { codes, classOfCode: { 10: 'jungle' } } as unknown as LandCover;
    expect(() => clutterProfile(cover, places([0.9, 10.1]))).toThrow(
      expect.objectContaining({ code: 'unknown-option', argument: 'landCover.classOfCode.10' }),
    );
  });
});

test('one class everywhere', () => {
  const place = fc.tuple(
    fc.double({ min: -90, max: 90, noNaN: true }),
    fc.double({ min: -180, max: 180, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...clutterClasses), fc.array(place), ({ name, heightM }, rows) => {
      const got = clutterProfile(name, places(...rows));
      expect(got.classes).toEqual(rows.map(() => name));
      expect([...got.clutterHeightM]).toEqual(rows.map(() => heightM));
    }),
  );
});

test.each(['jungle', 5, undefined, null])('a class of %s is refused', (name) => {
  expect(() => clutterHeightM(name as never)).toThrow(
    expect.objectContaining({ code: 'unknown-option', argument: 'clutterClass' }),
  );
  expect(() => clutterProfile(name as never, places([0, 0]))).toThrow(
    expect.objectContaining({ name: 'InputError' }),
  );
});

test('lists of different length are refused', () => {
  expect(() => clutterProfile('trees', { latitudesDeg: [1, 2], longitudesDeg: [1] })).toThrow(
    expect.objectContaining({ code: 'out-of-range', argument: 'profile.longitudesDeg' }),
  );
});
