import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import {
  deliveryClaim,
  deliveryRatio,
  designEffect,
  exponentStandardError,
  framesForWidth,
  framesToProve,
  spotsForMean,
  surveySize,
} from '../../src/index.js';

const { sampleSize, proportion } = shared;

describe('against R (survey-vectors, sampleSize)', () => {
  test('the file still holds its cases', () =>
    expect(sampleSize.framesWilsonHalfWidth.length + sampleSize.demonstrateReliability.length).toBe(9));
  test.each(sampleSize.framesWilsonHalfWidth)(
    'frames for $halfWidth at $p',
    ({ p, halfWidth, confidence, framesWilson }) => {
      expect(framesForWidth({ expectedRatio: p, halfWidthRatio: halfWidth, confidence })).toBe(framesWilson);
    },
  );
  test.each(sampleSize.demonstrateReliability)(
    'frames to prove $reliability, $missesAllowed missed',
    (row) => {
      const { reliability: atLeastRatio, confidence, missesAllowed: missedFrames, frames } = row;
      expect(framesToProve({ atLeastRatio, confidence, missedFrames }).frames).toBe(frames);
    },
  );
  test.each(sampleSize.spotsForMean)('spots for the mean within $halfWidthDb dB', (row) => {
    const { sigmaDb: shadowingDb, halfWidthDb, confidence, spotsNormal, spotsStudent } = row;
    expect(spotsForMean({ shadowingDb, halfWidthDb, confidence })).toEqual({
      knownDeviationSpotCount: spotsNormal,
      spotCount: spotsStudent,
    });
  });
  test.each(sampleSize.designEffect)('design effect of $framesPerSpot frames', (row) => {
    const got = designEffect({ spotFrames: row.framesPerSpot, correlation: row.rho });
    expect(got.designEffectRatio).toBeCloseTo(row.designEffect, 12);
    expect(got.effectiveSpotFrames).toBeCloseTo(row.effectivePerSpot, 12);
    expect(got.mostSpotFrames).toBeCloseTo(row.limitPerSpot, 12);
  });
  test.each(sampleSize.exponentSe)('standard error of the exponent', (row) => {
    const { sigmaDb: shadowingDb, spots: spotCount, fromM: nearestDistanceM, toM: farthestDistanceM } = row;
    const got = exponentStandardError({ shadowingDb, spotCount, nearestDistanceM, farthestDistanceM });
    expect(Math.abs(got / row.seExponent - 1)).toBeLessThan(1e-12);
  });
  test.each(proportion.cases)('claim of $received of $sent', (row) => {
    const { atLeastRatio } = deliveryClaim(row, { confidence: row.confidence });
    expect(Math.abs(atLeastRatio - row.oneSidedLowerClopperPearson)).toBeLessThan(1e-12);
  });
});

test('a claim is the end of the two-sided interval with twice the tail, on both sides', () => {
  const claim = deliveryClaim({ received: 15, sent: 148 }, { confidence: 0.975 });
  const both = deliveryRatio({ received: 15, sent: 148 }, { interval: 'clopper-pearson' });
  expect(claim.atLeastRatio).toBeCloseTo(both.lowerRatio, 12);
  expect(claim.atMostRatio).toBeCloseTo(both.upperRatio, 12);
  // Newcombe 1998, four printed decimals (from memory, as the vectors say).
  expect(claim.atMostRatio).toBeCloseTo(0.1617, 4);
});

test('a claim in words never promises more than the bound', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 500 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (sent, share) => {
        const { atLeastRatio, sentence } = deliveryClaim({ received: Math.round(share * sent), sent });
        const promised = Number(/at least ([\d.]+) %/.exec(sentence)?.[1]) / 100;
        expect(promised).toBeLessThanOrEqual(atLeastRatio + 1e-12);
        expect(promised).toBeGreaterThan(atLeastRatio - 0.0011);
      },
    ),
  );
});

test('one frame fewer no longer has the width', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0.005, max: 0.4, noNaN: true }),
      (expectedRatio, halfWidthRatio) => {
        const frames = framesForWidth({ expectedRatio, halfWidthRatio });
        // Wilson's half-width written out again, z for 95 % from a table of the normal distribution.
        const z = 1.959963984540054;
        const half = (n: number): number =>
          (z / (1 + (z * z) / n)) *
          Math.sqrt((expectedRatio * (1 - expectedRatio)) / n + (z * z) / (4 * n * n));
        expect(half(frames)).toBeLessThanOrEqual(halfWidthRatio * (1 + 1e-9));
        if (frames > 1) expect(half(frames - 1)).toBeGreaterThan(halfWidthRatio * (1 - 1e-9));
      },
    ),
  );
});

