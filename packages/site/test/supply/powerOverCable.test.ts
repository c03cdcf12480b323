import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { powerOverCable } from '../../src/supply/powerOverCable.js';

const rules = (result: { readonly findings: readonly { readonly rule: string }[] }) =>
  result.findings.map(({ rule }) => rule);

// IEEE 802.3 states for each type the voltage of the injector, the worst loop of a pair set (20 or 12.5 ohm) and what then is left at the far
// end: the three must agree with each other. Power and voltages as reprinted on public pages; the loops follow from them, (44 - 37) / 0.35.
// 41.1 V is printed for type 4 with one digit: 0.1 V of tolerance.
describe('powerOverCable at the worst loop that IEEE 802.3 allows', () => {
  test.each([
    { type: 'type-1', loopOhm: 20, loadW: 12.95, loadV: 37, currentA: 0.35 },
    { type: 'type-2', loopOhm: 12.5, loadW: 25.5, loadV: 42.5, currentA: 0.6 },
    { type: 'type-3', loopOhm: 6.25, loadW: 51, loadV: 42.5, currentA: 1.2 },
    { type: 'type-4', loopOhm: 6.25, loadW: 71.3, loadV: 41.1, currentA: 1.73 },
  ] as const)('$type', ({ type, loopOhm, loadW, loadV, currentA }) => {
    // 100 m; the contacts' 0.04 ohm are part of the standard's loop.
    const side = type === 'type-1' || type === 'type-2' ? 2 : 4;
    const wire = { resistanceOhmPerM: ((loopOhm - 0.04) * side) / 200 };
    const fed = powerOverCable({ type, lengthM: 100, loadW, wire });
    expect(fed.loopResistanceOhm).toBeCloseTo(loopOhm - 0.04, 9);
    expect(Math.abs((fed.loadV ?? 0) - loadV)).toBeLessThan(0.1);
    expect(Math.abs((fed.currentA ?? 0) - currentA)).toBeLessThan(0.005);
    expect(fed.promisedW).toBe(loadW);
  });
});

test('real copper leaves more than the standard asks', () => {
  expect(powerOverCable({ type: 'type-2', lengthM: 100, loadW: 25.5 }).works).toBe(true);
});

test('a longer cable and a hotter one lower the voltage', () => {
  const length = fc.double({ min: 1, max: 99, noNaN: true });
  fc.assert(
    fc.property(length, (lengthM) => {
      const near = powerOverCable({ type: 'type-1', lengthM, loadW: 10 }).loadV ?? 0;
      expect(powerOverCable({ type: 'type-1', lengthM: lengthM + 1, loadW: 10 }).loadV).toBeLessThan(near);
      expect(powerOverCable({ type: 'type-1', lengthM, loadW: 10, temperatureC: 60 }).loadV).toBeLessThan(
        near,
      );
    }),
  );
});

test('too much power, too long a cable and too low a voltage are each named', () => {
  expect(rules(powerOverCable({ type: 'type-1', lengthM: 50, loadW: 15 }))).toContain('cable-power-class');
  expect(rules(powerOverCable({ type: 'type-1', lengthM: 120, loadW: 5 }))).toContain('cable-length');
  const passive = powerOverCable({ type: 'passive', supplyV: 24, leastLoadV: 20, lengthM: 90, loadW: 15 });
  expect(passive.works).toBe(false);
  expect(rules(passive)).toEqual(
    expect.arrayContaining(['cable-power-voltage', 'cable-passive', 'cable-surge']),
  );
});

test('copper-clad aluminium is found by its resistance', () => {
  const wire = { resistanceOhmPerM: 0.0842 * 1.58 };
  const fed = powerOverCable({ type: 'type-2', lengthM: 100, loadW: 25.5, wire });
  expect(fed.works).toBe(false);
});

test.each([
  [{ type: 'passive' }, 'supplyV'],
  [{ type: 'passive', supplyV: 24 }, 'leastLoadV'],
  [{ type: 'type-5' }, 'type'],
  [{ type: 'type-1', supplyV: 230 }, 'supplyV'],
])('%j is refused as %s', (wrong, argument) => {
  expect(() => powerOverCable({ lengthM: 10, loadW: 5, ...wrong } as never)).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
