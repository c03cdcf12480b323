import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { woodlandLoss } from '../src/p833/index.js';

describe('against P.833', () => {
  // Table 1 of P.833-9 as publicly transcribed: deep wood reaches the maximum, the edge loses the specific loss.
  test.each([
    [105.9e6, 0.04, 9.4],
    [466.475e6, 0.12, 18.0],
    [949e6, 0.17, 26.5],
    [1852.2e6, 0.3, 29.0],
    [2117.5e6, 0.34, 34.1],
  ])('%d Hz', (frequencyHz, perMetreDb, maximumDb) => {
    expect(woodlandLoss({ frequencyHz, depthM: 0.01 }).lossDb).toBeCloseTo(perMetreDb * 0.01, 5);
    expect(woodlandLoss({ frequencyHz, depthM: 20_000 }).lossDb).toBeCloseTo(maximumDb, 6);
  });

  // The law that the table's text gives for the same wood, 1.37 f^0.42 dB with f in MHz (from memory), has to come near between the rows.
  test.each([200e6, 434e6, 700e6, 868e6, 915e6, 1500e6])('%d Hz lies near the fitted law', (frequencyHz) => {
    const lawDb = 1.37 * (frequencyHz / 1e6) ** 0.42;
    expect(Math.abs(woodlandLoss({ frequencyHz, depthM: 1 }).maximumLossDb / lawDb - 1)).toBeLessThan(0.12);
  });

  // At a depth of maximum over specific loss the wood takes 1 - 1/e of its maximum: 0.632121 (any table of exponentials).
  test('the exponential', () => {
    const loss = woodlandLoss({
      frequencyHz: 868e6,
      depthM: 100,
      specificLossDbPerM: 0.2,
      maximumLossDb: 20,
    });
    expect(loss.lossDb).toBeCloseTo(20 * 0.632121, 4);
    expect(loss.specificLossDbPerM).toBe(0.2);
  });
});

test('deeper loses more, never more than per metre, never more than the maximum', () => {
  const frequency = fc.double({ min: 105.9e6, max: 2117.5e6, noNaN: true });
  const depth = fc.double({ min: 0, max: 50_000, noNaN: true });
  fc.assert(
    fc.property(frequency, depth, depth, (frequencyHz, one, other) => {
      const [near, deep] = one < other ? [one, other] : [other, one];
      const shallow = woodlandLoss({ frequencyHz, depthM: near });
      const full = woodlandLoss({ frequencyHz, depthM: deep });
      expect(full.lossDb).toBeGreaterThanOrEqual(shallow.lossDb);
      expect(full.lossDb).toBeLessThanOrEqual(full.specificLossDbPerM * deep + 1e-12);
      expect(full.lossDb).toBeLessThanOrEqual(full.maximumLossDb);
    }),
  );
});

describe('refusals', () => {
  const wood = { frequencyHz: 868e6, depthM: 50 };

  test('half a wood is refused by the name of the other half', () => {
    expect(() => woodlandLoss({ ...wood, specificLossDbPerM: 0.2 })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'maximumLossDb' }),
    );
    expect(() => woodlandLoss({ ...wood, maximumLossDb: 20 })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'specificLossDbPerM' }),
    );
  });

  test('outside the rows: refused, or the nearest row with a warning', () => {
    expect(() => woodlandLoss({ ...wood, frequencyHz: 5.8e9 })).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
    const far = woodlandLoss({ ...wood, frequencyHz: 5.8e9, outsideValidity: 'allow' });
    expect(far.maximumLossDb).toBe(34.1);
    expect(far.warnings).toHaveLength(1);
    expect(woodlandLoss({ ...wood, frequencyHz: 50e6, outsideValidity: 'allow' }).maximumLossDb).toBe(9.4);
  });
});
