import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ShortPathSituation, siteGeneralLoss, streetLevelLoss } from '../src/p1411/index.js';

// Reference values published with the reference implementation of P.1411-13 (10 digits), a selection inside and outside the ranges.
describe('against the published reference values of P.1411-13', () => {
  test.each<[ShortPathSituation, number, number, number]>([
    ['line-of-sight', 1, 20, 58.16132091],
    ['line-of-sight', 10, 100, 93.23],
    ['line-of-sight', 28, 300, 112.3178654],
    ['line-of-sight', 0.45, 5, 38.55485687],
    ['high-rise', 1, 300, 108.4166228],
    ['high-rise', 82, 150, 140.440397],
    ['low-rise', 10, 150, 125.7993249],
    ['low-rise', 1, 100, 96.44],
    ['residential', 0.8, 30, 61.2553125],
    ['residential', 73, 170, 124.5072957],
    ['over-roofs-line-of-sight', 2.2, 55, 75.16579013],
    ['over-roofs-line-of-sight', 73, 1200, 135.6343786],
    ['over-roofs-hidden', 2.2, 260, 107.6230516],
    ['over-roofs-hidden', 66.5, 1200, 170.8309545],
  ])('%s, %d GHz, %d m', (situation, ghz, distanceM, lossDb) => {
    const path = { frequencyHz: ghz * 1e9, distanceM, situation, outsideValidity: 'allow' } as const;
    expect(siteGeneralLoss(path).lossDb).toBeCloseTo(lossDb, 6);
  });

  test.each([
    ['suburban', 300, 5, 0.05, 20, 26.59779998],
    ['suburban', 300, 50, 0.5, 20, 60.22853457],
    ['suburban', 300, 50, 0.5, 30, 58.93886906],
    ['suburban', 900, 50, 0.75, 20, 95.12114135],
    ['suburban', 900, 50, 0.75, 30, 90.17985399],
    ['suburban', 900, 500, 0.05, 20, 118.8857377],
    ['suburban', 900, 500, 0.5, 20, 130.3997131],
    ['suburban', 900, 2000, 0.95, 20, 165.9960881],
    ['suburban', 2600, 50, 0.75, 20, 115.8540291],
    ['urban', 900, 100, 0.25, 20, 66.9537267],
    ['urban', 900, 50, 0.5, 30, 72.10204689],
    ['urban', 900, 1000, 0.9, 20, 158.2117739],
  ] as const)(
    '%s, %d MHz, %d m, %d of places, transition %d m',
    (surroundings, mhz, distanceM, probability, transitionM, lossDb) => {
      const path = { surroundings, frequencyHz: mhz * 1e6, distanceM, probability, transitionM };
      expect(Math.abs(streetLevelLoss(path).lossDb - lossDb)).toBeLessThan(1e-6);
    },
  );
});

describe('shape', () => {
  test('farther loses more in every situation, and a frequency tenfold costs 10γ', () => {
    const metres = fc.double({ min: 1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(
        metres,
        metres,
        fc.constantFrom<ShortPathSituation>('line-of-sight', 'residential', 'over-roofs-hidden'),
        (one, other, situation) => {
          const of = (distanceM: number, frequencyHz: number) =>
            siteGeneralLoss({ frequencyHz, distanceM, situation, outsideValidity: 'allow' }).lossDb;
          expect(of(Math.max(one, other), 1e9)).toBeGreaterThanOrEqual(of(Math.min(one, other), 1e9));
          const gamma = { 'line-of-sight': 2.06, residential: 2.07, 'over-roofs-hidden': 2.3 }[
            situation as 'residential'
          ];
          expect(of(one, 1e10) - of(one, 1e9)).toBeCloseTo(10 * gamma, 9);
        },
      ),
    );
  });

  test('street level: more places take more loss, and there is no jump over the transition', () => {
    const probability = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(probability, (p) => {
        const of = (distanceM: number, share: number) =>
          streetLevelLoss({ frequencyHz: 868e6, distanceM, surroundings: 'urban', probability: share });
        const { visibleDistanceM } = of(100, p);
        for (const edge of [visibleDistanceM, visibleDistanceM + 20]) {
          expect(of(edge + 1e-7, p).lossDb - of(edge - 1e-7, p).lossDb).toBeCloseTo(0, 4);
        }
        expect(of(2500, p + (1 - p) / 2).lossDb).toBeGreaterThan(of(2500, p).lossDb);
      }),
    );
  });
});

describe('range', () => {
  test('a gateway over the roofs on 868 MHz is outside', () => {
    const roof = { frequencyHz: 868e6, distanceM: 500, situation: 'over-roofs-hidden' } as const;
    expect(() => siteGeneralLoss(roof)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
    expect(siteGeneralLoss({ ...roof, outsideValidity: 'allow' }).warnings).toHaveLength(1);
  });

  test('a street of 5 km is outside', () => {
    const street = { frequencyHz: 868e6, distanceM: 5000, surroundings: 'urban', probability: 0.5 } as const;
    expect(() => streetLevelLoss(street)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'distanceM' }),
    );
  });
});
