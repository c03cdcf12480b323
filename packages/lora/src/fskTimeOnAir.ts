import { checkInteger, checkObject, checkOneOf, checkRange } from '@finial/units';

/** A frame of frequency-shift keying in the packet format of LoRa chips. */
export interface FskFrame {
  /** Bytes that the chip is given, 0 to 255; for LoRaWAN the whole PHYPayload, see `phyPayloadBytes`. */
  readonly payloadBytes: number;
  /**
   * Rate on the air in bits per second, 600 to 300 000.
   *
   * @defaultValue 50 000, the rate of LoRaWAN
   */
  readonly bitRateBps?: number | undefined;
  /**
   * Bytes of the preamble, 1 to 8191.
   *
   * @defaultValue 5
   */
  readonly preambleBytes?: number | undefined;
  /**
   * Bytes of the sync word, 0 to 8.
   *
   * @defaultValue 3
   */
  readonly syncWordBytes?: number | undefined;
  /** Whether two bytes of CRC follow; true unless given. */
  readonly crc?: boolean | undefined;
}

/** How long such a frame occupies its channel, and what that is made of. */
export interface FskTimeOnAir {
  /** Duration of one bit in seconds. */
  readonly bitSeconds: number;
  /** Duration of preamble and sync word in seconds. */
  readonly preambleSeconds: number;
  /** Bits of the frame, preamble and sync word included. */
  readonly totalBits: number;
  /** Duration of length byte, payload and CRC in seconds. */
  readonly payloadSeconds: number;
  /** Duration of the whole frame in seconds. */
  readonly totalSeconds: number;
}

const lengthBytes = 1;
const crcBytes = 2;

/**
 * Time on air of a frame of frequency-shift keying (FSK, GFSK), DR7 of several LoRaWAN channel plans.
 *
 * The format is the variable-length packet: preamble, sync word, one length byte, payload, CRC. Whitening and Gaussian shaping change
 * no duration; Manchester coding, address bytes and the ramp of the amplifier are not counted.
 *
 * @returns seconds, relative error below 1e-15; not rounded up to whole milliseconds, as MAC stacks do
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `unknown-option`: a field is not what {@link FskFrame} says;
 * `wrong-type`: no frame at all
 * @source RP001 1.0.3revA, table 2 (preamble 5 bytes, sync word C194C1); packet format and 50 kbit/s from MAC stack sources; limits of the
 * fields from memory
 * @example The longest LoRaWAN frame at 50 kbit/s
 * ```ts
 * import { fskTimeOnAir } from '@finial/lora';
 *
 * fskTimeOnAir({ payloadBytes: 255 }).totalSeconds; // ≈ 0.04256
 * ```
 */
export function fskTimeOnAir(frame: FskFrame): FskTimeOnAir {
  checkObject(frame, 'frame');
  const { bitRateBps = 50_000, preambleBytes = 5, syncWordBytes = 3, crc = true } = frame;
  const payloadBytes = checkInteger(frame.payloadBytes, 'payloadBytes', { min: 0, max: 255, unit: 'bytes' });
  checkRange(bitRateBps, 'bitRateBps', {
    min: 600,
    max: 300_000,
    unit: 'bits per second',
    hints: [{ name: 'kilobits per second', ratio: 1e3 }],
  });
  checkInteger(preambleBytes, 'preambleBytes', { min: 1, max: 8191, unit: 'bytes' });
  checkInteger(syncWordBytes, 'syncWordBytes', { min: 0, max: 8, unit: 'bytes' });
  const checkBytes = checkOneOf(crc, 'crc', [true, false]) ? crcBytes : 0;

  const preambleBits = 8 * (preambleBytes + syncWordBytes);
  const payloadBits = 8 * (lengthBytes + payloadBytes + checkBytes);
  const totalBits = preambleBits + payloadBits;
  return {
    bitSeconds: 1 / bitRateBps,
    preambleSeconds: preambleBits / bitRateBps,
    totalBits,
    payloadSeconds: payloadBits / bitRateBps,
    totalSeconds: totalBits / bitRateBps,
  };
}
