import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groundDistanceM, readSurvey } from '../src/index.js';
import { sharedData } from './sharedData.js';

test('haversine example of two airports, published with R = 6372.8 km as 2887.2599506071 km', () => {
  // Rosetta Code, 'Haversine formula', BNA to LAX (from memory); a sphere's distances scale with its radius.
  const published = 2_887_259.9506 * (6_371_008.8 / 6_372_800);
  const got = groundDistanceM(
    { latitudeDeg: 36.12, longitudeDeg: -86.67 },
    { latitudeDeg: 33.94, longitudeDeg: -118.4 },
  );
  expect(Math.abs(got - published)).toBeLessThan(1e-4);
});

test('Flinders Peak to Buninyong: within 0.56 % of the ellipsoid', () => {
  // GDA Technical Manual, worked example: 54 972.271 m on GRS 80 (from memory).
  const flindersPeak = {
    latitudeDeg: -(37 + 57 / 60 + 3.7203 / 3600),
    longitudeDeg: 144 + 25 / 60 + 29.5244 / 3600,
  };
  const buninyong = {
    latitudeDeg: -(37 + 39 / 60 + 10.1561 / 3600),
    longitudeDeg: 143 + 55 / 60 + 35.3839 / 3600,
  };
  expect(Math.abs(groundDistanceM(flindersPeak, buninyong) / 54_972.271 - 1)).toBeLessThan(0.0056);
});

test('a degree of meridian on the sphere against the ellipsoid: the stated worst cases', () => {
  // Lengths of a degree of latitude on WGS84: 110 574.3 m at the equator, 111 693.9 m at the pole
  // (NGA Standard 0036, radii of curvature a(1-e²) = 6 335 439.33 m and a²/b = 6 399 593.63 m).
  const degree = groundDistanceM({ latitudeDeg: 0, longitudeDeg: 0 }, { latitudeDeg: 1, longitudeDeg: 0 });
  expect(degree / 110_574.3 - 1).toBeCloseTo(0.0056, 4);
  expect(degree / 111_693.9 - 1).toBeCloseTo(-0.0045, 4);
});

const place = fc.record({
  latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
});

describe('properties', () => {
  test('the same both ways, never negative, never beyond half the circumference', () => {
    fc.assert(
      fc.property(place, place, (one, other) => {
        const there = groundDistanceM(one, other);
        expect(there).toBeCloseTo(groundDistanceM(other, one), 6);
        expect(there).toBeGreaterThanOrEqual(0);
        expect(there).toBeLessThanOrEqual(Math.PI * 6_371_008.8 + 1e-6);
      }),
    );
  });
  test('no way round is shorter', () => {
    fc.assert(
      fc.property(place, place, place, (one, between, other) => {
        const detour = groundDistanceM(one, between) + groundDistanceM(between, other);
        expect(groundDistanceM(one, other)).toBeLessThanOrEqual(detour + 1);
      }),
    );
  });
  test('along a meridian it is the arc', () => {
    const latitudeDeg = fc.double({ min: -90, max: 90, noNaN: true });
    fc.assert(
      fc.property(latitudeDeg, latitudeDeg, (from, to) => {
        fc.pre(Math.abs(from - to) < 170);
        const arc = (Math.abs(from - to) * Math.PI * 6_371_008.8) / 180;
        const got = groundDistanceM(
          { latitudeDeg: from, longitudeDeg: 7 },
          { latitudeDeg: to, longitudeDeg: 7 },
        );
        expect(Math.abs(got - arc)).toBeLessThan(1e-6);
      }),
    );
  });
  test('across the 180th meridian is near', () => {
    const west = { latitudeDeg: 0, longitudeDeg: 179.9 };
    expect(groundDistanceM(west, { latitudeDeg: 0, longitudeDeg: -179.9 })).toBeLessThan(22_300);
  });
});

const ride = sharedData('lyon-bike/2024-07-24-morning.frames.csv');
test.skipIf(ride === undefined)('distances of a bicycle ride, given to 0.1 m by other software', () => {
  const gateway = { latitudeDeg: 45.78630402682589, longitudeDeg: 4.879759574389831 };
  const { observations } = readSurvey(ride ?? '');
  expect(observations).toHaveLength(333);
  for (const observation of observations) {
    // Places are rounded to 1e-7 degrees, 11 mm, and distances to 0.1 m.
    expect(Math.abs(groundDistanceM(observation, gateway) - (observation.distanceM ?? NaN))).toBeLessThan(
      0.07,
    );
  }
});

describe('refusals', () => {
  const here = { latitudeDeg: 0, longitudeDeg: 0 };
  test.each([
    [{ latitudeDeg: 91, longitudeDeg: 0 }, 'to.latitudeDeg', 'out-of-range'],
    [{ latitudeDeg: 0, longitudeDeg: 180.1 }, 'to.longitudeDeg', 'out-of-range'],
    [{ latitudeDeg: NaN, longitudeDeg: 0 }, 'to.latitudeDeg', 'not-a-finite-number'],
    [{ latitudeDeg: '1', longitudeDeg: 0 }, 'to.latitudeDeg', 'not-a-finite-number'],
    [[0, 0], 'to', 'wrong-type'],
    [undefined, 'to', 'wrong-type'],
  ])('%j', (there, argument, code) => {
    expect(() => groundDistanceM(here, there as never)).toThrow(expect.objectContaining({ argument, code }));
  });
});
