import { type Frame, loraBandwidthsHz, timeOnAir } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

/** The vectors are exact results rounded to a microsecond. */
const toleranceSeconds = 0.5e-6 + 1e-12;

describe('time on air against exact rational arithmetic of the datasheet formulas', () => {
  test('the file still holds its cases', () => expect(vectors.airtime).toHaveLength(50));

  test.each(vectors.airtime)(
    'SF$spreadingFactor at $bandwidthHz Hz, 4/$codingRate, $payloadBytes bytes: $totalMs ms',
    (row) => {
      const frame = frameOf(row);
      const got = timeOnAir({ ...frame, lowDataRateOptimize: row.lowDataRateOptimize });
      expect(got.payloadSymbols).toBe(row.payloadSymbols);
      expect(Math.abs(got.symbolSeconds - row.symbolMs / 1e3)).toBeLessThanOrEqual(toleranceSeconds);
      expect(Math.abs(got.preambleSeconds - row.preambleMs / 1e3)).toBeLessThanOrEqual(toleranceSeconds);
      expect(Math.abs(got.payloadSeconds - row.payloadMs / 1e3)).toBeLessThanOrEqual(toleranceSeconds);
      expect(Math.abs(got.totalSeconds - row.totalMs / 1e3)).toBeLessThanOrEqual(toleranceSeconds);
    },
  );

  test.each(vectors.airtime.filter(({ ldroForced }) => !ldroForced))(
    'the 16 ms rule chooses the optimisation: SF$spreadingFactor at $bandwidthHz Hz',
    (row) => {
      const got = timeOnAir(frameOf(row));
      expect(got.lowDataRateOptimize).toBe(row.lowDataRateOptimize);
      expect(Math.abs(got.totalSeconds - row.totalMs / 1e3)).toBeLessThanOrEqual(toleranceSeconds);
    },
  );

  test('defaults are those of a LoRaWAN uplink: 8 symbols, explicit header, CRC', () => {
    const short = { spreadingFactor: 9, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 13 };
    expect(timeOnAir(short)).toEqual(
      timeOnAir({ ...short, preambleSymbols: 8, header: 'explicit', crc: true, lowDataRateOptimize: 'auto' }),
    );
    expect(timeOnAir({ ...short, preambleSymbols: undefined, crc: undefined })).toEqual(timeOnAir(short));
  });

  test('bandwidths rounded to the hertz mean the exact ones', () => {
    const narrow = { spreadingFactor: 7, codingRate: 5, payloadBytes: 20 };
    const exact = timeOnAir({ ...narrow, bandwidthHz: 500e3 / 48 });
    expect(timeOnAir({ ...narrow, bandwidthHz: 10_417 })).toEqual(exact);
    expect(exact.symbolSeconds).toBe(128 / (500e3 / 48));
  });
});

function frameOf(row: (typeof vectors.airtime)[number]): Frame {
  const { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, crc } = row;
  const header = row.header as 'explicit' | 'implicit';
  return { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, header, crc };
}

const frames = fc.record({
  spreadingFactor: fc.integer({ min: 5, max: 12 }),
  bandwidthHz: fc.constantFrom(...loraBandwidthsHz),
  codingRate: fc.integer({ min: 5, max: 8 }),
  payloadBytes: fc.integer({ min: 0, max: 254 }),
  preambleSymbols: fc.integer({ min: 1, max: 65_535 }),
  header: fc.constantFrom('explicit' as const, 'implicit' as const),
  crc: fc.boolean(),
});

describe('time on air, properties', () => {
  test('one more byte never takes less time', () =>
    fc.assert(
      fc.property(frames, (frame) => {
        const longer = timeOnAir({ ...frame, payloadBytes: frame.payloadBytes + 1 });
        expect(longer.totalSeconds).toBeGreaterThanOrEqual(timeOnAir(frame).totalSeconds);
      }),
    ));

  test('a higher spreading factor takes more time, from SF7 up', () =>
    fc.assert(
      fc.property(frames, fc.integer({ min: 7, max: 11 }), (frame, spreadingFactor) => {
        const slower = timeOnAir({ ...frame, spreadingFactor: spreadingFactor + 1 });
        expect(slower.totalSeconds).toBeGreaterThan(timeOnAir({ ...frame, spreadingFactor }).totalSeconds);
      }),
    ));

  test('half the bandwidth takes twice the time while the optimisation stays the same', () =>
    fc.assert(
      fc.property(
        frames,
        fc.constantFrom(250e3, 500e3, 406_250, 1_625_000, 812_500),
        (frame, bandwidthHz) => {
          const wide = timeOnAir({ ...frame, bandwidthHz, lowDataRateOptimize: false });
          const narrow = timeOnAir({ ...frame, bandwidthHz: bandwidthHz / 2, lowDataRateOptimize: false });
          expect(narrow.totalSeconds).toBe(2 * wide.totalSeconds);
        },
      ),
    ));

  test('the parts make the whole, and the count of symbols is eight plus whole blocks', () =>
    fc.assert(
      fc.property(frames, (frame) => {
        const got = timeOnAir(frame);
        expect(got.preambleSeconds + got.payloadSeconds).toBeCloseTo(got.totalSeconds, 9);
        expect((got.payloadSymbols - 8) % frame.codingRate).toBe(0);
        expect(got.payloadSymbols).toBeGreaterThanOrEqual(8);
      }),
    ));
});

describe('time on air, refusals', () => {
  const frame = { spreadingFactor: 7, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 24 };

  test.each([
    ['spreadingFactor', [4, 13, 7.5, Number.NaN, Number.POSITIVE_INFINITY, '7', null, undefined]],
    ['bandwidthHz', [0, 125, -125e3, 10_400, 126e3, Number.NaN, '125000', null, undefined]],
    ['codingRate', [4, 9, 0.8, Number.NaN, '4/5', null, undefined]],
    ['payloadBytes', [-1, 256, 1.5, Number.NaN, Number.POSITIVE_INFINITY, '24', null, undefined]],
    ['preambleSymbols', [0, -8, 8.25, 65_536, Number.NaN, '8', null]],
    ['header', ['Explicit', true, null]],
    ['crc', ['on', 1, null]],
    ['lowDataRateOptimize', ['on', 1, null]],
  ] as const)('%s is refused by name', (argument, values) => {
    for (const value of values) {
      const bad = { ...frame, [argument]: value } as unknown as Frame;
      expect(() => timeOnAir(bad), String(value)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });

  test('kilohertz are recognised', () =>
    expect(() => timeOnAir({ ...frame, bandwidthHz: 125 })).toThrow('kilohertz?'));

  test('SF5 and SF6 know no optimisation', () =>
    expect(() => timeOnAir({ ...frame, spreadingFactor: 6, lowDataRateOptimize: true })).toThrow(
      expect.objectContaining({ code: 'unknown-option', argument: 'lowDataRateOptimize' }),
    ));

  test.each([undefined, null, 'SF7', []])('%s is no frame', (value) =>
    expect(() => timeOnAir(value as unknown as Frame)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'frame' }),
    ),
  );
});
