import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { chiSquareTail } from '../../src/delivery/chiSquareTail.js';
import {
  areaFromEdge,
  edgeFromArea,
  logNormalMarginDb,
  predictionMarginDb,
  rayleighFadeDb,
  suzukiFadeDb,
  toleranceMarginDb,
} from '../../src/index.js';
import { seededRandom } from './seededRandom.js';

const { areaCoverage, fadeMargin, published } = shared;

describe('area from edge against R (survey-vectors, areaCoverage)', () => {
  test('the file still holds its cases', () => expect(areaCoverage.cases).toHaveLength(48));
  test.each(areaCoverage.cases)('$sigmaDb dB, $exponent, $edgeProbability', (row) => {
    const { sigmaDb: shadowingDb, exponent, edgeMarginDb } = row;
    const got = areaFromEdge({ shadowingDb, exponent, edgeMarginDb });
    expect(Math.abs(got.edgeProbability - row.edgeProbability)).toBeLessThan(1e-12);
    expect(Math.abs(got.areaProbability - row.areaProbability)).toBeLessThan(1e-12);
  });
  test.each(areaCoverage.inverse)('$areaProbability of the area', (row) => {
    const got = edgeFromArea({ ...row, shadowingDb: row.sigmaDb });
    expect(Math.abs(got.edgeMarginDb - row.edgeMarginDb)).toBeLessThan(1e-6);
    expect(Math.abs(got.edgeProbability - row.edgeProbability)).toBeLessThan(1e-7);
  });
  test('the textbook exercise: the formula gives 89.8 %, not the 92 % of the chart', () => {
    const { areaProbability } = areaFromEdge({
      shadowingDb: 6.17,
      exponent: 4.4,
      edgeMarginDb: -57.24 + 60,
    });
    expect(areaProbability).toBeCloseTo(areaCoverage.fourPointExample.areaProbabilityRoundedInputs, 3);
  });
});

const law = fc.record({
  exponent: fc.double({ min: 0.5, max: 10, noNaN: true }),
  shadowingDb: fc.double({ min: 0.1, max: 40, noNaN: true }),
});

/** Share of points of a disc above the threshold, integrated over rings of equal area by the midpoint rule. */
function byRings(
  edgeMarginDb: number,
  exponent: number,
  shadowingDb: number,
  below: (z: number) => number,
): number {
  const rings = 20_000;
  let sum = 0;
  for (let i = 0; i < rings; i += 1) {
    const square = (i + 0.5) / rings;
    sum += below((edgeMarginDb - 5 * exponent * Math.log10(square)) / shadowingDb);
  }
  return sum / rings;
}

/** Φ by its Taylor series about 0, from the definition. */
function normalBelow(z: number): number {
  if (Math.abs(z) > 8) return z > 0 ? 1 : 0;
  let term = z;
  let sum = z;
  for (let k = 1; k < 200; k += 1) {
    term *= (-z * z) / (2 * k);
    sum += term / (2 * k + 1);
  }
  return Math.min(1, Math.max(0, 0.5 + sum / Math.sqrt(2 * Math.PI)));
}

test.each([
  [-30, 0.5, 40],
  [5, 2, 0.1],
  [60, 3, 9],
  [-12, 3.5, 8],
  [0, 10, 1],
])('against the integral of the disc: %d dB, %d, %d dB', (edgeMarginDb, exponent, shadowingDb) => {
  const { areaProbability } = areaFromEdge({ edgeMarginDb, exponent, shadowingDb });
  // The rings themselves are good to a few 1e-5.
  expect(Math.abs(areaProbability - byRings(edgeMarginDb, exponent, shadowingDb, normalBelow))).toBeLessThan(
    5e-5,
  );
});

test('more margin never covers less, and the area is never worse than its edge', () => {
  fc.assert(
    fc.property(law, fc.double({ min: -200, max: 199, noNaN: true }), (disc, edgeMarginDb) => {
      const one = areaFromEdge({ ...disc, edgeMarginDb });
      const more = areaFromEdge({ ...disc, edgeMarginDb: edgeMarginDb + 1 });
      expect(one.areaProbability).toBeGreaterThanOrEqual(one.edgeProbability - 1e-15);
      expect(one.areaProbability).toBeLessThanOrEqual(1 + 1e-12);
      expect(more.areaProbability).toBeGreaterThanOrEqual(one.areaProbability - 1e-12);
    }),
    { numRuns: 1000 },
  );
});

test('edge and area are inverse', () => {
  fc.assert(
    fc.property(law, fc.double({ min: 0.001, max: 0.9999, noNaN: true }), (disc, areaProbability) => {
      const { edgeMarginDb } = edgeFromArea({ ...disc, areaProbability });
      fc.pre(Math.abs(edgeMarginDb) <= 200);
      expect(
        Math.abs(areaFromEdge({ ...disc, edgeMarginDb }).areaProbability - areaProbability),
      ).toBeLessThan(1e-10);
    }),
  );
});

