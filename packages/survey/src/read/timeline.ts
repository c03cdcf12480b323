import { InputError } from '@finial/units';
import { checkRecords } from '../checkObservations.js';
import { neededOfTrackPoint, type TrackPoint, trackFields } from './TrackPoint.js';
import { type Uplink, uplinkFields } from './Uplink.js';
import { utcOf } from './valuesOfRow.js';

/** A track in the order of time, as plain columns. */
export interface Timeline {
  /** Seconds since 1970 by the track's own clock, each later than the one before. */
  readonly timesSeconds: Float64Array;
  readonly points: readonly TrackPoint[];
  /** Points that share their time with an earlier one and were left out. */
  readonly repeatedCount: number;
  /** True where some point of the list was earlier than the one before it. */
  readonly wasOutOfOrder: boolean;
}

/** A place between two points of a track. */
export interface TrackPlace {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Time between the two points in seconds; 0 on a point. */
  readonly gapSeconds: number;
  readonly crossesSegments: boolean;
}

/** An uplink with its time as a number. */
export interface TimedUplink {
  readonly uplink: Uplink;
  readonly timeSeconds: number;
  /** Place in the caller's list. */
  readonly index: number;
}

/** Sorts a track by time and refuses what is no track. */
export function timelineOf(track: readonly TrackPoint[]): Timeline {
  checkRecords(track, 'track', trackFields, neededOfTrackPoint);
  const timed = track.map((point, index) => ({
    point,
    timeSeconds: secondsOf(point.timeUtc, `track[${index}].timeUtc`),
  }));
  const wasOutOfOrder = timed.some(
    ({ timeSeconds }, index) => timeSeconds < (timed[index - 1]?.timeSeconds ?? timeSeconds),
  );
  if (wasOutOfOrder) timed.sort((one, other) => one.timeSeconds - other.timeSeconds);
  const kept = timed.filter(({ timeSeconds }, index) => timeSeconds !== timed[index - 1]?.timeSeconds);
  return {
    timesSeconds: Float64Array.from(kept, ({ timeSeconds }) => timeSeconds),
    points: kept.map(({ point }) => point),
    repeatedCount: timed.length - kept.length,
    wasOutOfOrder,
  };
}

/** The uplinks in the order of time; equal times stay in the order of the list. */
export function timedUplinks(uplinks: readonly Uplink[]): readonly TimedUplink[] {
  checkRecords(uplinks, 'uplinks', uplinkFields, ['timeUtc']);
  return uplinks
    .map((uplink, index) => ({
      uplink,
      index,
      timeSeconds: secondsOf(uplink.timeUtc, `uplinks[${index}].timeUtc`),
    }))
    .sort((one, other) => one.timeSeconds - other.timeSeconds);
}

/** Where the walker was; `undefined` before the first and after the last point. */
export function placeAt({ timesSeconds, points }: Timeline, timeSeconds: number): TrackPlace | undefined {
  const after = firstNotBefore(timesSeconds, timeSeconds);
  const end = points[after];
  const endSeconds = timesSeconds[after];
  if (end === undefined || endSeconds === undefined) return undefined;
  if (endSeconds === timeSeconds) {
    const { latitudeDeg, longitudeDeg } = end;
    return { latitudeDeg, longitudeDeg, gapSeconds: 0, crossesSegments: false };
  }
  const start = points[after - 1];
  const startSeconds = timesSeconds[after - 1];
  if (start === undefined || startSeconds === undefined) return undefined;
  const share = (timeSeconds - startSeconds) / (endSeconds - startSeconds);
  return {
    latitudeDeg: start.latitudeDeg + share * (end.latitudeDeg - start.latitudeDeg),
    longitudeDeg: alongParallel(start.longitudeDeg, end.longitudeDeg, share),
    gapSeconds: endSeconds - startSeconds,
    crossesSegments: start.segmentIndex !== end.segmentIndex,
  };
}

/** The short way round: from 179.9 to -179.9 lie 0.2 degrees, not 359.8. */
function alongParallel(startDeg: number, endDeg: number, share: number): number {
  const turn = endDeg - startDeg > 180 ? -360 : endDeg - startDeg < -180 ? 360 : 0;
  const reached = startDeg + share * (endDeg + turn - startDeg);
  return reached > 180 ? reached - 360 : reached < -180 ? reached + 360 : reached;
}

function firstNotBefore(times: Float64Array, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] as number) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Seconds since 1970 of an ISO 8601 time with its zone. */
export function secondsOf(timeUtc: string, argument: string): number {
  try {
    return Date.parse(utcOf(timeUtc, argument)) / 1000;
  } catch (cause) {
    const expected = 'a time such as 2024-07-24T05:43:12Z, with Z or an offset';
    throw new InputError({ code: 'wrong-type', argument, received: timeUtc, expected }, { cause });
  }
}
