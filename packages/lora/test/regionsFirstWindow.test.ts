import { firstWindowDataRate, type Region, regions } from '@finial/lora';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };
import { as923Groups, everyRegion, regionsNamed } from './regionTables.js';

describe('first receive window against the vectors', () => {
  const cases = vectors.rx1.flatMap((row) =>
    regionsNamed(row.region).map((region) => ({
      region,
      name: region.name,
      uplinkDataRate: row.uplinkDataRate,
      rx1DrOffset: row.rx1DrOffset,
      downlinkDwellLimited: row.downlinkDwellTime === undefined ? undefined : row.downlinkDwellTime === 1,
      downlinkDataRate: row.downlinkDataRate,
    })),
  );

  test('every row is taken: 62, of which the 16 of AS923 hold for its four groups', () => {
    expect(vectors.rx1).toHaveLength(62);
    expect(cases).toHaveLength(62 + 16 * 3);
  });

  test.each(cases)(
    '$name DR$uplinkDataRate, offset $rx1DrOffset, dwell $downlinkDwellLimited: DR$downlinkDataRate',
    ({ downlinkDataRate, ...uplink }) => expect(firstWindowDataRate(uplink)).toBe(downlinkDataRate),
  );
});

// reference/lorawan.md, section 5, 'RX1 data rate': the rules in words, here as arithmetic, against every cell of the tables.
describe('the rules behind the tables hold in every cell', () => {
  function compare(
    region: Region,
    rule: (up: number, offset: number) => number,
    downlinkDwellLimited = false,
  ): number {
    const { dataRates, dwellDataRates } = region.firstWindow;
    let cells = 0;
    for (const [up, row] of Object.entries(downlinkDwellLimited ? (dwellDataRates ?? {}) : dataRates)) {
      for (const rx1DrOffset of row.keys()) {
        const uplinkDataRate = Number(up);
        const got = firstWindowDataRate({ region, uplinkDataRate, rx1DrOffset, downlinkDwellLimited });
        expect(got, `DR${up}, offset ${rx1DrOffset}`).toBe(rule(uplinkDataRate, rx1DrOffset));
        cells++;
      }
    }
    return cells;
  }

  test.each([
    ['RU864', 48],
    ['EU433', 48],
    ['CN779', 48],
    ['KR920', 36],
  ] as const)('%s: the uplink less the offset, not below 0', (name, cells) =>
    expect(compare(regions[name], (up, offset) => Math.max(up - offset, 0))).toBe(cells),
  );

  test('EU868: the same, with LR-FHSS counted as DR1 and DR2', () => {
    const hopping: Readonly<Record<number, number>> = { 8: 1, 9: 2, 10: 1, 11: 2 };
    const rule = (up: number, offset: number) => Math.max((hopping[up] ?? up) - offset, 0);
    expect(compare(regions.EU868, rule)).toBe(72);
  });

  test('US915: 10 more than the uplink, from 8 to 13', () => {
    const rows: Readonly<Record<number, readonly number[]>> = {
      4: [13, 13, 12, 11],
      5: [10, 9, 8, 8],
      6: [11, 10, 9, 8],
    };
    const rule = (up: number, offset: number) =>
      rows[up]?.[offset] ?? Math.min(13, Math.max(8, 10 + up - offset));
    expect(compare(regions.US915, rule)).toBe(28);
  });

  test('AU915: 8 more than the uplink, from 8 to 13', () => {
    const rows: Readonly<Record<number, readonly number[]>> = {
      6: [13, 13, 12, 11, 10, 9],
      7: [9, 8, 8, 8, 8, 8],
    };
    const rule = (up: number, offset: number) =>
      rows[up]?.[offset] ?? Math.max(8, Math.min(13, 8 + up - offset));
    expect(compare(regions.AU915, rule)).toBe(48);
  });

  const effective = [0, 1, 2, 3, 4, 5, -1, -2] as const;

  test.each(as923Groups)(
    '$name: offsets 6 and 7 mean -1 and -2; DR2 at least while downlinks are limited',
    (region) => {
      const within = (lowest: number) => (up: number, offset: number) =>
        Math.min(7, Math.max(lowest, up - (effective[offset] as number)));
      expect(compare(region, within(0))).toBe(64);
      expect(compare(region, within(2), true)).toBe(64);
    },
  );

  test('IN865: the same, stepping over the reserved DR6', () => {
    const special: Readonly<Record<number, readonly number[]>> = { 7: [7, 5, 5, 4, 3, 2, 7, 7] };
    const rule = (up: number, offset: number) => {
      const dataRate = Math.min(7, Math.max(0, up - (effective[offset] as number)));
      return special[up]?.[offset] ?? (dataRate === 6 ? 5 : dataRate);
    };
    expect(compare(regions.IN865, rule)).toBe(56);
  });

  test('CN470: the uplink less the offset, not below 1', () =>
    expect(compare(regions.CN470, (up, offset) => Math.max(up - offset, 1))).toBe(42));
});

