import { checkObject, checkPositive, InputError } from '@finial/units';

/** A frame under a dwell-time rule: so much time on one frequency within any window. */
export interface DwellingFrame {
  /** Time on air in seconds, more than 0 and at most `dwellSeconds`. */
  readonly timeOnAirSeconds: number;
  /** Longest time on one frequency within any window, in seconds. */
  readonly dwellSeconds: number;
  /** Length of the window in seconds; not shorter than `dwellSeconds`. */
  readonly windowSeconds: number;
}

/** Two frames that fill the dwell time exactly must count as two in spite of rounding. */
const roundingSlack = 1e-9;

/**
 * Interval in seconds between the starts of equal frames on one and the same frequency that keeps a dwell-time rule for ever.
 *
 * The window slides, so only whole frames count: 0.37 s on air of 0.4 s in 20 s makes one frame in 20 s. Dividing the time on air by
 * the ratio of dwell time to window (18.5 s here) is wrong: some window of 20 s then holds two whole frames, or nearly. What a frame
 * leaves of the dwell time (0.03 s) is not used to shorten the interval.
 *
 * @returns seconds between starts on one frequency, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` (a frame longer than the dwell time never fits) or `wrong-type`
 * @source Derived from the wording of 47 CFR 15.247(a)(1)(i): average time of occupancy on any frequency within a period
 * @example
 * ```ts
 * import { dwellIntervalSeconds } from '@finial/lora';
 *
 * dwellIntervalSeconds({ timeOnAirSeconds: 0.370688, dwellSeconds: 0.4, windowSeconds: 20 }); // → 20
 * ```
 */
export function dwellIntervalSeconds(frame: DwellingFrame): number {
  checkObject(frame, 'frame');
  const timeOnAirSeconds = checkPositive(frame.timeOnAirSeconds, 'timeOnAirSeconds', 'seconds');
  const dwellSeconds = checkPositive(frame.dwellSeconds, 'dwellSeconds', 'seconds');
  const windowSeconds = checkPositive(frame.windowSeconds, 'windowSeconds', 'seconds');
  if (windowSeconds < dwellSeconds)
    throw refused('windowSeconds', windowSeconds, `${dwellSeconds} seconds or more`);
  const framesPerWindow = Math.floor(dwellSeconds / timeOnAirSeconds + roundingSlack);
  if (framesPerWindow < 1)
    throw refused('timeOnAirSeconds', timeOnAirSeconds, `at most ${dwellSeconds} seconds`);
  return windowSeconds / framesPerWindow;
}

function refused(argument: string, received: number, expected: string): InputError {
  return new InputError({ code: 'out-of-range', argument, received, expected });
}
