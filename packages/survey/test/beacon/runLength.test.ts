import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cusumRunLength,
  ewmaRunLength,
  limitFor,
  runOfMisses,
  twoSidedCusumRunLength,
} from '../../src/beacon/runLength.js';
import { seededNormal } from './seededNormal.js';

/** Half a unit of the last of three printed digits, and the difference that tables of different authors have there. */
const lastDigit = (printed: number): number => 1.01 * 10 ** (Math.floor(Math.log10(printed)) - 2);

describe('average run length of the cumulative sum, reference 0.5', () => {
  // D. C. Montgomery, Introduction to Statistical Quality Control, table of the two-sided tabular cusum (from memory).
  test.each([
    [4, 0, 168],
    [4, 0.25, 74.2],
    [4, 0.5, 26.6],
    [4, 0.75, 13.3],
    [4, 1, 8.38],
    [4, 1.5, 4.75],
    [4, 2, 3.34],
    [5, 0, 465],
    [5, 0.25, 139],
    [5, 0.5, 38],
    [5, 0.75, 17],
    [5, 1, 10.4],
    [5, 1.5, 5.75],
    [5, 2, 4.01],
  ])('both sides, limit %d, shift %d: %d', (limit, shift, printed) => {
    expect(Math.abs(twoSidedCusumRunLength(0.5, limit, shift) - printed)).toBeLessThan(lastDigit(printed));
  });
  // NIST/SEMATECH e-Handbook 6.3.2.3.1 (from memory).
  test.each([
    [4, 336],
    [5, 930],
  ])('one side, limit %d, no shift: %d', (limit, printed) => {
    expect(Math.abs(cusumRunLength(0.5, limit, 0) - printed)).toBeLessThan(lastDigit(printed));
  });
});

describe('average run length of the weighted mean', () => {
  test('weight 0.25, limit 3, shift 1: 11.154267016 (SAS/QC user guide, function EWMAARL, example; read)', () => {
    // Five digits: that method and this one solve the same equation on different points.
    expect(ewmaRunLength(0.25, 3, 1)).toBeCloseTo(11.154267016, 4);
  });
  // J. M. Lucas and M. S. Saccucci, Technometrics 32 (1990) 1, as reprinted in textbooks (from memory).
  test.each([
    [0.4, 3.054, 0.25, 224],
    [0.4, 3.054, 1, 14.3],
    [0.25, 2.998, 0.25, 170],
    [0.25, 2.998, 1, 11.1],
    [0.2, 2.962, 0.5, 41.8],
    [0.1, 2.814, 0.5, 31.3],
    [0.1, 2.814, 1, 10.3],
    [0.05, 2.615, 0.25, 84.1],
    [0.05, 2.615, 1, 11.4],
  ])('weight %d, limit %d, shift %d: %d', (weight, limit, shift, printed) => {
    expect(Math.abs(ewmaRunLength(weight, limit, shift) - printed)).toBeLessThan(lastDigit(printed));
  });
  test.each([
    [0.4, 3.054],
    [0.25, 2.998],
    [0.2, 2.962],
    [0.1, 2.814],
    [0.05, 2.615],
  ])('weight %d, limit %d: 500 without a shift, and the limit is found from it', (weight, limit) => {
    // The printed limit is good to 0.0005, which is 0.2 % of the run length.
    expect(Math.abs(ewmaRunLength(weight, limit, 0) / 500 - 1)).toBeLessThan(0.003);
    expect(limitFor((trial) => ewmaRunLength(weight, trial, 0), 500)).toBeCloseTo(limit, 2.7);
  });
  test('weight 1 is a chart of single readings: 1/0.0027 = 370.4', () => {
    expect(ewmaRunLength(1, 3, 0)).toBeCloseTo(370.398, 2);
  });
});

describe('by simulation', () => {
  test('the weighted mean at a limit for 200 readings', () => {
    const limit = limitFor((trial) => ewmaRunLength(0.05, trial, 0), 200);
    const bound = limit * Math.sqrt(0.05 / 1.95);
    const normal = seededNormal(7);
    let readings = 0;
    const runs = 4000;
    for (let run = 0; run < runs; run += 1) {
      for (let q = 0; Math.abs(q) <= bound; readings += 1) q += 0.05 * (normal() - q);
    }
    // Run lengths spread about as their mean: 4000 runs give it within 1.6 %; three of that.
    expect(Math.abs(readings / runs / 200 - 1)).toBeLessThan(0.048);
  });
  test('the cumulative sum at a limit for 200 readings', () => {
    const limit = limitFor((trial) => twoSidedCusumRunLength(0.4, trial, 0), 200);
    const normal = seededNormal(8);
    let readings = 0;
    const runs = 4000;
    for (let run = 0; run < runs; run += 1) {
      for (let up = 0, down = 0; Math.max(up, down) <= limit; readings += 1) {
        const z = normal();
        up = Math.max(0, up + z - 0.4);
        down = Math.max(0, down - z - 0.4);
      }
    }
    expect(Math.abs(readings / runs / 200 - 1)).toBeLessThan(0.048);
  });
});

describe('properties', () => {
  test('the limit gives the run length that was asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.double({ min: 50, max: 1e6, noNaN: true }),
        (reference, wanted) => {
          const limit = limitFor((trial) => twoSidedCusumRunLength(reference, trial, 0), wanted);
          expect(twoSidedCusumRunLength(reference, limit, 0) / wanted).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 15 },
    );
  });
  test('a shift shortens it, to either side alike', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 2, noNaN: true }), (shift) => {
        expect(ewmaRunLength(0.1, 2.8, shift)).toBeLessThan(ewmaRunLength(0.1, 2.8, shift / 2));
        expect(ewmaRunLength(0.1, 2.8, shift) / ewmaRunLength(0.1, 2.8, -shift)).toBeCloseTo(1, 9);
      }),
      { numRuns: 20 },
    );
  });
});

test('runs of misses: tosses of a fair coin to 2, 3, 5 heads are 6, 14, 62 (Feller, volume 1, XIII.7; from memory)', () => {
  expect([2, 3, 5].map((run) => runOfMisses(0.5, run))).toEqual([6, 14, 62]);
});