test('a proof reaches its confidence, and one frame fewer does not', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.5, max: 0.99, noNaN: true }),
      fc.integer({ min: 0, max: 12 }),
      (atLeastRatio, missedFrames) => {
        const { frames, reachedConfidence } = framesToProve({ atLeastRatio, missedFrames });
        const bound = (sent: number): number =>
          deliveryClaim({ received: sent - missedFrames, sent }).atLeastRatio;
        expect(reachedConfidence).toBeGreaterThanOrEqual(0.95 - 1e-9);
        expect(bound(frames)).toBeGreaterThanOrEqual(atLeastRatio - 1e-9);
        if (frames > missedFrames + 1) expect(bound(frames - 1)).toBeLessThan(atLeastRatio + 1e-9);
      },
    ),
  );
});

test('a survey of many spots: 141 frames (R) times 2.9, in spots of 20', () => {
  const size = surveySize({ expectedRatio: 0.9, halfWidthRatio: 0.05, spotFrames: 20, correlation: 0.1 });
  expect(size).toMatchObject({ independentFrames: 141, spotCount: 21, totalFrames: 420 });
  const stubborn = surveySize({
    expectedRatio: 0.9,
    halfWidthRatio: 0.05,
    spotFrames: 200,
    correlation: 0.1,
  });
  // Ten times the frames at a spot save a third of the spots: none is worth more than ten.
  expect(stubborn.spotCount).toBe(15);
});

test('frames of a spot that are alike count for less, never for more than their limit', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 10_000 }),
      fc.double({ min: 0.001, max: 1, noNaN: true }),
      (spotFrames, correlation) => {
        const got = designEffect({ spotFrames, correlation });
        expect(got.designEffectRatio).toBeGreaterThanOrEqual(1);
        expect(got.effectiveSpotFrames * got.designEffectRatio).toBeCloseTo(spotFrames, 6);
        expect(got.effectiveSpotFrames).toBeLessThanOrEqual((got.mostSpotFrames as number) * (1 + 1e-12));
      },
    ),
  );
});

test('a survey holds its frames and not a spot more', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      fc.integer({ min: 1, max: 100 }),
      fc.double({ min: 0, max: 0.9, noNaN: true }),
      (expectedRatio, spotFrames, correlation) => {
        const got = surveySize({ expectedRatio, halfWidthRatio: 0.05, spotFrames, correlation });
        const neededFrames = got.independentFrames * got.designEffectRatio;
        expect(got.totalFrames).toBe(got.spotCount * spotFrames);
        expect(got.totalFrames).toBeGreaterThanOrEqual(neededFrames - 1e-6);
        expect(got.totalFrames - spotFrames).toBeLessThan(neededFrames);
      },
    ),
  );
});

test('a mean known twice as well needs about four times the spots; an exponent by the root of the spots', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      real(2, 12),
      real(0.5, 3),
      fc.integer({ min: 3, max: 1000 }),
      (shadowingDb, halfWidthDb, spotCount) => {
        const wide = spotsForMean({ shadowingDb, halfWidthDb });
        const narrow = spotsForMean({ shadowingDb, halfWidthDb: halfWidthDb / 2 });
        expect(wide.spotCount).toBeGreaterThanOrEqual(wide.knownDeviationSpotCount);
        // Rounded up, each.
        expect(narrow.knownDeviationSpotCount).toBeLessThanOrEqual(4 * wide.knownDeviationSpotCount);
        expect(narrow.knownDeviationSpotCount).toBeGreaterThan(4 * (wide.knownDeviationSpotCount - 1));
        const spread = { shadowingDb, spotCount, nearestDistanceM: 100, farthestDistanceM: 3000 };
        const error = exponentStandardError(spread);
        expect(exponentStandardError({ ...spread, shadowingDb: 2 * shadowingDb })).toBeCloseTo(2 * error, 9);
        expect(exponentStandardError({ ...spread, spotCount: spotCount + 1 })).toBeLessThan(error);
      },
    ),
  );
});

describe('refusals', () => {
  test.each([
    [() => framesForWidth({ expectedRatio: 90, halfWidthRatio: 0.05 }), 'expectedRatio'],
    [() => framesForWidth({ expectedRatio: 0.9, halfWidthRatio: 5 }), 'halfWidthRatio'],
    [() => framesToProve({ atLeastRatio: 1 }), 'atLeastRatio'],
    [() => framesToProve({ atLeastRatio: 0.9, missedFrames: 0.5 }), 'missedFrames'],
    [() => deliveryClaim({ received: 1, sent: 2 }, { confidence: 0.5 }), 'confidence'],
    [() => designEffect({ spotFrames: 0, correlation: 0 }), 'spotFrames'],
    [() => spotsForMean({ shadowingDb: 0, halfWidthDb: 1 }), 'shadowingDb'],
    [
      () =>
        exponentStandardError({ shadowingDb: 8, spotCount: 4, nearestDistanceM: 9, farthestDistanceM: 9 }),
      'farthestDistanceM',
    ],
  ])('case %#', (call, argument) => {
    expect(call).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
});
