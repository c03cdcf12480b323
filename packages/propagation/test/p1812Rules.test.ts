import { p1812, type RadioPath } from '@finial/propagation';
import { freeSpaceLossDb } from '@finial/radio';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { complementaryNormalDeviate } from '../src/p1812/complementaryNormalDeviate.js';
import { seaCouplingDb } from '../src/p1812/ductingLoss.js';
import { isLand, longestStretchM } from '../src/p1812/zones.js';

const settings = { centreLatitudeDeg: 51.5, deltaN: 42.5, surfaceRefractivity: 326 };
const ridge: RadioPath = {
  frequencyHz: 868.1e6,
  distanceM: [0, 1000, 2000, 3000, 4000, 5000],
  heightM: [50, 40, 90, 40, 35, 30],
  transmitterHeightM: 12,
  receiverHeightM: 1.5,
};
const plain: RadioPath = { ...ridge, heightM: [20, 20, 20, 20, 20, 20] };

/** Paths of 2 to 40 km over random ground, with clutter and sea here and there. */
const paths: fc.Arbitrary<RadioPath> = fc
  .record({
    stepM: fc.double({ min: 50, max: 1000, noNaN: true }),
    points: fc.array(
      fc.record({
        heightM: fc.double({ min: 0, max: 300, noNaN: true }),
        clutterM: fc.constantFrom(0, 0, 10, 15),
        zone: fc.constantFrom('inland' as const, 'inland' as const, 'coastal-land' as const, 'sea' as const),
      }),
      { minLength: 40, maxLength: 40 },
    ),
    frequencyHz: fc.double({ min: 30e6, max: 6e9, noNaN: true }),
    transmitterHeightM: fc.double({ min: 1, max: 100, noNaN: true }),
    receiverHeightM: fc.double({ min: 1, max: 100, noNaN: true }),
    polarisation: fc.constantFrom('horizontal' as const, 'vertical' as const),
  })
  .map(({ stepM, points, ...rest }) => ({
    ...rest,
    distanceM: points.map((_, index) => index * stepM),
    heightM: points.map(({ heightM }) => heightM),
    clutterHeightM: points.map(({ clutterM }) => clutterM),
    zone: points.map(({ zone }) => zone),
  }));

const times = fc.double({ min: 1, max: 50, noNaN: true });

