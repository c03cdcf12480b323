import type { InputError } from '@finial/units';
import type { ChipGeneration } from './chipGeneration.js';
import { exactBandwidthHz } from './loraBandwidth.js';
import { type LowDataRateOptimize, optimizationChoices, ruleOptimizes } from './lowDataRateOptimize.js';
import { refused } from './refused.js';

/** A LoRa frame but for what it carries. */
export interface FrameSettings {
  /** Spreading factor, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz, one of {@link loraBandwidthsHz}; rounded to the hertz is understood (10417 for 500 kHz / 48). */
  readonly bandwidthHz: number;
  /** Denominator of the coding rate, a whole number from 5 (4/5, all of LoRaWAN) to 8 (4/8). */
  readonly codingRate: number;
  /** Programmed preamble symbols, 1 to 65535; 8 unless given. The sync part of the preamble comes on top. */
  readonly preambleSymbols?: number | undefined;
  /** Whether the frame carries its own header; `explicit` unless given, `implicit` for beacons. */
  readonly header?: 'explicit' | 'implicit' | undefined;
  /** Whether a payload CRC follows; true unless given (LoRaWAN uplinks), false for LoRaWAN downlinks and beacons. */
  readonly crc?: boolean | undefined;
  /**
   * Low-data-rate optimisation: `auto` unless given, which is on for symbols over 16 ms and for SF11 and SF12 at 2.4 GHz. SF5 and SF6
   * know none and take no true.
   */
  readonly lowDataRateOptimize?: LowDataRateOptimize | undefined;
  /** Generation of the chip, which matters at SF5 and SF6; `second` unless given. */
  readonly generation?: ChipGeneration | undefined;
}

/** One LoRa frame, as the chip is told to send it. */
export interface Frame extends FrameSettings {
  /** Bytes that the chip is given, 0 to 255; for LoRaWAN the whole PHYPayload, see `phyPayloadBytes`. */
  readonly payloadBytes: number;
}

/** How long a frame occupies its channel, and what that is made of. */
export interface TimeOnAir {
  /** Duration of one symbol in seconds. */
  readonly symbolSeconds: number;
  /** Duration of preamble and sync part in seconds. */
  readonly preambleSeconds: number;
  /** Symbols after the preamble, header included. */
  readonly payloadSymbols: number;
  /** Duration of those symbols in seconds. */
  readonly payloadSeconds: number;
  /** Duration of the whole frame in seconds. */
  readonly totalSeconds: number;
  /** Whether low-data-rate optimisation is on. */
  readonly lowDataRateOptimize: boolean;
}

/**
 * Time on air of a LoRa frame.
 *
 * SF7 to SF12 are the same in every chip. SF5 and SF6 follow the second generation unless `generation` says otherwise, and the two
 * do not understand each other. By their datasheets SX127x send SF6 with implicit header only, a sync part of 4.25 symbols and the
 * formula of SF7; one MAC stack computes 6.25 symbols for them, 2 symbols more. Stacks also differ on the optimisation below 125 kHz:
 * the rule here is 'strictly longer than 16 ms', except at 2.4 GHz, where SX1280 optimises SF11 and SF12 whatever it is told. Some of
 * these chips have a long interleaver (coding rates named LI, with the register values 5, 6 and 7): no formula here holds for it, so
 * that a text such as `LI 4/5` is refused.
 *
 * @returns seconds, relative error below 1e-15; nothing is rounded to whole milliseconds, as MAC stacks do (upwards)
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `unknown-option`: a field is not what {@link Frame} says;
 * `wrong-type`: no frame at all
 * @source SX1276/77/78/79 datasheet rev 7, section 4.1.1.7 (SF6 to SF12) and 4.1.1.6 (optimisation over 16 ms); SX1261/2 datasheet
 * rev 1.2, section 6.1.4 (SF5, SF6; as quoted by others); 2.4 GHz: SX128x driver in the MAC stack SWL2001 a7922d4
 * @example The largest uplink that keeps the 400 ms dwell time at SF10
 * ```ts
 * import { timeOnAir } from '@finial/lora';
 *
 * const frame = timeOnAir({ spreadingFactor: 10, bandwidthHz: 125e3, codingRate: 5, payloadBytes: 24 });
 * frame.totalSeconds; // ≈ 0.370688
 * frame.payloadSymbols; // → 33
 * ```
 */
