import type { BeaconReading, ChartPoint } from '@finial/survey';

/** One reading of the beacon as the pictures need it. */
export interface BeaconPoint {
  /** When it was received, in seconds since 1970-01-01T00:00:00Z. */
  readonly timeSeconds: number;
  /** Level in dBm as it was received, to 0.01 dB. */
  readonly levelDbm: number;
  /** Level in dBm with the temperature's part taken out, where the watch takes it out; else the level as received. */
  readonly steadyLevelDbm: number;
  /** Weighted mean over its limit; absent without a watch. */
  readonly ewmaRatio?: number | undefined;
  /** Cumulative sum of rises over its limit; absent without a watch. */
  readonly riseRatio?: number | undefined;
  /** Cumulative sum of losses over its limit; absent without a watch. */
  readonly lossRatio?: number | undefined;
}

/** More points than this are no help to the eye: a picture is some 300 points wide. */
const mostPoints = 1500;

/** To the hundredth, so that pages and files stay small. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}

/**
 * Readings with their charts, no more than a picture shows. Of the points that stay, one half stands evenly, so that the cloud keeps
 * its look, and the other half are the extremes of level and charts in each stretch, so that nothing that stood out is lost.
 */
export function beaconPoints(
  readings: readonly BeaconReading[],
  chart: readonly ChartPoint[] | undefined,
  referenceLevelDbm: number,
): readonly BeaconPoint[] {
  const points = readings.map(({ timeSeconds, levelDbm }, index): BeaconPoint => {
    const watched = chart?.[index];
    const received = { timeSeconds, levelDbm: rounded(levelDbm) };
    if (watched === undefined) return { ...received, steadyLevelDbm: received.levelDbm };
    return {
      ...received,
      steadyLevelDbm: rounded(referenceLevelDbm + watched.deviationDb),
      ewmaRatio: rounded(watched.ewmaRatio),
      riseRatio: rounded(watched.riseRatio),
      lossRatio: rounded(watched.lossRatio),
    };
  });
  if (points.length <= mostPoints) return points;
  const heights: ((point: BeaconPoint) => number)[] = [
    ({ steadyLevelDbm }) => steadyLevelDbm,
    ({ steadyLevelDbm }) => -steadyLevelDbm,
    ({ ewmaRatio = 0 }) => Math.abs(ewmaRatio),
    ({ riseRatio = 0 }) => riseRatio,
    ({ lossRatio = 0 }) => lossRatio,
  ];
  const half = mostPoints / 2;
  const every = Math.ceil(points.length / half);
  const stretch = Math.ceil((points.length * heights.length) / half);
  const kept = new Set(points.filter((_, index) => index % every === 0));
  for (let from = 0; from < points.length; from += stretch) {
    const lot = points.slice(from, from + stretch);
    for (const height of heights) {
      kept.add(lot.reduce((most, point) => (height(point) > height(most) ? point : most)));
    }
  }
  return points.filter((point) => kept.has(point));
}

/** Times in order, those left out that stand too close to the one before to be told apart in a picture. */
export function thinnedTimes(times: readonly number[]): readonly number[] {
  const leastApart = ((times.at(-1) ?? 0) - (times[0] ?? 0)) / mostPoints;
  let before = -Infinity;
  return times.filter((time) => {
    if (time - before < leastApart) return false;
    before = time;
    return true;
  });
}