describe('rules of the method', () => {
  test('free space has the rounded constant of the Recommendation, not the exact one', () => {
    const { freeSpaceLossDb: rounded } = p1812.basicTransmissionLoss(plain, settings);
    const slantM = Math.hypot(5000, 10.5);
    const exact = freeSpaceLossDb({ frequencyHz: 868.1e6, distanceM: slantM });
    // Source: 92.4 dB against 20 lg(4π · 1e12 / 299792458) = 92.4478 dB.
    expect(exact - rounded).toBeCloseTo(0.0478, 4);
  });

  test('clutter does not count at the two ends', () => {
    const bare = p1812.basicTransmissionLoss(ridge, settings);
    const atEnds = { ...ridge, clutterHeightM: [20, 0, 0, 0, 0, 20] };
    expect(p1812.basicTransmissionLoss(atEnds, settings)).toEqual(bare);
    const onRidge = { ...ridge, clutterHeightM: [0, 0, 20, 0, 0, 0] };
    expect(p1812.basicTransmissionLoss(onRidge, settings).lossDb).toBeGreaterThan(bare.lossDb + 1);
  });

  test('horizons are those of bare ground: a path that only clutter hides is in line of sight', () => {
    const high = { ...plain, transmitterHeightM: 20, receiverHeightM: 10 };
    const town = { ...high, clutterHeightM: [0, 20, 20, 20, 20, 0] };
    const found = p1812.basicTransmissionLoss(town, settings);
    expect(found.transhorizon).toBe(false);
    expect(found.transmitterHorizonDistanceM + found.receiverHorizonDistanceM).toBe(5000);
    expect(found.actualBullingtonLossDb).toBeGreaterThan(10);
  });

  test('at half of the time diffraction is exactly the median', () => {
    const found = p1812.basicTransmissionLoss(ridge, { ...settings, timePercent: 50 });
    expect(found.diffractionLossDb).toBe(found.medianDiffractionLossDb);
    // Source: the approximated deviate of the Recommendation does not reach 0 at one half.
    expect(complementaryNormalDeviate(0.5)).toBeCloseTo(1.3e-9, 10);
  });

  // Source: quantiles of the normal distribution (any table); the approximation of the Recommendation is good to 4.5e-4.
  test.each([
    [0.01, 2.326_347_87],
    [0.1, 1.281_551_57],
    [0.25, 0.674_489_75],
    [0.9, -1.281_551_57],
    [0.99, -2.326_347_87],
  ])('the deviate at %s', (x, deviate) => {
    expect(Math.abs(complementaryNormalDeviate(x) - deviate)).toBeLessThan(4.5e-4);
  });

  test('nine places in ten need 1.28 standard deviations', () => {
    const median = p1812.basicTransmissionLoss(ridge, settings);
    const nine = p1812.basicTransmissionLoss(ridge, {
      ...settings,
      locationPercent: 90,
      locationSigmaDb: 5.5,
    });
    expect(nine.lossDb - median.lossDb).toBeCloseTo(5.5 * 1.2816, 2);
    expect(nine.medianLocationLossDb).toBe(median.medianLocationLossDb);
  });

  // Source: (0.52 + 0.024 · 0.868) · 500^0.28 = 3.08158, computed apart from this package.
  test.each([
    [0, 1.5, 3.081_58 * 0.85],
    [10, 1.5, 3.081_58],
    [10, 15, 3.081_58 / 2],
    [10, 20, 0],
    [10, 200, 0],
  ])('spread from the resolution: clutter %s m, antenna %s m', (clutterM, receiverHeightM, sigmaDb) => {
    const path = { ...ridge, frequencyHz: 868e6, receiverHeightM, clutterHeightM: [0, 0, 0, 0, 0, clutterM] };
    const found = p1812.basicTransmissionLoss(path, { ...settings, resolutionM: 500 });
    expect(found.locationSigmaDb).toBeCloseTo(sigmaDb, 4);
  });

  test('a receiver at sea knows no spread over locations', () => {
    const zone = ['inland', 'inland', 'coastal-land', 'coastal-land', 'sea', 'sea'] as const;
    const spread = { ...settings, locationPercent: 95, locationSigmaDb: 5.5 };
    expect(p1812.basicTransmissionLoss({ ...ridge, zone }, spread)).toMatchObject({
      locationSigmaDb: 0,
      locationLossDb: 0,
    });
  });

  test('no share of places brings the loss below line of sight', () => {
    const lucky = { ...settings, locationPercent: 1, locationSigmaDb: 30 };
    const found = p1812.basicTransmissionLoss(plain, lucky);
    expect(found.medianLocationLossDb + found.locationLossDb).toBeLessThan(found.lineOfSightLossDb);
    expect(found.lossDb).toBe(found.lineOfSightLossDb);
  });

  // Source: P.2109 at 868 MHz, horizontal: 10, 50 and 90 % give 5.72, 14.22 and 25.04 dB in traditional houses.
  test('a building adds its median, and widens the spread', () => {
    const building = { buildingClass: 'traditional' } as const;
    const outdoors = p1812.basicTransmissionLoss({ ...ridge, frequencyHz: 868e6 }, settings);
    const inside = p1812.basicTransmissionLoss({ ...ridge, frequencyHz: 868e6 }, { ...settings, building });
    expect(inside.lossDb - outdoors.lossDb).toBeCloseTo(14.22, 2);
    expect(inside.buildingSigmaDb).toBeGreaterThan((25.04 - 5.72) / 2 / 1.2816 - 0.5);
    expect(inside.buildingSigmaDb).toBeLessThan((25.04 - 5.72) / 2 / 1.2816 + 0.5);
    expect(inside.warnings.join()).toMatch(/unverified/);
    const spread = { ...settings, building, locationPercent: 90, locationSigmaDb: 4 };
    const nine = p1812.basicTransmissionLoss({ ...ridge, frequencyHz: 868e6 }, spread);
    expect(nine.locationLossDb - 14.22).toBeCloseTo(1.2816 * Math.hypot(4, nine.buildingSigmaDb), 1);
  });

  test('a stretch of land reaches half of the gap to the sea', () => {
    const distanceM = Float64Array.of(0, 1000, 3000, 4000, 7000);
    expect(longestStretchM(distanceM, ['sea', 'inland', 'coastal-land', 'sea', 'inland'], isLand)).toBe(3000);
    expect(longestStretchM(distanceM, ['sea', 'sea', 'sea', 'sea', 'inland'], isLand)).toBe(1500);
    expect(longestStretchM(distanceM, ['sea', 'sea', 'sea', 'sea', 'sea'], isLand)).toBe(0);
    expect(longestStretchM(distanceM, ['inland', 'inland', 'inland', 'inland', 'inland'], isLand)).toBe(7000);
  });

  test('in line of sight, of two equal points the last stands for both horizons', () => {
    const valley = {
      ...plain,
      distanceM: [0, 1000, 2000, 3000, 4000],
      heightM: [0, 0, -100, 0, 0],
      transmitterHeightM: 10,
      receiverHeightM: 10,
    };
    expect(p1812.basicTransmissionLoss(valley, settings)).toMatchObject({
      transhorizon: false,
      transmitterHorizonDistanceM: 3000,
      receiverHorizonDistanceM: 1000,
    });
  });

  // Source: equation (49) by hand: -3 exp(-0.25 · 16) (1 + tanh 0) = -0.054947 at 4 km and 50 m above the sea.
  test.each([
    [0.75, 4, 10, -0.054_947],
    [0.75, 4, 3.9, 0],
    [0.75, 5.1, 10, 0],
    [0.74, 4, 10, 0],
  ])('sea share %s, coast at %s km, horizon at %s km', (share, coastKm, horizonKm, gainDb) => {
    expect(seaCouplingDb(share, coastKm, horizonKm, 50)).toBeCloseTo(gainDb, 6);
  });

  test.each([
    ['a rough path so long that ducts vanish', 3e6, 9000, 6e9],
    ['a rough path round half the Earth', 2e7, 9000, 1e11],
    ['a metre', 1, 0, 30e6],
  ])('%s gives finite values', (_, lengthM, reliefM, frequencyHz) => {
    const distanceM = Array.from({ length: 50 }, (_, index) => (index * lengthM) / 49);
    const heightM = distanceM.map((_, index) => (index % 2) * reliefM);
    const path = { ...ridge, distanceM, heightM, frequencyHz };
    const found = p1812.basicTransmissionLoss(path, {
      ...settings,
      outsideValidity: 'allow',
      timePercent: 1,
    });
    const numbers = Object.values(found).filter((value) => typeof value === 'number');
    expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([]);
    expect(found.ductTimePercent).toBeGreaterThanOrEqual(0);
  });
});

