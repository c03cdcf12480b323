import { type DataRate, type LoRaDataRate, maxPayload, type Region, regions, timeOnAir } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };
import { as923Groups, everyRegion, regionsNamed } from './regionTables.js';

describe('largest payloads against the vectors', () => {
  const cases = vectors.maxPayload.flatMap((row) =>
    regionsNamed(row.region).map((region) => ({ ...row, region, name: region.name })),
  );

  test('every row is taken: 37, of which the 8 of AS923 hold for its four groups', () => {
    expect(vectors.maxPayload).toHaveLength(37);
    expect(cases).toHaveLength(37 + 8 * 3);
    expect(new Set(vectors.maxPayload.map(({ region }) => region))).toEqual(
      new Set(['EU868', 'US915', 'AU915', 'AS923', 'IN865', 'KR920', 'CN470', 'RU864', 'EU433']),
    );
  });

  test.each(cases)(
    '$name DR$dataRate $direction, dwell $dwellLimited, repeater $repeater: $macPayloadBytes',
    ({ region, dataRate, direction, dwellLimited, repeater, ...published }) => {
      const got = maxPayload({
        region,
        dataRate,
        direction: direction as 'uplink' | 'downlink',
        dwellLimited,
        repeater,
      });
      const { available, macPayloadBytes, applicationBytes } = published;
      if (available) expect(got).toEqual({ available, macPayloadBytes, applicationBytes });
      else expect(got.available).toBe(false);
    },
  );
});

// reference/lorawan.md, section 4: M by data rate, `-` where nothing may be sent or the index is reserved.
describe('largest payloads against the printed tables, every cell', () => {
  const down = '61 137 250 250 250 250';
  const asLimited = '- - 19 61 133 250 250 250 - - - - 250 250 -';
  test.each([
    ['EU868', 'uplink', false, '59 59 59 123 250 250 250 250 58 123 58 123 - - -'],
    ['EU868', 'downlink', false, '59 59 59 123 250 250 250 250 - - - - - - -'],
    ['EU433', 'uplink', false, '59 59 59 123 250 250 250 250 - - - - - - -'],
    ['RU864', 'uplink', false, '59 59 59 123 250 250 250 250 - - - - - - -'],
    ['CN779', 'uplink', false, '59 59 59 123 250 250 250 250 - - - - - - -'],
    ['KR920', 'uplink', false, '59 59 59 123 250 250 - - - - - - - - -'],
    ['AS923', 'uplink', false, '59 59 123 123 250 250 250 250 - - - - 250 250 -'],
    ['AS923', 'uplink', true, asLimited],
    ['AS923', 'downlink', true, '59 59 123 123 250 250 250 250 - - - - 250 250 -'],
    ['AU915', 'uplink', false, '59 59 59 123 250 250 250 58 - - - - - - -'],
    ['AU915', 'uplink', true, '- - 19 61 133 250 250 58 - - - - - - -'],
    ['AU915', 'downlink', false, `- - - - - - - - ${down} -`],
    ['AU915', 'downlink', true, `- - - - - - - - ${down} -`],
    ['US915', 'uplink', false, '19 61 133 250 250 58 133 - - - - - - - -'],
    ['US915', 'uplink', true, '19 61 133 250 250 58 133 - - - - - - - -'],
    ['US915', 'downlink', false, `- - - - - - - - ${down} -`],
    ['CN470', 'uplink', false, '- 31 94 192 250 250 250 250 - - - - - - -'],
    // DR12 and DR13 of IN865: their payload is from memory.
    ['IN865', 'uplink', false, '59 59 59 123 250 250 - 250 - - - - 250 250 -'],
  ] as const)('%s %s, dwell limited %s: %s', (name, direction, dwellLimited, table) => {
    const cells = table.split(' ');
    expect(cells).toHaveLength(15);
    for (const region of regionsNamed(name)) {
      for (const [dataRate, cell] of cells.entries()) {
        const got = maxPayload({ region, dataRate, direction, dwellLimited });
        expect(got.available ? String(got.macPayloadBytes) : '-', `DR${dataRate}`).toBe(cell);
        if (got.available) expect(got.applicationBytes).toBe(got.macPayloadBytes - 8);
        // The table that the reference calls RP002-1.0.3: 250 becomes 230 and nothing else changes.
        const repeated = maxPayload({ region, dataRate, direction, dwellLimited, repeater: true });
        const repeaterCell = cell === '250' ? '230' : cell;
        expect(repeated.available ? String(repeated.macPayloadBytes) : '-', `DR${dataRate}`).toBe(
          repeaterCell,
        );
      }
    }
  });
});

