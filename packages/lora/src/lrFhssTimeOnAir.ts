import { checkInteger, checkObject, checkOneOf } from '@finial/units';

/** A frame of long-range frequency hopping. */
export interface LrFhssFrame {
  /** Bytes that the chip is given, 0 to 255; for LoRaWAN the whole PHYPayload, see `phyPayloadBytes`. */
  readonly payloadBytes: number;
  /** Rate of the convolutional code: `1/3` is sent with three headers, `2/3` with two. */
  readonly codeRate: '1/3' | '2/3';
}

/** How long such a frame lasts over all its hops, and what that is made of. */
export interface LrFhssTimeOnAir {
  /** Repetitions of the header, each on a frequency of its own. */
  readonly headerCount: number;
  /** Duration of all headers in seconds. */
  readonly headerSeconds: number;
  /** Bits of payload and CRC after the code, before they are cut into blocks. */
  readonly codedBits: number;
  /** Blocks of the payload, each on a frequency of its own; the last may be a short one. */
  readonly blockCount: number;
  /** Duration of all blocks in seconds. */
  readonly payloadSeconds: number;
  /** Hops of the frame: headers and blocks. */
  readonly hopCount: number;
  /** Longest time on one frequency in seconds: a header. Dwell-time rules look at it. */
  readonly longestHopSeconds: number;
  /** Duration of the whole frame in seconds. Duty-cycle rules look at it. */
  readonly totalSeconds: number;
}

/** 488.28125 bit/s. */
const bitSeconds = 0.002048;
const headerBits = 114;
/** Coded bits that one block carries, and the bits that each block adds. */
const blockBits = 48;
const blockOverheadBits = 2;
const crcBytes = 2;
/** Zeros that flush the convolutional coder. */
const tailBits = 6;

/**
 * Time on air of an LR-FHSS frame, the uplinks of DR8 to DR11 in EU868, DR5 and DR6 in US915, DR7 in AU915.
 *
 * The frame hops: each header and each block has a frequency of its own, so that a limit on the time on one frequency meets
 * {@link LrFhssTimeOnAir.longestHopSeconds} and not the whole frame. The number of headers is that of LoRaWAN. What a channel plan lets
 * a frame carry is much less than the 255 bytes that are accepted here.
 *
 * @returns seconds, relative error below 1e-15
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `unknown-option`: a field is not what {@link LrFhssFrame} says;
 * `wrong-type`: no frame at all
 * @source MAC stack SWL2001 9a14f67 (frame format and rate); the format's own specification was not read
 * @example The longest frame of DR8 in EU868: 58 bytes of MACPayload and 5 around them
 * ```ts
 * import { lrFhssTimeOnAir } from '@finial/lora';
 *
 * const frame = lrFhssTimeOnAir({ payloadBytes: 63, codeRate: '1/3' });
 * frame.totalSeconds; // ≈ 4.067328
 * frame.longestHopSeconds; // ≈ 0.233472
 * ```
 */
export function lrFhssTimeOnAir(frame: LrFhssFrame): LrFhssTimeOnAir {
  checkObject(frame, 'frame');
  const payloadBytes = checkInteger(frame.payloadBytes, 'payloadBytes', { min: 0, max: 255, unit: 'bytes' });
  const thirds = checkOneOf(frame.codeRate, 'codeRate', ['1/3', '2/3']) === '1/3';

  const headerCount = thirds ? 3 : 2;
  // The number of bits before the code is even, so that the half bits of rate 2/3 come in pairs.
  const codedBits = ((payloadBytes + crcBytes) * 8 + tailBits) * (thirds ? 3 : 1.5);
  const blockCount = Math.ceil(codedBits / blockBits);
  const payloadBits = codedBits + blockCount * blockOverheadBits;
  return {
    headerCount,
    headerSeconds: headerCount * headerBits * bitSeconds,
    codedBits,
    blockCount,
    payloadSeconds: payloadBits * bitSeconds,
    hopCount: headerCount + blockCount,
    longestHopSeconds: headerBits * bitSeconds,
    totalSeconds: (headerCount * headerBits + payloadBits) * bitSeconds,
  };
}
