import { checkObject, checkPositive, checkRange } from '@finial/units';

/** A frame under a duty cycle. */
export interface DutyCycledFrame {
  /** Time on air in seconds, above 0 to 1e6. */
  readonly timeOnAirSeconds: number;
  /** Share of the time that may be spent sending, 1e-6 to 1: `0.01` for 1 %. */
  readonly dutyCycleRatio: number;
}

/**
 * Shortest interval in seconds between the starts of equal frames that keeps a duty cycle. The frame itself is inside the interval.
 *
 * This keeps the duty cycle on the average. The law counts over an observation time (an hour in Europe): a burst may come faster and be
 * paid for with silence, while some hour of steady frames may hold one frame too many, since only whole frames fit into its end.
 * `lawfulPace` gives the slightly longer interval that keeps every hour.
 *
 * @returns seconds between starts, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Definition of the duty cycle: time on air over observation time (EN 300 220-1; observation time of 1 h from memory)
 * @example The smallest SF12 uplink on a 1 % sub-band
 * ```ts
 * import { minimumIntervalSeconds } from '@finial/lora';
 *
 * minimumIntervalSeconds({ timeOnAirSeconds: 1.155072, dutyCycleRatio: 0.01 }); // ≈ 115.5
 * ```
 */
export function minimumIntervalSeconds(frame: DutyCycledFrame): number {
  checkObject(frame, 'frame');
  const dutyCycleRatio = checkPositive(frame.dutyCycleRatio, 'dutyCycleRatio', 'as a ratio');
  checkRange(dutyCycleRatio, 'dutyCycleRatio', { min: 1e-6, max: 1, unit: 'as a ratio' });
  checkPositive(frame.timeOnAirSeconds, 'timeOnAirSeconds', 'seconds');
  const longest = { min: 0, max: 1e6, unit: 'seconds' };
  return checkRange(frame.timeOnAirSeconds, 'timeOnAirSeconds', longest) / dutyCycleRatio;
}
