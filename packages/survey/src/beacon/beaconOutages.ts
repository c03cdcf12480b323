import type { BeaconReading } from './BeaconReading.js';

/** A stretch of time in which too many frames in a row did not come. */
export interface BeaconOutage {
  /** Time of the last reading before it, in seconds. */
  readonly lastHeardSeconds: number;
  /** Time of the next reading in seconds; absent while it lasts. */
  readonly heardAgainSeconds?: number | undefined;
  /** Frames that were due and did not come. */
  readonly missedFrames: number;
}

/** Gaps of at least so many heartbeats; unchecked. */
export function beaconOutages(
  series: readonly BeaconReading[],
  heartbeatSeconds: number,
  leastFrames: number,
  untilSeconds: number,
): readonly BeaconOutage[] {
  return series.flatMap(({ timeSeconds }, index) => {
    const next = series[index + 1]?.timeSeconds;
    // The next frame itself came; at the end of the watch, half a heartbeat of lateness is no miss yet.
    const missedFrames =
      next === undefined
        ? Math.floor((untilSeconds - timeSeconds) / heartbeatSeconds - 0.5)
        : Math.round((next - timeSeconds) / heartbeatSeconds) - 1;
    if (missedFrames < leastFrames) return [];
    return [
      {
        lastHeardSeconds: timeSeconds,
        ...(next === undefined ? {} : { heardAgainSeconds: next }),
        missedFrames,
      },
    ];
  });
}
