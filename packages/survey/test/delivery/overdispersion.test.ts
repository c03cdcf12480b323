import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { deliveryAcrossSpots, deliveryRatio, fitBetaBinomial, overdispersion } from '../../src/index.js';
import { seededRandom } from './seededRandom.js';

const spotsOf = (row: { received: number[]; sent: number[] }) =>
  row.received.map((received, index) => ({ received, sent: row.sent[index] ?? 0 }));
const relative = (got: number | undefined, want: number) => Math.abs((got ?? NaN) / want - 1);

describe('against R and VGAM (survey-vectors, betaBinomial)', () => {
  const { cases } = shared.betaBinomial;
  test('the file still holds its cases', () => expect(cases).toHaveLength(2));

  test.each(cases)('overdispersion: $name', ({ overdispersion: want, ...row }) => {
    const got = overdispersion(spotsOf(row));
    expect(relative(got.pooledRatio, want.pooled)).toBeLessThan(1e-12);
    expect(relative(got.pearsonChiSquare, want.pearsonX2)).toBeLessThan(1e-12);
    expect(got.degreesOfFreedom).toBe(want.df);
    expect(relative(got.dispersionRatio, want.dispersion)).toBeLessThan(1e-12);
    expect(relative(got.pearsonProbability, want.pValueX2)).toBeLessThan(1e-10);
    expect(relative(got.taroneZ, want.taroneZ)).toBeLessThan(1e-12);
    expect(relative(got.taroneProbability, want.taronePValueOneSided)).toBeLessThan(1e-10);
    expect(relative(got.varianceCorrelation, want.anovaIcc)).toBeLessThan(1e-11);
    expect(relative(got.clusterStandardErrorRatio, want.clusterRobustSe)).toBeLessThan(1e-11);
    expect(relative(got.binomialStandardErrorRatio, want.binomialSe)).toBeLessThan(1e-11);
    expect(relative(got.designEffectRatio, want.designEffect)).toBeLessThan(1e-11);
    expect(relative(got.effectiveFrames, want.effectiveFrames)).toBeLessThan(1e-11);
  });

  test.each(cases)('beta-binomial: $name', ({ mle, vglmCheck, ...row }) => {
    const got = fitBetaBinomial(spotsOf(row));
    expect(got.model).toBe('beta-binomial');
    // Fifteen digits are printed; 40-digit arithmetic differs from them by 7e-12 at most.
    expect(Math.abs(got.meanRatio - mle.mu)).toBeLessThan(1e-11);
    expect(Math.abs(got.correlation - mle.rho)).toBeLessThan(2e-11);
    // The other program stops a little earlier.
    expect(Math.abs(got.correlation - vglmCheck.rho)).toBeLessThan(1e-7);
    expect(Math.abs(got.logLikelihood - mle.logLik)).toBeLessThan(1e-10);
    expect(relative(got.meanLogitStandardError, mle.seLogitMu)).toBeLessThan(1e-6);
    expect(relative(got.correlationLogitStandardError, mle.seLogitRho)).toBeLessThan(1e-6);
    expect(got.mostSpotFrames).toBeCloseTo(1 / mle.rho, 5);
  });
});

