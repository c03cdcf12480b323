import {
  type AirtimeLimit,
  airtimeLimits,
  checkTransmission,
  downlinkLimits,
  isInputError,
  type JurisdictionName,
  lawRules,
  type Region,
  regions,
  subBandAt,
  type Transmission,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

/** Where frames may be sent at all, in megahertz, from reference/lorawan.md section 6: nothing outside is known. */
const bands: Readonly<Record<JurisdictionName, readonly (readonly [number, number])[]>> = {
  EU: [
    [433.05, 434.79],
    [863, 868.6],
    [868.7, 869.2],
    [869.4, 869.65],
    [869.7, 870],
  ],
  US: [[902, 928]],
  AU: [[915, 928]],
  JP: [[920.5, 928.1]],
  IN: [[865, 867]],
  KR: [[917, 923.5]],
  CN: [[470, 510]],
};
const names = Object.keys(bands) as JurisdictionName[];

/** The plan that each country uses. */
const atHome: readonly (readonly [JurisdictionName, Region])[] = [
  ['EU', regions.EU868],
  ['EU', regions.EU433],
  ['US', regions.US915],
  ['AU', regions.AU915],
  ['JP', regions.AS923_1],
  ['IN', regions.IN865],
  ['KR', regions.KR920],
  ['CN', regions.CN470],
];

const anyChannelUse = fc.constantFrom(
  undefined,
  'hopping-64' as const,
  'hybrid-8' as const,
  'single' as const,
  { system: 'hopping' as const, channelCount: 30 },
  { system: 'hybrid' as const, channelCount: 3 },
);
const anyAccess = fc.constantFrom(undefined, 'duty-cycle' as const, 'listen-before-talk' as const);

function frames(jurisdiction: JurisdictionName, region: Region): fc.Arbitrary<Transmission> {
  const centresHz = region.channels.map(({ firstHz }) => firstHz);
  return fc.record({
    region: fc.constant(region),
    jurisdiction: fc.constant(jurisdiction),
    direction: fc.constantFrom('uplink' as const, 'downlink' as const),
    dataRate: fc.constantFrom(...region.dataRates.map(({ dataRate }) => dataRate)),
    frequencyHz: fc.oneof(
      fc.constantFrom(...centresHz, region.secondWindow.frequencyHz),
      fc.double({ min: region.minHz - 1e6, max: region.maxHz + 1e6, noNaN: true }),
    ),
    applicationBytes: fc.integer({ min: 0, max: 227 }),
    fOptsBytes: fc.integer({ min: 0, max: 15 }),
    conductedPowerDbm: fc.double({ min: -10, max: 36, noNaN: true }),
    feedlineLossDb: fc.double({ min: 0, max: 6, noNaN: true }),
    antennaGainDbi: fc.double({ min: -3, max: 15, noNaN: true }),
    intervalSeconds: fc.option(fc.double({ min: 0.01, max: 4000, noNaN: true }), { nil: undefined }),
    channelUse: anyChannelUse,
    access: anyAccess,
    dwellLimited: fc.constantFrom(undefined, true, false),
    repeater: fc.constantFrom(undefined, true, false),
  });
}

/** Frames of every plan under every law, at home or not. */
const anywhere = fc
  .tuple(fc.constantFrom(...names), fc.constantFrom(...(Object.values(regions) as Region[])))
  .chain(([jurisdiction, region]) => frames(jurisdiction, region));

/** Frames of a plan where it is used. */
const home = fc.constantFrom(...atHome).chain(([jurisdiction, region]) => frames(jurisdiction, region));

const anyFrame = fc.oneof(home, anywhere);

describe('over all laws and plans', () => {
  test('each remedy removes its own finding', () =>
    fc.assert(
      fc.property(anyFrame, (transmission) => {
        for (const { rule, severity, remedies } of checkTransmission(transmission).findings) {
          for (const remedy of remedies) {
            const after = checkTransmission({ ...transmission, ...remedy }).findings;
            const same = after.filter((each) => each.rule === rule && each.severity === severity);
            const kept = severity === 'note' ? same.filter((each) => each.measured !== undefined) : same;
            expect(kept, `${rule} after ${JSON.stringify(remedy)}`).toEqual([]);
          }
        }
      }),
      { numRuns: 1500 },
    ));

  test('one after the other they lead at home to a frame that is permitted, or to one that nothing can mend', () =>
    fc.assert(
      fc.property(home, (transmission) => {
        let current = transmission;
        for (let step = 0; step < 15; step++) {
          const stop = checkTransmission(current).findings.find(({ severity }) => severity === 'stop');
          if (stop === undefined) return;
          const remedy = stop.remedies[0];
          if (remedy === undefined) {
            // Too much for the plan, too wide for the band, or a direction that the data rate does not serve.
            expect([
              'max-payload',
              'dwell-time',
              'transmission-duration',
              'duty-cycle-budget',
              'bandwidth',
              'data-rate-direction',
              // No stretch near enough holds so wide a channel.
              'occupied-bandwidth',
              'reserved-band',
              'region-band',
              'not-covered',
            ]).toContain(stop.rule);
            return;
          }
          current = { ...current, ...remedy };
        }
        expect(checkTransmission(current).findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
      }),
      { numRuns: 800 },
    ));

  test('what is known from memory only never stops anything, nor asks to be mended', () =>
    fc.assert(
      fc.property(anyFrame, (transmission) => {
        for (const { source, severity, message } of checkTransmission(transmission).findings) {
          if (!source.includes('from memory')) continue;
          expect(severity).toBe('note');
          expect(message).toContain('unverified');
        }
      }),
      { numRuns: 800 },
    ));

  test('no channel outside the known bands is ever permitted', () =>
    fc.assert(
      fc.property(
        anywhere,
        fc.oneof(
          fc.double({ min: 100e6, max: 3e9, noNaN: true }),
          fc.double({ min: 860e6, max: 930e6, noNaN: true }),
        ),
        (transmission, frequencyHz) => {
          const { jurisdiction } = transmission;
          const inside = bands[jurisdiction].some(
            ([fromMHz, toMHz]) => frequencyHz >= fromMHz * 1e6 && frequencyHz <= toMHz * 1e6,
          );
          if (inside) return;
          expect(checkTransmission({ ...transmission, frequencyHz }).permitted).toBe(false);
          expect(subBandAt({ jurisdiction, frequencyHz, bandwidthHz: 0 }).kind).not.toBe('inside');
          expect(limitsOrRefusal({ ...transmission, frequencyHz })).toBeUndefined();
        },
      ),
      { numRuns: 800 },
    ));

  test('figures are finite and sentences whole', () =>
    fc.assert(
      fc.property(anyFrame, (transmission) => {
        const check = checkTransmission(transmission);
        for (const value of Object.values(check)) {
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        }
        for (const { message, limit = '', measured = '' } of check.findings) {
          expect(message + limit + measured).not.toMatch(/NaN|Infinity|undefined|-0 |\[object/);
          expect(message).toMatch(/^[A-Z0-9].*\.$/);
        }
        expect(check.permitted).toBe(check.findings.every(({ severity }) => severity !== 'stop'));
      }),
      { numRuns: 800 },
    ));

  test('more power or a shorter interval never make a frame lawful', () =>
    fc.assert(
      fc.property(anyFrame, fc.double({ min: 0, max: 10, noNaN: true }), (transmission, more) => {
        if (checkTransmission(transmission).permitted) return;
        const { conductedPowerDbm, intervalSeconds } = transmission;
        const louder = { ...transmission, conductedPowerDbm: conductedPowerDbm + more };
        expect(checkTransmission(louder).permitted).toBe(false);
        if (intervalSeconds === undefined) return;
        const faster = { ...transmission, intervalSeconds: Math.max(1e-3, intervalSeconds / (1 + more)) };
        expect(checkTransmission(faster).permitted).toBe(false);
      }),
    ));
});

/** The limits of a transmission's channel; nothing where the law refuses it. */
function limitsOrRefusal({
  region,
  jurisdiction,
  direction = 'uplink',
  dataRate,
  frequencyHz,
  channelUse,
  access,
}: Transmission): readonly AirtimeLimit[] | undefined {
  const row = region.dataRates.find((each) => each.dataRate === dataRate);
  if (row === undefined) throw new Error('no such data rate');
  // 50 kbit/s with 25 kHz of deviation to either side: 100 kHz by Carson's rule.
  const bandwidthHz =
    row.modulation === 'LoRa' ? row.bandwidthHz : row.modulation === 'FSK' ? 100e3 : row.channelWidthHz;
  const { modulation } = row;
  try {
    return airtimeLimits({
      jurisdiction,
      direction,
      frequencyHz,
      bandwidthHz,
      modulation,
      channelUse,
      access,
    });
  } catch (error) {
    if (isInputError(error) && error.code === 'outside-validity') return undefined;
    throw error;
  }
}

/** Steady interval under a limit: an hour is a share of the time, shorter windows hold whole frames, a pause follows each frame. */
function steadyIntervalSeconds(limit: AirtimeLimit, onAirSeconds: number): number | undefined {
  const { budgetSeconds, windowSeconds, pauseSeconds, longestSeconds } = limit;
  if (windowSeconds === 3600) return (onAirSeconds * 3600) / budgetSeconds;
  if (longestSeconds !== undefined && onAirSeconds > longestSeconds) return undefined;
  if (pauseSeconds !== undefined) return onAirSeconds + pauseSeconds;
  if (windowSeconds === budgetSeconds) return undefined;
  return windowSeconds / Math.floor(budgetSeconds / onAirSeconds);
}

describe('airtimeLimits', () => {
  test('agrees with the interval of checkTransmission', () =>
    fc.assert(
      fc.property(anyFrame, (transmission) => {
        const check = checkTransmission(transmission);
        const limits = limitsOrRefusal(transmission);
        if (limits === undefined) {
          expect(check.permitted).toBe(false);
          return;
        }
        const { timeOnAir } = check;
        const intervals = limits.flatMap((limit) => {
          const hops = limit.perHop === true && timeOnAir.modulation === 'LR-FHSS';
          const onAirSeconds = hops ? timeOnAir.longestHopSeconds : timeOnAir.totalSeconds;
          return steadyIntervalSeconds(limit, onAirSeconds) ?? [];
        });
        if (intervals.length === 0) expect(check.minimumIntervalSeconds).toBeUndefined();
        else expect(check.minimumIntervalSeconds).toBeCloseTo(Math.max(...intervals), 6);
      }),
      { numRuns: 800 },
    ));

  // EN 300 220-2, table B.1: 1 % from 868.0 to 868.6 MHz and 10 % at 869.525 MHz; of an hour 36 s and 360 s.
  test('the European books: three default channels share one, the second window has its own', () => {
    const book = (frequencyHz: number) =>
      airtimeLimits({ jurisdiction: 'EU', direction: 'downlink', frequencyHz, bandwidthHz: 125e3 });
    expect(book(868.1e6)).toEqual(book(868.5e6));
    expect(book(868.1e6)[0]).toMatchObject({
      book: 'EU 868 to 868.6 MHz',
      budgetSeconds: 36,
      windowSeconds: 3600,
    });
    expect(book(869.525e6)[0]?.budgetSeconds).toBe(360);
    expect(book(867.1e6)[0]?.book).not.toBe(book(868.1e6)[0]?.book);
  });

  // 47 CFR 15.247(a)(1)(i) and (f): 0.4 s within 20 s; for hybrids within 0.4 s times the number of channels.
  test('the American books: one per frequency, none for digital modulation', () => {
    const question = { jurisdiction: 'US', direction: 'uplink', frequencyHz: 902.3e6 } as const;
    expect(airtimeLimits({ ...question, bandwidthHz: 125e3 })).toMatchObject([
      { book: 'US 902.3 MHz', budgetSeconds: 0.4, windowSeconds: 20, longestSeconds: 0.4 },
    ]);
    expect(
      airtimeLimits({ ...question, bandwidthHz: 125e3, channelUse: 'hybrid-8' })[0]?.windowSeconds,
    ).toBeCloseTo(3.2, 12);
    expect(airtimeLimits({ ...question, frequencyHz: 903e6, bandwidthHz: 500e3 })).toEqual([]);
    const hops = { ...question, frequencyHz: 903e6, bandwidthHz: 1.523e6, modulation: 'LR-FHSS' } as const;
    expect(airtimeLimits(hops)).toMatchObject([{ perHop: true, longestSeconds: 0.4 }]);
  });

  test('Korea: 4 s and 50 ms, or 0.4 s in 20 s', () => {
    const question = {
      jurisdiction: 'KR',
      direction: 'uplink',
      frequencyHz: 922.1e6,
      bandwidthHz: 125e3,
    } as const;
    expect(airtimeLimits(question)).toMatchObject([{ longestSeconds: 4, pauseSeconds: 0.05 }]);
    const [deaf] = airtimeLimits({ ...question, access: 'duty-cycle' });
    expect(deaf?.budgetSeconds).toBeCloseTo(0.4, 12);
    expect(deaf?.windowSeconds).toBe(20);
  });

  test.each([
    ['frequencyHz', { frequencyHz: 868.65e6 }],
    ['access', { access: 'listen-before-talk' }],
    [
      'channelUse',
      { jurisdiction: 'US', frequencyHz: 915e6, channelUse: { system: 'hopping', channelCount: 9 } },
    ],
    ['bandwidthHz', { jurisdiction: 'IN', frequencyHz: 866e6, bandwidthHz: 250e3 }],
  ])('what no rule covers is outside the validity: %s', (argument, change) => {
    const question = { jurisdiction: 'EU', direction: 'uplink', frequencyHz: 868.1e6, bandwidthHz: 125e3 };
    expect(() => airtimeLimits({ ...question, ...change } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'outside-validity', argument }),
    );
  });

  test.each([
    ['jurisdiction', 'RU'],
    ['direction', 'up'],
    ['frequencyHz', 868.1],
    ['bandwidthHz', Number.NaN],
    ['modulation', 'OOK'],
    ['channelUse', 'many'],
    ['access', 'csma'],
  ])('%s = %s is refused by name', (argument, value) => {
    const question = { jurisdiction: 'EU', direction: 'uplink', frequencyHz: 868.1e6, bandwidthHz: 125e3 };
    expect(() => airtimeLimits({ ...question, [argument]: value } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('downlinkLimits', () => {
  const antenna = { feedlineLossDb: 2, antennaGainDbi: 5.15 };

  test('Europe: 14 and 27 dBm ERP behind 2 dB of feedline and a 5.15 dBi antenna', () => {
    const table = downlinkLimits({ region: regions.EU868, jurisdiction: 'EU', ...antenna });
    // ERC/REC 70-03, annex 1: 25 mW (14 dBm) and 500 mW (27 dBm) ERP. 14 + 2.15 + 2 - 5.15 = 13; 27 + 2.15 + 2 - 5.15 = 26.
    expect(table.map(({ window, frequencyHz }) => [window, frequencyHz])).toEqual([
      ['RX1', 868.1e6],
      ['RX1', 868.3e6],
      ['RX1', 868.5e6],
      ['RX2', 869.525e6],
    ]);
    for (const row of table.slice(0, 3)) {
      expect(row.maxConductedPowerDbm).toBeCloseTo(13, 9);
      expect(row.airtime[0]?.book).toBe('EU 868 to 868.6 MHz');
    }
    expect(table[3]?.maxConductedPowerDbm).toBeCloseTo(26, 9);
    expect(table[3]?.maxEirpDbm).toBeCloseTo(29.15, 9);
    expect(table.every(({ permitted, verified }) => permitted && verified)).toBe(true);
  });

  // 47 CFR 15.247(b)(3) and (4).
  test('United States: 30 dBm less what the antenna has above 6 dBi, and no budget of time', () => {
    const station = {
      region: regions.US915,
      jurisdiction: 'US',
      feedlineLossDb: 2,
      antennaGainDbi: 8,
    } as const;
    for (const row of downlinkLimits(station)) {
      expect(row.maxConductedPowerDbm).toBeCloseTo(28, 9);
      expect(row.bandwidthHz).toBe(500e3);
      expect(row.airtime).toEqual([]);
    }
  });

  test('abroad nothing is permitted, and says why', () => {
    const abroad = downlinkLimits({ region: regions.EU868, jurisdiction: 'US', ...antenna });
    expect(abroad.map(({ permitted }) => permitted)).toEqual([false, false, false, false]);
    for (const { reason, maxConductedPowerDbm } of abroad) {
      expect(reason).toContain('no rule known here covers');
      expect(maxConductedPowerDbm).toBeUndefined();
    }
  });

  test('the table agrees with the check of a downlink, to a hundredth of a decibel', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...atHome),
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.double({ min: -3, max: 15, noNaN: true }),
        ([jurisdiction, region], feedlineLossDb, antennaGainDbi) => {
          const station = { region, jurisdiction, feedlineLossDb, antennaGainDbi };
          const table = downlinkLimits(station);
          expect(table.length).toBeGreaterThan(0);
          for (const row of [...table.slice(0, 3), ...table.slice(-1)]) {
            const dataRate = region.dataRates.find(
              (each) =>
                each.direction !== 'uplink' &&
                each.modulation === 'LoRa' &&
                each.bandwidthHz === row.bandwidthHz,
            )?.dataRate;
            if (!row.permitted || dataRate === undefined || row.maxConductedPowerDbm === undefined) continue;
            const powerRules = (conductedPowerDbm: number) =>
              checkTransmission({
                ...station,
                dataRate,
                direction: 'downlink',
                frequencyHz: row.frequencyHz,
                applicationBytes: 0,
                conductedPowerDbm,
              }).findings.filter(({ rule }) => /erp-limit|eirp-limit|conducted-power/.test(rule));
            expect(powerRules(row.maxConductedPowerDbm - 0.01)).toEqual([]);
            expect(powerRules(row.maxConductedPowerDbm + 0.01).length).toBeGreaterThan(0);
          }
        },
      ),
    ));

  test.each([
    ['region', 'EU868'],
    ['jurisdiction', 'RU'],
    ['feedlineLossDb', -1],
    ['antennaGainDbi', Number.NaN],
    ['access', 'csma'],
  ])('%s = %s is refused by name', (argument, value) => {
    const question = { region: regions.EU868, jurisdiction: 'EU', ...antenna, [argument]: value };
    expect(() => downlinkLimits(question as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('lawRules', () => {
  test('names are unique, and a row says what it limits and where it stands', () => {
    const ids = lawRules.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id, jurisdiction, limits, unit, figure, citation } of lawRules) {
      expect(id.startsWith(`${jurisdiction} `)).toBe(true);
      expect(limits).not.toBe('');
      expect(unit === '').toBe(figure === undefined);
      expect(citation.document).not.toBe('');
      expect(citation.edition).not.toBe('');
    }
  });

  test('every law has rows that are looked at and rows that are not; Russia has none', () => {
    expect([...new Set(lawRules.map(({ jurisdiction }) => jurisdiction))].sort()).toEqual([...names].sort());
    for (const name of names) {
      const uses = lawRules.filter(({ jurisdiction }) => jurisdiction === name).map(({ use }) => use);
      expect(uses).toContain('not covered');
      expect(uses).toContain(name === 'AU' ? 'noted' : 'checked');
    }
  });

  test('memory is never checked', () => {
    for (const { id, use, citation } of lawRules) {
      if (citation.status === 'memory') expect(use, id).not.toBe('checked');
    }
    const australian = lawRules.filter(({ jurisdiction }) => jurisdiction === 'AU');
    expect(australian.every(({ use }) => use !== 'checked')).toBe(true);
  });

  test.each([
    ...vectors.fcc15_247.map(({ id, value }) => [id, 'US', value] as const),
    ...vectors.eu868SubBands.flatMap(({ minHz, maxErpDbm, dutyCycle }) => [
      [`power at ${minHz}`, 'EU', maxErpDbm] as const,
      [`duty cycle at ${minHz}`, 'EU', dutyCycle] as const,
    ]),
  ])('%s is a row of %s: %d', (_, jurisdiction, value) =>
    expect(
      lawRules.some(
        (row) => row.jurisdiction === jurisdiction && row.figure === value && row.use === 'checked',
      ),
    ).toBe(true),
  );

  test('what a check does not cover is in the table word for word', () => {
    for (const [jurisdiction, region] of atHome) {
      const transmission = {
        region,
        jurisdiction,
        dataRate: region.joinRequestDataRates[0] ?? 0,
        frequencyHz: region.channels[0]?.firstHz as number,
        applicationBytes: 0,
        conductedPowerDbm: 0,
        feedlineLossDb: 0,
        antennaGainDbi: 0,
      };
      const words = lawRules
        .filter((row) => row.jurisdiction === jurisdiction && row.use === 'not covered')
        .map(({ limits }) => limits);
      expect(checkTransmission(transmission).notCovered).toEqual(words);
    }
  });
});
