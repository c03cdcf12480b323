import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { effectiveSignalPowerDbm, noisePowerDbm } from '../src/index.js';

describe('signal and noise power against R (survey-vectors, effectiveSignalPower)', () => {
  test('the file still holds its cases', () => expect(shared.effectiveSignalPower.cases).toHaveLength(8));
  // 15 printed digits; worst measured: 4e-13 dB, the last digit printed.
  test.each(shared.effectiveSignalPower.cases)('$rssiDbm dBm, $snrDb dB', (row) => {
    expect(Math.abs(effectiveSignalPowerDbm(row) - row.espDbm)).toBeLessThanOrEqual(1e-12);
    expect(Math.abs(noisePowerDbm(row) - row.noiseDbm)).toBeLessThanOrEqual(1e-12);
  });
});

const level = fc.record({
  rssiDbm: fc.double({ min: -200, max: 20, noNaN: true }),
  snrDb: fc.double({ min: -60, max: 60, noNaN: true }),
});

describe('properties', () => {
  test('signal and noise add up to the RSSI, and differ by the SNR', () => {
    fc.assert(
      fc.property(level, (received) => {
        const signal = effectiveSignalPowerDbm(received);
        const noise = noisePowerDbm(received);
        expect(signal - noise).toBeCloseTo(received.snrDb, 10);
        const relative = 10 ** ((signal - received.rssiDbm) / 10) + 10 ** ((noise - received.rssiDbm) / 10);
        expect(relative).toBeCloseTo(1, 12);
      }),
    );
  });
  test('more SNR is more signal and less noise', () => {
    fc.assert(
      fc.property(level, fc.double({ min: 0.01, max: 20, noNaN: true }), ({ rssiDbm, snrDb }, step) => {
        fc.pre(snrDb < 40);
        const now = { rssiDbm, snrDb: snrDb - 40 };
        const then = { rssiDbm, snrDb: snrDb - 40 + step };
        expect(effectiveSignalPowerDbm(then)).toBeGreaterThan(effectiveSignalPowerDbm(now));
        expect(noisePowerDbm(then)).toBeLessThanOrEqual(noisePowerDbm(now));
      }),
    );
  });
});

test('the ends neither overflow nor lose the small part', () => {
  expect(effectiveSignalPowerDbm({ rssiDbm: -100, snrDb: 3000 })).toBe(-100);
  expect(effectiveSignalPowerDbm({ rssiDbm: -100, snrDb: -3000 })).toBe(-3100);
  expect(noisePowerDbm({ rssiDbm: -100, snrDb: 3000 })).toBe(-3100);
  // At -90 dB the noise lies 10 lg(1 + 1e-9) = 4.342944816e-9 dB under the RSSI (ln(1+x) = x - x²/2).
  expect(0 - noisePowerDbm({ rssiDbm: 0, snrDb: -90 })).toBeCloseTo(4.342944816e-9, 17);
});

describe('refusals', () => {
  test.each(['-100', NaN, Infinity, undefined, null])('rssiDbm %s', (value) => {
    for (const ask of [effectiveSignalPowerDbm, noisePowerDbm]) {
      expect(() => ask({ rssiDbm: value as number, snrDb: 0 })).toThrow(
        expect.objectContaining({ argument: 'rssiDbm', code: 'not-a-finite-number' }),
      );
      expect(() => ask({ rssiDbm: 0, snrDb: value as number })).toThrow(
        expect.objectContaining({ argument: 'snrDb', code: 'not-a-finite-number' }),
      );
    }
  });
  test('no options at all', () => {
    expect(() => effectiveSignalPowerDbm(undefined as never)).toThrow(
      expect.objectContaining({ name: 'InputError' }),
    );
  });
});
