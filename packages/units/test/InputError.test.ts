import { InputError, type InputErrorDetail, isInputError } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';

const detail: InputErrorDetail = {
  code: 'out-of-range',
  argument: 'frequencyHz',
  received: -1,
  expected: 'more than 0 hertz',
};

describe('the message', () => {
  test('names the argument, what was expected and what came', () => {
    expect(new InputError(detail).message).toBe('frequencyHz: expected more than 0 hertz, got -1');
    expect(String(new InputError(detail))).toBe(
      'InputError: frequencyHz: expected more than 0 hertz, got -1',
    );
  });

  test.each([
    [{}, 'rssi: expected a number, got "x"'],
    [{ file: 'walk.csv' }, 'walk.csv: rssi: expected a number, got "x"'],
    [{ line: 3 }, 'line 3: rssi: expected a number, got "x"'],
    [{ column: 9 }, 'column 9: rssi: expected a number, got "x"'],
    [{ line: 3, column: 9 }, 'line 3, column 9: rssi: expected a number, got "x"'],
    [{ file: 'walk.csv', line: 3 }, 'walk.csv (line 3): rssi: expected a number, got "x"'],
    [
      { file: 'walk.csv', line: 3, column: 9 },
      'walk.csv (line 3, column 9): rssi: expected a number, got "x"',
    ],
  ])('puts the place %j first', (place, message) => {
    const error = new InputError({
      code: 'malformed-file',
      argument: 'rssi',
      received: 'x',
      expected: 'a number',
      ...place,
    });
    expect(error.message).toBe(message);
  });

  test('stays short where names come out of a file', () => {
    const name = 'x'.repeat(1e6);
    const { message } = new InputError({
      ...detail,
      argument: name,
      expected: `one of ${name}`,
      received: name,
    });
    expect(message.length).toBeLessThanOrEqual(1500);
    expect(new InputError({ ...detail, argument: name }).argument).toBe(name);
  });

  test('leaves out an argument that has no name', () => {
    expect(new InputError({ ...detail, argument: '' }).message).toBe('expected more than 0 hertz, got -1');
  });

  test.each([
    [undefined, 'nothing'],
    [null, 'null'],
    [true, 'true'],
    [NaN, 'NaN'],
    [-Infinity, '-Infinity'],
    [12n, '12n'],
    ['868,1', '"868,1"'],
    ['', '""'],
    ['two\nlines', '"two\\nlines"'],
    [[1, 2, 3], 'a list of 3'],
    [{ a: 1 }, 'an object'],
    [new Date(0), 'an object'],
    [() => 1, 'a function'],
    [Symbol('x'), 'a symbol'],
  ])('shows %o', (received, shown) => {
    expect(new InputError({ ...detail, received }).message).toBe(
      `frequencyHz: expected more than 0 hertz, got ${shown}`,
    );
  });

  test('shortens a long text and says so', () => {
    const { message } = new InputError({ ...detail, received: 'A'.repeat(1000) });
    expect(message.length).toBeLessThan(120);
    expect(message.endsWith('…"')).toBe(true);
  });

  test('shows a text whole that just fits', () => {
    expect(new InputError({ ...detail, received: 'A'.repeat(58) }).message).toContain(`"${'A'.repeat(58)}"`);
    expect(new InputError({ ...detail, received: 'A'.repeat(59) }).message).not.toContain('A'.repeat(59));
  });

  test('is one short line, whatever came', () => {
    fc.assert(
      fc.property(fc.anything(), (received) => {
        const { message } = new InputError({ ...detail, received });
        expect(message).not.toMatch(/[\r\n]/);
        expect(message.length).toBeLessThan(200);
      }),
    );
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (received) => {
        const { message } = new InputError({ ...detail, received });
        expect(message).not.toMatch(/[\r\n]/);
        expect(message.length).toBeLessThan(200);
      }),
    );
  });
});

describe('the error', () => {
  test('keeps every part', () => {
    const place = { file: 'walk.csv', line: 3, column: 9 };
    expect(new InputError({ ...detail, ...place })).toMatchObject({
      name: 'InputError',
      ...detail,
      ...place,
    });
    expect(new InputError(detail)).toMatchObject({ file: undefined, line: undefined, column: undefined });
  });

  test('is a RangeError, with its cause and a stack', () => {
    const cause = new Error('below');
    const error = new InputError(detail, { cause });
    expect(error).toBeInstanceOf(RangeError);
    expect(error.cause).toBe(cause);
    expect(error.stack).toContain('InputError.test');
  });

  test('at() adds a place, keeps what it knew, and points back at itself', () => {
    const error = new InputError({ ...detail, line: 3, column: 9 });
    const placed = error.at({ file: 'walk.csv' });
    expect(placed).toMatchObject({ ...detail, file: 'walk.csv', line: 3, column: 9 });
    expect(placed.cause).toBe(error);
    expect(placed.at({ line: 4 })).toMatchObject({ file: 'walk.csv', line: 4, column: 9 });
    expect(error.file).toBeUndefined();
  });

  test('shows no brand among its keys', () => {
    expect(Object.getOwnPropertySymbols({ ...new InputError(detail) })).toEqual([]);
  });
});

describe('recognition', () => {
  test('works between two installed copies, where instanceof does not', async () => {
    vi.resetModules();
    const other = await import('../src/InputError.js');
    expect(other.InputError).not.toBe(InputError);
    const theirs = new other.InputError(detail);
    const ours = new InputError(detail);
    expect(theirs instanceof InputError).toBe(false);
    expect(isInputError(theirs)).toBe(true);
    expect(other.isInputError(ours)).toBe(true);
    expect(other.isInputError(ours.at({ file: 'x' }))).toBe(true);
  });

  test('does not fall for other values', () => {
    const lookalike = { name: 'InputError', ...detail, message: '' };
    for (const value of [
      undefined,
      null,
      3,
      'InputError',
      new RangeError('x'),
      lookalike,
      [],
      () => 1,
      InputError,
    ]) {
      expect(isInputError(value)).toBe(false);
    }
  });
});
