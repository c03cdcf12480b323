import { dbmToWatt, wattToDbm } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  freeSpaceLossDb,
  friisReceivedPowerDbm,
  powerDensityWPerM2,
  reflectionCoefficientToVswr,
  vswrToMismatchLossDb,
  wavelengthM,
} from '../src/index.js';
import { expectNear, half } from './support.js';
import closed from './vectors/closed-forms.json' with { type: 'json' };

const frequencyHz = fc.double({ min: 1e6, max: 1e11, noNaN: true });
const distanceM = fc.double({ min: 1e-2, max: 1e7, noNaN: true });

describe('wavelengthM', () => {
  test('the file still holds its cases', () => expect(vectors.freeSpace).toHaveLength(5));
  test.each(vectors.freeSpace)('$frequencyMHz MHz, reference table, 0.001 mm printed', (row) => {
    expectNear(1000 * wavelengthM(row.frequencyMHz * 1e6), row.lambdaMm, half(3));
  });
  test('times frequency is the speed of light', () =>
    fc.assert(
      fc.property(frequencyHz, (f) => {
        expectNear((wavelengthM(f) * f) / 299_792_458, 1, 1e-15);
      }),
    ));
  test('a frequency in megahertz is refused with a hint', () => {
    expect(() => wavelengthM(868.1)).toThrow(/megahertz\?/);
  });
});

describe(`freeSpaceLossDb against ${closed.freeSpace.source}, ${closed.source}`, () => {
  test('the file still holds its cases', () => expect(closed.freeSpace.cases).toHaveLength(5));
  test.each(closed.freeSpace.cases)('$frequencyHz Hz at $distanceM m', ({ lossDb, ...path }) => {
    expectNear(freeSpaceLossDb(path), lossDb, closed.freeSpace.toleranceDb);
  });
});

describe('freeSpaceLossDb', () => {
  test.each(vectors.fspl)('$frequencyMHz MHz at $distanceM m, reference table, 0.001 dB printed', (row) => {
    expectNear(
      freeSpaceLossDb({ frequencyHz: row.frequencyMHz * 1e6, distanceM: row.distanceM }),
      row.dB,
      half(3),
    );
  });
  // Rec. ITU-R P.525 prints 32.4 + 20 lg f + 20 lg d (MHz, km): the exact constant is 32.45, so one decimal holds.
  test('1 MHz at 1 km is the rounded constant of P.525', () => {
    expectNear(freeSpaceLossDb({ frequencyHz: 1e6, distanceM: 1000 }), 32.4, half(1));
  });
  test('ten times as far, or ten times the frequency, costs 20 dB', () =>
    fc.assert(
      fc.property(frequencyHz, distanceM, (f, d) => {
        const base = freeSpaceLossDb({ frequencyHz: f, distanceM: d });
        expectNear(freeSpaceLossDb({ frequencyHz: f, distanceM: 10 * d }) - base, 20, 1e-11);
        expectNear(freeSpaceLossDb({ frequencyHz: 10 * f, distanceM: d }) - base, 20, 1e-11);
      }),
    ));
});

describe('friisReceivedPowerDbm', () => {
  // C. A. Balanis, Antenna Theory, 3rd edition, example 2.16 (from memory): two horns of 16 and 20 dB, 100 wavelengths apart, 2 W, with
  // reflection coefficients 0.1 and 0.2, give 4.777 mW. The factors as the example states them multiply to 4.79 mW: 0.3 % is allowed.
  test('two horns 100 wavelengths apart', () => {
    const path = {
      conductedPowerDbm: wattToDbm(2),
      transmitGainDbi: 16,
      receiveGainDbi: 20,
      frequencyHz: 10e9,
      distanceM: 2.997_924_58,
    };
    const mismatchDb = [0.1, 0.2].map((gamma) => vswrToMismatchLossDb(reflectionCoefficientToVswr(gamma)));
    const gotDbm = friisReceivedPowerDbm(path) - (mismatchDb[0] ?? 0) - (mismatchDb[1] ?? 0);
    expectNear(1000 * dbmToWatt(gotDbm), 4.777, 0.015);
  });
  test('is the power that an aperture of λ²/4π takes from the power density', () =>
    fc.assert(
      fc.property(frequencyHz, distanceM, (f, d) => {
        const density = powerDensityWPerM2({ eirpDbm: 30, distanceM: d });
        const wave = 299_792_458 / f;
        const caughtDbm = 10 * Math.log10((density * wave * wave) / (4 * Math.PI)) + 30;
        const gains = { conductedPowerDbm: 25, transmitGainDbi: 5, receiveGainDbi: 0 };
        expectNear(friisReceivedPowerDbm({ ...gains, frequencyHz: f, distanceM: d }), caughtDbm, 1e-10);
      }),
    ));
});
