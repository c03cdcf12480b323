import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { chiSquareQuantile } from '../../src/calibrate/chiSquareQuantile.js';
import { seededRandom, shuffled } from '../../src/calibrate/seededRandom.js';
import { studentProbability, studentQuantile } from '../../src/calibrate/studentDistribution.js';
import vectors from '../vectors/calibrate.json' with { type: 'json' };

const relative = (got: number, want: number): number => Math.abs(got / want - 1);

describe(`Student's t and chi-square against ${vectors.source}`, () => {
  test('the file still holds its cases', () => {
    expect(vectors.student).toHaveLength(30);
    expect(vectors.chiSquare).toHaveLength(36);
  });
  test.each(vectors.student)(
    't: $tail above, $degreesOfFreedom degrees of freedom',
    ({ tail, degreesOfFreedom, t }) => {
      expect(relative(studentQuantile(Number(tail), degreesOfFreedom), t)).toBeLessThan(1e-11);
      expect(relative(studentProbability(t, degreesOfFreedom), 2 * Number(tail))).toBeLessThan(1e-11);
    },
  );
  test.each(vectors.chiSquare)(
    'chi-square: $probability, $degreesOfFreedom',
    ({ probability, degreesOfFreedom, quantile }) => {
      expect(relative(chiSquareQuantile(Number(probability), degreesOfFreedom), quantile)).toBeLessThan(
        1e-11,
      );
    },
  );
});

// NIST/SEMATECH e-Handbook, tables 1.3.6.7.2 and 1.3.6.7.4 (from memory), as printed.
test('printed tables', () => {
  expect(studentQuantile(0.025, 10).toFixed(3)).toBe('2.228');
  expect(studentQuantile(0.05, 30).toFixed(3)).toBe('1.697');
  expect(chiSquareQuantile(0.95, 10).toFixed(3)).toBe('18.307');
  expect(chiSquareQuantile(0.025, 20).toFixed(3)).toBe('9.591');
});

test('t prediction margins of R (survey-vectors, fadeMargin.predictionT)', () => {
  expect(shared.fadeMargin.predictionT).toHaveLength(2);
  for (const { reliability, sampleSdDb, spots, marginDb } of shared.fadeMargin.predictionT) {
    const got = studentQuantile(1 - reliability, spots - 1) * sampleSdDb * Math.sqrt(1 + 1 / spots);
    expect(relative(got, marginDb)).toBeLessThan(1e-12);
  }
});

test('at the ends of t', () => {
  expect(studentProbability(0, 5)).toBe(1);
  expect(studentProbability(1e-20, 5)).toBe(1);
  expect(studentProbability(1e200, 5)).toBe(0);
});

describe('seeded numbers', () => {
  test('mean, variance and lag correlation of 200 000, for neighbouring seeds', () => {
    const first: number[] = [];
    for (const seed of [0, 1, 2, 4_294_967_295]) {
      const random = seededRandom(seed);
      const values = Array.from({ length: 200_000 }, random);
      first.push(values[0] as number);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const moment = (lag: number): number =>
        values.reduce((sum, value, i) => sum + (value - 0.5) * ((values[i + lag] ?? 0.5) - 0.5), 0) /
        values.length;
      // Five standard errors.
      expect(Math.abs(mean - 0.5)).toBeLessThan(5 * Math.sqrt(1 / 12 / 200_000));
      expect(Math.abs(moment(0) - 1 / 12)).toBeLessThan(5 * Math.sqrt(1 / 180 / 200_000));
      expect(Math.abs(moment(1))).toBeLessThan((5 / 12) * Math.sqrt(1 / 200_000));
      expect(values.every((value) => value >= 0 && value < 1)).toBe(true);
    }
    expect(new Set(first).size).toBe(4);
  });
  test('every order of three comes up alike', () => {
    const random = seededRandom(7);
    const counts = new Map<string, number>();
    for (let i = 0; i < 6000; i += 1) {
      const order = shuffled(['a', 'b', 'c'], random).join('');
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    const deviation = [...counts.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(counts.size).toBe(6);
    // Chi-square with 5 degrees of freedom exceeds 20.5 once in a thousand.
    expect(deviation).toBeLessThan(20.5);
  });
});
