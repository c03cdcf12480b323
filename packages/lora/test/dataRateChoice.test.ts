import {
  lawfulPace,
  regions,
  transmitLedger,
  type UsableDataRatesQuestion,
  usableDataRates,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

const place: UsableDataRatesQuestion = {
  region: regions.EU868,
  direction: 'uplink',
  snrDb: -9,
  referenceDataRate: 0,
  fadeAllowanceDb: 5,
};

describe('usableDataRates', () => {
  test('margins at one SNR are those over the datasheets’ required SNR (reference, section 7)', () => {
    const needed = new Map(vectors.requiredSnrDb.map((row) => [row.spreadingFactor, row.snrDb]));
    const { dataRates } = usableDataRates(place);
    expect(dataRates.map(({ dataRate }) => dataRate)).toEqual([6, 5, 4, 3, 2, 1, 0]);
    for (const { spreadingFactor, bandwidthHz, marginDb } of dataRates) {
      // Twice the bandwidth: 10 lg 2, 3.0103 dB.
      const widthDb = bandwidthHz === 250e3 ? 3.0103 : 0;
      expect(marginDb).toBeCloseTo(-9 - widthDb - (needed.get(spreadingFactor) as number), 4);
    }
  });

  test('the fastest with the allowance is recommended, to the exact decibel', () => {
    // SF10 needs -15 dB: 6 dB of margin; SF9 needs -12.5: 3.5.
    expect(usableDataRates(place).recommendedDataRate).toBe(2);
    expect(usableDataRates({ ...place, fadeAllowanceDb: 6 }).recommendedDataRate).toBe(2);
    expect(usableDataRates({ ...place, fadeAllowanceDb: 6.001 }).recommendedDataRate).toBe(1);
    expect(usableDataRates({ ...place, fadeAllowanceDb: 3.5 }).recommendedDataRate).toBe(3);
    expect(usableDataRates({ ...place, fadeAllowanceDb: 11.1 }).recommendedDataRate).toBeUndefined();
    const short = usableDataRates({ ...place, fadeAllowanceDb: 11.1 }).dataRates.at(-1);
    expect(short?.reasons).toEqual(['0.1 dB short of the allowance for fading']);
  });

  test('bytes that a data rate does not carry, and a law that forbids it', () => {
    const near = { ...place, snrDb: 20 };
    const heavy = usableDataRates({ ...near, applicationBytes: 100 });
    expect(heavy.dataRates.filter(({ usable }) => usable).map(({ dataRate }) => dataRate)).toEqual([
      6, 5, 4, 3,
    ]);
    expect(heavy.dataRates.at(-1)?.reasons).toEqual(['carries 51 bytes at most']);
    const american = usableDataRates({
      ...near,
      region: regions.US915,
      applicationBytes: 11,
      jurisdiction: 'US',
      channelUse: 'hopping-64',
    });
    // 15.247: 0.4 s in 20 s; SF10 with 11 bytes takes 370.688 ms: one in 20 s, less the 29.312 ms that are left.
    const slowest = american.dataRates.at(-1)?.pace;
    expect(slowest).toMatchObject({ possible: true, framesPerHour: 180, book: 'US 902.3 MHz' });
    expect(slowest?.possible && slowest.minimumIntervalSeconds).toBeCloseTo(20 - 0.029312, 9);
    const [fastest] = american.dataRates;
    // 500 kHz is digital modulation, without a dwell time: back to back.
    expect(fastest).toMatchObject({ dataRate: 4, pace: { possible: true, book: undefined } });
    const wide = usableDataRates({ ...near, applicationBytes: 11, jurisdiction: 'EU' });
    expect(wide.dataRates[0]?.reasons[0]).toContain('give its frequency');
    expect(wide.recommendedDataRate).toBe(5);
  });

  test('a strong signal is judged by its RSSI, a weak one by its SNR', () => {
    const strong = { ...place, snrDb: 12, rssiDbm: -80, noiseFigureDb: 6 };
    const choice = usableDataRates(strong);
    // By hand: S = -80 - 10 lg(1 + 10^-1.2) = -80.266; k T B at 290 K in 125 kHz = -123.006 dBm; -80.266 + 123.006 - 6.
    expect(choice).toMatchObject({ fromRssi: true });
    expect(choice.snrDb).toBeCloseTo(36.74, 2);
    expect(usableDataRates({ ...strong, snrDb: 9 })).toMatchObject({ fromRssi: false, snrDb: 9 });
    expect(usableDataRates({ ...strong, rssiDbm: -110 })).toMatchObject({ fromRssi: false, snrDb: 12 });
  });

  test('more signal never takes a data rate away, and the recommended one keeps the allowance', () =>
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.constantFrom(regions.EU868, regions.US915, regions.AU915, regions.KR920),
        (snrDb, moreDb, fadeAllowanceDb, region) => {
          const less = usableDataRates({ ...place, region, snrDb, fadeAllowanceDb });
          const more = usableDataRates({ ...place, region, snrDb: snrDb + moreDb, fadeAllowanceDb });
          for (const [index, each] of less.dataRates.entries()) {
            if (each.usable) expect(more.dataRates[index]?.usable).toBe(true);
          }
          const chosen = less.dataRates.find(({ dataRate }) => dataRate === less.recommendedDataRate);
          if (chosen === undefined) return;
          expect(chosen.marginDb).toBeGreaterThanOrEqual(fadeAllowanceDb - 1e-9);
          for (const each of less.dataRates) {
            if (each.usable) expect(each.bitRateBps).toBeLessThanOrEqual(chosen.bitRateBps);
          }
        },
      ),
    ));

  test.each([
    ['snrDb', { snrDb: 101 }],
    ['snrDb', { snrDb: Number.NaN }],
    ['referenceDataRate', { referenceDataRate: 7 }],
    ['referenceDataRate', { referenceDataRate: 13 }],
    ['fadeAllowanceDb', { fadeAllowanceDb: -1 }],
    ['noiseFigureDb', { rssiDbm: -100 }],
    ['rssiDbm', { noiseFigureDb: 6 }],
    ['applicationBytes', { jurisdiction: 'EU' }],
    ['jurisdiction', { frequencyHz: 868.1e6 }],
    ['jurisdiction', { access: 'duty-cycle' }],
    ['applicationBytes', { applicationBytes: 243 }],
    ['dwellLimited', { dwellLimited: 1 }],
    ['region', { region: 'EU868' }],
  ])('%s of %o is refused by name', (argument, wrong) =>
    expect(() => usableDataRates({ ...place, ...wrong } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

describe('lawfulPace', () => {
  const european = { region: regions.EU868, jurisdiction: 'EU', frequencyHz: 868.1e6 } as const;

  test('36 s in an hour: whole frames, with what the budget leaves', () => {
    // 36 frames of 1 s, exactly; by hand 3600 / 36.
    const exact = lawfulPace({ ...european, dataRate: 0, timeOnAirSeconds: 1 });
    expect(exact).toMatchObject({ possible: true, minimumIntervalSeconds: 100, framesPerHour: 36 });
    // 2793.472 ms (reference, worked values): 12 frames take 33.521664 s, 2.478336 s are left: (3600 - 2.478336) / 12.
    const slow = lawfulPace({ ...european, dataRate: 0, applicationBytes: 51 });
    expect(slow.possible && slow.minimumIntervalSeconds).toBeCloseTo(299.793472, 6);
  });

  test('the daily budget binds where it is tighter', () => {
    const pace = lawfulPace({ ...european, dataRate: 0, timeOnAirSeconds: 1, dailyBudgetSeconds: 30 });
    expect(pace).toMatchObject({ possible: true, minimumIntervalSeconds: 2880, book: 'daily budget' });
  });

  test('what never fits, or is not covered, has no pace but a reason', () => {
    const long = lawfulPace({ ...european, dataRate: 0, timeOnAirSeconds: 37 });
    expect(long).toEqual({ possible: false, reason: 'too long for EU 868 to 868.6 MHz' });
    const foreign = lawfulPace({ ...european, frequencyHz: 868.65e6, dataRate: 0, timeOnAirSeconds: 1 });
    expect(!foreign.possible && foreign.reason).toContain('alarms');
  });

  test('a ledger lets the pace pass for ever, and a microsecond less not', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 300_000, max: 36_000_000 }),
        fc.constantFrom('EU', 'US', 'KR'),
        (lengthUs, law) => {
          const setting = {
            EU: { ...european, dataRate: 0 },
            US: { region: regions.US915, jurisdiction: 'US', frequencyHz: 902.3e6, dataRate: 0 },
            KR: { region: regions.KR920, jurisdiction: 'KR', frequencyHz: 922.1e6, dataRate: 0 },
          } as const;
          const durationUs = law === 'EU' ? lengthUs : Math.round(lengthUs / (law === 'US' ? 90 : 9));
          const frame = { ...setting[law], timeOnAirSeconds: durationUs / 1e6 };
          const pace = lawfulPace(frame);
          if (!pace.possible) throw new Error(pace.reason);
          const everyUs = Math.round(pace.minimumIntervalSeconds * 1e6);
          expect(allPass(everyUs)).toBe(true);
          expect(allPass(everyUs - 1)).toBe(false);

          function allPass(intervalUs: number): boolean {
            const ledger = transmitLedger(frame);
            for (let index = 0; index < 260; index++) {
              const tx = { ...frame, startSeconds: (index * intervalUs) / 1e6 };
              if (!ledger.permits(tx).permitted) return false;
              ledger.record(tx);
            }
            return true;
          }
        },
      ),
      { numRuns: 40 },
    ));
});
