import {
  channelFrequenciesHz,
  firstWindowDataRate,
  maxPayload,
  phyPayloadBytes,
  type Region,
  regions,
  timeOnAir,
} from '@finial/lora';
import { EU868 } from '@finial/lora/regions/eu868';
import { US915 } from '@finial/lora/regions/us915';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

const all: Readonly<Record<string, Region>> = { ...regions };

test('a region can be taken alone', () => {
  expect(EU868).toBe(regions.EU868);
  expect(US915).toBe(regions.US915);
});

describe.each(Object.entries(all))('%s', (name, region) => {
  test('goes by its name', () => expect(region.name).toBe(name));

  test('lists each data rate once, in order', () => {
    const indices = region.dataRates.map(({ dataRate }) => dataRate);
    expect(indices).toEqual([...new Set(indices)].sort((a, b) => a - b));
  });

  test('keeps its channels in its band and on data rates that serve their direction and bandwidth', () => {
    for (const group of region.channels) {
      for (const frequencyHz of channelFrequenciesHz(group)) {
        expect(frequencyHz - group.bandwidthHz / 2).toBeGreaterThanOrEqual(region.minHz);
        expect(frequencyHz + group.bandwidthHz / 2).toBeLessThanOrEqual(region.maxHz);
      }
      for (let dataRate = group.minDataRate; dataRate <= group.maxDataRate; dataRate++) {
        const row = region.dataRates.find((each) => each.dataRate === dataRate);
        expect(row?.modulation === 'LoRa' && row.bandwidthHz).toBe(group.bandwidthHz);
        expect([row?.direction, 'both']).toContain(group.direction);
      }
    }
  });

  test('answers every uplink data rate on a downlink data rate', () => {
    const uplinks = region.dataRates.filter(({ direction }) => direction !== 'downlink');
    for (const { dataRate } of uplinks) {
      for (const answer of region.firstWindow.dataRates[dataRate] ?? [Number.NaN]) {
        const row = region.dataRates.find((each) => each.dataRate === answer);
        expect(row?.direction, `DR${dataRate} → DR${answer}`).toMatch(/both|downlink/);
      }
    }
  });

  test('steps its power down by 2 dB each', () => {
    const { txPowersDbm } = region.power;
    expect(txPowersDbm).toEqual(txPowersDbm.map((_, index) => (txPowersDbm[0] as number) - 2 * index));
  });

  test('names a source for every group of rows', () => {
    for (const citations of Object.values(region.sources)) expect(citations.length).toBeGreaterThan(0);
  });
});

describe('figures of the plans, reference/lorawan.md sections 3 and 5', () => {
  test('EU868: default channels, RX2, 16 dBm EIRP in steps 0 to 7 (RP001 1.0.3revA tables 3 and 6)', () => {
    expect(EU868.channels.flatMap((group) => channelFrequenciesHz(group))).toEqual([
      868.1e6, 868.3e6, 868.5e6,
    ]);
    expect(EU868.secondWindow).toEqual({ frequencyHz: 869.525e6, dataRate: 0 });
    expect(EU868.power.txPowersDbm).toHaveLength(8);
    expect(EU868.power.txPowersDbm[0]).toBe(16);
  });

  test('US915: 64 and 8 channels up, 8 down, RX2, 30 dBm conducted in steps 0 to 14', () => {
    const [narrow, wide, down] = US915.channels.map((group) => channelFrequenciesHz(group));
    expect([narrow?.length, narrow?.[0], narrow?.at(-1)]).toEqual([64, 902.3e6, 914.9e6]);
    expect([wide?.length, wide?.[0], wide?.at(-1)]).toEqual([8, 903e6, 914.2e6]);
    expect([down?.length, down?.[0], down?.at(-1)]).toEqual([8, 923.3e6, 927.5e6]);
    expect(US915.secondWindow).toEqual({ frequencyHz: 923.3e6, dataRate: 8 });
    expect(US915.power.txPowersDbm).toHaveLength(15);
    expect(US915.power.txPowersDbm[0]).toBe(30);
  });
});

