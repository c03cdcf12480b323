import { checkInteger, checkObject, checkOneOf, InputError } from '@finial/units';
import { checkedCodingRate } from './codingRate.js';
import { exactBandwidthHz } from './loraBandwidth.js';
import { isOptimized, type LowDataRateOptimize } from './lowDataRateOptimize.js';
import { checkedSpreadingFactor } from './spreadingFactor.js';
import { payloadSymbolsKernel, preambleSymbolsKernel, symbolSecondsKernel } from './timeOnAirKernel.js';

/** One LoRa frame, as the chip is told to send it. */
export interface Frame {
  /** Spreading factor, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz, one of {@link loraBandwidthsHz}; rounded to the hertz is understood (10417 for 500 kHz / 48). */
  readonly bandwidthHz: number;
  /** Denominator of the coding rate, a whole number from 5 (4/5, all of LoRaWAN) to 8 (4/8). */
  readonly codingRate: number;
  /** Bytes that the chip is given, 0 to 255; for LoRaWAN the whole PHYPayload, see `phyPayloadBytes`. */
  readonly payloadBytes: number;
  /** Programmed preamble symbols, 1 to 65535; 8 unless given. The sync part of the preamble comes on top. */
  readonly preambleSymbols?: number | undefined;
  /** Whether the frame carries its own header; `explicit` unless given, `implicit` for beacons. */
  readonly header?: 'explicit' | 'implicit' | undefined;
  /** Whether a payload CRC follows; true unless given (LoRaWAN uplinks), false for LoRaWAN downlinks and beacons. */
  readonly crc?: boolean | undefined;
  /** Low-data-rate optimisation: `auto` (on for symbols over 16 ms) unless given. */
  readonly lowDataRateOptimize?: LowDataRateOptimize | undefined;
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

const payloadBounds = { min: 0, max: 255, unit: 'bytes' };
const preambleBounds = { min: 1, max: 65_535, unit: 'symbols' };

/**
 * Time on air of a LoRa frame.
 *
 * SF7 to SF12 are the same in every chip generation. SF5 and SF6 follow the second generation (SX126x and later), which the first
 * does not understand: SX127x sends SF6 with a shorter sync part, and knows no SF5. Chips of 2.4 GHz optimise SF11 and SF12 at any
 * bandwidth (from memory): pass `lowDataRateOptimize: true` there. Stacks differ on the optimisation below 125 kHz; the rule here is
 * 'strictly longer than 16 ms'. The long-interleaver coding rates of later chips are not covered.
 *
 * @returns seconds, relative error below 1e-15; nothing is rounded to whole milliseconds, as MAC stacks do (upwards)
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `unknown-option`: a field is not what {@link Frame} says;
 * `wrong-type`: no frame at all, or a `crc` that is no boolean
 * @source SX1276/77/78/79 datasheet rev 7, section 4.1.1.7 (SF7 to SF12) and 4.1.1.6 (optimisation over 16 ms);
 * SX1261/2 datasheet rev 1.2, section 6.1.4 (SF5, SF6; as quoted by others)
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
  checkObject(frame, 'frame');
  const { preambleSymbols = 8, header = 'explicit', crc = true } = frame;
  const spreadingFactor = checkedSpreadingFactor(frame.spreadingFactor);
  const bandwidthHz = exactBandwidthHz(frame.bandwidthHz);
  const codingRate = checkedCodingRate(frame.codingRate);
  const payloadBytes = frame.payloadBytes;
  if (!isWhole(payloadBytes, payloadBounds)) checkInteger(payloadBytes, 'payloadBytes', payloadBounds);
  if (!isWhole(preambleSymbols, preambleBounds))
    checkInteger(preambleSymbols, 'preambleSymbols', preambleBounds);
  if (header !== 'explicit' && header !== 'implicit') checkOneOf(header, 'header', ['explicit', 'implicit']);
  if (typeof crc !== 'boolean') throw notBoolean(crc);

  const symbolSeconds = symbolSecondsKernel(spreadingFactor, bandwidthHz);
  const optimized = isOptimized(frame.lowDataRateOptimize, spreadingFactor, symbolSeconds);
  const payloadSymbols = payloadSymbolsKernel(
    spreadingFactor,
    codingRate,
    payloadBytes,
    header === 'explicit',
    crc,
    optimized,
  );
  const preamble = preambleSymbolsKernel(spreadingFactor, preambleSymbols);
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

/** The range test without the message that `checkInteger` prepares; strings and NaN fail it too. */
function isWhole(value: number, bounds: { readonly min: number; readonly max: number }): boolean {
  return Number.isInteger(value) && value >= bounds.min && value <= bounds.max;
}

function notBoolean(received: unknown): InputError {
  return new InputError({ code: 'wrong-type', argument: 'crc', received, expected: 'true or false' });
}
