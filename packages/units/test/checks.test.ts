import {
  checkFinite,
  checkInteger,
  checkList,
  checkNotNegative,
  checkObject,
  checkOneOf,
  checkPositive,
  checkRange,
  frequencyHints,
  InputError,
  isInputError,
} from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const notNumbers: readonly unknown[] = [
  NaN,
  Infinity,
  -Infinity,
  '868e6',
  '',
  null,
  undefined,
  true,
  [1],
  {},
  1n,
  Object(1),
];
const bounds = { min: 1, max: 10, unit: 'metres' };

/** What a call throws; fails when it throws nothing, or something else. */
function refusalOf(call: () => unknown): InputError {
  try {
    call();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('numbers', () => {
  test('what is accepted comes back as it is', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(checkFinite(value, 'x', 'metres')).toBe(value);
        if (value > 0) expect(checkPositive(value, 'x', 'metres')).toBe(value);
        if (value >= 0) expect(checkNotNegative(value, 'x', 'metres')).toBe(value);
      }),
    );
  });

  test('both bounds belong to a range', () => {
    expect(checkRange(1, 'x', bounds)).toBe(1);
    expect(checkRange(10, 'x', bounds)).toBe(10);
    expect(checkInteger(1, 'x', bounds)).toBe(1);
    expect(checkInteger(10, 'x', bounds)).toBe(10);
  });

  test('every number is either inside a range or refused by name', () => {
    fc.assert(
      fc.property(fc.double(), (value) => {
        const inside = value >= 1 && value <= 10;
        if (inside) expect(checkRange(value, 'walk.distanceM', bounds)).toBe(value);
        else {
          const refusal = refusalOf(() => checkRange(value, 'walk.distanceM', bounds));
          expect(refusal.argument).toBe('walk.distanceM');
          expect(refusal.code).toBe(Number.isFinite(value) ? 'out-of-range' : 'not-a-finite-number');
          expect(refusal.received).toBe(value);
        }
      }),
    );
  });

  test.each(notNumbers)('%o is no number', (value) => {
    for (const call of [
      () => checkFinite(value, 'x', 'metres'),
      () => checkPositive(value, 'x', 'metres'),
      () => checkNotNegative(value, 'x', 'metres'),
      () => checkRange(value, 'x', bounds),
      () => checkInteger(value, 'x', bounds),
    ]) {
      expect(refusalOf(call)).toMatchObject({ code: 'not-a-finite-number', argument: 'x', received: value });
    }
  });

  test('zero and its negative twin', () => {
    expect(refusalOf(() => checkPositive(0, 'x', 'hertz')).message).toBe(
      'x: expected more than 0 hertz, got 0',
    );
    expect(refusalOf(() => checkPositive(-0, 'x', 'hertz')).code).toBe('out-of-range');
    expect(checkNotNegative(-0, 'x', 'dB')).toBe(-0);
    expect(refusalOf(() => checkNotNegative(-Number.MIN_VALUE, 'x', 'dB')).code).toBe('out-of-range');
  });

  test.each([1.5, 0, 11, -1, 2 ** 53])('%d is no whole number from 1 to 10', (value) => {
    expect(refusalOf(() => checkInteger(value, 'count', bounds))).toMatchObject({
      code: 'out-of-range',
      argument: 'count',
    });
  });
});

describe('the hint at another scale', () => {
  const band = { min: 100e6, max: 3e9, unit: 'hertz', hints: frequencyHints };
  test.each([
    [868.1, 'megahertz?'],
    [868_100, 'kilohertz?'],
    [2.4, 'gigahertz?'],
  ])('%d hertz', (value, hint) => {
    expect(refusalOf(() => checkRange(value, 'frequencyHz', band)).message).toContain(`(${hint})`);
  });

  test.each([0, -868.1, 1e-9, 1e12])('no scale explains %d hertz', (value) => {
    expect(refusalOf(() => checkRange(value, 'frequencyHz', band)).message).not.toContain('?');
  });

  test('says the range, the hint and what came', () => {
    expect(refusalOf(() => checkRange(868.1, 'frequencyHz', band)).message).toBe(
      'frequencyHz: expected 100000000 to 3000000000 hertz (megahertz?), got 868.1',
    );
  });

  test('does not appear where no scales are given', () => {
    expect(refusalOf(() => checkRange(868.1, 'frequencyHz', { ...band, hints: undefined })).message).toBe(
      'frequencyHz: expected 100000000 to 3000000000 hertz, got 868.1',
    );
  });
});

describe('options, objects and lists', () => {
  test('an option is matched exactly', () => {
    expect(checkOneOf(7, 'spreadingFactor', [7, 8])).toBe(7);
    expect(checkOneOf(false, 'crc', [true, false])).toBe(false);
    for (const value of ['7', 9, null, undefined, 'toString', '__proto__']) {
      expect(refusalOf(() => checkOneOf(value, 'spreadingFactor', [7, 8])).code).toBe('unknown-option');
    }
  });

  test('the refusal lists the options as they would be written in code', () => {
    expect(refusalOf(() => checkOneOf('Explicit', 'header', ['explicit', 'implicit', 3])).message).toBe(
      "header: expected 'explicit' or 'implicit' or 3, got \"Explicit\"",
    );
  });

  test.each([undefined, null, 3, 'x', [], () => 1])('%o is no object', (value) => {
    expect(refusalOf(() => checkObject(value as unknown as object, 'path'))).toMatchObject({
      code: 'wrong-type',
      argument: 'path',
    });
  });

  test('an object and a list come back as they are', () => {
    const path = Object.freeze({ distanceM: 5 });
    const list = Object.freeze([1, 2]);
    expect(checkObject(path, 'path')).toBe(path);
    expect(checkList(list, 'powersDbm')).toBe(list);
  });

  test('a list must be a list, with something in it', () => {
    expect(refusalOf(() => checkList({ length: 1, 0: 3 } as unknown as number[], 'levels')).code).toBe(
      'wrong-type',
    );
    expect(refusalOf(() => checkList(undefined as unknown as number[], 'levels')).code).toBe('wrong-type');
    expect(refusalOf(() => checkList([], 'levels')).message).toBe(
      'levels: expected at least one entry, got a list of 0',
    );
  });
});

describe('properties', () => {
  const attempt = (call: () => unknown): unknown => {
    try {
      return call();
    } catch (error) {
      return isInputError(error) ? 'refused' : error;
    }
  };

  test('a whole number in range comes back as it is, any other number is refused', () => {
    const number = fc.oneof(fc.integer({ min: -20, max: 20 }), fc.double({ min: -20, max: 20 }));
    fc.assert(
      fc.property(number, (value) => {
        const isGood = Number.isInteger(value) && value >= 1 && value <= 10;
        const got = attempt(() => checkInteger(value, 'count', { min: 1, max: 10, unit: 'frames' }));
        expect(got).toBe(isGood ? value : 'refused');
      }),
    );
  });

  test('whatever comes, it comes back itself or is refused by an InputError', () => {
    fc.assert(
      fc.property(fc.anything({ withBigInt: true, withDate: true, withNullPrototype: true }), (value) => {
        for (const check of [
          () => checkObject(value as object, 'options'),
          () => checkList(value as readonly unknown[], 'rows'),
          () => checkOneOf(value as 'open', 'ground', ['open', 'town']),
        ]) {
          const got = attempt(check);
          if (got !== 'refused') expect(got).toBe(value);
        }
        expect(isInputError(value)).toBe(false);
      }),
    );
  });
});
