import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { decorrelationM, empiricalVariogram, fitShadowing, fitVariogram } from '../../src/index.js';
import fitted from '../vectors/shadowingFit.json' with { type: 'json' };

const relative = (got: number | undefined, want: number): number => Math.abs((got as number) / want - 1);
const { meuse, gudmundson } = shared;
const samples = meuse.x.map((x, i) => ({
  eastM: x,
  northM: meuse.y[i] as number,
  levelDb: Math.log(meuse.value[i] as number),
}));

describe('empiricalVariogram and fitVariogram against R gstat, sp::meuse', () => {
  test('fifteen classes', () => {
    const classes = empiricalVariogram(samples);
    expect(classes.map(({ pairCount }) => pairCount)).toEqual(meuse.variogram.np);
    classes.forEach((each, i) => {
      expect(relative(each.distanceM, meuse.variogram.distance[i] as number)).toBeLessThan(1e-10);
      expect(relative(each.semivarianceDb2, meuse.variogram.gamma[i] as number)).toBeLessThan(1e-10);
    });
  });

  test('exponential curve, with the nugget on its bound', () => {
    const fit = fitVariogram(empiricalVariogram(samples));
    const want = meuse.fitExponential;
    expect(fit.nuggetDb).toBe(want.nugget);
    expect(relative(fit.shadowingDb ** 2, want.partialSill)).toBeLessThan(1e-4);
    expect(relative(fit.decorrelationM, want.range)).toBeLessThan(1e-4);
    expect(relative(fit.weightedSquareSum, want.sserr)).toBeLessThan(1e-6);
    expect(fit.warnings).toEqual([]);
  });

  test('residuals of the root of distance, with a nugget', () => {
    const { np, distance, gamma } = meuse.residualVariogram;
    const classes = np.map((pairCount, i) => ({
      pairCount,
      distanceM: distance[i] as number,
      semivarianceDb2: gamma[i] as number,
    }));
    const fit = fitVariogram(classes);
    expect(relative(fit.nuggetDb ** 2, meuse.residualFitExponential.nugget)).toBeLessThan(1e-4);
    expect(relative(fit.shadowingDb ** 2, meuse.residualFitExponential.partialSill)).toBeLessThan(1e-4);
    expect(relative(fit.decorrelationM, meuse.residualFitExponential.range)).toBeLessThan(1e-4);
  });

  test('a curve that never levels off says so', () => {
    const rising = [100, 200, 300, 400].map((distanceM) => ({
      pairCount: 30,
      distanceM,
      semivarianceDb2: distanceM / 10,
    }));
    expect(fitVariogram(rising).warnings.join()).toMatch(/does not level off/);
  });

  test('no shadowing, no fit', () => {
    const flat = [100, 200, 300].map((distanceM) => ({ pairCount: 9, distanceM, semivarianceDb2: 0 }));
    expect(() => fitVariogram(flat)).toThrow(/rise with distance/);
  });
});

describe(`fitShadowing against ${fitted.source}`, () => {
  test.each(['restricted', 'full'] as const)('%s likelihood', (likelihood) => {
    const got = fitShadowing(fitted.samples, { likelihood });
    const want = fitted[likelihood];
    expect(fitted.samples).toHaveLength(60);
    expect(Math.abs(got.logLikelihood - want.logLikelihood)).toBeLessThan(1e-8);
    expect(relative(got.shadowingDb, want.shadowingDb)).toBeLessThan(1e-5);
    expect(relative(got.decorrelationM, want.decorrelationM)).toBeLessThan(1e-5);
    expect(relative(got.nuggetDb, want.nuggetDb)).toBeLessThan(1e-5);
  });

  test('a distance that is known stays', () => {
    const fit = fitShadowing(fitted.samples, { decorrelationM: 350 });
    expect(fit.decorrelationM).toBeCloseTo(350, 9);
    expect(fit.logLikelihood).toBeLessThan(fitted.restricted.logLikelihood);
    expect(fit.warnings).toEqual([]);
  });

  test('a few spots do not fix the distance, and are told so', () => {
    expect(fitShadowing(fitted.samples.slice(0, 9)).warnings.join()).toMatch(/9 samples within/);
    expect(() => fitShadowing(fitted.samples.slice(0, 7))).toThrow(/at least 8 samples/);
    const alike = fitted.samples.map((each) => ({ ...each, levelDb: 3 }));
    expect(() => fitShadowing(alike)).toThrow(/more alike/);
  });
});

test.each(gudmundson.cases)('decorrelationM: correlation $epsilon at $atM m', (want) => {
  const got = decorrelationM({ correlationRatio: want.epsilon, distanceM: want.atM });
  expect(relative(got, want.decorrelationM)).toBeLessThan(1e-12);
  expect(relative(got * Math.LN2, want.halfDistanceM)).toBeLessThan(1e-12);
  expect(relative(Math.exp(-want.lagM / got), want.correlation)).toBeLessThan(1e-12);
});

test('decorrelationM: twice the distance, twice the result', () => {
  const correlation = fc.double({ min: 0.01, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(correlation, fc.double({ min: 1, max: 1e5, noNaN: true }), (correlationRatio, distanceM) => {
      const once = decorrelationM({ correlationRatio, distanceM });
      expect(relative(decorrelationM({ correlationRatio, distanceM: 2 * distanceM }), 2 * once)).toBeLessThan(
        1e-12,
      );
    }),
  );
});

test('a variogram of levels times k is k² as high', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (k) => {
      const plain = empiricalVariogram(samples.slice(0, 40));
      const scaled = empiricalVariogram(samples.slice(0, 40).map((s) => ({ ...s, levelDb: k * s.levelDb })));
      scaled.forEach((each, i) => {
        expect(each.semivarianceDb2).toBeCloseTo(k * k * (plain[i]?.semivarianceDb2 as number), 9);
      });
    }),
    { numRuns: 20 },
  );
});
