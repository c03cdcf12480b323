import {
  type ChannelGroup,
  channelFrequenciesHz,
  citationOf,
  type DataRate,
  phyPayloadBytes,
  type Region,
  type RegionGroup,
  regions,
} from '@finial/lora';
import { AS923_1 } from '@finial/lora/regions/as923-1';
import { AS923_2 } from '@finial/lora/regions/as923-2';
import { AS923_3 } from '@finial/lora/regions/as923-3';
import { AS923_4 } from '@finial/lora/regions/as923-4';
import { AU915 } from '@finial/lora/regions/au915';
import { CN470 } from '@finial/lora/regions/cn470';
import { CN779 } from '@finial/lora/regions/cn779';
import { EU433 } from '@finial/lora/regions/eu433';
import { EU868 } from '@finial/lora/regions/eu868';
import { IN865 } from '@finial/lora/regions/in865';
import { KR920 } from '@finial/lora/regions/kr920';
import { RU864 } from '@finial/lora/regions/ru864';
import { US915 } from '@finial/lora/regions/us915';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { everyRegion } from './regionTables.js';

test('a region can be taken alone, and there are thirteen', () => {
  const alone = { AS923_1, AS923_2, AS923_3, AS923_4, AU915, CN470, CN779, EU433, EU868 };
  expect({ ...alone, IN865, KR920, RU864, US915 }).toEqual({ ...regions });
  expect(everyRegion).toHaveLength(13);
});

describe.each(everyRegion)('%s', (name, region) => {
  const rows: readonly DataRate[] = [...region.dataRates, ...(region.unconfirmedDataRates ?? [])];
  const rowOf = (dataRate: number) => region.dataRates.find((row) => row.dataRate === dataRate);

  test('goes by its name', () => expect(region.name).toBe(name));

  test('lists each data rate once, in order', () => {
    const indices = [...rows.map(({ dataRate }) => dataRate)];
    expect(indices).toEqual([...new Set(indices)].sort((a, b) => a - b));
    for (const index of Object.keys(region.unusableDataRates ?? {}))
      expect(indices).not.toContain(Number(index));
  });

  test('keeps its channels in its band and on data rates that serve their direction and bandwidth', () => {
    expect(region.channels.length).toBeGreaterThan(0);
    for (const group of region.channels) {
      for (const frequencyHz of channelFrequenciesHz(group)) {
        expect(Number.isInteger(frequencyHz), `${frequencyHz} Hz`).toBe(true);
        expect(frequencyHz - group.bandwidthHz / 2).toBeGreaterThanOrEqual(region.minHz);
        expect(frequencyHz + group.bandwidthHz / 2).toBeLessThanOrEqual(region.maxHz);
      }
      for (let dataRate = group.minDataRate; dataRate <= group.maxDataRate; dataRate++) {
        const row = rowOf(dataRate);
        expect(widthOf(row)).toBe(group.bandwidthHz);
        expect(group.direction === 'both' ? ['both'] : ['both', group.direction]).toContain(row?.direction);
      }
    }
  });

  test('has its second window in its band, on a downlink data rate that a channel or the plan knows', () => {
    const { frequencyHz, dataRate } = region.secondWindow;
    expect(frequencyHz - 62.5e3).toBeGreaterThanOrEqual(region.minHz);
    expect(frequencyHz + 62.5e3).toBeLessThanOrEqual(region.maxHz);
    expect(rowOf(dataRate)?.direction).toMatch(/both|downlink/);
    if (region.plan === 'dynamic') return;
    const downlinks = region.channels.filter(({ direction }) => direction !== 'uplink');
    expect(downlinks.flatMap((group) => channelFrequenciesHz(group))).toContain(frequencyHz);
  });

  test('joins on uplink data rates that its channels carry', () => {
    expect(region.joinRequestDataRates.length).toBeGreaterThan(0);
    for (const dataRate of region.joinRequestDataRates) {
      const row = rowOf(dataRate);
      expect(row?.modulation).toBe('LoRa');
      expect(row?.direction).toMatch(/both|uplink/);
      expect(
        region.channels.some((group) => group.direction !== 'downlink' && carries(group, dataRate)),
      ).toBe(true);
      // A join request is 23 bytes, 18 of them as long as a MACPayload: it must fit the table, with a dwell limit too where nodes start so.
      const table = region.defaults.uplinkDwellLimited ? row?.dwellMacPayloadBytes : row?.macPayloadBytes;
      expect(table).toBeGreaterThanOrEqual(18);
    }
  });

  test('carries no less on a faster data rate of the same bandwidth and direction', () => {
    const lora = rows.filter((row) => row.modulation === 'LoRa');
    for (const slow of lora) {
      for (const fast of lora) {
        if (fast.bandwidthHz !== slow.bandwidthHz || fast.direction !== slow.direction) continue;
        if (fast.spreadingFactor >= slow.spreadingFactor) continue;
        expect(fast.macPayloadBytes).toBeGreaterThanOrEqual(slow.macPayloadBytes);
        expect(fast.dwellMacPayloadBytes ?? 0).toBeGreaterThanOrEqual(slow.dwellMacPayloadBytes ?? 0);
      }
    }
  });

  test('carries no more with a dwell limit than without, and has that table if it has the limit', () => {
    for (const row of rows) {
      if (row.direction === 'downlink') expect(row.dwellMacPayloadBytes).toBeUndefined();
      else expect(row.dwellMacPayloadBytes !== undefined).toBe(region.dwell !== undefined);
      expect(row.dwellMacPayloadBytes ?? 0).toBeLessThanOrEqual(row.macPayloadBytes);
      expect(row.macPayloadBytes).toBeGreaterThanOrEqual(8);
    }
  });

  test('steps its power down by 2 dB each', () => {
    const { txPowersDbm, lowerParts = [] } = region.power;
    for (const [index, level] of txPowersDbm.entries()) {
      expect(level).toBeCloseTo((txPowersDbm[0] as number) - 2 * index, 9);
    }
    for (const part of lowerParts) {
      expect(part.maximumDbm).toBeLessThan(txPowersDbm[0] as number);
      expect(part.minHz).toBeLessThan(part.maxHz);
    }
  });

  test('names a source for every group and every row', () => {
    for (const [group, citations] of Object.entries(region.sources)) {
      expect(citations.length, group).toBeGreaterThan(0);
      expect(citations.every(({ document, edition }) => document !== '' && edition !== '')).toBe(true);
    }
    for (const { dataRate } of rows) {
      for (const group of ['dataRates', 'payloads'] as const) {
        expect(citationOf({ region, group, dataRate }).document).not.toBe(region.name);
      }
    }
  });

  test('has nothing from memory but rows that are set apart', () => {
    const groups = Object.keys(region.sources) as RegionGroup[];
    expect(groups.filter((group) => citationOf({ region, group }).status === 'memory')).toEqual([]);
    for (const { citations } of region.dataRates) expect(citations?.modulation?.status).not.toBe('memory');
    for (const { citations } of region.unconfirmedDataRates ?? []) {
      expect(citations?.modulation?.status).toBe('memory');
    }
  });
});