export function timeOnAir(frame: Frame): TimeOnAir {
  const {
    spreadingFactor,
    codingRate,
    payloadBytes,
    preambleSymbols = 8,
    header,
    crc,
    lowDataRateOptimize,
    generation,
  } = frame ?? ({} as Frame);
  // The checks are cheap and have no words, so that the engine folds all of this into the loop that calls it.
  const fault = faultOf(
    spreadingFactor,
    codingRate,
    payloadBytes,
    preambleSymbols,
    header,
    crc,
    lowDataRateOptimize,
    generation,
  );
  if (fault) throw refusedFrame(frame, fault);
  const bandwidthHz = exactBandwidthHz(frame.bandwidthHz);
  const symbolSeconds = (1 << spreadingFactor) / bandwidthHz;
  const optimized =
    typeof lowDataRateOptimize === 'boolean'
      ? lowDataRateOptimize
      : ruleOptimizes(spreadingFactor, bandwidthHz, symbolSeconds);
  const longSync = spreadingFactor < 7 && generation !== 'first';
  // The first 8 symbols are always there and hold the header and some bits; these are the bits that they cannot hold.
  const bits =
    8 * payloadBytes -
    4 * spreadingFactor +
    (header === 'implicit' ? 0 : 20) +
    (crc === false ? 0 : 16) +
    (longSync ? 0 : 8);
  // The coding rate multiplies whole blocks, rounded up: rounding after the multiplication is the usual mistake. Adding a block less
  // one bit and cutting the fraction rounds up, and keeps to whole numbers, which the engine divides faster.
  const blockBits = 4 * spreadingFactor - (optimized ? 8 : 0);
  const payloadSymbols = bits > 0 ? 8 + codingRate * (((bits + blockBits - 1) / blockBits) | 0) : 8;
  const preamble = preambleSymbols + (longSync ? 6.25 : 4.25);
  return {
    symbolSeconds,
    preambleSeconds: preamble * symbolSeconds,
    payloadSymbols,
    payloadSeconds: payloadSymbols * symbolSeconds,
    // Of the exact symbol count, not of the two durations: one rounding instead of three.
    totalSeconds: (preamble + payloadSymbols) * symbolSeconds,
    lowDataRateOptimize: optimized,
  };
}

/**
 * Which of {@link wanted} the frame lacks first, counted from 1, or 0. A bitwise operation leaves only whole numbers as they are, and
 * `>>> 0` turns those below a range into very large ones, so that one comparison sees both ends.
 *
 * The result is a number because that is quickest to pass over when all is well.
 */
function faultOf(
  spreadingFactor: number,
  codingRate: number,
  payloadBytes: number,
  preambleSymbols: number,
  header: Frame['header'],
  crc: Frame['crc'],
  lowDataRateOptimize: Frame['lowDataRateOptimize'],
  generation: Frame['generation'],
): number {
  if ((spreadingFactor | 0) !== spreadingFactor || (spreadingFactor - 5) >>> 0 > 7) return 1;
  if ((codingRate | 0) !== codingRate || (codingRate - 5) >>> 0 > 3) return 2;
  if ((payloadBytes & 255) !== payloadBytes) return 3;
  if ((preambleSymbols & 65_535) !== preambleSymbols || !preambleSymbols) return 4;
  if (header !== undefined && header !== 'explicit' && header !== 'implicit') return 5;
  if (crc !== undefined && crc !== true && crc !== false) return 6;
  if (
    lowDataRateOptimize !== undefined &&
    lowDataRateOptimize !== 'auto' &&
    lowDataRateOptimize !== false &&
    (lowDataRateOptimize !== true || spreadingFactor < 7)
  )
    return 7;
  if (
    generation !== undefined &&
    generation !== 'second' &&
    (generation !== 'first' || spreadingFactor < 6 || (spreadingFactor < 7 && header !== 'implicit'))
  )
    return 8;
  return 0;
}

/** What is wanted in each field. */
const wanted = {
  spreadingFactor: 'a whole number from 5 to 12',
  codingRate: 'a whole number from 5 to 8 (no LI)',
  payloadBytes: 'a whole number from 0 to 255',
  preambleSymbols: 'a whole number from 1 to 65535',
  header: "'explicit' or 'implicit'",
  crc: 'true or false',
  lowDataRateOptimize: optimizationChoices,
  generation: "'second', or from SF7 up 'first' (SF6 implicit)",
};

/** A caller who gave no frame at all lacks every field: say the first thing first. The first four fields are numbers. */
function refusedFrame(frame: Frame, fault: number): InputError {
  if (Object(frame) !== frame || Array.isArray(frame))
    return refused('frame', frame, 'an object', 'wrong-type');
  const [field, expected] = Object.entries(wanted)[fault - 1] as [keyof Frame, string];
  return refused(field, frame[field], expected, fault < 5 ? undefined : 'unknown-option');
}
