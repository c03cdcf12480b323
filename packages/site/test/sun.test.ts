import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clearSky } from '../src/sun/clearSky.js';
import { sunOnFace } from '../src/sun/sunOnFace.js';
import { sunPosition } from '../src/sun/sunPosition.js';

const utc = (text: string) => Date.parse(text) / 1000;
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('sunPosition against published examples', () => {
  // I. Reda, A. Andreas, NREL/TP-560-34302 (2008), table A5.1: 2003-10-17 12:30:30 at UTC-7. Its zenith angle of 50.11162 degrees holds
  // refraction of 0.0163 degrees at 820 hPa and 11 degrees C and parallax of 0.0019, which a plain position leaves out.
  test('Golden, 17 October 2003', () => {
    const sun = sunPosition({
      timeSeconds: utc('2003-10-17T19:30:30Z'),
      latitudeDeg: 39.742476,
      longitudeDeg: -105.1786,
    });
    expect(Math.abs(sun.elevationDeg - (90 - 50.11162 - 0.0163 + 0.0019))).toBeLessThan(0.01);
    expect(Math.abs(sun.azimuthDeg - 194.34024)).toBeLessThan(0.02);
  });

  // J. Meeus, Astronomical Algorithms, 2nd edition, examples 25.a (place) and 28.a (equation of time 13 min 42.6 s, from memory).
  test('13 October 1992, 0 h', () => {
    const sun = sunPosition({ timeSeconds: utc('1992-10-13T00:00:00Z'), latitudeDeg: 0, longitudeDeg: 0 });
    expect(Math.abs(sun.rightAscensionDeg - 198.38083)).toBeLessThan(0.001);
    expect(Math.abs(sun.declinationDeg - -7.78507)).toBeLessThan(0.001);
    expect(Math.abs(sun.equationOfTimeSeconds - 822.6)).toBeLessThan(1);
  });
});

describe('sunPosition by its nature', () => {
  const when = real(-2.2e9, 4.1e9);

  test('at the antipodes the sun stands as far below as here above', () => {
    fc.assert(
      fc.property(when, real(-90, 90), real(-180, 0), (timeSeconds, latitudeDeg, longitudeDeg) => {
        const here = sunPosition({ timeSeconds, latitudeDeg, longitudeDeg });
        const there = sunPosition({
          timeSeconds,
          latitudeDeg: -latitudeDeg,
          longitudeDeg: longitudeDeg + 180,
        });
        expect(here.elevationDeg + there.elevationDeg).toBeCloseTo(0, 5);
      }),
    );
  });

  test('it never leaves the tropics, nor the clock by more than 17 minutes', () => {
    fc.assert(
      fc.property(when, (timeSeconds) => {
        const sun = sunPosition({ timeSeconds, latitudeDeg: 0, longitudeDeg: 0 });
        expect(Math.abs(sun.declinationDeg)).toBeLessThan(23.47);
        expect(Math.abs(sun.equationOfTimeSeconds)).toBeLessThan(1020);
      }),
    );
  });

  test('it rises in the east and sets in the west', () => {
    const place = { latitudeDeg: 45, longitudeDeg: 0 };
    expect(sunPosition({ timeSeconds: utc('2026-06-21T06:00:00Z'), ...place }).azimuthDeg).toBeLessThan(120);
    expect(sunPosition({ timeSeconds: utc('2026-06-21T18:00:00Z'), ...place }).azimuthDeg).toBeGreaterThan(
      240,
    );
  });
});

describe('clearSky', () => {
  // Values of the Haurwitz model in the tests of a published photovoltaic library (open licence), by elevation.
  test.each([
    [-20, 0],
    [5, 48.6298687941956],
    [10, 135.741748091813],
    [30, 487.894132885425],
    [50, 778.766689344363],
    [90, 1035.0920325345],
  ])('%d degrees up', (elevationDeg, globalWPerM2) => {
    expect(clearSky(elevationDeg).globalWPerM2).toBeCloseTo(globalWPerM2, 6);
  });

  // Air mass 1.5 by definition of the standard spectrum ASTM G173: beam 900, whole on a tilted plane 1000 W/m² (from memory).
  test('the beam at air mass 1.5 is near that of the standard spectrum', () => {
    expect(Math.abs(clearSky(41.81).directNormalWPerM2 / 900 - 1)).toBeLessThan(0.1);
  });

  test('beam and sky make the whole, and grow with the sun', () => {
    fc.assert(
      fc.property(real(-90, 89), real(0.01, 1), (elevationDeg, stepDeg) => {
        const sky = clearSky(elevationDeg);
        const beam = sky.directNormalWPerM2 * Math.max(0, Math.sin((elevationDeg * Math.PI) / 180));
        expect(beam + sky.diffuseWPerM2).toBeCloseTo(sky.globalWPerM2, 6);
        expect(clearSky(elevationDeg + stepDeg).globalWPerM2).toBeGreaterThanOrEqual(sky.globalWPerM2);
      }),
    );
  });
});

describe('sunOnFace', () => {
  test('a level face gets what the sky gives; one and its opposite get beam once', () => {
    fc.assert(
      fc.property(
        real(-90, 90),
        real(0, 360),
        real(0, 360),
        real(0, 180),
        (elevationDeg, azimuthDeg, faceAzimuthDeg, faceTiltDeg) => {
          const sun = { elevationDeg, azimuthDeg };
          const level = sunOnFace({ ...sun, faceAzimuthDeg, faceTiltDeg: 0 });
          expect(level.totalWPerM2).toBeCloseTo(clearSky(elevationDeg).globalWPerM2, 6);
          const one = sunOnFace({ ...sun, faceAzimuthDeg, faceTiltDeg });
          const other = sunOnFace({
            ...sun,
            faceAzimuthDeg: faceAzimuthDeg - 180,
            faceTiltDeg: 180 - faceTiltDeg,
          });
          expect(Math.min(one.beamWPerM2, other.beamWPerM2)).toBeLessThan(1e-6);
          expect(one.skyWPerM2 + other.skyWPerM2).toBeCloseTo(clearSky(elevationDeg).diffuseWPerM2, 6);
        },
      ),
    );
  });
});
