import { fskTimeOnAir, lrFhssTimeOnAir } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

describe('FSK against its packet format (RP001 1.0.3revA table 2; MAC stack sources)', () => {
  // 8 bits for each byte of preamble (5), sync word (3), length (1), payload and CRC (2), at 50 kbit/s, by hand.
  test.each([
    [0, 88, 0.00176],
    [13, 192, 0.00384],
    [23, 272, 0.00544],
    [255, 2128, 0.04256],
  ])('%i bytes are %i bits: %f s', (payloadBytes, totalBits, seconds) => {
    const got = fskTimeOnAir({ payloadBytes });
    expect(got.totalBits).toBe(totalBits);
    expect(got.totalSeconds).toBeCloseTo(seconds, 12);
    expect(got.bitSeconds).toBe(0.00002);
    expect(got.preambleSeconds).toBeCloseTo(0.00128, 12);
  });

  const frames = fc.record({
    payloadBytes: fc.integer({ min: 0, max: 254 }),
    bitRateBps: fc.double({ min: 600, max: 300_000, noNaN: true }),
    preambleBytes: fc.integer({ min: 1, max: 8191 }),
    syncWordBytes: fc.integer({ min: 0, max: 8 }),
    crc: fc.boolean(),
  });

  test('the parts make the whole, a byte is eight bits, and twice the rate takes half the time', () =>
    fc.assert(
      fc.property(frames, (frame) => {
        const got = fskTimeOnAir(frame);
        expect(got.preambleSeconds + got.payloadSeconds).toBeCloseTo(got.totalSeconds, 9);
        const longer = fskTimeOnAir({ ...frame, payloadBytes: frame.payloadBytes + 1 });
        expect(longer.totalBits - got.totalBits).toBe(8);
        const slower = fskTimeOnAir({ ...frame, bitRateBps: Math.max(600, frame.bitRateBps / 2) });
        if (frame.bitRateBps >= 1200) expect(slower.totalSeconds).toBe(2 * got.totalSeconds);
      }),
    ));

  test.each([
    ['payloadBytes', [-1, 256, 1.5, Number.NaN, '10', null, undefined]],
    ['bitRateBps', [0, 50, 599, 300_001, Number.NaN, Number.POSITIVE_INFINITY, '50000', null]],
    ['preambleBytes', [0, 8192, 2.5, Number.NaN, null]],
    ['syncWordBytes', [-1, 9, 2.5, Number.NaN, null]],
    ['crc', ['on', 1, null]],
  ])('%s is refused by name', (argument, values) => {
    for (const value of values) {
      expect(() => fskTimeOnAir({ payloadBytes: 10, [argument]: value } as never), String(value)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });

  test('kilobits are recognised', () =>
    expect(() => fskTimeOnAir({ payloadBytes: 10, bitRateBps: 50 })).toThrow('kilobits per second?'));
});

describe('LR-FHSS against the MAC stack SWL2001 a7922d4', () => {
  // MACPayload of 58 and 133 bytes, the largest of the regional tables: 4067.328 and 4073.472 ms.
  test.each([
    [63, '1/3', 3, 33, 4.067328],
    [138, '2/3', 2, 36, 4.073472],
  ] as const)('%i bytes at %s: %i headers, %i blocks, %f s', (...row) => {
    const [payloadBytes, codeRate, headerCount, blockCount, seconds] = row;
    const got = lrFhssTimeOnAir({ payloadBytes, codeRate });
    expect(got).toMatchObject({ headerCount, blockCount, hopCount: headerCount + blockCount });
    expect(got.totalSeconds).toBeCloseTo(seconds, 9);
  });

  test('13 bytes at 1/3, by hand: 378 coded bits in 7 full blocks and one of 42, 736 bits with three headers', () => {
    const got = lrFhssTimeOnAir({ payloadBytes: 13, codeRate: '1/3' });
    expect(got).toMatchObject({ codedBits: 378, blockCount: 8 });
    expect(got.payloadSeconds).toBeCloseTo(394 * 0.002048, 12);
    expect(got.headerSeconds).toBeCloseTo(342 * 0.002048, 12);
    expect(got.totalSeconds).toBeCloseTo(1.507328, 9);
  });

  test('no hop lasts 400 ms: the longest is a header of 233.472 ms', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 255 }),
        fc.constantFrom('1/3' as const, '2/3' as const),
        (payloadBytes, codeRate) => {
          const got = lrFhssTimeOnAir({ payloadBytes, codeRate });
          expect(got.longestHopSeconds).toBeCloseTo(0.233472, 12);
          expect(Number.isInteger(got.codedBits)).toBe(true);
          expect(got.payloadSeconds / got.blockCount).toBeLessThanOrEqual(0.1024 + 1e-12);
          expect(got.headerSeconds + got.payloadSeconds).toBeCloseTo(got.totalSeconds, 9);
        },
      ),
    ));

  test('the stronger code takes longer, and so does every byte', () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 254 }), (payloadBytes) => {
        const strong = lrFhssTimeOnAir({ payloadBytes, codeRate: '1/3' }).totalSeconds;
        const light = lrFhssTimeOnAir({ payloadBytes, codeRate: '2/3' }).totalSeconds;
        expect(strong).toBeGreaterThan(light);
        const longer = lrFhssTimeOnAir({ payloadBytes: payloadBytes + 1, codeRate: '2/3' }).totalSeconds;
        expect(longer).toBeGreaterThan(light);
      }),
    ));

  test.each([
    ['payloadBytes', [-1, 256, 1.5, Number.NaN, '10', null, undefined]],
    ['codeRate', ['1/2', 5, null, undefined]],
  ])('%s is refused by name', (argument, values) => {
    for (const value of values) {
      const frame = { payloadBytes: 10, codeRate: '1/3', [argument]: value };
      expect(() => lrFhssTimeOnAir(frame as never), String(value)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });
});