describe('edges of the model', () => {
  test('spots more alike than chance: the binomial', () => {
    const fit = fitBetaBinomial(Array.from({ length: 8 }, () => ({ received: 15, sent: 20 })));
    expect(fit).toMatchObject({ model: 'binomial', correlation: 0, meanRatio: 0.75 });
    expect(fit.logLikelihood).toBe(fit.binomialLogLikelihood);
    // Likelihood of eight times 15 of 20 at 3/4; Pr(15 of 20) = 0.20233 in tables of the binomial distribution.
    expect(fit.logLikelihood).toBeCloseTo(8 * Math.log(0.2023312), 5);
  });
  test('each spot all or nothing: correlation 1', () => {
    const fit = fitBetaBinomial([20, 0, 20, 20].map((received) => ({ received, sent: 20 })));
    expect(fit).toMatchObject({
      model: 'all-or-nothing',
      correlation: 1,
      meanRatio: 0.75,
      mostSpotFrames: 1,
    });
    expect(fit.logLikelihood).toBeCloseTo(3 * Math.log(0.75) + Math.log(0.25), 12);
  });
  test('nearly all or nothing comes near it', () => {
    const fit = fitBetaBinomial([200, 0, 199, 200, 0, 1].map((received) => ({ received, sent: 200 })));
    expect(fit.model).toBe('beta-binomial');
    expect(fit.correlation).toBeGreaterThan(0.8);
  });
  test('what cannot be seen is said', () => {
    const all = [
      { received: 9, sent: 9 },
      { received: 5, sent: 5 },
    ];
    expect(fitBetaBinomial(all).warnings).toEqual([expect.stringContaining('Every frame came through')]);
    expect(overdispersion(all)).not.toHaveProperty('designEffectRatio');
    const single = [1, 0, 1].map((received) => ({ received, sent: 1 }));
    expect(fitBetaBinomial(single).warnings).toEqual([expect.stringContaining('one frame')]);
    expect(overdispersion(single)).not.toHaveProperty('taroneZ');
  });
});

const counts = fc.array(
  fc
    .integer({ min: 1, max: 60 })
    .chain((sent) => fc.record({ sent: fc.constant(sent), received: fc.integer({ min: 0, max: sent }) })),
  { minLength: 2, maxLength: 20 },
);

describe('properties', () => {
  test('the beta-binomial is at least as likely as the binomial, and mirrors', () => {
    fc.assert(
      fc.property(counts, (spots) => {
        const fit = fitBetaBinomial(spots);
        expect(fit.logLikelihood).toBeGreaterThanOrEqual(fit.binomialLogLikelihood);
        expect(fit.correlation).toBeGreaterThanOrEqual(0);
        expect(fit.correlation).toBeLessThanOrEqual(1);
        const mirrored = fitBetaBinomial(
          spots.map(({ received, sent }) => ({ received: sent - received, sent })),
        );
        expect(mirrored.logLikelihood).toBeCloseTo(fit.logLikelihood, 7);
        expect(mirrored.meanRatio).toBeCloseTo(1 - fit.meanRatio, 4);
      }),
      { numRuns: 200 },
    );
  });
  test('lost frames spread as received ones do, and the order of the spots is of no account', () => {
    fc.assert(
      fc.property(counts, (spots) => {
        const got = overdispersion(spots);
        const mirrored = overdispersion(
          spots.map(({ received, sent }) => ({ received: sent - received, sent })),
        );
        expect(mirrored.pooledRatio).toBeCloseTo(1 - got.pooledRatio, 12);
        expect(mirrored.clusterStandardErrorRatio).toBeCloseTo(got.clusterStandardErrorRatio, 12);
        expect(overdispersion([...spots].reverse()).clusterStandardErrorRatio).toBeCloseTo(
          got.clusterStandardErrorRatio,
          12,
        );
        if (got.dispersionRatio !== undefined) {
          expect(mirrored.dispersionRatio as number).toBeCloseTo(got.dispersionRatio, 6);
        }
      }),
    );
  });
  test('the interval over spots holds the ratio and is never narrower than that of independent frames', () => {
    fc.assert(
      fc.property(counts, fc.double({ min: 0.75, max: 0.999, noNaN: true }), (spots, confidence) => {
        const got = deliveryAcrossSpots(spots, { confidence });
        const naive = deliveryRatio({ received: got.received, sent: got.sent }, { confidence });
        expect(got.lowerRatio).toBeLessThanOrEqual(naive.lowerRatio + 1e-12);
        expect(got.upperRatio).toBeGreaterThanOrEqual(naive.upperRatio - 1e-12);
        expect(got.lowerRatio).toBeLessThanOrEqual(got.ratio + 1e-12);
        expect(got.upperRatio).toBeGreaterThanOrEqual(got.ratio - 1e-12);
        expect(got.atLeastRatio).toBeGreaterThanOrEqual(0);
        expect(got.atLeastRatio).toBeLessThanOrEqual(got.ratio + 1e-12);
      }),
    );
  });
});

