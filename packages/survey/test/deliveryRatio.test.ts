import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { deliveryRatio, type IntervalMethod, type Observation } from '../src/index.js';

const methods = [
  ['wilson', 'wilson'],
  ['clopper-pearson', 'clopperPearson'],
  ['jeffreys', 'jeffreys'],
  ['jeffreys-modified', 'jeffreysModified'],
] as const;

describe(`deliveryRatio against R (${shared.proportion.software})`, () => {
  const { cases } = shared.proportion;
  test('the file still holds its cases', () => expect(cases).toHaveLength(14));
  describe.each(methods)('%s', (interval, key) => {
    // R prints 15 digits; worst measured: 6e-16.
    test.each(cases)('$received of $sent at $confidence', (row) => {
      const got = deliveryRatio(row, { interval, confidence: row.confidence });
      const [lower = NaN, upper = NaN] = row[key];
      expect(Math.abs(got.lowerRatio - lower), `lower ${got.lowerRatio}`).toBeLessThanOrEqual(1e-13);
      expect(Math.abs(got.upperRatio - upper), `upper ${got.upperRatio}`).toBeLessThanOrEqual(1e-13);
      expect(Math.abs(got.ratio - row.estimate)).toBeLessThanOrEqual(1e-13);
    });
  });
  test.each(cases)('one-sided lower bound of $received of $sent: twice the tail', (row) => {
    const confidence = 2 * row.confidence - 1;
    const wilson = deliveryRatio(row, { confidence });
    const exact = deliveryRatio(row, { confidence, interval: 'clopper-pearson' });
    expect(wilson.lowerRatio).toBeCloseTo(row.oneSidedLowerWilson, 12);
    expect(exact.lowerRatio).toBeCloseTo(row.oneSidedLowerClopperPearson, 12);
  });
});

// R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, four printed decimals (from memory, as the vectors say).
test.each(shared.published.newcombe1998.cases)('Newcombe 1998: $received of $sent', (row) => {
  const wilson = deliveryRatio(row);
  const exact = deliveryRatio(row, { interval: 'clopper-pearson' });
  for (const [got, want] of [
    [wilson, row.wilson],
    [exact, row.clopperPearson],
  ] as const) {
    expect(Math.abs(got.lowerRatio - (want[0] ?? NaN))).toBeLessThanOrEqual(0.5001e-4);
    expect(Math.abs(got.upperRatio - (want[1] ?? NaN))).toBeLessThanOrEqual(0.5001e-4);
  }
});

test('NIST/SEMATECH e-Handbook 7.2.4.2: 4 of 20 at 90 % (limits from memory)', () => {
  const got = deliveryRatio({ received: 4, sent: 20 }, { interval: 'clopper-pearson', confidence: 0.9 });
  // One unit of the last printed digit: the handbook finds its limits by a search.
  expect(Math.abs(got.lowerRatio - 0.071354)).toBeLessThanOrEqual(1e-6);
  expect(Math.abs(got.upperRatio - 0.401029)).toBeLessThanOrEqual(1e-6);
});

const count = fc
  .integer({ min: 1, max: 1_000_000 })
  .chain((sent) => fc.record({ sent: fc.constant(sent), received: fc.integer({ min: 0, max: sent }) }));
const confidence = fc.double({ min: 0.01, max: 0.999999, noNaN: true });
const interval = fc.constantFrom<IntervalMethod>('wilson', 'clopper-pearson', 'jeffreys-modified');

describe('properties', () => {
  test('the interval contains the ratio and lies within 0 and 1', () => {
    fc.assert(
      fc.property(count, confidence, interval, (frames, sure, method) => {
        // Below a confidence of about one half the exact equal-tailed posterior need not hold the ratio itself.
        fc.pre(method !== 'jeffreys-modified' || sure > 0.5);
        const { ratio, lowerRatio, upperRatio, missed } = deliveryRatio(frames, {
          interval: method,
          confidence: sure,
        });
        expect(lowerRatio).toBeGreaterThanOrEqual(0);
        expect(lowerRatio).toBeLessThanOrEqual(ratio + 1e-15);
        expect(upperRatio).toBeGreaterThanOrEqual(ratio - 1e-15);
        expect(upperRatio).toBeLessThanOrEqual(1);
        expect(missed).toBe(frames.sent - frames.received);
      }),
    );
  });
  test('ten times the frames at the same ratio make it narrower, more confidence makes it wider', () => {
    fc.assert(
      fc.property(
        count,
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        interval,
        (frames, sure, method) => {
          const width = (received: number, sent: number, level: number): number => {
            const got = deliveryRatio({ received, sent }, { interval: method, confidence: level });
            return got.upperRatio - got.lowerRatio;
          };
          const now = width(frames.received, frames.sent, sure);
          expect(width(10 * frames.received, 10 * frames.sent, sure)).toBeLessThan(now);
          expect(width(frames.received, frames.sent, sure + 0.005)).toBeGreaterThan(now);
        },
      ),
    );
  });
  test('received and missed are mirror images', () => {
    fc.assert(
      fc.property(count, confidence, interval, ({ received, sent }, sure, method) => {
        const one = deliveryRatio({ received, sent }, { interval: method, confidence: sure });
        const other = deliveryRatio(
          { received: sent - received, sent },
          { interval: method, confidence: sure },
        );
        expect(one.lowerRatio).toBeCloseTo(1 - other.upperRatio, 12);
      }),
    );
  });
});