describe('why there is none', () => {
  test.each([
    ['US915', 7, 'uplink', false, 'reserved'],
    ['US915', 14, 'downlink', false, 'reserved'],
    ['US915', 8, 'uplink', false, 'downlinks only'],
    ['US915', 0, 'downlink', false, 'uplinks only'],
    ['EU868', 8, 'downlink', false, 'uplinks only'],
    ['EU868', 0, 'uplink', true, 'no table for a limited dwell time'],
    ['AU915', 1, 'uplink', true, 'while the dwell time is limited'],
    ['IN865', 6, 'uplink', false, 'reserved'],
    ['CN470', 0, 'uplink', false, 'cannot be used: at SF12'],
    ['CN470', 0, 'downlink', false, 'cannot be used: at SF12'],
  ] as const)('%s DR%i %s, dwell limited %s: %s', (name, dataRate, direction, dwellLimited, reason) => {
    const got = maxPayload({ region: regions[name], dataRate, direction, dwellLimited });
    expect(got.available).toBe(false);
    expect('reason' in got && got.reason).toContain(reason);
  });
});

/** Seconds of an uplink whose MACPayload has so many bytes. */
function uplinkSeconds(
  { spreadingFactor, bandwidthHz }: Pick<LoRaDataRate, 'spreadingFactor' | 'bandwidthHz'>,
  macPayloadBytes: number,
): number {
  return timeOnAir({ spreadingFactor, bandwidthHz, codingRate: 5, payloadBytes: macPayloadBytes + 5 })
    .totalSeconds;
}

/** Largest MACPayload that lasts no longer; null where not even an empty one does (7 bytes, a frame of 12). */
function longestWithin(row: LoRaDataRate, limitSeconds: number): number | null {
  for (let macPayloadBytes = 250; macPayloadBytes >= 7; macPayloadBytes--) {
    if (uplinkSeconds(row, macPayloadBytes) <= limitSeconds) return macPayloadBytes;
  }
  return null;
}

function loraUplinks(rows: readonly DataRate[]): LoRaDataRate[] {
  return rows.filter((row): row is LoRaDataRate => row.modulation === 'LoRa' && row.direction !== 'downlink');
}

describe('the dwell tables follow from 400 ms on air', () => {
  const { rows } = vectors.dwellCrossCheck;
  test('the cross-check still has its six rows', () => expect(rows).toHaveLength(6));

  test.each(rows)('SF$spreadingFactor: $publishedM', (row) => {
    if (row.publishedM === null) {
      expect(uplinkSeconds(row, 7)).toBeCloseTo((row.airtimeOf12ByteFrameMs as number) / 1e3, 9);
      expect(uplinkSeconds(row, 7)).toBeGreaterThan(0.4);
      return;
    }
    expect(uplinkSeconds(row, row.publishedM)).toBeCloseTo((row.airtimeAtMMs as number) / 1e3, 9);
    expect(uplinkSeconds(row, row.publishedM)).toBeLessThanOrEqual(0.4);
    // SF7 has no row above: there the 255 bytes of a frame end first.
    if (row.airtimeAtMPlus1Ms === undefined) return expect(row.publishedM).toBe(250);
    expect(uplinkSeconds(row, row.publishedM + 1)).toBeCloseTo(row.airtimeAtMPlus1Ms / 1e3, 9);
    expect(uplinkSeconds(row, row.publishedM + 1)).toBeGreaterThan(0.4);
  });

  const limited: readonly Region[] = [regions.US915, regions.AU915, ...as923Groups];
  test.each(limited)('$name: every LoRa uplink', (region) => {
    const uplinks = loraUplinks([...region.dataRates, ...(region.unconfirmedDataRates ?? [])]);
    expect(uplinks.length).toBe(region.name.startsWith('AS') ? 9 : region.name === 'AU915' ? 7 : 5);
    for (const row of uplinks) expect(row.dwellMacPayloadBytes).toBe(longestWithin(row, 0.4));
  });

  test('the rows that it does not explain are these', () => {
    const others = limited.flatMap(({ name, dataRates }) =>
      dataRates
        .filter(
          (row) => !loraUplinks(dataRates).includes(row as LoRaDataRate) && row.direction !== 'downlink',
        )
        .map((row) => `${name} DR${row.dataRate} ${row.modulation} ${row.dwellMacPayloadBytes}`),
    );
    expect(others).toEqual([
      // Of LR-FHSS only a hop counts as dwell; the cap keeps a frame near 4.07 s.
      'US915 DR5 LR-FHSS 58',
      'US915 DR6 LR-FHSS 133',
      'AU915 DR7 LR-FHSS 58',
      // FSK: 255 bytes last 42.56 ms, so the frame length limits and not the time.
      'AS923-1 DR7 FSK 250',
      'AS923-2 DR7 FSK 250',
      'AS923-3 DR7 FSK 250',
      'AS923-4 DR7 FSK 250',
    ]);
    // Downlinks at 500 kHz have no dwell table: the slowest do last longer than 400 ms (reference: 616.448, 615.424, 573.952 ms).
    for (const { dataRates } of [regions.US915, regions.AU915]) {
      const lasting = dataRates
        .filter((row): row is LoRaDataRate => row.modulation === 'LoRa' && row.direction === 'downlink')
        .map((row) => Math.round(uplinkSeconds(row, row.macPayloadBytes) * 1e6) / 1e3);
      expect(lasting.slice(0, 3)).toEqual([616.448, 615.424, 573.952]);
    }
  });
});

