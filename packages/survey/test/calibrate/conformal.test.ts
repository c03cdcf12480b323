import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { seededRandom } from '../../src/calibrate/seededRandom.js';
import { conformalMargin, conformalQuantile, type Observation } from '../../src/index.js';
import { seededNormal } from './seededNormal.js';

const { absoluteScores, absolute, signedScores, signed } = shared.conformal;
const place = { latitudeDeg: 45, longitudeDeg: 5 };

describe('rank rule against R (survey-vectors, conformal)', () => {
  test.each([
    ...absolute.map((want) => ({ ...want, scoresDb: absoluteScores })),
    ...signed.map((want) => ({ ...want, scoresDb: signedScores })),
  ])('alpha $alpha, rank $rank', ({ alpha, scoresDb, rank, quantile, coverageMean }) => {
    const got = conformalQuantile({ scoresDb, confidence: 1 - alpha });
    expect(got.rankIndex).toBe(rank);
    expect(got.quantileDb ?? null).toBe(quantile);
    expect(got.coverageRatio).toBeCloseTo(coverageMean, 12);
  });
  test('a lower bound is the prediction less the quantile of predicted minus measured', () => {
    const [want] = signed;
    const { quantileDb = Number.NaN } = conformalQuantile({ scoresDb: signedScores, confidence: 0.9 });
    expect((want?.predictionDbm ?? 0) - quantileDb).toBeCloseTo(want?.lowerBoundDbm ?? 0, 10);
  });
  test('nineteen spots are the least for 95 %', () => {
    const scoresDb = Array.from({ length: 19 }, (_, i) => i);
    expect(conformalQuantile({ scoresDb, confidence: 0.95 })).toMatchObject({
      quantileDb: 18,
      leastSpots: 19,
    });
    expect(conformalQuantile({ scoresDb: scoresDb.slice(1), confidence: 0.95 }).quantileDb).toBeUndefined();
  });
});

test('the share exceeded with probability 0.9 is that of the order statistics', () => {
  const random = seededRandom(5);
  const { coverageLowerRatio } = conformalQuantile({ scoresDb: absoluteScores, confidence: 0.9 });
  // Uniform scores: the coverage of a walk is its score of rank 36 of 39.
  let above = 0;
  for (let walk = 0; walk < 4000; walk += 1) {
    const scores = Array.from({ length: 39 }, random).sort((one, other) => one - other);
    if ((scores[35] as number) > coverageLowerRatio) above += 1;
  }
  expect(Math.abs(above / 4000 - 0.9)).toBeLessThan(0.019);
});

test('an unheard spot never narrows the bound', () => {
  const scores = fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(scores, fc.integer({ min: 0, max: 5 }), (scoresDb, unboundedSpots) => {
      const heard = conformalQuantile({ scoresDb, confidence: 0.8 }).quantileDb ?? Infinity;
      const deaf = conformalQuantile({ scoresDb, unboundedSpots, confidence: 0.8 }).quantileDb ?? Infinity;
      expect(deaf).toBeGreaterThanOrEqual(heard);
    }),
  );
});

interface Spot {
  readonly predictedDbm: number;
  readonly frames: readonly Observation[];
  /** Median of the levels, those of missed frames included, which only the simulation knows. */
  readonly medianDbm: number;
}

/** Skewed shadowing on a prediction that is 6 dB optimistic; frames weaker than the threshold are missed. */
function spotsOf(normal: () => number, count: number, thresholdDbm: number): readonly Spot[] {
  return Array.from({ length: count }, (_, spot) => {
    const predictedDbm = -85 - 8 * Math.abs(normal());
    const shadow = 4 * normal() - 1.5 * normal() ** 2;
    const levels = Array.from({ length: 5 }, () => predictedDbm - 6 + shadow + 2 * normal());
    const frames = levels.map(
      (level): Observation =>
        level < thresholdDbm
          ? { ...place, spot: `${spot}`, received: false, counter: spot }
          : { ...place, spot: `${spot}`, received: true, rssiDbm: level, counter: spot },
    );
    return { predictedDbm, frames, medianDbm: [...levels].sort((one, other) => one - other)[2] as number };
  });
}

// With 13 of 52 spots set aside, 39 scores: rank 36 of 40 is 90 % exactly. Three standard errors of 2000 walks are 2 %.
describe('coverage over 2000 simulated walks, nominal 90 %', () => {
  test.each([
    ['lower', -200],
    ['both', -200],
    ['lower', -101],
  ] as const)('%s, missed below %s dBm', (side, thresholdDbm) => {
    const normal = seededNormal(side === 'lower' ? 17 : 18);
    let inside = 0;
    let bounded = 0;
    let missed = 0;
    for (let seed = 0; seed < 2000; seed += 1) {
      const spots = spotsOf(normal, 53, thresholdDbm);
      const fresh = spots[52] as Spot;
      const walked = spots.slice(0, 52);
      const frames = walked.flatMap((spot) => spot.frames);
      const margin = conformalMargin(({ counter = 0 }) => (walked[counter] as Spot).predictedDbm, frames, {
        signal: 'rssi',
        thresholdDbm,
        side,
        offsetSpotRatio: 0.25,
        seed,
      });
      missed += margin.unboundedSpots;
      if (margin.lowerMarginDb === undefined) continue;
      bounded += 1;
      const { lowerMarginDb, upperMarginDb = Infinity } = margin;
      const isInside =
        fresh.medianDbm >= fresh.predictedDbm - lowerMarginDb &&
        fresh.medianDbm <= fresh.predictedDbm + upperMarginDb;
      if (isInside) inside += 1;
    }
    if (thresholdDbm === -200) {
      expect(bounded).toBe(2000);
      expect(inside / 2000).toBeGreaterThan(0.88);
      expect(inside / 2000).toBeLessThan(0.92);
    } else {
      // With many spots unheard, walks without any bound claim nothing; counted as such, nine in ten hold at least.
      expect(missed).toBeGreaterThan(2000);
      expect((inside + 2000 - bounded) / 2000).toBeGreaterThan(0.88);
    }
  });
});

describe('conformalMargin says what it did', () => {
  const walked = spotsOf(seededNormal(3), 20, -200);
  const frames = walked.flatMap((spot) => spot.frames);
  const predicted = ({ counter = 0 }: Observation): number => (walked[counter] as Spot).predictedDbm;
  test('two sides lie about the offset', () => {
    const margin = conformalMargin(predicted, frames, { signal: 'rssi', side: 'both' });
    const { quantileDb = Number.NaN, offsetDb, offsetSpots, spots } = margin;
    expect([offsetSpots, spots]).toEqual([6, 14]);
    expect(margin.lowerMarginDb).toBeCloseTo(quantileDb + offsetDb, 12);
    expect(margin.upperMarginDb).toBeCloseTo(quantileDb - offsetDb, 12);
    expect(margin.verdict).toMatch(
      /^At least 90 % of new spots lie between the prediction less .* and the prediction .* dB \(14 spots\)\.$/,
    );
  });
  test('too few spots give no margin', () => {
    const margin = conformalMargin(predicted, frames, { signal: 'rssi', confidence: 0.99 });
    expect(margin.lowerMarginDb).toBeUndefined();
    expect(margin.verdict).toMatch(/^No margin can be given at 99 %: 14 spots, at least 99 are needed/);
  });
  test('without spots to set aside the prediction is taken as it is', () => {
    expect(conformalMargin(predicted, frames, { signal: 'rssi', offsetSpotRatio: 0 })).toMatchObject({
      offsetDb: 0,
      offsetSpots: 0,
      spots: 20,
    });
  });
});
