import { checkObject, checkPositive } from '@finial/units';
import { type FrameSettings, type TimeOnAir, timeOnAir } from './timeOnAir.js';

/** A frame whose length is open, and the time that it may take. */
export interface PayloadTime extends FrameSettings {
  /** Longest time on air in seconds, more than 0. */
  readonly maxSeconds: number;
}

/** The longest payload within a time, or the reason why there is none. */
export type LongestPayload =
  | {
      /** Whether any frame fits. */
      readonly fits: true;
      /** Bytes that the chip may be given, 0 to 255. */
      readonly payloadBytes: number;
      /** How long the frame with so many bytes takes. */
      readonly timeOnAir: TimeOnAir;
    }
  | {
      /** Whether any frame fits. */
      readonly fits: false;
      /** Duration in seconds of the frame without a payload, which is too long already. */
      readonly shortestSeconds: number;
    };

/** Decimal limits such as 0.370688 are not exact in binary; frames differ by much more than this ratio. */
const roundingRatio = 1e-12;

/**
 * Longest payload of a LoRa frame that lasts no longer than a given time: the inverse of {@link timeOnAir}.
 *
 * A frame that takes exactly the time fits, and so does one that is longer by less than a rounding (1 part in 10^12). Frames of several
 * lengths take the same time, because payloads fill whole blocks: the result is the longest of them.
 *
 * @returns the payload in bytes, exact, with its time on air; or the duration of the empty frame where not even that fits
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a field is not what
 * {@link PayloadTime} says
 * @source The formulas of {@link timeOnAir}, inverted by bisection
 * @example What a dwell time of 400 ms leaves at SF10 and at SF12
 * ```ts
 * import { longestPayloadBytes } from '@finial/lora';
 *
 * const settings = { bandwidthHz: 125e3, codingRate: 5, maxSeconds: 0.4 };
 * const atSf10 = longestPayloadBytes({ ...settings, spreadingFactor: 10 });
 * atSf10.fits && atSf10.payloadBytes; // → 24
 * longestPayloadBytes({ ...settings, spreadingFactor: 12 }).fits; // → false
 * ```
 */
export function longestPayloadBytes(question: PayloadTime): LongestPayload {
  checkObject(question, 'question');
  const limitSeconds = checkPositive(question.maxSeconds, 'maxSeconds', 'seconds') * (1 + roundingRatio);
  const frameOf = (payloadBytes: number): TimeOnAir => timeOnAir({ ...question, payloadBytes });
  const shortestSeconds = frameOf(0).totalSeconds;
  if (shortestSeconds > limitSeconds) return { fits: false, shortestSeconds };
  let fitting = 0;
  let tooLong = 256;
  while (tooLong - fitting > 1) {
    const middle = (fitting + tooLong) >> 1;
    if (frameOf(middle).totalSeconds <= limitSeconds) fitting = middle;
    else tooLong = middle;
  }
  return { fits: true, payloadBytes: fitting, timeOnAir: frameOf(fitting) };
}
