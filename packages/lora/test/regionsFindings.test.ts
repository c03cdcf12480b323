import { type DataRate, type Region, regions } from '@finial/lora';
import { describe, expect, test } from 'vitest';
import { regionFindings } from '../src/regionFindings.js';
import type { PlannedFrame } from '../src/shorterFrames.js';
import { everyRegion } from './regionTables.js';

interface Planned {
  readonly region: Region;
  readonly dataRate: number;
  readonly applicationBytes?: number;
  readonly fOptsBytes?: number;
  readonly direction?: 'uplink' | 'downlink';
  readonly frequencyHz?: number;
  readonly eirpDbm?: number;
  readonly dwellLimited?: boolean | undefined;
  readonly repeater?: boolean | undefined;
}

function rowOf({ dataRates, unconfirmedDataRates = [] }: Region, dataRate: number): DataRate {
  return [...dataRates, ...unconfirmedDataRates].find((row) => row.dataRate === dataRate) as DataRate;
}

function findingsOf(planned: Planned) {
  const {
    region,
    dataRate,
    applicationBytes = 1,
    fOptsBytes = 0,
    direction = 'uplink',
    eirpDbm = 0,
  } = planned;
  const { dwellLimited, repeater } = planned;
  const frame: PlannedFrame = {
    region,
    direction,
    row: rowOf(region, dataRate),
    applicationBytes,
    fOptsBytes,
    phyPayloadBytes: 13 + fOptsBytes + applicationBytes,
    dwellLimited,
    repeater,
  };
  const channels = region.channels.filter(
    (group) =>
      group.minDataRate <= dataRate && group.maxDataRate >= dataRate && group.direction !== 'downlink',
  );
  const frequencyHz = planned.frequencyHz ?? channels[0]?.firstHz ?? region.minHz + 1e6;
  return regionFindings(frame, { frequencyHz, conductedPowerDbm: eirpDbm, eirpDbm });
}

function only(planned: Planned, rule: string) {
  const found = findingsOf(planned).filter((each) => each.rule === rule);
  expect(found).toHaveLength(1);
  return found[0] as NonNullable<(typeof found)[number]>;
}

test.each(everyRegion)(
  '%s: a short frame on a default channel of every data rate that has one is not remarked on',
  (_, region) => {
    for (const { dataRate, direction } of region.dataRates) {
      if (direction === 'downlink') continue;
      const carried =
        region.plan === 'dynamic' ||
        region.channels.some((group) => group.maxDataRate >= dataRate && group.minDataRate <= dataRate);
      const found = findingsOf({ region, dataRate, eirpDbm: -10 }).filter(
        ({ rule }) => rule !== 'dwell-limited-payload',
      );
      expect(found.map(({ rule }) => rule)).toEqual(carried ? [] : ['no-channel']);
    }
  },
);