describe('properties', () => {
  test('never better than line of sight for the time, and every value finite', () => {
    fc.assert(
      fc.property(paths, times, (path, timePercent) => {
        const found = p1812.basicTransmissionLoss(path, { ...settings, timePercent });
        expect(found.lossDb).toBeGreaterThanOrEqual(found.lineOfSightLossDb);
        // Source: the greatest enhancement is 2.6 lg(50/p) dB.
        expect(found.lossDb).toBeGreaterThan(found.freeSpaceLossDb - 2.6 * Math.log10(50) - 1e-9);
        expect(Object.values(found).filter((value) => Number.isNaN(value))).toEqual([]);
      }),
    );
  });

  test('the same from either end', () => {
    fc.assert(
      fc.property(paths, times, (path, timePercent) => {
        const there = p1812.basicTransmissionLoss(path, { ...settings, timePercent });
        const back = p1812.basicTransmissionLoss(reversed(path), { ...settings, timePercent });
        expect(back.lossDb).toBeCloseTo(there.lossDb, 6);
      }),
    );
  });

  test('more places need more loss', () => {
    fc.assert(
      fc.property(paths, fc.integer({ min: 1, max: 98 }), (path, locationPercent) => {
        const lossDb = (percent: number) =>
          p1812.basicTransmissionLoss(path, { ...settings, locationPercent: percent, resolutionM: 30 })
            .lossDb;
        expect(lossDb(locationPercent + 1)).toBeGreaterThanOrEqual(lossDb(locationPercent));
      }),
    );
  });

  test('the terms of the model add up to the loss', () => {
    fc.assert(
      fc.property(paths, times, (path, timePercent) => {
        const { lossDb, terms } = p1812.model({ ...settings, timePercent })(path);
        expect(Object.values(terms).reduce((sum, term) => sum + term, 0)).toBeCloseTo(lossDb, 9);
      }),
    );
  });

  test('typed arrays and lists give the same, and stay as they were', () => {
    const typed = {
      ...ridge,
      distanceM: Float64Array.from(ridge.distanceM),
      heightM: Float64Array.from(ridge.heightM),
    };
    expect(p1812.basicTransmissionLoss(typed, settings)).toEqual(
      p1812.basicTransmissionLoss(ridge, settings),
    );
    expect(Array.from(typed.heightM)).toEqual(ridge.heightM);
  });
});

function reversed(path: RadioPath): RadioPath {
  const lengthM = path.distanceM.at(-1) as number;
  return {
    ...path,
    distanceM: Array.from(path.distanceM, (fromM) => lengthM - fromM).reverse(),
    heightM: Array.from(path.heightM).reverse(),
    clutterHeightM: Array.from(path.clutterHeightM ?? []).reverse(),
    zone: [...(path.zone ?? [])].reverse(),
    transmitterHeightM: path.receiverHeightM,
    receiverHeightM: path.transmitterHeightM,
  };
}

