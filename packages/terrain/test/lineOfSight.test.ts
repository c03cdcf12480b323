import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineOfSight } from '../src/horizon/lineOfSight.js';
import { profile } from '../src/profile.js';
import { elevationOf, tileOf } from './support/syntheticTiles.js';

const antennas = { fromHeightM: 30, toHeightM: 10 };

test('a ridge in the middle, worked by hand', () => {
  const ground = { distanceM: [0, 2000, 5000, 10_000], heightM: [20, 10, 60, 20] };
  const got = lineOfSight(ground, { ...antennas, wavelengthM: 0.3453 });
  // Line: 50 m to 30 m, so 40 m in the middle. Bulge: 5000 * 5000 / (2 * 4/3 * 6371000) = 1.4715 m. 40 - 60 - 1.4715 = -21.4715.
  expect(got).toMatchObject({
    visible: false,
    obstacleIndex: 2,
    obstacleDistanceM: 5000,
    obstacleHeightM: 60,
  });
  expect(got.lineHeightM).toBeCloseTo(40, 12);
  expect(got.obstacleBulgeM).toBeCloseTo(1.4715, 4);
  expect(got.clearanceM).toBeCloseTo(-21.4715, 4);
  // First Fresnel zone: sqrt(0.3453 * 5000 * 5000 / 10000) = 29.3811 m.
  expect(got.fresnelClearanceRatio).toBeCloseTo(-21.4715 / 29.3811, 5);
  // At 2 km: 46 - 10 - 2000 * 8000 / (2 * 4/3 * 6371000) = 35.0582.
  expect(got.clearancesM[1]).toBeCloseTo(35.0582, 4);
  expect([got.clearancesM[0], got.clearancesM[3]]).toEqual([30, 10]);
});

test('clutter counts between the ends and not at them', () => {
  const ground = { distanceM: [0, 5000, 10_000], heightM: [20, 20, 20] };
  const bare = lineOfSight(ground, antennas);
  const wooded = lineOfSight(ground, { ...antennas, clutterHeightM: [100, 15, 100] });
  expect(wooded.clearanceM).toBeCloseTo(bare.clearanceM - 15, 12);
  expect(wooded.obstacleHeightM).toBe(35);
  expect(wooded.clearancesM[0]).toBe(30);
});

test('the least Fresnel ratio need not lie at the least clearance', () => {
  const ground = { distanceM: [0, 100, 10_000, 20_000], heightM: [0, 22, 0, 0] };
  const got = lineOfSight(ground, { fromHeightM: 30, toHeightM: 30, wavelengthM: 0.3453 });
  expect(got.obstacleDistanceM).toBe(100);
  expect(got.fresnelDistanceM).toBe(10_000);
});

test('over a level Earth two antennas lose sight at the sum of their horizons', () => {
  // Recommendation ITU-R P.1812, equation 22: sqrt(2 ae) (sqrt(h1) + sqrt(h2)).
  const limitM = Math.sqrt(2 * (4 / 3) * 6_371_000) * (Math.sqrt(20) + Math.sqrt(1.5));
  const level = (lengthM: number) => ({
    distanceM: Float64Array.from({ length: 2001 }, (_, index) => (lengthM * index) / 2000),
    heightM: new Float64Array(2001),
  });
  const options = { fromHeightM: 20, toHeightM: 1.5 };
  expect(lineOfSight(level(limitM * 0.999), options).visible).toBe(true);
  expect(lineOfSight(level(limitM * 1.001), options).visible).toBe(false);
});

test('touching the line counts as visible', () => {
  const ground = { distanceM: [0, 1, 2], heightM: [0, 0, 0] };
  expect(lineOfSight(ground, { fromHeightM: 0.1, toHeightM: 0.1 }).visible).toBe(true);
});

describe('properties', () => {
  const heights = fc.array(fc.double({ min: -100, max: 2000, noNaN: true }), { minLength: 3, maxLength: 40 });
  const mast = fc.double({ min: 0, max: 100, noNaN: true });

  test('the way back is as free as the way there', () => {
    fc.assert(
      fc.property(heights, mast, mast, (heightM, fromHeightM, toHeightM) => {
        const distanceM = heightM.map((_, index) => index * 90);
        const there = lineOfSight({ distanceM, heightM }, { fromHeightM, toHeightM, wavelengthM: 0.35 });
        const back = lineOfSight(
          { distanceM, heightM: heightM.toReversed() },
          { fromHeightM: toHeightM, toHeightM: fromHeightM, wavelengthM: 0.35 },
        );
        expect(back.clearanceM).toBeCloseTo(there.clearanceM, 8);
        expect(back.fresnelClearanceRatio).toBeCloseTo(there.fresnelClearanceRatio as number, 6);
      }),
    );
  });

  test('raising both antennas by a metre frees a metre everywhere', () => {
    fc.assert(
      fc.property(heights, mast, mast, (heightM, fromHeightM, toHeightM) => {
        const ground = { distanceM: heightM.map((_, index) => index * 90), heightM };
        const low = lineOfSight(ground, { fromHeightM, toHeightM });
        const high = lineOfSight(ground, { fromHeightM: fromHeightM + 1, toHeightM: toHeightM + 1 });
        expect(high.clearanceM).toBeCloseTo(low.clearanceM + 1, 8);
      }),
    );
  });
});

test('a terrain profile goes in as it is', () => {
  const slope = tileOf(
    { northDeg: 50.1, westDeg: 16, rows: 2, columns: 2, stepDeg: 0.1 },
    (_, east) => 100 * east,
  );
  const at = (longitudeDeg: number) => ({ latitudeDeg: 50.05, longitudeDeg });
  const ground = profile(elevationOf(slope), at(16.01), at(16.09), { stepM: 100 });
  expect(lineOfSight(ground, { fromHeightM: 5, toHeightM: 5 }).clearanceM).toBeCloseTo(5, 0);
});

test.each([
  [{ distanceM: [0, 5], heightM: [1, 1] }, 'profile.distanceM', 'missing'],
  [{ distanceM: [0, 5, 5], heightM: [1, 1, 1] }, 'profile.distanceM[2]', 'out-of-range'],
  [{ distanceM: [1, 5, 9], heightM: [1, 1, 1] }, 'profile.distanceM[0]', 'out-of-range'],
  [{ distanceM: [0, 5, 9], heightM: [1, 1] }, 'profile.heightM', 'out-of-range'],
  [{ distanceM: [0, 5, 9], heightM: [1, Number.NaN, 1] }, 'profile.heightM[1]', 'not-a-finite-number'],
  [{ distanceM: '0 5 9', heightM: [1, 1, 1] }, 'profile.distanceM', 'wrong-type'],
])('%j is refused', (ground, argument, code) => {
  expect(() => lineOfSight(ground as never, antennas)).toThrow(
    expect.objectContaining({ name: 'InputError', argument, code }),
  );
});