function widthOf(row: DataRate | undefined): number | undefined {
  if (row === undefined || row.modulation === 'FSK') return undefined;
  return row.modulation === 'LoRa' ? row.bandwidthHz : row.channelWidthHz;
}

function carries(group: ChannelGroup, dataRate: number): boolean {
  return dataRate >= group.minDataRate && dataRate <= group.maxDataRate;
}

// reference/lorawan.md, section 5: default channels, RX2 (MHz and data rate), largest power in dBm, last TXPower index, last RX1DROffset.
describe('figures of the plans against the reference', () => {
  test.each([
    ['EU868', [868.1, 868.3, 868.5], 869.525, 0, 16, 7, 5],
    ['AS923-1', [923.2, 923.4], 923.2, 2, 16, 7, 7],
    ['AS923-2', [921.4, 921.6], 921.4, 2, 16, 7, 7],
    ['AS923-3', [916.6, 916.8], 916.6, 2, 16, 7, 7],
    ['AS923-4', [917.3, 917.5], 917.3, 2, 16, 7, 7],
    ['IN865', [865.0625, 865.4025, 865.985], 866.55, 2, 29.2, 14, 7],
    ['KR920', [922.1, 922.3, 922.5], 921.9, 0, 14, 7, 5],
    ['RU864', [868.9, 869.1], 869.1, 0, 16, 7, 5],
    ['EU433', [433.175, 433.375, 433.575], 434.665, 0, 12.15, 5, 5],
    ['CN779', [779.5, 779.7, 779.9], 786, 0, 12.15, 5, 5],
  ])(
    '%s: channels, second window, power, offsets',
    (name, channels, rx2, rx2DataRate, power, lastPower, lastOffset) => {
      const region = everyRegion.find(([each]) => each === name)?.[1] as Region;
      expect(region.plan).toBe('dynamic');
      expect(region.channels.flatMap((group) => channelFrequenciesHz(group))).toEqual(channels.map(hertz));
      expect(region.secondWindow).toEqual({ frequencyHz: hertz(rx2), dataRate: rx2DataRate });
      expect(region.power.txPowersDbm[0]).toBe(power);
      expect(region.power.quantity).toBe('EIRP');
      expect(region.power.txPowersDbm).toHaveLength(lastPower + 1);
      for (const row of Object.values(region.firstWindow.dataRates)) expect(row).toHaveLength(lastOffset + 1);
      expect(region.firstWindow.channel).toBe('same');
    },
  );

  test.each([
    ['US915', 902.3, 914.9, 903, 914.2, 'conducted'],
    ['AU915', 915.2, 927.8, 915.9, 927.1, 'EIRP'],
  ] as const)(
    '%s: 64 and 8 channels up, 8 down, RX2, 30 dBm in steps 0 to 14',
    (name, first, last, firstWide, lastWide, quantity) => {
      const region = regions[name];
      const [narrow, wide, down, hopping] = region.channels.map((group) => channelFrequenciesHz(group));
      expect([narrow?.length, narrow?.[0], narrow?.at(-1)]).toEqual([64, hertz(first), hertz(last)]);
      expect([wide?.length, wide?.[0], wide?.at(-1)]).toEqual([8, hertz(firstWide), hertz(lastWide)]);
      expect([down?.length, down?.[0], down?.at(-1)]).toEqual([8, 923.3e6, 927.5e6]);
      expect(hopping).toEqual(wide);
      expect(region.secondWindow).toEqual({ frequencyHz: 923.3e6, dataRate: 8 });
      expect(region.firstWindow.channel).toBe('modulo-8');
      expect(region.power.quantity).toBe(quantity);
      expect(region.power.txPowersDbm).toHaveLength(15);
      expect(region.power.txPowersDbm[0]).toBe(30);
    },
  );

  test('KR920 keeps nodes at 10 dBm below 922 MHz, CN470 at 19.15 dBm in steps 0 to 7', () => {
    expect(KR920.power.lowerParts).toEqual([{ minHz: KR920.minHz, maxHz: 922e6, maximumDbm: 10 }]);
    expect(CN470.power.txPowersDbm).toHaveLength(8);
    expect(CN470.power.txPowersDbm[0]).toBe(19.15);
  });

  // Section 3: SF/bandwidth in kHz by data rate.
  test.each([
    ['EU868 EU433 RU864 CN779', '12/125 11/125 10/125 9/125 8/125 7/125 7/250 FSK'],
    ['AS923-1 AS923-2 AS923-3 AS923-4', '12/125 11/125 10/125 9/125 8/125 7/125 7/250 FSK'],
    ['IN865', '12/125 11/125 10/125 9/125 8/125 7/125 - FSK'],
    ['KR920', '12/125 11/125 10/125 9/125 8/125 7/125 - -'],
    ['CN470', '- 11/125 10/125 9/125 8/125 7/125 7/500 FSK'],
    ['US915', '10/125 9/125 8/125 7/125 8/500 1/3 2/3 - 12/500 11/500 10/500 9/500 8/500 7/500'],
    ['AU915', '12/125 11/125 10/125 9/125 8/125 7/125 8/500 1/3 12/500 11/500 10/500 9/500 8/500 7/500'],
  ])('%s: %s', (names, table) => {
    for (const name of names.split(' ')) {
      const region = everyRegion.find(([each]) => each === name)?.[1] as Region;
      for (const [dataRate, cell] of table.split(' ').entries()) {
        const row = region.dataRates.find((each) => each.dataRate === dataRate);
        expect(cellOf(row), `${name} DR${dataRate}`).toBe(cell);
      }
    }
  });

  test('EU868 DR8 to DR11 are LR-FHSS at 137 and 336 kHz', () => {
    const hopping = EU868.dataRates.filter((row) => row.modulation === 'LR-FHSS');
    expect(hopping.map((row) => [row.dataRate, row.codeRate, row.channelWidthHz])).toEqual([
      [8, '1/3', 137e3],
      [9, '2/3', 137e3],
      [10, '1/3', 336e3],
      [11, '2/3', 336e3],
    ]);
  });

  test('DR12 and DR13 of RP002-1.0.5 are set apart where their table was seen', () => {
    const found = everyRegion.filter(([, region]) => region.unconfirmedDataRates !== undefined);
    expect(found.map(([name]) => name)).toEqual(['AS923-1', 'AS923-2', 'AS923-3', 'AS923-4', 'IN865']);
    for (const [, { unconfirmedDataRates = [] }] of found) {
      expect(unconfirmedDataRates.map(({ dataRate }) => dataRate)).toEqual([12, 13]);
    }
  });

  test('delays and settings are those of RP002-1.0.4, page 28, in every plan', () => {
    for (const [name, { delays, defaults }] of everyRegion) {
      const windows = {
        receive1Seconds: 1,
        receive2Seconds: 2,
        joinAccept1Seconds: 5,
        joinAccept2Seconds: 6,
      };
      expect(delays).toEqual(windows);
      expect(defaults).toEqual({
        ...windows,
        adrAckLimitFrames: 64,
        adrAckDelayFrames: 32,
        retransmitTimeoutSeconds: 2,
        retransmitSpreadSeconds: 1,
        maxCounterGapFrames: 16384,
        rx1DrOffset: 0,
        uplinkDwellLimited: /AS923|AU915|US915/.test(name),
        downlinkDwellLimited: false,
      });
    }
  });
});