describe('the payloads of CN470 follow from 1 s on air', () => {
  const { rows } = vectors.cn470OneSecondCheck;
  test('the check still has its three rows', () => expect(rows).toHaveLength(3));

  test.each(rows)('SF$spreadingFactor: $publishedM', (row) => {
    const found = loraUplinks(regions.CN470.dataRates).find(
      (each) => each.spreadingFactor === row.spreadingFactor && each.bandwidthHz === 125e3,
    );
    expect(found?.macPayloadBytes).toBe(row.publishedM);
    const lora = { ...row, bandwidthHz: 125e3 };
    expect(uplinkSeconds(lora, row.publishedM)).toBeCloseTo(row.airtimeAtMMs / 1e3, 9);
    expect(uplinkSeconds(lora, row.publishedM + 1)).toBeCloseTo(row.airtimeAtMPlus1Ms / 1e3, 9);
  });

  test('every LoRa row; SF8 and SF7 end with the 255 bytes of a frame, SF12 fits nothing', () => {
    const uplinks = loraUplinks(regions.CN470.dataRates);
    expect(uplinks).toHaveLength(6);
    for (const row of uplinks) expect(row.macPayloadBytes).toBe(longestWithin(row, 1));
    const slowest = { ...(uplinks[0] as LoRaDataRate), spreadingFactor: 12 };
    expect(longestWithin(slowest, 1)).toBeNull();
  });
});

test('a repeater never makes room, and a dwell limit neither', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(...everyRegion.map(([, region]) => region)),
      fc.integer({ min: 0, max: 14 }),
      fc.constantFrom('uplink' as const, 'downlink' as const),
      (region, dataRate, direction) => {
        const plain = maxPayload({ region, dataRate, direction });
        const repeated = maxPayload({ region, dataRate, direction, repeater: true });
        const limited = maxPayload({ region, dataRate, direction, dwellLimited: true });
        expect(repeated.available).toBe(plain.available);
        for (const other of [repeated, limited]) {
          if (!other.available) continue;
          expect(plain.available).toBe(true);
          if (!plain.available) continue;
          expect(other.macPayloadBytes).toBeLessThanOrEqual(plain.macPayloadBytes);
          expect(other.applicationBytes).toBe(other.macPayloadBytes - 8);
        }
      },
    ),
  ));

test.each([
  ['region', 'EU868'],
  ['region', undefined],
  ['dataRate', 15],
  ['dataRate', Number.NaN],
  ['dataRate', undefined],
  ['direction', 'up'],
  ['direction', undefined],
  ['dwellLimited', 1],
  ['repeater', null],
] as const)('%s = %s is refused by name', (argument, value) => {
  const question = { region: regions.EU868, dataRate: 0, direction: 'uplink', [argument]: value };
  expect(() => maxPayload(question as never)).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