describe('refusals', () => {
  test.each([
    ['frequencyHz', 10e6],
    ['frequencyHz', 10e9],
    ['transmitterHeightM', 0.5],
    ['receiverHeightM', 4000],
  ])('%s of %s lies outside the method', (name, value) => {
    const path = { ...ridge, [name]: value };
    expect(() => p1812.basicTransmissionLoss(path, settings)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: `path.${name}` }),
    );
    const allowed = p1812.basicTransmissionLoss(path, { ...settings, outsideValidity: 'allow' });
    expect(allowed.warnings).toEqual([expect.stringContaining(`path.${name}`)]);
  });

  test('a path shorter than 250 m lies outside the method', () => {
    const path = { ...plain, distanceM: [0, 40, 80, 120, 160, 200] };
    expect(() => p1812.basicTransmissionLoss(path, settings)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'path.distanceM[5]' }),
    );
  });

  test('fewer than five points are refused', () => {
    const path = { ...ridge, distanceM: [0, 1000, 2000, 5000], heightM: [50, 40, 90, 30] };
    expect(() => p1812.basicTransmissionLoss(path, settings)).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'path.distanceM' }),
    );
  });

  test.each([
    ['deltaN', -42, 'out-of-range'],
    ['deltaN', undefined, 'not-a-finite-number'],
    ['surfaceRefractivity', undefined, 'not-a-finite-number'],
    ['centreLatitudeDeg', 85, 'outside-validity'],
    ['timePercent', 60, 'out-of-range'],
    ['timePercent', 0.1, 'outside-validity'],
    ['locationPercent', 100, 'out-of-range'],
    ['locationPercent', 99.5, 'outside-validity'],
  ])('%s of %s is refused', (argument, value, code) => {
    const bad = { ...settings, locationSigmaDb: 5.5, [argument]: value };
    expect(() => p1812.basicTransmissionLoss(ridge, bad)).toThrow(
      expect.objectContaining({ argument, code }),
    );
    expect(() => p1812.model(bad)).toThrow(expect.objectContaining({ argument, code }));
  });

  test('the spread over locations is never assumed, nor given twice', () => {
    expect(() => p1812.basicTransmissionLoss(ridge, { ...settings, locationPercent: 90 })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'locationSigmaDb' }),
    );
    const both = { ...settings, locationSigmaDb: 5.5, resolutionM: 100 };
    expect(() => p1812.basicTransmissionLoss(ridge, both)).toThrow(
      expect.objectContaining({ argument: 'resolutionM' }),
    );
  });
});

describe('climateOf', () => {
  // Source: the effective Earth-radius factors read beside the values; k = 157/(157 - ΔN).
  test.each([
    ['London', 1.371],
    ['Berlin', 1.313],
    ['Dubai', 1.776],
    ['São Paulo', 1.381],
    ['Los Angeles', 1.541],
    ['Auckland', 1.38],
  ] as const)('%s', (place, factor) => {
    expect(157 / (157 - p1812.climateOf(place).deltaN)).toBeCloseTo(factor, 2);
  });

  test('holds 31 cities within the range of the maps, and no other', () => {
    expect(p1812.climatePlaces).toHaveLength(31);
    for (const place of p1812.climatePlaces) {
      const { deltaN, surfaceRefractivity } = p1812.climateOf(place);
      expect(deltaN).toBeGreaterThan(24.5);
      expect(deltaN).toBeLessThan(80);
      expect(surfaceRefractivity).toBeGreaterThan(293);
      expect(surfaceRefractivity).toBeLessThan(390);
    }
    expect(() => p1812.climateOf('Atlantis' as 'London')).toThrow(
      expect.objectContaining({ code: 'unknown-option', argument: 'place' }),
    );
  });
});

test('a decibel of power is a decibel of field, a decibel of loss takes it away', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      real(1e6, 1e11),
      real(0, 300),
      real(-100, 100),
      real(0, 50),
      (frequencyHz, lossDb, erpDbm, moreDb) => {
        const field = p1812.fieldStrengthDbuvPerM({ frequencyHz, lossDb, erpDbm });
        const both = { frequencyHz, lossDb: lossDb + moreDb, erpDbm: erpDbm + moreDb };
        expect(p1812.fieldStrengthDbuvPerM(both)).toBeCloseTo(field, 9);
        expect(p1812.fieldStrengthDbuvPerM({ frequencyHz, lossDb, erpDbm: erpDbm + moreDb })).toBeCloseTo(
          field + moreDb,
          9,
        );
      },
    ),
  );
});
