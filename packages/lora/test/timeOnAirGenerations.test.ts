import { type Frame, loraBandwidthsHz, loraSymbol, timeOnAir } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** The figures below are printed to the nanosecond. */
const toleranceSeconds = 0.5e-9 + 1e-12;

describe('2.4 GHz against the SX128x driver of the MAC stack SWL2001 a7922d4', () => {
  // The driver gives a fraction with the bandwidth as its denominator; its formula was compiled by itself, and the fractions divided.
  test.each([
    [5, 1_625_000, 5, 20, 'explicit', true, 12, 0.001403077],
    [6, 812_500, 5, 20, 'explicit', true, 12, 0.005218462],
    [7, 203_125, 5, 20, 'explicit', true, 8, 0.034816],
    [8, 1_625_000, 7, 100, 'explicit', true, 12, 0.032492308],
    [9, 406_250, 8, 255, 'explicit', true, 8, 0.600221538],
    [10, 812_500, 5, 51, 'explicit', false, 8, 0.088536615],
    [11, 1_625_000, 5, 20, 'explicit', true, 8, 0.057028923],
    [11, 203_125, 5, 20, 'explicit', true, 8, 0.456231385],
    [12, 812_500, 5, 20, 'explicit', true, 8, 0.202909538],
    [12, 203_125, 5, 51, 'explicit', true, 8, 1.517410462],
    [12, 1_625_000, 6, 255, 'implicit', true, 8, 0.822350769],
    [11, 406_250, 8, 0, 'implicit', false, 8, 0.102084923],
  ] as const)(
    'SF%i at %i Hz, 4/%i, %i bytes, %s, CRC %s, preamble %i: %f s',
    (spreadingFactor, bandwidthHz, codingRate, payloadBytes, header, crc, preambleSymbols, seconds) => {
      const frame = { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, header, crc };
      expect(Math.abs(timeOnAir(frame).totalSeconds - seconds)).toBeLessThanOrEqual(toleranceSeconds);
    },
  );

  test('SF11 and SF12 are optimised at every bandwidth there, below that none', () => {
    for (const bandwidthHz of [203_125, 406_250, 812_500, 1_625_000]) {
      for (const spreadingFactor of [5, 6, 7, 8, 9, 10, 11, 12]) {
        const { lowDataRateOptimize } = loraSymbol({ spreadingFactor, bandwidthHz });
        expect(lowDataRateOptimize, `SF${spreadingFactor} at ${bandwidthHz}`).toBe(spreadingFactor >= 11);
      }
    }
  });

  test('a caller may force it off', () => {
    const frame = { spreadingFactor: 12, bandwidthHz: 812_500, codingRate: 5, payloadBytes: 20 };
    expect(timeOnAir({ ...frame, lowDataRateOptimize: false }).lowDataRateOptimize).toBe(false);
  });
});

