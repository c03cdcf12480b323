import {
  type FrameSettings,
  longestPayloadBytes,
  loraBandwidthsHz,
  maxPayload,
  regions,
  slowestDataRate,
  timeOnAir,
  timesOnAirSeconds,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

const settings: fc.Arbitrary<FrameSettings> = fc.record({
  spreadingFactor: fc.integer({ min: 5, max: 12 }),
  bandwidthHz: fc.constantFrom(...loraBandwidthsHz),
  codingRate: fc.integer({ min: 5, max: 8 }),
  preambleSymbols: fc.integer({ min: 1, max: 1000 }),
  header: fc.constantFrom('explicit' as const, 'implicit' as const),
  crc: fc.boolean(),
});

describe('longest payload against the payload tables of regional parameters', () => {
  const { rows, limitMs } = vectors.dwellCrossCheck;
  const second = vectors.cn470OneSecondCheck;
  test('the file still holds its rows', () => {
    expect(rows).toHaveLength(6);
    expect(second.rows).toHaveLength(3);
  });

  // MACPayload is 5 bytes less than what the chip sends, and no LoRaWAN frame is shorter than 12 bytes.
  test.each(rows)('SF$spreadingFactor in 400 ms: M = $publishedM', (row) => {
    const { spreadingFactor, bandwidthHz, publishedM } = row;
    const question = { spreadingFactor, bandwidthHz, codingRate: 5, maxSeconds: limitMs / 1e3 };
    const got = longestPayloadBytes(question);
    const longest = got.fits ? got.payloadBytes : 0;
    if (publishedM === null) expect(longest).toBeLessThan(12);
    else expect(longest).toBe(publishedM + 5);
  });

  test.each(second.rows)('SF$spreadingFactor in one second: M = $publishedM', (row) => {
    const { spreadingFactor, publishedM } = row;
    const got = longestPayloadBytes({ spreadingFactor, bandwidthHz: 125e3, codingRate: 5, maxSeconds: 1 });
    expect(got.fits && got.payloadBytes).toBe(publishedM + 5);
  });

  test.each(vectors.airtime)(
    'the printed duration is enough for the frame that has it: $totalMs ms',
    (row) => {
      const { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, crc } = row;
      const { lowDataRateOptimize } = row;
      const header = row.header as 'explicit' | 'implicit';
      const got = longestPayloadBytes({
        spreadingFactor,
        bandwidthHz,
        codingRate,
        preambleSymbols,
        header,
        crc,
        lowDataRateOptimize,
        maxSeconds: row.totalMs / 1e3,
      });
      expect(got.fits && got.payloadBytes).toBeGreaterThanOrEqual(payloadBytes);
      expect(got.fits && Math.abs(got.timeOnAir.totalSeconds - row.totalMs / 1e3)).toBeLessThan(1e-9);
    },
  );
});

describe('longest payload, properties', () => {
  test('exact at its edge: the payload fits, one byte more does not', () =>
    fc.assert(
      fc.property(settings, fc.double({ min: 1e-4, max: 60, noNaN: true }), (frame, maxSeconds) => {
        const got = longestPayloadBytes({ ...frame, maxSeconds });
        if (!got.fits) {
          expect(got.shortestSeconds).toBeGreaterThan(maxSeconds);
          expect(got.shortestSeconds).toBe(timeOnAir({ ...frame, payloadBytes: 0 }).totalSeconds);
          return;
        }
        expect(got.timeOnAir).toEqual(timeOnAir({ ...frame, payloadBytes: got.payloadBytes }));
        expect(got.timeOnAir.totalSeconds).toBeLessThanOrEqual(maxSeconds * (1 + 1e-12));
        if (got.payloadBytes < 255) {
          const longer = timeOnAir({ ...frame, payloadBytes: got.payloadBytes + 1 });
          expect(longer.totalSeconds).toBeGreaterThan(maxSeconds);
        }
      }),
    ));

  test('inverse of the time on air: the frame itself, or a longer one of the same duration', () =>
    fc.assert(
      fc.property(settings, fc.integer({ min: 0, max: 255 }), (frame, payloadBytes) => {
        const { totalSeconds } = timeOnAir({ ...frame, payloadBytes });
        const got = longestPayloadBytes({ ...frame, maxSeconds: totalSeconds });
        expect(got.fits && got.payloadBytes).toBeGreaterThanOrEqual(payloadBytes);
        expect(got.fits && got.timeOnAir.totalSeconds).toBe(totalSeconds);
        const less = longestPayloadBytes({ ...frame, maxSeconds: totalSeconds * (1 - 1e-9) });
        expect(less.fits ? less.payloadBytes : -1).toBeLessThan(payloadBytes);
      }),
    ));

  test('more time never carries less', () =>
    fc.assert(
      fc.property(settings, fc.double({ min: 1e-3, max: 10, noNaN: true }), (frame, maxSeconds) => {
        const bytesIn = (limit: number) => {
          const got = longestPayloadBytes({ ...frame, maxSeconds: limit });
          return got.fits ? got.payloadBytes : -1;
        };
        expect(bytesIn(maxSeconds * 1.1)).toBeGreaterThanOrEqual(bytesIn(maxSeconds));
      }),
    ));

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, '0.4', undefined, null])(
    'maxSeconds %s is refused by name',
    (maxSeconds) => {
      const question = { spreadingFactor: 7, bandwidthHz: 125e3, codingRate: 5, maxSeconds };
      expect(() => longestPayloadBytes(question as never)).toThrow(
        expect.objectContaining({ name: 'InputError', argument: 'maxSeconds' }),
      );
    },
  );
});