/** Chance that the interval holds the true ratio, summed over every outcome of n frames. */
function coverage(method: IntervalMethod, n: number, truth: number): number {
  let covered = 0;
  let chance = (1 - truth) ** n;
  for (let k = 0; k <= n; k += 1) {
    const { lowerRatio, upperRatio } = deliveryRatio({ received: k, sent: n }, { interval: method });
    if (lowerRatio <= truth && truth <= upperRatio) covered += chance;
    chance *= ((n - k) / (k + 1)) * (truth / (1 - truth));
  }
  return covered;
}

describe('exact coverage of 95 % intervals', () => {
  const truths = Array.from({ length: 181 }, (_, index) => 0.05 + index * 0.005);
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  test.each([10, 20, 40])('Wilson, %i frames: right on average, never far off between 5 and 95 %', (n) => {
    const covered = truths.map((truth) => coverage('wilson', n, truth));
    expect(Math.abs(mean(covered) - 0.95)).toBeLessThan(0.01);
    expect(Math.min(...covered)).toBeGreaterThan(0.83);
  });
  test.each([10, 20, 40])('Clopper-Pearson, %i frames: never below', (n) => {
    expect(Math.min(...truths.map((truth) => coverage('clopper-pearson', n, truth)))).toBeGreaterThanOrEqual(
      0.95,
    );
  });
});

describe('observations', () => {
  const place = { latitudeDeg: 45, longitudeDeg: 5 };
  const frames: Observation[] = [true, true, false, true].map((received) => ({ ...place, received }));
  test('are counted, and one place makes no warning', () => {
    expect(deliveryRatio(frames)).toEqual(deliveryRatio({ received: 3, sent: 4 }));
    expect(deliveryRatio(frames).warnings).toEqual([]);
  });
  test('of several places make a warning that names both numbers', () => {
    const { warnings } = deliveryRatio([...frames, { latitudeDeg: 46, longitudeDeg: 5, received: false }]);
    expect(warnings).toEqual([expect.stringContaining('5 frames of 2 places')]);
  });
});

describe('refusals', () => {
  test.each([
    [{ received: 1, sent: 0 }, {}, 'sent', 'out-of-range'],
    [{ received: 3, sent: 2 }, {}, 'received', 'out-of-range'],
    [{ received: -1, sent: 2 }, {}, 'received', 'out-of-range'],
    [{ received: 1.5, sent: 2 }, {}, 'received', 'out-of-range'],
    [{ received: NaN, sent: 2 }, {}, 'received', 'not-a-finite-number'],
    [{ received: 1, sent: Infinity }, {}, 'sent', 'not-a-finite-number'],
    [{ received: '1', sent: 2 }, {}, 'received', 'not-a-finite-number'],
    [{ received: 1, sent: 2 }, { confidence: 1 }, 'confidence', 'out-of-range'],
    [{ received: 1, sent: 2 }, { confidence: 95 }, 'confidence', 'out-of-range'],
    [{ received: 1, sent: 2 }, { confidence: NaN }, 'confidence', 'not-a-finite-number'],
    [{ received: 1, sent: 2 }, { interval: 'wald' }, 'interval', 'unknown-option'],
    [{ received: 1, sent: 2 }, null, 'options', 'wrong-type'],
    [undefined, {}, 'frames', 'wrong-type'],
    [[], {}, 'observations', 'missing'],
    [[{ latitudeDeg: 1, longitudeDeg: 2 }], {}, 'observations[0].received', 'wrong-type'],
    [
      [{ latitudeDeg: 91, longitudeDeg: 2, received: true }],
      {},
      'observations[0].latitudeDeg',
      'out-of-range',
    ],
    [[null], {}, 'observations[0]', 'wrong-type'],
  ])('%j %j', (frames, options, argument, code) => {
    expect(() => deliveryRatio(frames as never, options as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument, code }),
    );
  });
});