describe('the first generation against SX1276/77/78/79 datasheet rev 7, section 4.1.1.7', () => {
  // SF6: n + 4.25 symbols, then 8 + ceil((8 PL - 24 + 28 + 16 CRC - 20) / 24) CR of 0.512 ms at 125 kHz, by hand in fractions.
  test.each([
    [20, 8, true, 5, 125e3, 43, 0.028288],
    [20, 12, true, 5, 125e3, 43, 0.030336],
    [255, 8, true, 8, 500e3, 688, 0.089632],
    [1, 8, false, 5, 250e3, 8, 0.005184],
  ])('SF6, %i bytes, preamble %i, CRC %s, 4/%i, %i Hz', (...row) => {
    const [payloadBytes, preambleSymbols, crc, codingRate, bandwidthHz, payloadSymbols, seconds] = row;
    const settings = { spreadingFactor: 6, bandwidthHz, codingRate, payloadBytes, preambleSymbols, crc };
    const got = timeOnAir({ ...settings, header: 'implicit', generation: 'first' });
    expect(got.payloadSymbols).toBe(payloadSymbols);
    expect(Math.abs(got.totalSeconds - seconds)).toBeLessThanOrEqual(toleranceSeconds);
  });

  test('SF6 has two symbols less of sync than in the second', () => {
    const frame = { spreadingFactor: 6, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 20 };
    const [first, second] = (['first', 'second'] as const).map((generation) =>
      timeOnAir({ ...frame, header: 'implicit', generation }),
    );
    expect(second && first && second.preambleSeconds - first.preambleSeconds).toBeCloseTo(2 * 0.000512, 12);
    expect(timeOnAir({ ...frame, header: 'implicit' })).toEqual(second);
  });

  test('from SF7 up the generations send the same', () =>
    fc.assert(
      fc.property(
        fc.record({
          spreadingFactor: fc.integer({ min: 7, max: 12 }),
          bandwidthHz: fc.constantFrom(...loraBandwidthsHz),
          codingRate: fc.integer({ min: 5, max: 8 }),
          payloadBytes: fc.integer({ min: 0, max: 255 }),
          header: fc.constantFrom('explicit' as const, 'implicit' as const),
        }),
        (frame) => {
          expect(timeOnAir({ ...frame, generation: 'first' })).toEqual(
            timeOnAir({ ...frame, generation: 'second' }),
          );
        },
      ),
    ));

  const frame = { spreadingFactor: 6, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 20 };
  test.each([
    ['SF6 with explicit header', { ...frame, generation: 'first' }],
    ['SF5', { ...frame, spreadingFactor: 5, header: 'implicit', generation: 'first' }],
    ['a third generation', { ...frame, generation: 'third' }],
    ['a third generation from SF7 up', { ...frame, spreadingFactor: 7, generation: 'third' }],
    ['no name', { ...frame, generation: null }],
  ])('%s is refused by name', (_, bad) =>
    expect(() => timeOnAir(bad as Frame)).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'unknown-option', argument: 'generation' }),
    ),
  );
});

describe('the long interleaver', () => {
  test.each(['LI 4/5', 'LI 4/6', 'LI 4/8'])('%s is refused, and the message names it', (codingRate) => {
    const frame = { spreadingFactor: 7, bandwidthHz: 812_500, codingRate, payloadBytes: 20 };
    const call = () => timeOnAir(frame as unknown as Frame);
    expect(call).toThrow(expect.objectContaining({ name: 'InputError', argument: 'codingRate' }));
    expect(call).toThrow(/no LI/);
  });
});

describe('what every chip has in common', () => {
  const settings = fc.record({
    spreadingFactor: fc.integer({ min: 5, max: 12 }),
    bandwidthHz: fc.constantFrom(...loraBandwidthsHz),
    payloadBytes: fc.integer({ min: 0, max: 255 }),
    header: fc.constantFrom('explicit' as const, 'implicit' as const),
    crc: fc.boolean(),
  });

  test('each step of the coding rate adds one symbol to every block', () =>
    fc.assert(
      fc.property(settings, fc.integer({ min: 5, max: 7 }), (frame, codingRate) => {
        const plain = timeOnAir({ ...frame, codingRate });
        const safer = timeOnAir({ ...frame, codingRate: codingRate + 1 });
        const blocks = (plain.payloadSymbols - 8) / codingRate;
        expect(safer.payloadSymbols - plain.payloadSymbols).toBe(blocks);
        expect(safer.totalSeconds).toBeGreaterThanOrEqual(plain.totalSeconds);
      }),
    ));

  test('each symbol of the preamble adds one symbol', () =>
    fc.assert(
      fc.property(settings, fc.integer({ min: 1, max: 1000 }), (frame, preambleSymbols) => {
        const at = (symbols: number) => timeOnAir({ ...frame, codingRate: 5, preambleSymbols: symbols });
        const got = at(preambleSymbols);
        const added = at(preambleSymbols + 1).totalSeconds - got.totalSeconds;
        expect(Math.abs(added / got.symbolSeconds - 1)).toBeLessThan(1e-9);
      }),
    ));

  test('of the frames that differ in header and CRC only, the bare one is never longer', () =>
    fc.assert(
      fc.property(settings, (frame) => {
        const bare = timeOnAir({ ...frame, codingRate: 5, header: 'implicit', crc: false });
        expect(timeOnAir({ ...frame, codingRate: 5 }).totalSeconds).toBeGreaterThanOrEqual(bare.totalSeconds);
      }),
    ));
});