function hertz(megahertz: number): number {
  return Math.round(megahertz * 1e6);
}

function cellOf(row: DataRate | undefined): string {
  if (row === undefined) return '-';
  if (row.modulation === 'FSK') return row.bitRateBps === 50e3 ? 'FSK' : 'another rate';
  return row.modulation === 'LoRa' ? `${row.spreadingFactor}/${row.bandwidthHz / 1e3}` : row.codeRate;
}

describe('source of a row', () => {
  test.each([
    ['US915', 'payloads', 0, 'stack', 'LoRaMac-node'],
    ['US915', 'payloads', 1, 'read', 'RP001 table 16'],
    ['US915', 'payloads', 5, 'stack', 'LR-FHSS'],
    ['US915', 'payloads', 13, 'read', 'RP001 table 16'],
    ['US915', 'firstWindow', 4, 'read', 'RP001'],
    ['US915', 'firstWindow', 6, 'stack', 'LR-FHSS'],
    ['EU868', 'dataRates', 9, 'stack', 'LR-FHSS'],
    ['EU868', 'payloads', 3, 'stack', 'which agree'],
    ['AU915', 'payloads', 7, 'stack', 'LR-FHSS'],
    ['AS923_3', 'payloads', 2, 'read', 'table 73'],
    ['AS923_3', 'payloads', 12, 'read', 'table 73'],
    ['AS923_3', 'dataRates', 12, 'memory', 'SF6'],
    ['IN865', 'payloads', 13, 'memory', 'DR13'],
    ['IN865', 'power', undefined, 'read', 'table 94'],
  ] as const)('%s %s DR%s: %s', (name, group, dataRate, status, document) => {
    const citation = citationOf({ region: regions[name], group, dataRate });
    expect(citation.status).toBe(status);
    expect(citation.document).toContain(document);
  });

  test('is unverified where the region names none', () => {
    const sources = { ...EU868.sources, power: [] };
    const found = citationOf({ region: { ...EU868, sources }, group: 'power' });
    expect(found).toEqual({ document: 'EU868', edition: 'edition not recorded', status: 'memory' });
  });
});

