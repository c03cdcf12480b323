import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { longestRunM } from '../../src/supply/longestRunM.js';
import { supplyDrop } from '../../src/supply/supplyDrop.js';
import { thinnestWire } from '../../src/supply/thinnestWire.js';

const rules = (result: { readonly findings: readonly { readonly rule: string }[] }) =>
  result.findings.map(({ rule }) => rule);

describe('constant current, worked by hand from V = 2 L r I', () => {
  test('the file still holds its cases', () => expect(vectors.voltageDrop).toHaveLength(5));
  test.each(vectors.voltageDrop)('$wire, $oneWayM m, $currentA A', (row) => {
    const line = supplyDrop({
      supplyV: row.supplyV,
      leastLoadV: 4.75,
      wire: { resistanceOhmPerM: row.ohmPerKm / 1000 },
      lengthM: row.oneWayM,
      connectorsOhm: 0,
      states: [{ name: 'peak', currentA: row.currentA }],
    });
    // Printed to four decimals.
    expect(Math.abs((line.states[0]?.dropV ?? 0) - row.dropV)).toBeLessThanOrEqual(5.1e-5);
    expect(Math.abs((line.states[0]?.loadV ?? 0) - row.loadV)).toBeLessThanOrEqual(5.1e-5);
    expect(line.works).toBe(row.ok475);
    expect(rules(line).includes('supply-drop')).toBe(!row.ok475);
  });
});

describe('constant power, worked by hand from the root of V² - Vs V + R P', () => {
  test('the file still holds its cases', () => expect(vectors.voltageDropConstantPower).toHaveLength(4));
  test.each(vectors.voltageDropConstantPower)('$supplyV V, $oneWayM m', (row) => {
    const line = supplyDrop({
      supplyV: row.supplyV,
      leastLoadV: 1,
      wire: { resistanceOhmPerM: row.ohmPerKm / 1000 },
      lengthM: row.oneWayM,
      connectorsOhm: 0,
      states: [{ name: 'peak', powerW: row.loadW }],
    });
    expect(Math.abs((line.states[0]?.loadV ?? 0) - row.loadV)).toBeLessThanOrEqual(5.1e-5);
  });
});

const supplyV = fc.double({ min: 5, max: 48, noNaN: true });
const share = fc.double({ min: 0.3, max: 0.95, noNaN: true });
const powerW = fc.double({ min: 0.5, max: 20, noNaN: true });
const connectorsOhm = fc.double({ min: 0, max: 0.05, noNaN: true });
const wire = fc.constantFrom('22 AWG', '0.5 mm2', '1.5 mm2');

test('what leaves the supply is what the load and the line take', () => {
  fc.assert(
    fc.property(supplyV, powerW, connectorsOhm, wire, (volts, watts, contacts, name) => {
      const line = supplyDrop({
        supplyV: volts,
        leastLoadV: 1,
        wire: name,
        lengthM: 3,
        connectorsOhm: contacts,
        states: [{ name: 'peak', powerW: watts }],
      });
      const [state] = line.states;
      if (!state?.holds) return;
      const { loadV = 0, currentA = 0, wirePowerW = 0, dropV = 0 } = state;
      expect(volts * currentA).toBeCloseTo(watts + wirePowerW, 9);
      expect(loadV + dropV).toBeCloseTo(volts, 9);
      expect(loadV).toBeGreaterThanOrEqual(volts / 2);
    }),
  );
});

test.each(['powerW', 'currentA'] as const)(
  'at the longest run the load has its least voltage, just (%s)',
  (kind) => {
    fc.assert(
      fc.property(supplyV, share, powerW, connectorsOhm, wire, (volts, ratio, amount, contacts, name) => {
        const reach = {
          supplyV: volts,
          leastLoadV: Math.max(1, ratio * volts),
          wire: name,
          connectorsOhm: contacts,
          states: [{ name: 'peak', [kind]: kind === 'powerW' ? amount : amount / 10 }],
        };
        const lengthM = longestRunM(reach);
        if (lengthM < 0.02 || lengthM > 900) return;
        expect(supplyDrop({ ...reach, lengthM: lengthM * 0.9999 }).works).toBe(true);
        expect(supplyDrop({ ...reach, lengthM: lengthM * 1.0001 }).works).toBe(false);
      }),
    );
  },
);

