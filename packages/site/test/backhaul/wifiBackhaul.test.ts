import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { backhaulChoices } from '../../src/backhaul/backhaulChoices.js';
import { wifiBackhaul } from '../../src/backhaul/wifiBackhaul.js';

const yard = {
  frequencyHz: 2.437e9,
  distanceM: 30,
  surroundings: 'open-air',
  eirpDbm: 15,
  antennaGainDbi: 2,
} as const;
const rules = (result: { readonly findings: readonly { readonly rule: string }[] }) =>
  result.findings.map(({ rule }) => rule);

describe('path loss against free space, 4 pi d over the wavelength, worked with 30 digits', () => {
  test.each(vectors.fspl)('$distanceM m at $frequencyMHz MHz', ({ distanceM, frequencyMHz, dB }) => {
    const link = wifiBackhaul({ ...yard, distanceM, frequencyHz: frequencyMHz * 1e6 });
    expect(Math.abs(link.pathLossDb - dB)).toBeLessThanOrEqual(5.1e-4);
  });
});

test('losses add up, and the level is what they leave', () => {
  const further = fc.double({ min: 0, max: 60, noNaN: true });
  const distance = fc.double({ min: 1, max: 1000, noNaN: true });
  fc.assert(
    fc.property(further, distance, (furtherLossDb, distanceM) => {
      const walls = [
        { material: 'brick', thicknessM: 0.24 },
        { material: 'plasterboard', thicknessM: 0.0125 },
      ] as const;
      const link = wifiBackhaul({ ...yard, distanceM, furtherLossDb, walls });
      const sum = link.walls.reduce((all, { lossDb }) => all + lossDb, link.pathLossDb + furtherLossDb);
      expect(link.totalLossDb).toBeCloseTo(sum, 9);
      expect(link.computedDbm + link.totalLossDb).toBeCloseTo(17, 9);
      expect(link.marginDb).toBeCloseTo(link.receivedDbm - link.thresholdDbm, 9);
    }),
  );
});

test('a faster rate never needs less', () => {
  const rate = fc.double({ min: 1, max: 32e6, noNaN: true });
  fc.assert(
    fc.property(rate, (linkRateBps) => {
      const slow = wifiBackhaul({ ...yard, linkRateBps });
      const fast = wifiBackhaul({ ...yard, linkRateBps: 2 * linkRateBps });
      expect(slow.linkRateBps).toBeGreaterThanOrEqual(linkRateBps);
      expect(fast.marginDb).toBeLessThanOrEqual(slow.marginDb);
    }),
  );
});

test('a measured level takes the place of the computed one, and a great difference is named', () => {
  const agrees = wifiBackhaul({ ...yard, measuredRssiDbm: -55 });
  expect(agrees.receivedDbm).toBe(-55);
  expect(agrees.computedDbm).not.toBe(-55);
  expect(rules(agrees)).toEqual(['wifi-threshold']);
  const behindMetal = wifiBackhaul({ ...yard, measuredRssiDbm: -78 });
  expect(rules(behindMetal)).toEqual(['wifi-margin', 'wifi-disagrees', 'wifi-threshold']);
  expect(behindMetal.works).toBe(false);
});

test('inside a building the coefficients are marked unverified; nothing ever stops', () => {
  const inside = wifiBackhaul({ ...yard, surroundings: 'house', floorsCount: 2, furtherLossDb: 40 });
  expect(rules(inside)).toEqual(['wifi-margin', 'wifi-unmeasured', 'wifi-threshold', 'indoor-model']);
  expect(inside.findings.some(({ severity }) => severity === 'stop')).toBe(false);
});

test('computed walls name their edition, until a level is measured', () => {
  const walls = [{ material: 'glass', thicknessM: 0.004 }] as const;
  expect(rules(wifiBackhaul({ ...yard, walls }))).toContain('wall-model');
  expect(rules(wifiBackhaul({ ...yard, walls, measuredRssiDbm: -58 }))).not.toContain('wall-model');
});

test.each([
  [{ floorsCount: 1 }, 'floorsCount'],
  [{ walls: 'brick' }, 'walls'],
  [{ walls: [{ material: 'straw', thicknessM: 0.1 }] }, 'material'],
  [{ walls: [{ material: 'brick', thicknessM: 100 }] }, 'thicknessM'],
  [{ surroundings: 'forest' }, 'surroundings'],
  [{ linkRateBps: 300e6 }, 'linkRateBps'],
])('%j is refused as %s', (wrong, argument) => {
  expect(() => wifiBackhaul({ ...yard, ...wrong } as never)).toThrow(
    expect.objectContaining({ name: 'InputError', argument: expect.stringContaining(argument) }),
  );
});

test('a millimetre thickness is recognised', () => {
  const walls = [{ material: 'brick', thicknessM: 100 }] as const;
  expect(() => wifiBackhaul({ ...yard, walls })).toThrow(/millimetres\?/);
});

describe('backhaulChoices', () => {
  const suits = (site: Parameters<typeof backhaulChoices>[0]) =>
    Object.fromEntries(backhaulChoices(site).map((choice) => [choice.way, choice.suits]));

  test('what is unknown is a question', () => {
    expect(suits({ cableRouteM: 20, leavesBuilding: false })).toEqual({
      ethernet: 'yes',
      fibre: 'yes',
      wifi: 'ask',
      cellular: 'ask',
    });
  });

  test('what is too far, too weak or faint is told', () => {
    const far = { cableRouteM: 101, leavesBuilding: true, wifiMarginDb: 12, cellularRsrpDbm: -120 };
    expect(suits(far)).toEqual({ ethernet: 'no', fibre: 'yes', wifi: 'no', cellular: 'no' });
    expect(suits({ ...far, cellularRsrpDbm: -108 })['cellular']).toBe('ask');
    expect(suits({ ...far, cellularRsrpDbm: -95 })['cellular']).toBe('yes');
  });

  test('copper that leaves the building carries the caution about surges', () => {
    const [ethernet] = backhaulChoices({ cableRouteM: 40, leavesBuilding: true });
    expect(ethernet?.findings.map(({ rule }) => rule)).toEqual(['ethernet-outdoors']);
  });

  test.each(['yes', 1, undefined])('leavesBuilding = %s is refused', (leavesBuilding) => {
    expect(() => backhaulChoices({ cableRouteM: 1, leavesBuilding } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'leavesBuilding' }),
    );
  });
});