describe('payload findings cite what covers their row', () => {
  test.each([
    ['US915', 0, 12, undefined, undefined, 'stop', 'US915 region tables of the MAC stacks'],
    ['US915', 1, 54, undefined, undefined, 'stop', 'RP001 table 16'],
    ['US915', 3, 223, undefined, true, 'stop', 'Repeater table'],
    ['US915', 1, 54, undefined, true, 'stop', 'RP001 table 16'],
    ['EU868', 4, 223, undefined, true, 'stop', 'Repeater table'],
    ['EU868', 0, 52, undefined, undefined, 'stop', 'EU868 region tables'],
    ['AS923_2', 2, 12, true, undefined, 'stop', 'RP002 table 73'],
    ['AS923_2', 2, 116, undefined, undefined, 'stop', 'RP002 table 73'],
    ['AS923_2', 5, 223, true, true, 'stop', 'Repeater table'],
    ['AU915', 3, 54, true, undefined, 'stop', 'AU915 region tables'],
    ['EU433', 0, 52, undefined, undefined, 'stop', 'RP001, EU433'],
    ['CN470', 1, 24, undefined, undefined, 'stop', 'CN470 region tables'],
  ] as const)(
    '%s DR%i, %i bytes, dwell limited %s, repeater %s: %s',
    (name, dataRate, applicationBytes, dwellLimited, repeater, severity, source) => {
      const planned = { region: regions[name], dataRate, applicationBytes, dwellLimited, repeater };
      const finding = only(planned, 'max-payload');
      expect(finding.severity).toBe(severity);
      expect(finding.source).toContain(source);
      // One byte fewer is not always enough, but the limit is exact.
      const room = Number.parseInt(finding.limit ?? '', 10);
      const rulesAt = (bytes: number) =>
        findingsOf({ ...planned, applicationBytes: bytes }).map(({ rule }) => rule);
      expect(rulesAt(room)).not.toContain('max-payload');
      expect(rulesAt(room + 1)).toContain('max-payload');
    },
  );

  test('the limits are those of the tables: N of the reference', () => {
    const limit = (planned: Planned) =>
      only({ applicationBytes: 242, fOptsBytes: 0, ...planned }, 'max-payload').limit;
    expect(limit({ region: regions.AS923_1, dataRate: 2, dwellLimited: true })).toBe('11 bytes');
    expect(limit({ region: regions.AS923_1, dataRate: 2, dwellLimited: false })).toBe('115 bytes');
    expect(limit({ region: regions.AU915, dataRate: 4, dwellLimited: true })).toBe('125 bytes');
    expect(limit({ region: regions.EU868, dataRate: 5, repeater: true })).toBe('222 bytes');
    expect(limit({ region: regions.AS923_1, dataRate: 2, dwellLimited: true, fOptsBytes: 11 })).toBe(
      '0 bytes',
    );
  });

  test('a payload that is known from memory only never stops', () => {
    const planned = { region: regions.IN865, dataRate: 12, applicationBytes: 243 };
    const found = findingsOf(planned);
    expect(found.map(({ rule }) => rule)).toEqual(['data-rate-unconfirmed', 'max-payload']);
    for (const { severity, message } of found) {
      expect(severity).toBe('note');
      expect(message).toContain('unverified');
    }
  });

  test('nothing fits on DR0 and DR1 under the dwell limit', () => {
    const finding = only({ region: regions.AU915, dataRate: 1, dwellLimited: true }, 'max-payload');
    expect(finding.message).toContain('Nothing fits on DR1 of AU915');
    expect(finding.remedies).toContainEqual({ dataRate: 2 });
  });
});

describe('dwell time that a network may command', () => {
  test('unsaid: a note with the room that would be left, cited from the same table', () => {
    const finding = only(
      { region: regions.AU915, dataRate: 2, applicationBytes: 20 },
      'dwell-limited-payload',
    );
    expect(finding.severity).toBe('note');
    expect(finding.message).toContain('11 bytes fit on DR2 of AU915');
    expect(finding.source).toContain('AU915 region tables');
  });

  test.each([
    ['short enough', { dataRate: 2, applicationBytes: 11 }],
    ['said not to be limited', { dataRate: 2, applicationBytes: 20, dwellLimited: false }],
    ['a downlink', { dataRate: 8, applicationBytes: 20, direction: 'downlink', frequencyHz: 923.3e6 }],
  ] as const)('%s: none', (_, planned) =>
    expect(findingsOf({ region: regions.AU915, ...planned })).toEqual([]),
  );

  test('US915 limits it always, whatever is said about networks', () =>
    expect(findingsOf({ region: regions.US915, dataRate: 0, applicationBytes: 11 })).toEqual([]));

  test('a plan without that setting says so and takes its usual table', () => {
    const finding = only(
      { region: regions.EU868, dataRate: 0, applicationBytes: 51, dwellLimited: true },
      'no-dwell-table',
    );
    expect(finding.severity).toBe('note');
    expect(
      findingsOf({ region: regions.EU868, dataRate: 0, applicationBytes: 51, dwellLimited: true }),
    ).toHaveLength(1);
  });
});

