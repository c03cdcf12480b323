import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fresnelClearance, fresnelRadiusM } from '../src/index.js';
import { expectNear, half } from './support.js';
import closed from './vectors/closed-forms.json' with { type: 'json' };

const frequencyHz = fc.double({ min: 1e8, max: 1e10, noNaN: true });
const legM = fc.double({ min: 10, max: 1e5, noNaN: true });

describe(`fresnelRadiusM against ${closed.fresnel.source}, ${closed.source}`, () => {
  test('the file still holds its cases', () => expect(closed.fresnel.cases).toHaveLength(3));
  test.each(closed.fresnel.cases)('zone $zone at $frequencyHz Hz', ({ radiusM, ...point }) => {
    expectNear(fresnelRadiusM(point) / radiusM, 1, closed.fresnel.toleranceRatio);
  });
});

describe('fresnelRadiusM', () => {
  // The form of the link-planning texts, 17.3 √(d1 d2 / (f d)) in metres, kilometres and gigahertz; and its 60 %, printed as 10.4 in
  // the installation manual of a 5 GHz radio link (read).
  test('2 km and 2 km at 1 GHz show the textbook constants', () => {
    const radiusM = fresnelRadiusM({ frequencyHz: 1e9, distanceToStartM: 2000, distanceToEndM: 2000 });
    expectNear(radiusM, 17.3, half(1));
    expectNear(0.6 * radiusM, 10.4, half(1));
  });
  test('the way round by the edge of zone n is n half-waves longer', () =>
    fc.assert(
      fc.property(frequencyHz, legM, legM, fc.integer({ min: 1, max: 5 }), (f, a, b, zone) => {
        const radiusM = fresnelRadiusM({ frequencyHz: f, distanceToStartM: a, distanceToEndM: b, zone });
        fc.pre(radiusM < 0.01 * Math.min(a, b));
        // √(a² + r²) − a without the cancellation
        const extra = (leg: number) => radiusM ** 2 / (Math.hypot(leg, radiusM) + leg);
        const halfWave = 299_792_458 / f / 2;
        expectNear((extra(a) + extra(b)) / (zone * halfWave), 1, 1e-4);
      }),
    ));
});

describe('fresnelClearance', () => {
  const obstacle = { frequencyHz: 868.1e6, distanceToStartM: 5000, distanceToEndM: 5000 };
  // From closed-forms.json: first zone 29.383 m, so 60 % is 17.63 m.
  test.each([
    [17.7, true],
    [17.6, false],
    [-3, false],
  ])('%d m of clearance', (clearanceM, isClear) => {
    const got = fresnelClearance({ ...obstacle, clearanceM });
    expect(got.isClear).toBe(isClear);
    expectNear(got.requiredClearanceM, 17.63, half(2));
    expectNear(got.clearanceRatio, clearanceM / 29.383, 1e-4);
  });
  // Rec. ITU-R P.526, section 4.1: the knife edge loses 6.9 + 20 lg(√((ν−0.1)²+1) + ν − 0.1) dB, and nothing up to ν = −0.78;
  // ν = −√2 × clearance / first radius.
  test('what counts as clear loses nothing behind a knife edge', () =>
    fc.assert(
      fc.property(frequencyHz, legM, legM, fc.double({ min: 0.6, max: 3, noNaN: true }), (f, a, b, part) => {
        const point = { frequencyHz: f, distanceToStartM: a, distanceToEndM: b };
        const clearanceM = 1.000_001 * part * fresnelRadiusM(point);
        const got = fresnelClearance({ ...point, clearanceM });
        expect(got.isClear).toBe(true);
        expect(-Math.SQRT2 * got.clearanceRatio).toBeLessThan(-0.78);
      }),
    ));
});
