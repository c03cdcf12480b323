import { normalQuantile } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { locationSigmaDb } from '../src/certainty/locationSigmaDb.js';
import { marginProbability, requiredMarginDb } from '../src/certainty/marginProbability.js';
import { modelErrors } from '../src/certainty/modelErrors.js';
import { upperTailProbability } from '../src/certainty/normalDistribution.js';

// Tables of the normal distribution: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, tables 26.1, 26.2 and 26.5.
describe('against tables of the normal distribution', () => {
  test.each([
    [0, 0.5],
    [1, 0.158655253931457],
    [2, 0.0227501319481792],
    [3, 1.349898031630095e-3],
    [4, 3.16712418331199e-5],
    [5, 2.866515718791939e-7],
    [8, 6.220960574271785e-16],
    [-1, 0.841344746068543],
  ])('the tail beyond %d', (z, probability) => {
    expect(Math.abs(upperTailProbability(z) / probability - 1)).toBeLessThan(1e-13);
  });

  test('quantile and tail are inverse', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 0.5, noNaN: true }), (tail) => {
        expect(Math.abs(upperTailProbability(-normalQuantile(tail)) / tail - 1)).toBeLessThan(1e-11);
      }),
    );
  });
});

describe('marginProbability', () => {
  // 6 and 8 dB add to 10 dB (6-8-10 triangle); one standard deviation is 84.13 % in any table.
  test('a margin of one standard deviation', () => {
    expect(marginProbability({ marginDb: 10, locationSigmaDb: 6, modelErrorDb: 8 })).toBeCloseTo(
      0.8413447,
      7,
    );
    expect(
      requiredMarginDb({ probability: 0.8413447460685, locationSigmaDb: 6, modelErrorDb: 8 }),
    ).toBeCloseTo(10, 9);
  });

  test('without spread the sign decides', () => {
    expect(marginProbability({ marginDb: 0, locationSigmaDb: 0 })).toBe(1);
    expect(marginProbability({ marginDb: -0.1, locationSigmaDb: 0 })).toBe(0);
  });

  test('both directions agree, signs mirror, spread blurs', () => {
    const spread = fc.double({ min: 0.5, max: 20, noNaN: true });
    const probability = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(probability, spread, spread, (p, locationSigmaDb, modelErrorDb) => {
        const marginDb = requiredMarginDb({ probability: p, locationSigmaDb, modelErrorDb });
        expect(marginProbability({ marginDb, locationSigmaDb, modelErrorDb })).toBeCloseTo(p, 10);
        const mirrored = marginProbability({ marginDb: -marginDb, locationSigmaDb, modelErrorDb });
        expect(mirrored).toBeCloseTo(1 - p, 10);
        const blurred = marginProbability({ marginDb, locationSigmaDb, modelErrorDb: modelErrorDb + 1 });
        expect(Math.abs(blurred - 0.5)).toBeLessThanOrEqual(Math.abs(p - 0.5) + 1e-12);
      }),
    );
  });
});

describe('locationSigmaDb', () => {
  // By hand: (0.52 + 0.024) 100^0.28 = 0.544 · 3.630781 at 1 GHz (100^0.28 = 10^0.56, table of logarithms).
  test('a square of 100 m at 1 GHz', () => {
    expect(locationSigmaDb({ frequencyHz: 1e9, resolutionM: 100 })).toBeCloseTo(0.544 * 3.630781, 5);
  });

  test('fades out over 10 m above the clutter', () => {
    const of = (antennaHeightM: number) =>
      locationSigmaDb({ frequencyHz: 868e6, resolutionM: 50, antennaHeightM, clutterHeightM: 10 });
    expect(of(10)).toBe(of(1.5));
    expect(of(15)).toBeCloseTo(of(10) / 2, 12);
    expect(of(20)).toBe(0);
    expect(of(90)).toBe(0);
  });
});

test('the spread grows with the square, by the power 0.28, and never with the height of the antenna', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(real(30e6, 6e9), real(1, 1e4), real(0.1, 40), (frequencyHz, resolutionM, antennaHeightM) => {
      const square = { frequencyHz, resolutionM, antennaHeightM };
      const wider = locationSigmaDb({ ...square, resolutionM: 10 * resolutionM });
      expect(wider).toBeCloseTo(locationSigmaDb(square) * 10 ** 0.28, 9);
      const higher = locationSigmaDb({ ...square, antennaHeightM: antennaHeightM + 1 });
      expect(higher).toBeLessThanOrEqual(locationSigmaDb(square));
    }),
  );
});

test('every model error names its source and its standing, and the read ones are ordered', () => {
  for (const { leastErrorDb, greatestErrorDb, source, standing } of modelErrors) {
    expect(leastErrorDb).toBeGreaterThan(0);
    expect(greatestErrorDb).toBeGreaterThanOrEqual(leastErrorDb);
    expect(standing === 'memory').toBe(source.includes('memory'));
  }
});
