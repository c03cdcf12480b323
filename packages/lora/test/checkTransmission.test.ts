import {
  checkTransmission,
  regions,
  type Transmission,
  type TransmissionChange,
  type TransmissionFinding,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const european: Transmission = {
  region: regions.EU868,
  jurisdiction: 'EU',
  dataRate: 0,
  frequencyHz: 868.1e6,
  applicationBytes: 11,
  conductedPowerDbm: 14,
  feedlineLossDb: 0,
  antennaGainDbi: 2.15,
};

const american: Transmission = {
  region: regions.US915,
  jurisdiction: 'US',
  dataRate: 0,
  frequencyHz: 902.3e6,
  applicationBytes: 11,
  conductedPowerDbm: 20,
  feedlineLossDb: 0,
  antennaGainDbi: 3,
  channelUse: 'hopping-64',
};

function stops(transmission: Transmission): string[] {
  return checkTransmission(transmission)
    .findings.filter(({ severity }) => severity === 'stop')
    .map(({ rule }) => rule);
}

function found(transmission: Transmission, rule: string): TransmissionFinding {
  const finding = checkTransmission(transmission).findings.find((each) => each.rule === rule);
  if (finding === undefined) throw new Error(`no finding ${rule}`);
  return finding;
}

describe('Europe', () => {
  test('14 dBm into a dipole is exactly the 14 dBm ERP of the default channels', () => {
    const check = checkTransmission(european);
    expect(check.permitted).toBe(true);
    expect(check.phyPayloadBytes).toBe(24);
    expect(check.eirpDbm).toBeCloseTo(16.15, 9);
    expect(check.erpDbm).toBeCloseTo(14, 9);
    // 1482.752 ms at 1 %: reference/lorawan.md, worked values and section 6.
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(1.482752, 9);
    expect(check.minimumIntervalSeconds).toBeCloseTo(148.2752, 6);
    expect(check.framesPerHour).toBe(24);
    expect(check.intervalScope).toBe('sub-band');
    expect(found(european, 'duty-cycle').severity).toBe('note');
  });

  test('a decibel and a bit too much says how much to take away', () => {
    const loud = { ...european, antennaGainDbi: 3.41 };
    expect(stops(loud)).toEqual(['erp-limit']);
    const finding = found(loud, 'erp-limit');
    expect(finding.message).toContain('by 1.3 dB, to 12.7 dBm');
    expect(finding.measured).toBe('15.26 dBm ERP');
    expect(finding.limit).toBe('14 dBm ERP');
    expect(finding.source).toContain('EN 300 220-2');
  });

  test('feedline loss counts against radiated limits', () =>
    expect(stops({ ...european, antennaGainDbi: 5.15, feedlineLossDb: 3 })).toEqual([]));

  test("the gateway's RX2 downlink: 27 dBm ERP and 10 % on 869.525 MHz, without payload CRC", () => {
    const downlink = {
      ...european,
      direction: 'downlink',
      frequencyHz: 869.525e6,
      conductedPowerDbm: 27,
    } as const;
    const check = checkTransmission(downlink);
    expect(check.permitted).toBe(true);
    expect(check.erpDbm).toBeCloseTo(27, 9);
    // By hand from the formula: 8 + 5 ceil((192 - 48 + 8 + 20) / 40) = 33 symbols, as with CRC.
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(1.482752, 9);
    expect(check.minimumIntervalSeconds).toBeCloseTo(14.82752, 6);
    expect(found(downlink, 'duty-cycle').message).toContain("gateway's downlinks");
    expect(stops({ ...downlink, conductedPowerDbm: 27.1 })).toEqual(['erp-limit']);
    expect(stops({ ...downlink, frequencyHz: 868.1e6 })).toEqual(['erp-limit']);
  });

  test('a downlink leaves out the payload CRC', () => {
    // reference: SF9, 20 bytes, explicit header: 185.344 ms without CRC.
    const nine = { ...european, dataRate: 3, applicationBytes: 7 };
    expect(checkTransmission({ ...nine, direction: 'downlink' }).timeOnAir.totalSeconds).toBeCloseTo(
      0.185344,
      9,
    );
  });

  test.each([
    [868.6e6, 'reserved-band'],
    [868.65e6, 'reserved-band'],
    [869.3e6, 'reserved-band'],
    [869.66e6, 'reserved-band'],
    [868.02e6, 'occupied-bandwidth'],
    [869.98e6, 'occupied-bandwidth'],
  ])('%i Hz: %s, and the named centre is lawful', (frequencyHz, rule) => {
    const off = { ...european, frequencyHz };
    expect(stops(off)).toEqual([rule]);
    const remedy = found(off, rule).remedies[0] as TransmissionChange;
    expect(stops({ ...off, ...remedy })).toEqual([]);
    expect(checkTransmission(off).minimumIntervalSeconds).toBeUndefined();
  });

  test('what no rule covers is not permitted', () => {
    const foreign = { ...european, frequencyHz: 915e6 };
    expect(stops(foreign)).toEqual(['not-covered', 'region-band']);
    expect(checkTransmission(foreign).permitted).toBe(false);
    expect(checkTransmission(european).notCovered.length).toBeGreaterThan(0);
  });

  test('too often: the wait, fewer bytes and a faster data rate', () => {
    const hasty = { ...european, intervalSeconds: 130 };
    expect(stops(hasty)).toEqual(['duty-cycle']);
    const finding = found(hasty, 'duty-cycle');
    expect(finding.message).toContain('wait 148.3 s');
    expect(finding.message).toContain('SF11 (DR1) or faster');
    for (const remedy of finding.remedies) expect(stops({ ...hasty, ...remedy })).toEqual([]);
    const bytes = finding.remedies.find(({ applicationBytes }) => applicationBytes !== undefined);
    const oneMore = (bytes?.applicationBytes as number) + 1;
    expect(stops({ ...hasty, applicationBytes: oneMore })).toEqual(['duty-cycle']);
    expect(stops({ ...european, intervalSeconds: 148.2752 })).toEqual([]);
    expect(stops({ ...european, intervalSeconds: 148.27 })).toEqual(['duty-cycle']);
  });

  test('too long for the payload table: bytes or data rate', () => {
    const long = { ...european, applicationBytes: 52 };
    expect(stops(long)).toEqual(['max-payload']);
    expect(found(long, 'max-payload').remedies).toEqual([{ applicationBytes: 51 }, { dataRate: 3 }]);
    expect(stops({ ...european, applicationBytes: 51, fOptsBytes: 1 })).toEqual(['max-payload']);
    expect(stops({ ...european, applicationBytes: 51 })).toEqual([]);
  });

  test("above the plan's maximum but not above the law: to be mended, not to be stopped", () => {
    const strong = { ...european, frequencyHz: 869.525e6, conductedPowerDbm: 20 };
    const finding = found(strong, 'region-power');
    expect(finding.severity).toBe('fix');
    expect(checkTransmission(strong).permitted).toBe(true);
    const mended = { ...strong, ...finding.remedies[0] };
    expect(checkTransmission(mended).findings.map(({ rule }) => rule)).not.toContain('region-power');
  });

  test('an alternative known from memory stays a note', () => {
    const quiet = { ...european, frequencyHz: 869.85e6, conductedPowerDbm: 7 };
    const finding = found(quiet, 'duty-cycle-alternative');
    expect(finding.severity).toBe('note');
    expect(finding.message).toContain('unverified');
  });
});

describe('United States', () => {
  test('64 channels, SF10, 11 bytes: 400 ms in 20 s on each frequency', () => {
    const check = checkTransmission(american);
    expect(check.permitted).toBe(true);
    expect(check.timeOnAir.totalSeconds).toBeCloseTo(0.370688, 9);
    expect(check.minimumIntervalSeconds).toBe(20);
    expect(check.intervalScope).toBe('frequency');
    expect(check.framesPerHour).toBe(180);
  });

  test('one byte more breaks dwell time and payload table; each remedy mends both', () => {
    const long = { ...american, applicationBytes: 12 };
    expect(stops(long)).toEqual(['dwell-time', 'max-payload']);
    const finding = found(long, 'dwell-time');
    expect(finding.remedies).toEqual([{ applicationBytes: 11 }, { dataRate: 1 }]);
    expect(finding.message).toContain('11 bytes or fewer');
    expect(finding.message).toContain('SF9 (DR1) or faster');
    for (const remedy of finding.remedies) expect(stops({ ...long, ...remedy })).toEqual([]);
  });

  test('MAC commands leave no byte at DR0: only a faster data rate helps', () => {
    const full = { ...american, fOptsBytes: 15, applicationBytes: 1 };
    expect(found(full, 'max-payload').remedies).toEqual([{ dataRate: 1 }]);
    expect(found(full, 'dwell-time').remedies).toEqual([{ dataRate: 1 }]);
  });

  test.each([
    [6, 30, []],
    [8, 28, []],
    [8, 28.1, ['conducted-power']],
    [9.5, 26.5, []],
    [12, 24.5, ['conducted-power']],
  ])('%d dBi and %d dBm: %j (47 CFR 15.247(b)(4))', (antennaGainDbi, conductedPowerDbm, expected) =>
    expect(stops({ ...american, antennaGainDbi, conductedPowerDbm })).toEqual(expected),
  );

  test('feedline loss earns nothing', () => {
    const lossy = { ...american, antennaGainDbi: 8, conductedPowerDbm: 30, feedlineLossDb: 10 };
    expect(stops(lossy)).toEqual(['conducted-power']);
    expect(found(lossy, 'conducted-power').remedies).toEqual([{ conductedPowerDbm: 28 }]);
    expect(found(lossy, 'conducted-power').source).toContain('15.247(b)(4)');
  });

  test('one fixed channel fits no class; hopping or hybrid operation mends it', () => {
    const fixed = { ...american, channelUse: 'single' } as const;
    expect(stops(fixed)).toEqual(['no-class']);
    for (const remedy of found(fixed, 'no-class').remedies)
      expect(stops({ ...fixed, ...remedy })).toEqual([]);
  });

  test('eight channels: 400 ms in 3.2 s, and 8 dBm in 3 kHz bounds the power', () => {
    const eight = { ...american, channelUse: 'hybrid-8' } as const;
    expect(checkTransmission(eight).minimumIntervalSeconds).toBeCloseTo(3.2, 9);
    // 8 + 10 lg(125 / 3) = 24.198 dBm: reference/lorawan.md section 6.
    expect(stops({ ...eight, conductedPowerDbm: 24.19 })).toEqual([]);
    const loud = { ...eight, conductedPowerDbm: 24.2 };
    expect(stops(loud)).toEqual(['power-density']);
    expect(found(loud, 'power-density').remedies[0]?.conductedPowerDbm).toBeCloseTo(24.1, 9);
    expect(found(loud, 'power-density-in-practice')).toMatchObject({ severity: 'note', limit: '21 dBm' });
    expect(stops({ ...american, conductedPowerDbm: 30 })).toEqual([]);
  });

  test('saying nothing about the channels assumes all 64 and says so', () => {
    const { channelUse: _, ...silent } = american;
    expect(checkTransmission(silent).permitted).toBe(true);
    expect(found(silent, 'channel-use-assumed').severity).toBe('note');
  });

  test('the 500 kHz downlink of the gateway: 1 W, no dwell time, no interval', () => {
    const downlink = {
      ...american,
      direction: 'downlink',
      dataRate: 8,
      frequencyHz: 923.3e6,
      applicationBytes: 53,
      conductedPowerDbm: 30,
      antennaGainDbi: 6,
    } as const;
    const check = checkTransmission(downlink);
    expect(check.permitted).toBe(true);
    expect(check.timeOnAir.totalSeconds).toBeGreaterThan(0.4);
    expect(check.minimumIntervalSeconds).toBeUndefined();
    expect(check.intervalScope).toBeUndefined();
    expect(check.framesPerHour).toBeUndefined();
  });

  test('fixed channels: the nearest of the right bandwidth and direction', () => {
    expect(found({ ...american, frequencyHz: 902.4e6 }, 'region-channel').remedies).toHaveLength(1);
    const wide = { ...american, dataRate: 4, frequencyHz: 902.9e6 };
    expect(stops(wide)).toEqual(['region-channel']);
    expect(found(wide, 'region-channel').remedies).toEqual([{ frequencyHz: 903e6 }]);
  });

  test('a downlink data rate is not for uplinks, and the reverse', () => {
    expect(stops({ ...american, dataRate: 10, frequencyHz: 923.3e6 })).toEqual(['data-rate-direction']);
    expect(stops({ ...american, direction: 'downlink' })).toEqual(['data-rate-direction']);
  });

  test('equal use of the channels sets a floor to the pace', () => {
    // SF9, 31 bytes, 0.288 s on air: one frame in 20 s on each of 64 channels is one in 0.3125 s.
    const quick = { ...american, dataRate: 1, applicationBytes: 31, intervalSeconds: 0.295 };
    expect(checkTransmission(quick).timeOnAir.totalSeconds).toBeLessThan(0.295);
    expect(stops(quick)).toEqual(['dwell-interval']);
    expect(stops({ ...quick, ...found(quick, 'dwell-interval').remedies[0] })).toEqual([]);
  });

  test('frames cannot overlap', () => {
    const tight = { ...american, dataRate: 4, frequencyHz: 903e6, intervalSeconds: 0.01 };
    expect(stops(tight)).toEqual(['frames-overlap']);
    expect(stops({ ...tight, ...found(tight, 'frames-overlap').remedies[0] })).toEqual([]);
  });
});

const anyTransmission: fc.Arbitrary<Transmission> = fc.oneof(
  fc.record({
    region: fc.constant(regions.EU868),
    jurisdiction: fc.constant('EU' as const),
    direction: fc.constantFrom('uplink' as const, 'downlink' as const),
    dataRate: fc.integer({ min: 0, max: 6 }),
    frequencyHz: fc.double({ min: 862.5e6, max: 870.5e6, noNaN: true }),
    applicationBytes: fc.integer({ min: 0, max: 227 }),
    fOptsBytes: fc.integer({ min: 0, max: 15 }),
    conductedPowerDbm: fc.double({ min: -10, max: 36, noNaN: true }),
    feedlineLossDb: fc.double({ min: 0, max: 6, noNaN: true }),
    antennaGainDbi: fc.double({ min: -3, max: 15, noNaN: true }),
    intervalSeconds: fc.option(fc.double({ min: 0.01, max: 4000, noNaN: true }), { nil: undefined }),
  }),
  fc.record({
    region: fc.constant(regions.US915),
    jurisdiction: fc.constant('US' as const),
    dataRate: fc.integer({ min: 0, max: 4 }),
    frequencyHz: fc.double({ min: 902e6, max: 928e6, noNaN: true }),
    applicationBytes: fc.integer({ min: 0, max: 227 }),
    fOptsBytes: fc.integer({ min: 0, max: 15 }),
    conductedPowerDbm: fc.double({ min: -10, max: 36, noNaN: true }),
    feedlineLossDb: fc.double({ min: 0, max: 6, noNaN: true }),
    antennaGainDbi: fc.double({ min: -3, max: 15, noNaN: true }),
    channelUse: fc.constantFrom('hopping-64' as const, 'hybrid-8' as const, 'single' as const, undefined),
    intervalSeconds: fc.option(fc.double({ min: 0.01, max: 4000, noNaN: true }), { nil: undefined }),
  }),
);

describe('remedies', () => {
  test('each remedy removes its own finding', () =>
    fc.assert(
      fc.property(anyTransmission, (transmission) => {
        for (const { rule, severity, remedies } of checkTransmission(transmission).findings) {
          if (severity === 'note') continue;
          for (const remedy of remedies) {
            const after = checkTransmission({ ...transmission, ...remedy }).findings;
            const same = after.filter((each) => each.rule === rule && each.severity === severity);
            expect(same, `${rule} after ${JSON.stringify(remedy)}`).toEqual([]);
          }
        }
      }),
      { numRuns: 300 },
    ));

  test('one after the other they lead to a permitted transmission', () =>
    fc.assert(
      fc.property(anyTransmission, (transmission) => {
        let current = transmission;
        for (let step = 0; step < 12; step++) {
          const stop = checkTransmission(current).findings.find(({ severity }) => severity === 'stop');
          if (stop === undefined) return;
          const remedy = stop.remedies[0];
          // Nothing helps a node whose MAC commands alone are too long, but faster data rates of other channels.
          if (remedy === undefined) {
            expect(['max-payload', 'dwell-time', 'not-covered']).toContain(stop.rule);
            return;
          }
          current = { ...current, ...remedy };
        }
        expect(stops(current)).toEqual([]);
      }),
      { numRuns: 300 },
    ));

  test('the suggested payload is the largest that passes', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 126, max: 227 }),
        (dataRate, applicationBytes) => {
          const long = { ...american, dataRate, applicationBytes };
          const [remedy] = found(long, 'dwell-time').remedies;
          const largest = remedy?.applicationBytes as number;
          expect(stops({ ...long, applicationBytes: largest })).toEqual([]);
          expect(stops({ ...long, applicationBytes: largest + 1 })).toContain('dwell-time');
        },
      ),
    ));

  test('the suggested power is at most a tenth of a decibel below the limit', () =>
    fc.assert(
      fc.property(fc.double({ min: 14.01, max: 40, noNaN: true }), (conductedPowerDbm) => {
        const loud = { ...european, conductedPowerDbm };
        const [remedy] = found(loud, 'erp-limit').remedies;
        const lowered = remedy?.conductedPowerDbm as number;
        expect(stops({ ...loud, conductedPowerDbm: lowered })).toEqual([]);
        expect(stops({ ...loud, conductedPowerDbm: lowered + 0.1001 })).toEqual(['erp-limit']);
      }),
    ));

  test('numbers never turn into NaN or infinity', () =>
    fc.assert(
      fc.property(anyTransmission, (transmission) => {
        const check = checkTransmission(transmission);
        for (const value of Object.values(check)) {
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        }
        for (const { message } of check.findings) expect(message).not.toMatch(/NaN|Infinity|undefined/);
        expect(check.permitted).toBe(check.findings.every(({ severity }) => severity !== 'stop'));
      }),
    ));
});