describe('many frames at once', () => {
  test('each as it is alone, wherever it stands', () =>
    fc.assert(
      fc.property(settings, fc.uint8Array({ maxLength: 300 }), (frame, payloadBytes) => {
        const alone = [...payloadBytes].map(
          (bytes) => timeOnAir({ ...frame, payloadBytes: bytes }).totalSeconds,
        );
        expect([...timesOnAirSeconds({ ...frame, payloadBytes })]).toEqual(alone);
      }),
    ));

  const frames = {
    spreadingFactor: 7,
    bandwidthHz: 125e3,
    codingRate: 5,
    payloadBytes: Uint8Array.of(13, 24),
  };

  test('into an array of the caller', () => {
    const outSeconds = new Float64Array(2);
    expect(timesOnAirSeconds({ ...frames, outSeconds })).toBe(outSeconds);
    // 46.336 and 61.696 ms: rows of the reference table.
    expect(outSeconds[0]).toBeCloseTo(0.046336, 9);
    expect(outSeconds[1]).toBeCloseTo(0.061696, 9);
  });

  test.each([
    ['payloadBytes', [13, 24]],
    ['payloadBytes', undefined],
    ['outSeconds', [0, 0]],
    ['outSeconds', new Float32Array(2)],
    ['outSeconds', new Float64Array(3)],
    ['spreadingFactor', 13],
    ['bandwidthHz', Number.NaN],
  ])('%s = %s is refused by name', (argument, value) =>
    expect(() => timesOnAirSeconds({ ...frames, [argument]: value } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test('wrong settings are refused without a frame, too', () =>
    expect(() => timesOnAirSeconds({ ...frames, codingRate: 4, payloadBytes: new Uint8Array(0) })).toThrow(
      expect.objectContaining({ argument: 'codingRate' }),
    ));
});

describe('slowest data rate against the payload tables', () => {
  const uplink = { region: regions.US915, direction: 'uplink' } as const;

  // US915 uplinks, RP001 1.0.3revA table 16: N = 11, 53, 125, 242 on DR0 to DR3.
  test.each([
    [0, 0],
    [11, 0],
    [12, 1],
    [53, 1],
    [54, 2],
    [125, 2],
    [126, 3],
    [242, 3],
  ])('US915, %i bytes: DR%i', (applicationBytes, dataRate) => {
    const got = slowestDataRate({ ...uplink, applicationBytes });
    expect(got.found && got.dataRate).toBe(dataRate);
  });

  test('EU868: the first rows have one and the same table, so that the slowest of them comes', () => {
    const at = (applicationBytes: number, maxSeconds?: number) =>
      slowestDataRate({ region: regions.EU868, direction: 'uplink', applicationBytes, maxSeconds });
    const first = at(51);
    expect(first).toMatchObject({ found: true, dataRate: 0, spreadingFactor: 12, phyPayloadBytes: 64 });
    // 64 bytes take 2793.472 ms at SF12, 1560.576 ms at SF11, 698.368 ms at SF10: rows of the reference table.
    expect(at(51, 2.793472)).toMatchObject({ dataRate: 0 });
    expect(at(51, 2.7934)).toMatchObject({ dataRate: 1 });
    expect(at(51, 0.7)).toMatchObject({ dataRate: 2 });
  });

  test('MAC commands take their bytes', () => {
    const got = slowestDataRate({ ...uplink, applicationBytes: 11, fOptsBytes: 1 });
    expect(got.found && got.dataRate).toBe(1);
  });

  test('says how far it is where nothing fits', () => {
    expect(slowestDataRate({ ...uplink, applicationBytes: 242, fOptsBytes: 0, maxSeconds: 0.01 })).toEqual({
      found: false,
      reason: 'The fastest, DR4 of US915, takes 0.1768 s for this frame.',
    });
    const repeated = { ...regions.EU868, dataRates: regions.EU868.dataRates.slice(0, 3) };
    expect(slowestDataRate({ region: repeated, direction: 'uplink', applicationBytes: 52 })).toEqual({
      found: false,
      reason: 'At most 51 bytes fit, on DR0, DR1, DR2 of EU868.',
    });
    const limited = slowestDataRate({
      region: regions.EU868,
      direction: 'uplink',
      applicationBytes: 1,
      dwellLimited: true,
    });
    expect(limited.found || limited.reason).toBe('No LoRa data rate of EU868 can be used for this.');
  });

  test('the answer carries the payload in the time, and every slower row does not', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(regions.EU868, regions.US915),
        fc.constantFrom('uplink' as const, 'downlink' as const),
        fc.integer({ min: 0, max: 242 }),
        fc.double({ min: 0.02, max: 4, noNaN: true }),
        (region, direction, applicationBytes, maxSeconds) => {
          const got = slowestDataRate({ region, direction, applicationBytes, maxSeconds });
          const secondsOn = (spreadingFactor: number, bandwidthHz: number) =>
            timeOnAir({
              spreadingFactor,
              bandwidthHz,
              codingRate: 5,
              payloadBytes: applicationBytes + 13,
              crc: direction === 'uplink',
            }).totalSeconds;
          const slowerSeconds = got.found ? got.timeOnAir.totalSeconds : 0;
          if (got.found) expect(got.timeOnAir.totalSeconds).toBeLessThanOrEqual(maxSeconds);
          for (const row of region.dataRates) {
            const room = maxPayload({ region, direction, dataRate: row.dataRate });
            if (row.modulation !== 'LoRa' || !room.available || room.applicationBytes < applicationBytes)
              continue;
            const seconds = secondsOn(row.spreadingFactor, row.bandwidthHz);
            if (seconds > slowerSeconds) expect(seconds).toBeGreaterThan(maxSeconds);
          }
        },
      ),
    ));

  test.each([
    ['applicationBytes', -1],
    ['applicationBytes', 243],
    ['fOptsBytes', 16],
    ['maxSeconds', 0],
    ['maxSeconds', Number.NaN],
    ['direction', 'up'],
    ['dwellLimited', 1],
    ['region', 'US915'],
  ])('%s = %s is refused by name', (argument, value) =>
    expect(() => slowestDataRate({ ...uplink, applicationBytes: 10, [argument]: value } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});
