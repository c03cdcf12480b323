import {
  amplitudeRatioToDb,
  dbmToWatt,
  dbToAmplitudeRatio,
  dbToRatio,
  ratioToDb,
  sumPowersDbm,
  wattToDbm,
} from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import hardware from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };

const level = fc.double({ min: -3000, max: 3000, noNaN: true });
const ratio = fc.double({ min: 1e-290, max: 1e290, noNaN: true });
const everydayLevels = fc.array(fc.double({ min: -200, max: 60, noNaN: true }), {
  minLength: 1,
  maxLength: 30,
});

describe('published values', () => {
  // Common logarithms to 10 decimals: Abramowitz and Stegun, Handbook of Mathematical Functions (NBS AMS 55, 1964), table 1.1.
  test.each([
    [2, 0.3010299957],
    [3, 0.4771212547],
    [5, 0.6989700043],
    [7, 0.84509804],
    [10, 1],
    [Math.PI, 0.4971498727],
  ])('a power ratio of %d is ten times its common logarithm in dB', (value, logarithm) => {
    expect(ratioToDb(value)).toBeCloseTo(10 * logarithm, 8);
    expect(amplitudeRatioToDb(value)).toBeCloseTo(20 * logarithm, 8);
    expect(dbToRatio(10 * logarithm) / value).toBeCloseTo(1, 8);
    expect(dbToAmplitudeRatio(20 * logarithm) / value).toBeCloseTo(1, 8);
  });

  // Limits that a rule prints both ways: CEPT ERC Recommendation 70-03 annex 1 (25 mW and 500 mW e.r.p., used as 14 and 27 dBm);
  // 47 CFR 15.247(b)(2) (1 W and 0.25 W, used as 30 and 24 dBm); ARIB STD-T108 (20 mW, used as 13 dBm; from memory).
  test.each([
    [0.025, 14, 0],
    [0.5, 27, 0],
    [1, 30, 12],
    [0.25, 24, 0],
    [0.02, 13, 0],
    [0.001, 0, 12],
  ])('%d W is the level that the rule states as %d dBm', (watts, dbm, digits) => {
    expect(wattToDbm(watts)).toBeCloseTo(dbm, digits);
    expect(Math.abs(dbmToWatt(dbm) / watts - 1)).toBeLessThan(0.01);
  });

  // Row `fhss-power-25` of the LoRaWAN vectors states the 0.25 W of 47 CFR 15.247(b)(2) as 23.979 dBm.
  test('a quarter watt to three decimals', () => {
    expect(wattToDbm(0.25)).toBeCloseTo(23.979, 3);
  });

  // tests/reference/hardware-vectors.json, `mismatch`: |Γ| to 5 decimals, return loss to 3, reflected power to 3 decimals of a percent.
  test.each(hardware.mismatch)(
    'return loss at a VSWR of $vswr',
    ({ gamma, returnLossDb, reflectedPercent }) => {
      const halfLastDigit = { gamma: 5e-6, returnLossDb: 5e-4, reflectedPercent: 5e-4 };
      const fromGamma = -amplitudeRatioToDb(gamma);
      const fromPercent = -ratioToDb(reflectedPercent / 100);
      const dbPerNeper = 20 / Math.LN10;
      const ofGamma = (dbPerNeper * halfLastDigit.gamma) / gamma;
      const ofPercent = (dbPerNeper / 2) * (halfLastDigit.reflectedPercent / reflectedPercent);
      expect(Math.abs(fromGamma - returnLossDb)).toBeLessThan(1.01 * (ofGamma + halfLastDigit.returnLossDb));
      expect(Math.abs(fromPercent - returnLossDb)).toBeLessThan(
        1.01 * (ofPercent + halfLastDigit.returnLossDb),
      );
    },
  );

  // Adding N equal powers multiplies the watts by N; 10 lg 2 = 3.0103, 10 lg 3 = 4.7712 (AMS 55, table 1.1).
  test.each([
    [[-100, -100], -96.9897],
    [[20, 20, 20], 24.7712],
    [[0, 10], 10.4139], // 1 mW and 10 mW are 11 mW; lg 1.1 = 0.0413927 (AMS 55, table 1.1)
    [[-174], -174],
  ])('the sum of %j dBm is %d dBm', (powers, total) => {
    expect(sumPowersDbm(powers)).toBeCloseTo(total, 4);
  });
});