describe('power of nodes', () => {
  test.each([
    ['KR920', 922.1e6, 14, []],
    ['KR920', 922.1e6, 14.1, ['14 dBm EIRP']],
    ['KR920', 921.9e6, 10, []],
    ['KR920', 921.9e6, 10.1, ['10 dBm EIRP']],
    ['IN865', 865.0625e6, 29.2, []],
    ['IN865', 865.0625e6, 30, ['29.2 dBm EIRP']],
    ['AS923_1', 923.2e6, 16.5, ['16 dBm EIRP']],
    ['CN470', 470.3e6, 19.15, []],
    ['CN470', 470.3e6, 20, ['19.15 dBm EIRP']],
    ['EU433', 433.175e6, 13, ['12.15 dBm EIRP']],
  ] as const)('%s at %i Hz with %d dBm: %j', (name, frequencyHz, eirpDbm, limits) => {
    const found = findingsOf({
      region: regions[name],
      dataRate: 1,
      frequencyHz,
      eirpDbm,
      dwellLimited: false,
    }).filter(({ rule }) => rule === 'region-power');
    expect(found.map(({ limit }) => limit)).toEqual(limits);
    for (const { severity, remedies } of found) {
      expect(severity).toBe('fix');
      const [remedy] = remedies;
      const mended = {
        region: regions[name],
        dataRate: 1,
        frequencyHz,
        eirpDbm: remedy?.conductedPowerDbm as number,
      };
      expect(findingsOf({ ...mended, dwellLimited: false }).map(({ rule }) => rule)).not.toContain(
        'region-power',
      );
    }
  });

  test('below 922 MHz the finding says which part of the band it means', () =>
    expect(
      only({ region: regions.KR920, dataRate: 0, frequencyHz: 921.9e6, eirpDbm: 12 }, 'region-power').message,
    ).toContain('in KR920 from 920.8 to 922 MHz'));
});

describe('channels', () => {
  test.each([
    ['AU915', 0, 915.3e6, 'region-channel', 915.2e6],
    ['AU915', 6, 915.2e6, 'region-channel', 915.9e6],
    ['AU915', 7, 915.2e6, 'region-channel', 915.9e6],
    ['US915', 5, 902.3e6, 'region-channel', 903e6],
    ['CN470', 3, 490.1e6, 'region-channel', 489.7e6],
  ] as const)('%s DR%i on %i Hz: %s', (name, dataRate, frequencyHz, rule, nearestHz) => {
    const finding = only({ region: regions[name], dataRate, frequencyHz }, rule);
    expect(finding.severity).toBe('stop');
    expect(finding.remedies).toEqual([{ frequencyHz: nearestHz }]);
  });

  test('channels of LR-FHSS cite the stack that has them', () =>
    expect(
      only({ region: regions.AU915, dataRate: 7, frequencyHz: 915.2e6 }, 'region-channel').source,
    ).toContain('LR-FHSS'));

  test('a data rate that no channel carries', () => {
    const finding = only({ region: regions.CN470, dataRate: 6, frequencyHz: 470.3e6 }, 'no-channel');
    expect(finding.severity).toBe('fix');
    expect(finding.message).toContain('No uplink channel of CN470 carries DR6');
  });

  test.each(everyRegion)('%s: outside its band stops', (_, region) => {
    const { dataRate } = region.dataRates[0] as DataRate;
    for (const frequencyHz of [region.minHz - 1e3, region.maxHz + 1e3]) {
      expect(only({ region, dataRate, frequencyHz }, 'region-band').severity).toBe('stop');
    }
  });

  test('the wrong direction is said once', () => {
    const found = findingsOf({ region: regions.AU915, dataRate: 8, frequencyHz: 915.2e6 });
    expect(found.map(({ rule }) => rule)).toEqual(['data-rate-direction']);
  });
});
