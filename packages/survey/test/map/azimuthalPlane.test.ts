import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planeOffset, planePosition } from '../../src/index.js';
import vectors from '../vectors/planeOffsets.json' with { type: 'json' };

describe(`the plane around a gateway against ${vectors.source}`, () => {
  test('the file still holds its cases', () => expect(vectors.cases).toHaveLength(10));
  test.each(vectors.cases)('$origin to $position', ({ origin, position, eastM, northM }) => {
    const got = planeOffset({ origin, position });
    // Worst measured: 4e-7 m, at 4 km across the date line.
    expect(Math.hypot(got.eastM - eastM, got.northM - northM)).toBeLessThan(1e-5);
    const back = planePosition({ origin, place: { eastM, northM } });
    expect(Math.abs(back.latitudeDeg - position.latitudeDeg)).toBeLessThan(1e-10);
    const turn =
      Math.cos((position.latitudeDeg * Math.PI) / 180) * (back.longitudeDeg - position.longitudeDeg);
    expect(Math.abs(turn - 360 * Math.round(turn / 360))).toBeLessThan(1e-10);
  });
});

// From memory: the worked example of the Geocentric Datum of Australia technical manual, GRS 80.
test('Flinders Peak to Buninyong: 54 972.271 m at 306 degrees 52 minutes 05.37 seconds', () => {
  const degrees = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  const { eastM, northM } = planeOffset({
    origin: { latitudeDeg: -degrees(37, 57, 3.7203), longitudeDeg: degrees(144, 25, 29.5244) },
    position: { latitudeDeg: -degrees(37, 39, 10.1561), longitudeDeg: degrees(143, 55, 35.3839) },
  });
  expect(Math.hypot(eastM, northM)).toBeCloseTo(54_972.271, 3);
  const azimuthDeg = ((Math.atan2(eastM, northM) * 180) / Math.PI + 360) % 360;
  expect(Math.abs(azimuthDeg - degrees(306, 52, 5.37)) * 3600).toBeLessThan(0.01);
});

test('there and back again', () => {
  const offset = fc.double({ min: -5e5, max: 5e5, noNaN: true });
  const latitude = fc.double({ min: -84, max: 84, noNaN: true });
  const longitude = fc.double({ min: -180, max: 180, noNaN: true });
  fc.assert(
    fc.property(latitude, longitude, offset, offset, (latitudeDeg, longitudeDeg, eastM, northM) => {
      const origin = { latitudeDeg, longitudeDeg };
      const position = planePosition({ origin, place: { eastM, northM } });
      const back = planeOffset({ origin, position });
      expect(Math.hypot(back.eastM - eastM, back.northM - northM)).toBeLessThan(2e-5);
    }),
  );
});

test('the smallest offsets there are lead to the gateway itself', () => {
  const origin = { latitudeDeg: 8.3e-10, longitudeDeg: 0 };
  const { latitudeDeg } = planePosition({ origin, place: { eastM: -1e-323, northM: 1.5e-323 } });
  expect(Math.abs(latitudeDeg - origin.latitudeDeg)).toBeLessThan(1e-20);
});

test('a place at the other end of the Earth is refused', () => {
  const origin = { latitudeDeg: 45, longitudeDeg: 5 };
  for (const position of [
    { latitudeDeg: 5, longitudeDeg: 45 },
    { latitudeDeg: -45, longitudeDeg: -175 },
    { latitudeDeg: -45.0001, longitudeDeg: -174.9 },
  ]) {
    expect(() => planeOffset({ origin, position })).toThrow(/within 1000 km/);
  }
});
