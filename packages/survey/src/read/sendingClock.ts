import type { CountedUplink } from './counterSessions.js';

/** When a node that sends regularly sent each frame. */
export interface SendingClock {
  /** Time of frame number 0, in seconds since 1970. */
  readonly zeroSeconds: number;
  readonly periodSeconds: number;
  /** The farthest that a logged time lies from this clock. */
  readonly worstErrorSeconds: number;
}

/**
 * The clock that most frames agree with: medians, since a frame that a network delivers late must not move it.
 *
 * @returns `undefined` where one frame alone says nothing about the period
 */
export function sendingClock(
  uplinks: readonly CountedUplink[],
  givenPeriodSeconds: number | undefined,
): SendingClock | undefined {
  const periodSeconds = givenPeriodSeconds ?? likelyPeriodSeconds(uplinks);
  if (periodSeconds === undefined) return undefined;
  const zeros = uplinks.map(({ timeSeconds, number }) => timeSeconds - number * periodSeconds);
  const zeroSeconds = upperMedian(zeros);
  const errors = zeros.map((zero) => Math.abs(zero - zeroSeconds));
  return { zeroSeconds, periodSeconds, worstErrorSeconds: errors.reduce((a, b) => Math.max(a, b), 0) };
}

/** Median slope over pairs half a list apart: far enough for jitter not to matter, and linear in the frames. */
export function likelyPeriodSeconds(
  uplinks: readonly { readonly number: number; readonly timeSeconds: number }[],
): number | undefined {
  const apart = Math.max(1, Math.floor(uplinks.length / 2));
  const slopes: number[] = [];
  uplinks.forEach((late, index) => {
    const early = uplinks[index - apart];
    if (early === undefined || late.number <= early.number || late.timeSeconds <= early.timeSeconds) return;
    slopes.push((late.timeSeconds - early.timeSeconds) / (late.number - early.number));
  });
  return slopes.length === 0 ? undefined : upperMedian(slopes);
}

function upperMedian(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] as number;
}
