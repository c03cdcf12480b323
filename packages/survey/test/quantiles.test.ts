import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betaQuantile, betaShareBelow } from '../src/betaQuantile.js';
import vectors from './vectors/quantiles.json' with { type: 'json' };

describe(`quantiles against ${vectors.source}`, () => {
  test('the file still holds its cases', () => {
    expect(vectors.beta).toHaveLength(70);
  });
  // Worst measured: 2e-15 relative.
  test.each(vectors.beta)('beta quantile of $probability for $shapeA, $shapeB', (row) => {
    const got = betaQuantile(row.probability, row.shapeA, row.shapeB);
    expect(Math.abs(got / row.quantile - 1), `got ${got}, want ${row.quantile}`).toBeLessThanOrEqual(5e-14);
  });
});

describe('closed forms of the beta quantile', () => {
  const probability = fc.double({ min: 1e-9, max: 0.5, noNaN: true });
  test('shape (1, b): 1 - (1-p)^(1/b)', () => {
    fc.assert(
      fc.property(probability, fc.double({ min: 1, max: 1e6, noNaN: true }), (p, b) => {
        const exact = -Math.expm1(Math.log1p(-p) / b);
        expect(Math.abs(betaQuantile(p, 1, b) / exact - 1)).toBeLessThan(1e-12);
      }),
    );
  });
  test('arcsine law: sin²(πp/2)', () => {
    fc.assert(
      fc.property(probability, (p) => {
        expect(Math.abs(betaQuantile(p, 0.5, 0.5) / Math.sin((Math.PI * p) / 2) ** 2 - 1)).toBeLessThan(
          1e-12,
        );
      }),
    );
  });
  test('the share below the quantile is the probability, up to a milliard frames', () => {
    const shape = fc.double({ min: Math.log(0.5), max: Math.log(1e9), noNaN: true }).map(Math.exp);
    fc.assert(
      fc.property(probability, shape, shape, (p, a, b) => {
        const x = betaQuantile(p, a, b);
        // Where the whole mass sits within rounding of 1 the share cannot be met.
        fc.pre(x < 0.999999);
        expect(Math.abs(betaShareBelow(x, a, b) / p - 1)).toBeLessThan(1e-6);
      }),
      { numRuns: 60 },
    );
  });
});
