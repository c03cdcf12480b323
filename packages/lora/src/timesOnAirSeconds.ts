import { checkObject, InputError } from '@finial/units';
import { type FrameSettings, timeOnAir } from './timeOnAir.js';

/** Many frames that differ in length only. */
export interface FrameSeries extends FrameSettings {
  /** Bytes of each frame that the chip is given. */
  readonly payloadBytes: Uint8Array;
  /** Where to write the results, as long as `payloadBytes`; a new array unless given. */
  readonly outSeconds?: Float64Array | undefined;
}

/** A chip takes 0 to 255 bytes. */
const lengthCount = 256;

/**
 * Time on air of many LoRa frames of the same settings, for simulations and logs.
 *
 * Each length is computed once, by {@link timeOnAir}, however often it comes.
 *
 * @returns seconds in the order of the frames, `outSeconds` if that was given; equal to `totalSeconds` of {@link timeOnAir}
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `unknown-option`: a setting is not what {@link FrameSettings} says;
 * `wrong-type`: an array is of another kind; `out-of-range`: `outSeconds` has another length
 * @source See {@link timeOnAir}
 * @example
 * ```ts
 * import { timesOnAirSeconds } from '@finial/lora';
 *
 * const uplinks = { spreadingFactor: 7, bandwidthHz: 125e3, codingRate: 5 };
 * const seconds = timesOnAirSeconds({ ...uplinks, payloadBytes: Uint8Array.of(13, 24, 64) });
 * [...seconds]; // ≈ [0.046336, 0.061696, 0.118016]
 * ```
 */
export function timesOnAirSeconds(frames: FrameSeries): Float64Array {
  checkObject(frames, 'frames');
  const { payloadBytes, outSeconds, ...settings } = frames;
  if (!(payloadBytes instanceof Uint8Array))
    throw wrongArray('payloadBytes', payloadBytes, 'a Uint8Array of bytes');
  const results = checkedOut(outSeconds, payloadBytes.length);
  // Also where there is no frame at all: settings that are wrong are refused.
  timeOnAir({ ...settings, payloadBytes: 0 });
  const secondsByLength = new Float64Array(lengthCount);
  for (let index = 0; index < payloadBytes.length; index++) {
    const length = payloadBytes[index] as number;
    // No frame lasts 0 s: a zero is one not yet computed.
    results[index] = secondsByLength[length] ||= timeOnAir({
      ...settings,
      payloadBytes: length,
    }).totalSeconds;
  }
  return results;
}

function checkedOut(outSeconds: Float64Array | undefined, length: number): Float64Array {
  if (outSeconds === undefined) return new Float64Array(length);
  if (!(outSeconds instanceof Float64Array)) throw wrongArray('outSeconds', outSeconds, 'a Float64Array');
  if (outSeconds.length === length) return outSeconds;
  throw new InputError({
    code: 'out-of-range',
    argument: 'outSeconds',
    received: outSeconds.length,
    expected: `an array of ${length}, as long as payloadBytes`,
  });
}

function wrongArray(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'wrong-type', argument, received, expected });
}