describe('refusals', () => {
  test.each([
    ['region', ['EU868', undefined, null]],
    ['jurisdiction', ['UK', 'RU', undefined]],
    ['direction', ['up', null]],
    ['dataRate', [14, 15, -1, 1.5, Number.NaN, '0', undefined]],
    ['frequencyHz', [868.1, 0, Number.NaN, Number.POSITIVE_INFINITY, undefined]],
    ['applicationBytes', [-1, 243, 1.5, Number.NaN, undefined]],
    ['fOptsBytes', [-1, 16, null]],
    ['conductedPowerDbm', [Number.NaN, Number.POSITIVE_INFINITY, '14', undefined]],
    ['feedlineLossDb', [-1, Number.NaN, undefined]],
    ['antennaGainDbi', [Number.NaN, undefined, 1000]],
    ['intervalSeconds', [0, -1, Number.NaN, null]],
    ['channelUse', ['hopping', null]],
    ['access', ['csma', null]],
    ['dwellLimited', [1, 'true', null]],
    ['repeater', [0, null]],
  ] as const)('%s is refused by name', (argument, values) => {
    for (const value of values) {
      const bad = { ...european, [argument]: value } as unknown as Transmission;
      expect(() => checkTransmission(bad), String(value)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });

  test('a data rate that the plan reserves is refused with those it has', () =>
    expect(() => checkTransmission({ ...american, dataRate: 7 })).toThrow(
      expect.objectContaining({
        code: 'out-of-range',
        expected: expect.stringContaining('0, 1, 2, 3, 4, 5'),
      }),
    ));

  test.each([
    ['channelUse.system', { system: 'fixed', channelCount: 8 }],
    ['channelUse.channelCount', { system: 'hybrid', channelCount: 1 }],
    ['channelUse.channelCount', { system: 'hopping', channelCount: Number.NaN }],
    ['channelUse.channelCount', { system: 'hopping' }],
  ])('%s is refused by name', (argument, channelUse) =>
    expect(() => checkTransmission({ ...american, channelUse: channelUse as never })).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test('megahertz are recognised', () =>
    expect(() => checkTransmission({ ...european, frequencyHz: 868.1 })).toThrow('megahertz?'));

  test.each([undefined, null, 14])('%s is no transmission', (value) =>
    expect(() => checkTransmission(value as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'transmission' }),
    ),
  );
});