test('the thinnest wire works and the next thinner does not', () => {
  const ask = { supplyV: 12, leastLoadV: 11, lengthM: 25, states: [{ name: 'boot', powerW: 10 }] };
  // By hand: 11 V x 1 V / 10 W = 1.1 ohm, less 0.04 of contacts, over 50 m of conductor: 0.0212 ohm/m; IEC 60228 has 0.0195 for 1 mm2, 0.026 for 0.75.
  expect(thinnestWire(ask)?.designation).toBe('1 mm2');
  expect(supplyDrop({ ...ask, wire: '1 mm2' }).works).toBe(true);
  expect(supplyDrop({ ...ask, wire: '0.75 mm2' }).works).toBe(false);
  expect(thinnestWire({ ...ask, lengthM: 900 })).toBeUndefined();
});

test('the peak decides, and the advice names ways out that work', () => {
  const line = {
    supplyV: 5.1,
    leastLoadV: 4.75,
    wire: '0.5 mm2',
    lengthM: 10,
    states: [
      { name: 'idle', powerW: 2 },
      { name: 'boot', powerW: 7 },
      { name: 'transmit', powerW: 4 },
    ],
  };
  const result = supplyDrop(line);
  expect(result.worstState).toBe('boot');
  expect(result.findings.find(({ rule }) => rule === 'supply-drop')).toMatchObject({
    severity: 'fix',
    message: expect.stringMatching(/At boot .*send 12 V up.*shorten the line/),
  });
  expect(result.raisedSupplyV).toBe(12);
  const raised = { ...line, supplyV: 12, leastLoadV: 10.8, states: [{ name: 'boot', powerW: 7 / 0.85 }] };
  expect(supplyDrop(raised).works).toBe(true);
});

test('a load that no voltage carries says so, without a number', () => {
  const line = {
    supplyV: 5,
    leastLoadV: 4.5,
    wire: '24 AWG',
    lengthM: 50,
    states: [{ name: 'boot', powerW: 10 }],
  };
  expect(supplyDrop(line).states).toEqual([{ name: 'boot', holds: false, works: false }]);
  expect(supplyDrop(line).works).toBe(false);
});

test('a supply below the least voltage reaches nowhere', () => {
  const reach = { supplyV: 4.5, leastLoadV: 4.75, wire: '4 mm2', states: [{ name: 'idle', currentA: 0.1 }] };
  expect(longestRunM(reach)).toBe(0);
  expect(supplyDrop({ ...reach, lengthM: 1 }).findings[0]?.message).toContain('raise the supply');
});

test('the thinnest wire reaches, and a longer run never takes a thinner one', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.double({ min: 1, max: 30, noNaN: true }),
      (lengthM, powerW) => {
        const need = { supplyV: 12, leastLoadV: 10.8, states: [{ name: 'busy', powerW }] };
        const wire = thinnestWire({ ...need, lengthM });
        const longer = thinnestWire({ ...need, lengthM: 2 * lengthM });
        if (wire === undefined) {
          expect(longer).toBeUndefined();
          return;
        }
        expect(supplyDrop({ ...need, lengthM, wire: wire.designation }).works).toBe(true);
        if (longer === undefined) return;
        const reach = (designation: string) => longestRunM({ ...need, wire: designation });
        expect(reach(longer.designation)).toBeGreaterThanOrEqual(reach(wire.designation));
      },
    ),
  );
});

test('every supply carries the caution about mains, none weighs more than a note', () => {
  const line = { leastLoadV: 40, wire: '1 mm2', lengthM: 5, states: [{ name: 'idle', powerW: 5 }] };
  const low = supplyDrop({ ...line, supplyV: 48 });
  const high = supplyDrop({ ...line, supplyV: 230 });
  expect(rules(low)).toEqual(['mains-below', 'fuse-at-source']);
  expect(rules(high)).toContain('touch-voltage');
  expect(high.findings.every(({ severity }) => severity === 'note')).toBe(true);
});

test.each([
  [{ states: [] }, 'states'],
  [{ states: [{ name: 'idle' }] }, 'states[0].currentA or powerW'],
  [{ states: [{ name: 'idle', currentA: 1, powerW: 1 }] }, 'states[0].currentA and powerW'],
  [{ states: [{ name: ' ', currentA: 1 }] }, 'states[0].name'],
  [{ conductorsCount: 3 }, 'conductorsCount'],
  [{ lengthM: 0 }, 'lengthM'],
])('%j is refused as %s', (wrong, argument) => {
  const line = {
    supplyV: 12,
    leastLoadV: 10,
    wire: '1 mm2',
    lengthM: 1,
    states: [{ name: 'idle', powerW: 1 }],
  };
  expect(() => supplyDrop({ ...line, ...(wrong as object) })).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
