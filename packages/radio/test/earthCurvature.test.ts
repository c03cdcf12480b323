import { metresToFeet, milesToMetres } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { earthBulgeM, radioHorizonM, radioLineOfSightM } from '../src/index.js';
import { expectNear, half } from './support.js';

const distanceM = fc.double({ min: 1, max: 1e5, noNaN: true });
const heightM = fc.double({ min: 0.1, max: 1000, noNaN: true });
const factor = fc.double({ min: 0.5, max: 5, noNaN: true });

describe('earthBulgeM', () => {
  // Microwave path texts: bulge in feet = 0.667 d1 d2 / K with miles (from memory); the mile makes it an independent figure.
  test('one mile and one mile over the true Earth: 0.667 ft', () => {
    const bulgeM = earthBulgeM({
      distanceToStartM: milesToMetres(1),
      distanceToEndM: milesToMetres(1),
      effectiveEarthRadiusFactor: 1,
    });
    expectNear(metresToFeet(bulgeM), 0.667, half(3));
  });
  test('is the sagitta of the circle', () =>
    fc.assert(
      fc.property(distanceM, distanceM, factor, (a, b, k) => {
        const got = earthBulgeM({ distanceToStartM: a, distanceToEndM: b, effectiveEarthRadiusFactor: k });
        const radiusM = 6_371_000 * k;
        // Chord theorem: the product of the legs equals the product of the two parts of the chord through the centre.
        const apothemM = Math.sqrt(radiusM ** 2 - ((a + b) / 2) ** 2);
        const offsetM = (b - a) / 2;
        const exactM = Math.sqrt(radiusM ** 2 - offsetM ** 2) - apothemM;
        expectNear(got, exactM, 1e-3 * exactM + 1e-7);
      }),
    ));
  test('is nothing at either end', () => {
    expect(earthBulgeM({ distanceToStartM: 0, distanceToEndM: 5000 })).toBe(0);
  });
});

describe('radioHorizonM and radioLineOfSightM', () => {
  // ATIS Telecom Glossary, radio horizon range (read): 2.23 (√ht + √hr) nautical miles with heights in metres and 4/3 of the Earth's
  // radius; it also prints 1.23 with heights in feet.
  test('the constants of the telecom glossary', () => {
    const nauticalMileM = 1852;
    expectNear(radioHorizonM({ heightM: 1 }) / nauticalMileM, 2.23, half(2));
    expectNear(radioHorizonM({ heightM: 0.3048 }) / nauticalMileM, 1.23, half(2));
    const both = radioLineOfSightM({ transmitHeightM: 100, receiveHeightM: 25 }) / nauticalMileM;
    expectNear(both, 2.23 * (10 + 5), half(2) * 15);
  });
  // The familiar 4.12 √h in kilometres (from memory, ICAO and radar texts).
  test('a mast of 100 m sees 41.2 km', () => expectNear(radioHorizonM({ heightM: 100 }), 41_200, 50));
  test('the line of sight is the sum of the horizons, the same both ways', () =>
    fc.assert(
      fc.property(heightM, heightM, factor, (a, b, k) => {
        const refraction = { effectiveEarthRadiusFactor: k };
        const sum =
          radioHorizonM({ heightM: a, ...refraction }) + radioHorizonM({ heightM: b, ...refraction });
        const there = radioLineOfSightM({ transmitHeightM: a, receiveHeightM: b, ...refraction });
        const back = radioLineOfSightM({ transmitHeightM: b, receiveHeightM: a, ...refraction });
        expectNear(there / sum, 1, 1e-14);
        expectNear(there / back, 1, 1e-14);
      }),
    ));
  test('at the horizon the Earth has dropped by the height of the antenna', () =>
    fc.assert(
      fc.property(heightM, (h) => {
        const d = radioHorizonM({ heightM: h });
        // Halfway to the mirror image of the antenna behind the horizon, the bulge equals its height.
        expectNear(earthBulgeM({ distanceToStartM: d, distanceToEndM: d }) / h, 1, 1e-12);
      }),
    ));
});