test.each(everyRegion)(
  '%s answers every uplink data rate on a downlink data rate, never faster for a larger offset',
  (_, region) => {
    const uplinks = region.dataRates.filter(({ direction }) => direction !== 'downlink');
    const { dataRates, dwellDataRates } = region.firstWindow;
    for (const table of dwellDataRates === undefined ? [dataRates] : [dataRates, dwellDataRates]) {
      expect(Object.keys(table).map(Number)).toEqual(uplinks.map(({ dataRate }) => dataRate));
      for (const answers of Object.values(table)) {
        for (const answer of answers) {
          const row = region.dataRates.find((each) => each.dataRate === answer);
          expect(row?.direction).toMatch(/both|downlink/);
        }
        // Offsets 6 and 7 go the other way, see above.
        const falling = answers.slice(0, 6);
        expect(falling).toEqual([...falling].sort((a, b) => b - a));
      }
    }
  },
);

describe('bad input', () => {
  test.each([
    ['rx1DrOffset', { region: regions.EU868, uplinkDataRate: 0, rx1DrOffset: 6 }],
    ['rx1DrOffset', { region: regions.US915, uplinkDataRate: 0, rx1DrOffset: 4 }],
    ['rx1DrOffset', { region: regions.AS923_1, uplinkDataRate: 0, rx1DrOffset: 8 }],
    ['rx1DrOffset', { region: regions.US915, uplinkDataRate: 0, rx1DrOffset: Number.NaN }],
    ['uplinkDataRate', { region: regions.US915, uplinkDataRate: 8, rx1DrOffset: 0 }],
    ['uplinkDataRate', { region: regions.IN865, uplinkDataRate: 6, rx1DrOffset: 0 }],
    ['uplinkDataRate', { region: regions.CN470, uplinkDataRate: 0, rx1DrOffset: 0 }],
    // No document at hand says which window follows DR12.
    ['uplinkDataRate', { region: regions.AS923_1, uplinkDataRate: 12, rx1DrOffset: 0 }],
    [
      'downlinkDwellLimited',
      { region: regions.EU868, uplinkDataRate: 0, rx1DrOffset: 0, downlinkDwellLimited: true },
    ],
    [
      'downlinkDwellLimited',
      { region: regions.AS923_1, uplinkDataRate: 0, rx1DrOffset: 0, downlinkDwellLimited: 1 as never },
    ],
    [
      'downlinkDwellLimited',
      { region: regions.AS923_1, uplinkDataRate: 0, rx1DrOffset: 0, downlinkDwellLimited: null as never },
    ],
    ['region', { region: 'US915' as never, uplinkDataRate: 0, rx1DrOffset: 0 }],
  ])('%s is refused by name', (argument, uplink) =>
    expect(() => firstWindowDataRate(uplink)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});