describe('deliveryAcrossSpots', () => {
  test('where every frame came through, a spot is one frame unless a correlation is known', () => {
    const spots = Array.from({ length: 15 }, () => ({ received: 20, sent: 20 }));
    const alone = deliveryAcrossSpots(spots);
    expect(alone.effectiveFrames).toBeCloseTo(15, 9);
    const informed = deliveryAcrossSpots(spots, { correlation: 0.1 });
    // 300 frames over 1 + 19 · 0.1; survey-vectors, designEffect: 6.8966 per spot.
    expect(informed.effectiveFrames).toBeCloseTo(15 * 6.89655172413793, 9);
    expect(informed.atLeastRatio).toBeGreaterThan(alone.atLeastRatio);
    expect(deliveryAcrossSpots(spots).warnings.join(' ')).toContain('counted as one frame');
  });

  // Twelve frames at each spot whose ratio is drawn from a beta distribution: the sum of waiting times is a gamma number.
  test.each([
    [12, 4, 2, 1],
    [20, 4.72, 1.8, 2],
    [30, 9, 3, 3],
  ])(
    'in 600 simulated walks of %i spots the interval holds the truth in 92 to 98 of 100',
    (spotCount, a, b, seed) => {
      const random = seededRandom(seed);
      const truth = a / (a + b);
      let held = 0;
      let claimHeld = 0;
      let naiveHeld = 0;
      for (let walk = 0; walk < 600; walk += 1) {
        const spots = Array.from({ length: spotCount }, () => {
          const ratio = random.beta(a, b);
          const sent = 12 + Math.floor(random.uniform() * 16);
          let received = 0;
          for (let frame = 0; frame < sent; frame += 1) received += random.uniform() < ratio ? 1 : 0;
          return { received, sent };
        });
        const got = deliveryAcrossSpots(spots);
        held += got.lowerRatio <= truth && truth <= got.upperRatio ? 1 : 0;
        claimHeld += got.atLeastRatio <= truth ? 1 : 0;
        const naive = deliveryRatio({ received: got.received, sent: got.sent });
        naiveHeld += naive.lowerRatio <= truth && truth <= naive.upperRatio ? 1 : 0;
      }
      expect(held / 600).toBeGreaterThanOrEqual(0.92);
      expect(held / 600).toBeLessThanOrEqual(0.985);
      expect(claimHeld / 600).toBeGreaterThanOrEqual(0.93);
      // What pooling would do: the reason for all this.
      expect(naiveHeld / 600).toBeLessThan(0.9);
    },
  );
});

describe('refusals', () => {
  test.each([
    [[{ received: 1, sent: 2 }], 'spots', 'missing'],
    [[], 'spots', 'missing'],
    [undefined, 'spots', 'wrong-type'],
    [
      [
        { received: 1, sent: 2 },
        { received: 3, sent: 2 },
      ],
      'spots[1].received',
      'out-of-range',
    ],
    [
      [
        { received: 1, sent: 2 },
        { received: 0, sent: 0 },
      ],
      'spots[1].sent',
      'out-of-range',
    ],
    [
      [
        { received: NaN, sent: 2 },
        { received: 0, sent: 1 },
      ],
      'spots[0].received',
      'not-a-finite-number',
    ],
    [[null, { received: 0, sent: 1 }], 'spots[0]', 'wrong-type'],
  ])('case %#', (spots, argument, code) => {
    for (const call of [overdispersion, fitBetaBinomial, deliveryAcrossSpots]) {
      expect(() => call(spots as never)).toThrow(
        expect.objectContaining({ name: 'InputError', argument, code }),
      );
    }
  });
});