describe('largest payloads against the tables of the regional parameters', () => {
  const rows = vectors.maxPayload.filter(({ region }) => region in all);
  const skipped = vectors.maxPayload.length - rows.length;
  test('the file still holds its rows (the others are of regions that are not here)', () =>
    expect([rows.length, skipped]).toEqual([14, 23]));

  test.each(rows)(
    '$region DR$dataRate $direction, dwell $dwellLimited, repeater $repeater: $macPayloadBytes',
    (row) => {
      const { dataRate, dwellLimited, repeater, macPayloadBytes, applicationBytes } = row;
      const region = all[row.region] as Region;
      const direction = row.direction as 'uplink' | 'downlink';
      expect(maxPayload({ region, dataRate, direction, dwellLimited, repeater })).toEqual({
        available: true,
        macPayloadBytes,
        applicationBytes,
      });
    },
  );

  test.each([
    ['US915', 7, 'uplink', false, 'reserved'],
    ['US915', 14, 'downlink', false, 'reserved'],
    ['US915', 8, 'uplink', false, 'downlinks only'],
    ['US915', 0, 'downlink', false, 'uplinks only'],
    ['EU868', 8, 'downlink', false, 'uplinks only'],
    ['EU868', 0, 'uplink', true, 'dwell'],
  ] as const)(
    '%s DR%i %s, dwell limited %s, is not available: %s',
    (name, dataRate, direction, dwellLimited, reason) => {
      const region = regions[name];
      const got = maxPayload({ region, dataRate, direction, dwellLimited });
      expect(got.available).toBe(false);
      expect('reason' in got && got.reason).toContain(reason);
    },
  );

  const dwellRows = vectors.dwellCrossCheck.rows.filter(({ publishedM }) => publishedM !== null);
  test('the dwell rows are still there', () => expect(dwellRows).toHaveLength(4));

  test.each(dwellRows)('400 ms makes the US915 row of SF$spreadingFactor: $publishedM', (row) => {
    const found = US915.dataRates.find(
      (each) =>
        each.modulation === 'LoRa' &&
        each.spreadingFactor === row.spreadingFactor &&
        each.bandwidthHz === row.bandwidthHz,
    );
    expect(found?.macPayloadBytes).toBe(row.publishedM);
    const secondsAt = (macPayloadBytes: number) =>
      timeOnAir({ ...row, codingRate: 5, payloadBytes: macPayloadBytes + 5 }).totalSeconds;
    const published = row.publishedM as number;
    expect(secondsAt(published)).toBeCloseTo((row.airtimeAtMMs as number) / 1e3, 9);
    expect(secondsAt(published)).toBeLessThanOrEqual(0.4);
    if (row.airtimeAtMPlus1Ms === undefined) return;
    expect(secondsAt(published + 1)).toBeCloseTo(row.airtimeAtMPlus1Ms / 1e3, 9);
    expect(secondsAt(published + 1)).toBeGreaterThan(0.4);
  });

  test('a repeater never makes room', () =>
    fc.assert(
      fc.property(fc.constantFrom(EU868, US915), fc.integer({ min: 0, max: 14 }), (region, dataRate) => {
        const question = { region, dataRate, direction: 'uplink' as const };
        const plain = maxPayload(question);
        const repeated = maxPayload({ ...question, repeater: true });
        expect(repeated.available).toBe(plain.available);
        if (!plain.available || !repeated.available) return;
        expect(repeated.macPayloadBytes).toBeLessThanOrEqual(plain.macPayloadBytes);
        expect(repeated.applicationBytes).toBe(repeated.macPayloadBytes - 8);
      }),
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
    const question = { region: EU868, dataRate: 0, direction: 'uplink', [argument]: value };
    expect(() => maxPayload(question as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('first receive window against the tables of the regional parameters', () => {
  const rows = vectors.rx1.filter(({ region }) => region in all);
  test('the file still holds its rows (the others are of regions that are not here)', () =>
    expect([rows.length, vectors.rx1.length]).toEqual([20, 62]));

  test.each(rows)(
    '$region DR$uplinkDataRate, offset $rx1DrOffset: DR$downlinkDataRate',
    ({ region, uplinkDataRate, rx1DrOffset, downlinkDataRate }) =>
      expect(firstWindowDataRate({ region: all[region] as Region, uplinkDataRate, rx1DrOffset })).toBe(
        downlinkDataRate,
      ),
  );

  test('the rules behind the tables hold in every cell', () => {
    // EU868: the uplink less the offset, not below 0, with LR-FHSS counted as DR1 and DR2. US915 DR0 to DR3: 10 more, from 8 to 13.
    const hopping: Readonly<Record<number, number>> = { 8: 1, 9: 2, 10: 1, 11: 2 };
    for (let up = 0; up <= 11; up++) {
      for (let offset = 0; offset <= 5; offset++) {
        const got = firstWindowDataRate({ region: EU868, uplinkDataRate: up, rx1DrOffset: offset });
        expect(got).toBe(Math.max((hopping[up] ?? up) - offset, 0));
      }
    }
    for (let up = 0; up <= 3; up++) {
      for (let offset = 0; offset <= 3; offset++) {
        const got = firstWindowDataRate({ region: US915, uplinkDataRate: up, rx1DrOffset: offset });
        expect(got).toBe(Math.min(13, Math.max(8, 10 + up - offset)));
      }
    }
  });

  test.each([
    ['rx1DrOffset', { region: EU868, uplinkDataRate: 0, rx1DrOffset: 6 }],
    ['rx1DrOffset', { region: US915, uplinkDataRate: 0, rx1DrOffset: 4 }],
    ['rx1DrOffset', { region: US915, uplinkDataRate: 0, rx1DrOffset: Number.NaN }],
    ['uplinkDataRate', { region: US915, uplinkDataRate: 8, rx1DrOffset: 0 }],
    ['region', { region: 'US915' as never, uplinkDataRate: 0, rx1DrOffset: 0 }],
  ])('%s is refused by name', (argument, uplink) =>
    expect(() => firstWindowDataRate(uplink)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
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
  const group = { ...(EU868.channels[0] as (typeof EU868.channels)[number]), ...change };
  expect(() => channelFrequenciesHz(group)).toThrow(
    expect.objectContaining({ name: 'InputError', argument }),
  );
});
