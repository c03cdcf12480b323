import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { bootstrapBySpot } from '../../src/index.js';

const want = shared.bootstrapBySpot;
const spots = want.received.map((received, i) => ({ received, sent: want.sent[i] as number }));
type Spot = (typeof spots)[number];
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const ratio = (drawn: readonly Spot[]): number =>
  sum(drawn.map(({ received }) => received)) / sum(drawn.map(({ sent }) => sent));
const mean = (drawn: readonly number[]): number => sum(drawn) / drawn.length;
const relative = (got: number, wanted: number): number => Math.abs(got / wanted - 1);

describe('all draws of five spots, against R (survey-vectors, bootstrapBySpot)', () => {
  const got = bootstrapBySpot(spots, ratio, { interval: 'percentile' });
  test('mean, standard error, quantiles', () => {
    // 126 different draws stand for the 3125 that R went through.
    expect(got).toMatchObject({ isExact: true, drawCount: 126, spots: 5 });
    expect(relative(got.estimate, want.estimate)).toBeLessThan(1e-13);
    expect(relative(got.meanEstimate, want.exactMean)).toBeLessThan(1e-12);
    expect(relative(got.standardErrorOfEstimate, want.exactSe)).toBeLessThan(1e-12);
    const [lower = 0, lower90 = 0, , upper90 = 0, upper = 0] = want.quantilesType1;
    expect([got.lowerEstimate, got.upperEstimate].map((end) => end.toFixed(12))).toEqual(
      [lower, upper].map((end) => end.toFixed(12)),
    );
    const ninety = bootstrapBySpot(spots, ratio, { interval: 'percentile', confidence: 0.9 });
    expect(ninety.lowerEstimate).toBeCloseTo(lower90, 12);
    expect(ninety.upperEstimate).toBeCloseTo(upper90, 12);
  });
  test('corrections for bias and skewness', () => {
    expect(relative(got.biasCorrectionZ, want.z0)).toBeLessThan(1e-9);
    expect(relative(got.accelerationFactor, want.acceleration)).toBeLessThan(1e-11);
  });
  test('standard error of a mean', () => {
    const { values, bootstrapSeOfMeanExact } = want.sampleMeanSe;
    expect(
      relative(bootstrapBySpot(values, mean).standardErrorOfEstimate, bootstrapSeOfMeanExact),
    ).toBeLessThan(1e-12);
  });
  test('few spots are said to be few', () => {
    expect(got.warnings).toEqual(['5 spots are few to draw from: the interval is rather too narrow.']);
  });
});

test('random draws agree with all draws within their error, and repeat with their seed', () => {
  const drawn = bootstrapBySpot(spots, ratio, { drawCount: 100, seed: 4 });
  expect(drawn.isExact).toBe(false);
  expect(bootstrapBySpot(spots, ratio, { drawCount: 100, seed: 4 })).toEqual(drawn);
  expect(bootstrapBySpot(spots, ratio, { drawCount: 100, seed: 5 }).meanEstimate).not.toBe(
    drawn.meanEstimate,
  );
  expect(Math.abs(drawn.meanEstimate - want.exactMean)).toBeLessThan((4 * want.exactSe) / 10);
  const many = Array.from({ length: 12 }, (_, i) => i);
  const random = bootstrapBySpot(many, mean, { drawCount: 50_000 });
  expect(random.isExact).toBe(false);
  // Closed form: the standard deviation with divisor n, over √n.
  const exact = Math.sqrt(143 / 12 / 12);
  expect(relative(random.standardErrorOfEstimate, exact)).toBeLessThan(4 / Math.sqrt(2 * 50_000));
  expect(random.warnings).toEqual([]);
});

test('the mean of any spots: mean and variance over all draws in closed form', () => {
  const values = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 2, maxLength: 6 });
  fc.assert(
    fc.property(values, (list) => {
      const got = bootstrapBySpot(list, mean);
      const centre = mean(list);
      const variance = mean(list.map((value) => (value - centre) ** 2)) / list.length;
      expect(got.meanEstimate).toBeCloseTo(centre, 10);
      expect(got.standardErrorOfEstimate).toBeCloseTo(Math.sqrt(variance), 6);
      expect(got.lowerEstimate).toBeLessThanOrEqual(got.upperEstimate);
    }),
  );
});

test.each([
  [[1], mean, 'spots'],
  [[1, 2], 'mean', 'estimateOfSpots'],
  [[1, 2], () => Number.NaN, 'estimateOfSpots(spots)'],
])('%s with %s is refused', (list, estimate, argument) => {
  expect(() => bootstrapBySpot(list, estimate as never)).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
