import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { destination } from '../src/geodesic/destination.js';
import { geodesic } from '../src/geodesic/geodesic.js';
import lines from './vectors/geodesic-lines.json' with { type: 'json' };

const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });
const turned = (longitudeDeg: number) => ((((longitudeDeg + 180) % 360) + 360) % 360) - 180;
const compass = (azimuthDeg: number) => (azimuthDeg + 360) % 360;

describe(`geodesic and destination against ${lines.source}`, () => {
  test('the file still holds its cases', () => expect(lines.cases).toHaveLength(20));

  test.each(lines.cases)('$fromLatitudeDeg, $fromLongitudeDeg to $toLatitudeDeg, $toLongitudeDeg', (want) => {
    const from = at(want.fromLatitudeDeg, want.fromLongitudeDeg);
    const line = geodesic({ from, to: at(want.toLatitudeDeg, turned(want.toLongitudeDeg)) });
    // Turning the printed angles into the ranges of this package costs one rounding more.
    const toleranceDeg = lines.toleranceDeg + 1e-13;
    expect(Math.abs(line.distanceM - want.distanceM)).toBeLessThanOrEqual(lines.toleranceM);
    expect(Math.abs(line.azimuthDeg - compass(want.azimuthDeg))).toBeLessThanOrEqual(toleranceDeg);
    expect(Math.abs(line.finalAzimuthDeg - compass(want.finalAzimuthDeg))).toBeLessThanOrEqual(toleranceDeg);
    const end = destination({ from, azimuthDeg: want.azimuthDeg, distanceM: want.distanceM });
    expect(Math.abs(end.latitudeDeg - want.toLatitudeDeg)).toBeLessThanOrEqual(toleranceDeg);
    expect(Math.abs(end.longitudeDeg - turned(want.toLongitudeDeg))).toBeLessThanOrEqual(toleranceDeg);
  });
});

test('Flinders Peak to Buninyong: 54972.271 m (ICSM, GDA Technical Manual, Vincenty sample on GRS 80; from memory)', () => {
  const dms = (degrees: number, minutes: number, seconds: number) => degrees + minutes / 60 + seconds / 3600;
  const from = at(-dms(37, 57, 3.7203), dms(144, 25, 29.5244));
  const line = geodesic({ from, to: at(-dms(37, 39, 10.1561), dms(143, 55, 35.3839)) });
  expect(Math.abs(line.distanceM - 54_972.271)).toBeLessThanOrEqual(0.0006);
  expect(Math.abs(line.azimuthDeg - dms(306, 52, 5.37))).toBeLessThanOrEqual(0.01 / 3600);
  expect(Math.abs(line.finalAzimuthDeg + 180 - 360 - dms(127, 10, 25.07))).toBeLessThanOrEqual(0.01 / 3600);
});

describe('quarters and halves of the Earth (WGS 84: equator 2π 6378137 m, quarter meridian 10001965.729 m, NGA.STND.0036)', () => {
  test('pole to equator', () => {
    expect(geodesic({ from: at(90, 0), to: at(0, 30) }).distanceM).toBeCloseTo(10_001_965.729, 3);
  });
  test('pole to pole', () => {
    expect(geodesic({ from: at(90, 12), to: at(-90, -60) }).distanceM).toBeCloseTo(2 * 10_001_965.7293, 3);
  });
  test('opposite places on the equator are joined over a pole, not along the equator', () => {
    expect(geodesic({ from: at(0, -60), to: at(0, 120) }).distanceM).toBeCloseTo(2 * 10_001_965.7293, 3);
  });
  test('one degree of the equator', () => {
    expect(geodesic({ from: at(0, 10), to: at(0, 11) })).toEqual({
      distanceM: expect.closeTo((6_378_137 * Math.PI) / 180, 7),
      azimuthDeg: 90,
      finalAzimuthDeg: 90,
    });
  });
  test('over the 180° meridian the short way', () => {
    expect(geodesic({ from: at(0, 179.5), to: at(0, -179.5) }).distanceM).toBeCloseTo(
      (6_378_137 * Math.PI) / 180,
      7,
    );
    expect(
      destination({ from: at(0, 179.5), azimuthDeg: 90, distanceM: (6_378_137 * Math.PI) / 180 }),
    ).toEqual({
      latitudeDeg: expect.closeTo(0, 12),
      longitudeDeg: expect.closeTo(-179.5, 12),
    });
  });
  test('over the pole to the other side', () => {
    const end = destination({
      from: at(89, 10),
      azimuthDeg: 0,
      distanceM: geodesic({ from: at(89, 0), to: at(90, 0) }).distanceM * 2,
    });
    expect(end.latitudeDeg).toBeCloseTo(89, 12);
    expect(end.longitudeDeg).toBeCloseTo(-170, 10);
  });
  test('coincident places', () => {
    expect(geodesic({ from: at(45, 7), to: at(45, 7) })).toEqual({
      distanceM: 0,
      azimuthDeg: 0,
      finalAzimuthDeg: 0,
    });
    expect(geodesic({ from: at(0, 180), to: at(0, -180) }).distanceM).toBe(0);
  });
});

const place = fc.record({
  latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
});

test('going there and coming back are as long', () => {
  fc.assert(
    fc.property(place, place, (from, to) => {
      const there = geodesic({ from, to });
      expect(geodesic({ from: to, to: from }).distanceM).toBeCloseTo(there.distanceM, 7);
      expect(there.azimuthDeg).toBeGreaterThanOrEqual(0);
      expect(there.azimuthDeg).toBeLessThan(360);
    }),
  );
});

test('the destination of a line is where it ends', () => {
  fc.assert(
    fc.property(place, place, (from, to) => {
      const { azimuthDeg, distanceM } = geodesic({ from, to });
      const end = destination({ from, azimuthDeg, distanceM });
      expect(Math.abs(end.longitudeDeg)).toBeLessThanOrEqual(180);
      expect(geodesic({ from: end, to }).distanceM).toBeLessThan(1e-6);
    }),
  );
});

test.each([
  [{ from: at(91, 0), to: at(0, 0) }, 'from.latitudeDeg'],
  [{ from: at(0, 0), to: at(0, 181) }, 'to.longitudeDeg'],
  [{ from: at(0, Number.NaN), to: at(0, 0) }, 'from.longitudeDeg'],
])('%j is refused by name', (ends, argument) => {
  expect(() => geodesic(ends)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
});

test.each([-1, 20_004_001, Number.NaN])('a length of %d is refused', (distanceM) => {
  expect(() => destination({ from: at(0, 0), azimuthDeg: 0, distanceM })).toThrow(
    expect.objectContaining({ name: 'InputError', argument: 'distanceM' }),
  );
});