describe('bytes of the whole frame', () => {
  test('13 more than the application, as the airtime rows of the reference count them', () => {
    expect(phyPayloadBytes({ applicationBytes: 0 })).toBe(13);
    expect(phyPayloadBytes({ applicationBytes: 11 })).toBe(24);
    expect(phyPayloadBytes({ applicationBytes: 51 })).toBe(64);
    expect(phyPayloadBytes({ applicationBytes: 242 })).toBe(255);
  });

  test('MAC commands take their bytes one by one', () =>
    fc.assert(
      fc.property(fc.nat({ max: 15 }), fc.nat({ max: 227 }), (fOptsBytes, applicationBytes) => {
        expect(phyPayloadBytes({ applicationBytes, fOptsBytes })).toBe(13 + fOptsBytes + applicationBytes);
      }),
    ));

  test.each([
    ['applicationBytes', { applicationBytes: 243 }],
    ['applicationBytes', { applicationBytes: 228, fOptsBytes: 15 }],
    ['applicationBytes', { applicationBytes: -1 }],
    ['applicationBytes', { applicationBytes: Number.NaN }],
    ['fOptsBytes', { applicationBytes: 1, fOptsBytes: 16 }],
    ['fOptsBytes', { applicationBytes: 1, fOptsBytes: null as never }],
  ])('%s is refused by name', (argument, frame) =>
    expect(() => phyPayloadBytes(frame)).toThrow(expect.objectContaining({ name: 'InputError', argument })),
  );
});

test.each([
  ['firstHz', { firstHz: Number.NaN }],
  ['stepHz', { stepHz: Number.POSITIVE_INFINITY }],
  ['channelCount', { channelCount: 1.5 }],
])('channels: %s is refused by name', (argument, change) => {
  const group = { ...(EU868.channels[0] as ChannelGroup), ...change };
  expect(() => channelFrequenciesHz(group)).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