describe('margins against R (survey-vectors, fadeMargin)', () => {
  test.each(fadeMargin.lognormal)(
    'log-normal $reliability',
    ({ reliability: probability, sigmaDb, marginDb }) => {
      expect(logNormalMarginDb({ probability, shadowingDb: sigmaDb })).toBeCloseTo(marginDb, 11);
    },
  );
  test.each(fadeMargin.predictionT)('prediction $reliability', (row) => {
    const { reliability: probability, sampleSdDb: sampleDeviationDb, spots: spotCount, marginDb } = row;
    expect(predictionMarginDb({ probability, sampleDeviationDb, spotCount })).toBeCloseTo(marginDb, 10);
  });
  test.each(fadeMargin.toleranceK1)(
    'tolerance factor, n = $n',
    ({ n: spotCount, content: probability, confidence, k }) => {
      const got = toleranceMarginDb({ probability, confidence, spotCount, sampleDeviationDb: 1 });
      expect(Math.abs(got - k), `got ${got}`).toBeLessThan(1e-9);
    },
  );
  test.each(fadeMargin.rayleighFadeDb)('Rayleigh $probabilityBelow', (row) => {
    expect(rayleighFadeDb(row.probabilityBelow)).toBeCloseTo(row.relativeToMeanPowerDb, 11);
  });
  test.each(fadeMargin.suzukiFadeDb)('Suzuki $probabilityBelow', (row) => {
    const got = suzukiFadeDb({ probability: row.probabilityBelow, shadowingDb: row.sigmaDb });
    expect(Math.abs(got - row.relativeToLocalMeanDb), `got ${got}`).toBeLessThan(1e-8);
  });
});

// SciPy 1.17.1, scipy.stats.nct.ppf(confidence, n - 1, norm.ppf(content) * sqrt(n)) / sqrt(n).
test.each([
  [0.9999, 0.9999, 2, 29673.45833774631],
  [0.99, 0.99, 10_000, 2.371768183702992],
  [0.5, 0.9, 5, 0.6856706904649945],
])('tolerance factor at the ends: %d, %d, %d', (probability, confidence, spotCount, factor) => {
  const got = toleranceMarginDb({ probability, confidence, spotCount, sampleDeviationDb: 1 });
  expect(Math.abs(got / factor - 1)).toBeLessThan(1e-10);
});

test("the handbook's approximate factor is 0.0012 above the exact one", () => {
  const { n: spotCount, content: probability, confidence, approximateK } = published.nistHandbook7263;
  const got = toleranceMarginDb({ probability, confidence, spotCount, sampleDeviationDb: 1 });
  expect(Math.abs(got - approximateK)).toBeLessThan(0.002);
});

test('limits: no shadowing is Rayleigh alone, many spots are known shadowing', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 0.999999, noNaN: true }), (probability) => {
      expect(
        Math.abs(suzukiFadeDb({ probability, shadowingDb: 0 }) - rayleighFadeDb(probability)),
      ).toBeLessThan(1e-8);
    }),
    { numRuns: 20 },
  );
  const known = logNormalMarginDb({ probability: 0.9, shadowingDb: 8 });
  const walk = { probability: 0.9, sampleDeviationDb: 8, spotCount: 10_000 };
  expect(predictionMarginDb(walk)).toBeCloseTo(known, 2);
  expect(toleranceMarginDb({ ...walk, confidence: 0.5 })).toBeCloseTo(known, 2);
});

test('a tolerance margin keeps its promise in 4000 simulated walks of ten spots', () => {
  const random = seededRandom(7);
  const factor = toleranceMarginDb({
    probability: 0.9,
    confidence: 0.95,
    sampleDeviationDb: 1,
    spotCount: 10,
  });
  let kept = 0;
  for (let walk = 0; walk < 4000; walk += 1) {
    const levels = Array.from({ length: 10 }, random.normal);
    const mean = levels.reduce((sum, level) => sum + level, 0) / 10;
    const deviation = Math.sqrt(levels.reduce((sum, level) => sum + (level - mean) ** 2, 0) / 9);
    // Nine of ten places lie above -1.2816 deviations (table of the normal distribution).
    if (mean - factor * deviation <= -1.2815515655446004) kept += 1;
  }
  expect(Math.abs(kept / 4000 - 0.95)).toBeLessThan(0.0125);
});

// Tables of the chi-square distribution: 3.841459 and 18.307038 leave 5 %, 2.705543 leaves 10 %.
test.each([
  [3.841458820694124, 1, 0.05],
  [18.307038053275146, 10, 0.05],
  [2.705543454095404, 1, 0.1],
])('chi-square tail at %d with %d', (x, degreesOfFreedom, tail) => {
  expect(chiSquareTail(x, degreesOfFreedom)).toBeCloseTo(tail, 12);
});
test('two degrees of freedom: e^(-x/2) itself', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1000, noNaN: true }), (x) => {
      expect(Math.abs(chiSquareTail(x, 2) - Math.exp(-x / 2))).toBeLessThanOrEqual(
        1e-12 * Math.exp(-x / 2) + 4e-16,
      );
    }),
  );
});
