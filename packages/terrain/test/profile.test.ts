import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { geodesic } from '../src/geodesic/geodesic.js';
import { profile } from '../src/profile.js';
import { elevationOf, tileOf } from './support/syntheticTiles.js';

const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });
// Bilinear interpolation reproduces a height that is linear in latitude and longitude, so the profile is known without it.
const slope = (latitudeDeg: number, longitudeDeg: number) => 500 + 40 * latitudeDeg + 30 * longitudeDeg;
const whole = elevationOf(tileOf({ northDeg: 2, westDeg: 10, rows: 5, columns: 9, stepDeg: 0.5 }, slope));

test('a slope comes back as a slope', () => {
  const path = profile(whole, at(0.1, 10.2), at(1.9, 13.7), { stepM: 1000 });
  for (let index = 0; index < path.heightM.length; index++) {
    const want = slope(path.latitudesDeg[index] as number, path.longitudesDeg[index] as number);
    expect(path.heightM[index]).toBeCloseTo(want, 9);
  }
});

test('points are even, start at 0, end at the length of the geodesic and are at most a step apart', () => {
  const ends = { from: at(0.1, 10.2), to: at(1.9, 13.7) };
  const { distanceM, azimuthDeg } = geodesic(ends);
  const path = profile(whole, ends.from, ends.to, { stepM: 700 });
  expect(path.distanceM[0]).toBe(0);
  expect(path.distanceM.at(-1)).toBeCloseTo(distanceM, 6);
  expect(path.distanceM).toHaveLength(Math.ceil(distanceM / 700) + 1);
  expect(path.stepM).toBeLessThanOrEqual(700);
  expect(path.azimuthDeg).toBeCloseTo(azimuthDeg, 9);
  path.distanceM.forEach((distance, index) => {
    expect(distance).toBeCloseTo(index * path.stepM, 6);
    const here = at(path.latitudesDeg[index] as number, path.longitudesDeg[index] as number);
    expect(geodesic({ from: ends.from, to: here }).distanceM).toBeCloseTo(distance, 6);
  });
});

test('a step longer than the path leaves the two ends', () => {
  const path = profile(whole, at(1, 11), at(1, 11.01), { stepM: 50_000 });
  expect([...path.heightM]).toEqual([expect.closeTo(slope(1, 11), 9), expect.closeTo(slope(1, 11.01), 9)]);
});

test('reversed ends give the reversed profile', () => {
  const rough = tileOf(
    { northDeg: 2, westDeg: 10, rows: 41, columns: 81, stepDeg: 0.05 },
    (latitude, longitude) => Math.round(300 * Math.sin(97 * latitude) * Math.cos(61 * longitude)),
  );
  const inside = fc.record({
    latitudeDeg: fc.double({ min: 0.01, max: 1.99, noNaN: true }),
    longitudeDeg: fc.double({ min: 10.01, max: 13.99, noNaN: true }),
  });
  fc.assert(
    fc.property(inside, inside, (from, to) => {
      fc.pre(geodesic({ from, to }).distanceM > 1);
      const there = profile(elevationOf(rough), from, to, { stepM: 2000 });
      const back = profile(elevationOf(rough), to, from, { stepM: 2000 });
      expect(back.heightM).toHaveLength(there.heightM.length);
      const reversed = back.heightM.slice().reverse();
      there.heightM.forEach((height, index) => {
        expect(reversed[index]).toBeCloseTo(height, 5);
      });
    }),
    { numRuns: 50 },
  );
});

test('a path over the 180° meridian goes the short way and reads both tiles', () => {
  const east = tileOf({ northDeg: 1, westDeg: 178, rows: 3, columns: 3, stepDeg: 1 }, () => 100);
  const west = tileOf({ northDeg: 1, westDeg: -180, rows: 3, columns: 3, stepDeg: 1 }, () => 200);
  const path = profile(elevationOf(east, west), at(0, 179.5), at(0, -179.5), { stepM: 10_000 });
  // One degree of the equator of WGS 84 (NGA.STND.0036).
  expect(path.distanceM.at(-1)).toBeCloseTo((6_378_137 * Math.PI) / 180, 6);
  expect(path.heightM[0]).toBe(100);
  expect(path.heightM.at(-1)).toBe(200);
  expect(
    path.longitudesDeg.every((longitude) => Math.abs(longitude) >= 179.4 && Math.abs(longitude) <= 180),
  ).toBe(true);
});

test('a path over the pole', () => {
  const cap = tileOf(
    { northDeg: 90, westDeg: -180, rows: 3, columns: 361, stepDeg: 1 },
    (latitude) => 10 * latitude,
  );
  const path = profile(elevationOf(cap), at(89, 10), at(89, -170), { stepM: 5000 });
  expect(Math.max(...path.latitudesDeg)).toBeGreaterThan(89.95);
  path.heightM.forEach((height, index) => {
    expect(height).toBeCloseTo(10 * (path.latitudesDeg[index] as number), 6);
  });
});

test('opposite places of the Earth', () => {
  const globe = tileOf({ northDeg: 90, westDeg: -180, rows: 19, columns: 37, stepDeg: 10 }, () => 7);
  const path = profile(elevationOf(globe), at(0, 0), at(0, 180), { stepM: 100_000 });
  // Twice the quarter meridian of WGS 84.
  expect(path.distanceM.at(-1)).toBeCloseTo(20_003_931.459, 2);
  for (const height of path.heightM) expect(height).toBeCloseTo(7, 12);
});

describe('refusals say what and where', () => {
  const holed = elevationOf(
    tileOf({ northDeg: 2, westDeg: 10, rows: 5, columns: 9, stepDeg: 0.5 }, (latitude, longitude) =>
      latitude === 1 && longitude === 12 ? Number.NaN : 0,
    ),
  );
  test('a void on the path', () => {
    expect(() => profile(holed, at(1, 11), at(1, 13), { stepM: 20_000 })).toThrow(
      expect.objectContaining({
        code: 'missing',
        argument: 'elevation',
        message: expect.stringMatching(
          /a height 7\d{4} m along the path, at latitude 1\.\d+, longitude 11\.\d+/,
        ),
      }),
    );
  });
  test('an end outside', () => {
    expect(() => profile(whole, at(1, 11), at(1, 15), { stepM: 20_000 })).toThrow(
      expect.objectContaining({
        code: 'out-of-range',
        message: expect.stringMatching(/longitude 14\.\d+.*outside every tile/),
      }),
    );
  });
  test('coincident ends', () => {
    expect(() => profile(whole, at(1, 11), at(1, 11), { stepM: 10 })).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'to' }),
    );
  });
  test('more points than a million', () => {
    expect(() => profile(whole, at(1, 11), at(1, 13), { stepM: 0.1 })).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'stepM' }),
    );
  });
  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, '30', undefined])('a step of %s', (stepM) => {
    expect(() => profile(whole, at(1, 11), at(1, 13), { stepM: stepM as number })).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'stepM' }),
    );
  });
});