describe('properties', () => {
  test('level and watts are inverse to each other', () => {
    fc.assert(
      fc.property(level, (powerDbm) => {
        expect(Math.abs(wattToDbm(dbmToWatt(powerDbm)) - powerDbm)).toBeLessThan(1e-11);
      }),
    );
  });

  test('ratio and difference are inverse to each other', () => {
    fc.assert(
      fc.property(ratio, (value) => {
        expect(Math.abs(dbToRatio(ratioToDb(value)) / value - 1)).toBeLessThan(1e-12);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 1e-145, max: 1e145, noNaN: true }), (value) => {
        expect(Math.abs(dbToAmplitudeRatio(amplitudeRatioToDb(value)) / value - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  test('power goes with the square of the amplitude', () => {
    fc.assert(
      fc.property(fc.double({ min: -3000, max: 3000, noNaN: true }), (differenceDb) => {
        expect(Math.abs(dbToAmplitudeRatio(differenceDb) ** 2 / dbToRatio(differenceDb) - 1)).toBeLessThan(
          1e-11,
        );
      }),
    );
  });

  test('more decibels are more watts', () => {
    fc.assert(
      fc.property(level, level, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-9);
        expect(Math.sign(dbmToWatt(a) - dbmToWatt(b))).toBe(Math.sign(a - b));
        expect(Math.sign(dbToRatio(a) - dbToRatio(b))).toBe(Math.sign(a - b));
        expect(Math.sign(dbToAmplitudeRatio(a) - dbToAmplitudeRatio(b))).toBe(Math.sign(a - b));
      }),
    );
  });

  test('factors multiply where decibels add', () => {
    const moderate = fc.double({ min: -1000, max: 1000, noNaN: true });
    fc.assert(
      fc.property(moderate, moderate, (a, b) => {
        expect(Math.abs(dbToRatio(a + b) / (dbToRatio(a) * dbToRatio(b)) - 1)).toBeLessThan(1e-11);
      }),
    );
  });

  test('N equal powers are 10 lg N more than one', () => {
    fc.assert(
      fc.property(level, fc.integer({ min: 1, max: 200 }), (powerDbm, count) => {
        const sum = sumPowersDbm(Array.from({ length: count }, () => powerDbm));
        expect(Math.abs(sum - powerDbm - 10 * Math.log10(count))).toBeLessThan(1e-11);
      }),
    );
  });

  test('the sum does not depend on the order', () => {
    const shuffled = everydayLevels.chain((levels) =>
      fc.tuple(
        fc.constant(levels),
        fc.shuffledSubarray(levels, { minLength: levels.length, maxLength: levels.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([levels, otherwise]) => {
        expect(Math.abs(sumPowersDbm(otherwise) - sumPowersDbm(levels))).toBeLessThan(1e-11);
      }),
    );
  });

  test('the sum is at least the strongest, and at most 10 lg N above it', () => {
    fc.assert(
      fc.property(everydayLevels, (levels) => {
        const strongest = Math.max(...levels);
        const sum = sumPowersDbm(levels);
        expect(sum).toBeGreaterThanOrEqual(strongest);
        expect(sum).toBeLessThanOrEqual(strongest + 10 * Math.log10(levels.length) + 1e-11);
      }),
    );
  });

  test('the sum is the sum of the watts', () => {
    fc.assert(
      fc.property(everydayLevels, (levels) => {
        const watts = levels.reduce((sum, powerDbm) => sum + dbmToWatt(powerDbm), 0);
        expect(Math.abs(sumPowersDbm(levels) - wattToDbm(watts))).toBeLessThan(1e-10);
      }),
    );
  });

  test('very weak levels neither underflow nor overflow', () => {
    expect(sumPowersDbm([-3000, -3000])).toBeCloseTo(-2996.9897, 4);
    expect(sumPowersDbm([3000, 3000, -3000])).toBeCloseTo(3003.0103, 4);
  });
});

describe('refusals', () => {
  test.each([NaN, Infinity, -Infinity, '14', null, undefined, [14], 14n])('a level of %s', (value) => {
    for (const [argument, call] of [
      ['powerDbm', dbmToWatt],
      ['differenceDb', dbToRatio],
      ['differenceDb', dbToAmplitudeRatio],
    ] as const) {
      expect(() => call(value as number)).toThrow(
        expect.objectContaining({
          name: 'InputError',
          code: 'not-a-finite-number',
          argument,
          received: value,
        }),
      );
    }
  });

  test.each([-3000.001, 3000.001, 1e300])('a level of %d is out of range', (value) => {
    for (const call of [dbmToWatt, dbToRatio, dbToAmplitudeRatio]) {
      expect(() => call(value)).toThrow(
        expect.objectContaining({ name: 'InputError', code: 'out-of-range' }),
      );
    }
  });

  test.each([0, -0, -1])('a power or ratio of %d has no level', (value) => {
    expect(() => wattToDbm(value)).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'powerW' }),
    );
    expect(() => ratioToDb(value)).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'ratio' }),
    );
    expect(() => amplitudeRatioToDb(value)).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'ratio' }),
    );
  });

  test('a list of powers is refused by the entry that is wrong', () => {
    expect(() => sumPowersDbm([14, Number.NaN, 3])).toThrow(
      expect.objectContaining({ code: 'not-a-finite-number', argument: 'powersDbm[1]' }),
    );
    expect(() => sumPowersDbm([14, 3001])).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'powersDbm[1]' }),
    );
    expect(() => sumPowersDbm([])).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'powersDbm' }),
    );
    expect(() => sumPowersDbm('14' as unknown as number[])).toThrow(
      expect.objectContaining({ code: 'wrong-type', argument: 'powersDbm' }),
    );
  });

  test('a hole in a list of powers is refused like any other missing number', () => {
    // biome-ignore lint/suspicious/noSparseArray: the hole is what is tested; forEach and reduce skip it
    const powers = [14, , 3] as number[];
    expect(() => sumPowersDbm(powers)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'powersDbm[1]' }),
    );
  });
});
