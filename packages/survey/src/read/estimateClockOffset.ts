import { checkObject, checkOneOf, checkPositive, checkRange, InputError } from '@finial/units';
import { effectiveSignalPowerDbm } from '../effectiveSignalPower.js';
import { checkPosition, groundDistanceKernel } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import type { TrackPoint } from './TrackPoint.js';
import { placeAt, type TimedUplink, type Timeline, timedUplinks, timelineOf } from './timeline.js';
import type { Uplink } from './Uplink.js';

/** How to compare the clocks. */
export interface ClockOffsetOptions {
  /** `'whole-hours'`: by the times alone; `'levels'`: by the seconds, since levels follow distance. @defaultValue `'whole-hours'` */
  readonly method?: 'whole-hours' | 'levels' | undefined;
  /** Place of the gateway; needed for `'levels'`. */
  readonly gateway?: Position | undefined;
  /** Where `'levels'` begins to look, in seconds, -86400 to 86400. @defaultValue what `'whole-hours'` finds */
  readonly startSeconds?: number | undefined;
  /** How far `'levels'` looks to both sides, in whole seconds, more than 0, at most 3600. @defaultValue 120 */
  readonly reachSeconds?: number | undefined;
}

/** What {@link estimateClockOffset} returns. */
export interface ClockOffset {
  /** Seconds to add to the track's times to get the gateway's. */
  readonly offsetSeconds: number;
  /** Least offset that explains the log about as well, in seconds. */
  readonly lowerSeconds: number;
  /** Greatest offset that explains the log about as well, in seconds. */
  readonly upperSeconds: number;
  /** Uplinks on the track with this offset. */
  readonly onTrackFrames: number;
  /** Spread of the levels around the law in dB, with `'levels'`. */
  readonly spreadDb?: number | undefined;
  /** What a reader of the result should know, in sentences. */
  readonly warnings: readonly string[];
}

/**
 * How far the clock of a track is off the clock of a gateway.
 *
 * `'whole-hours'` tries -14 to 14 hours and takes those that put most uplinks on the track, of these the one nearest to zero: right
 * where a track is in local time and the walk was shorter than an hour or two; all that do as well lie between the bounds.
 * `'levels'` tries every second and takes the one where the received levels keep closest to a straight line over the logarithm of
 * the distance; it needs a walk that goes towards and away from the gateway, and levels that are not all at the noise. Its bounds
 * hold what is within 1.92 of the greatest log-likelihood (95 %); shadowing makes neighbours alike, so the truth is wider.
 *
 * @returns the offset, bounds, and how many uplinks lie on the track
 * @throws {@link InputError} `missing` (gateway, or fewer than 8 uplinks with a level on the track), `out-of-range`,
 * `not-a-finite-number`, `wrong-type` or `unknown-option`: a field or an option is wrong
 * @source common practice, no source; bounds: profile likelihood with the chi-square quantile 3.84 of one degree of freedom
 * @example A track whose receiver wrote local time, two hours ahead
 * ```ts
 * import { estimateClockOffset } from '@finial/survey';
 *
 * const track = [
 *   { timeUtc: '2024-07-24T08:00:00Z', latitudeDeg: 45.7, longitudeDeg: 4.9 },
 *   { timeUtc: '2024-07-24T08:50:00Z', latitudeDeg: 45.7, longitudeDeg: 4.95 },
 * ];
 * const uplinks = [{ timeUtc: '2024-07-24T06:02:00Z' }, { timeUtc: '2024-07-24T06:45:00Z' }];
 * estimateClockOffset(track, uplinks).offsetSeconds; // → -7200
 * ```
 */
export function estimateClockOffset(
  track: readonly TrackPoint[],
  uplinks: readonly Uplink[],
  options: ClockOffsetOptions = {},
): ClockOffset {
  const {
    method = 'whole-hours',
    gateway,
    startSeconds,
    reachSeconds = 120,
  } = checkObject(options, 'options');
  checkOneOf(method, 'method', ['whole-hours', 'levels']);
  if (gateway !== undefined) checkPosition(gateway, 'gateway');
  if (startSeconds !== undefined) {
    checkRange(startSeconds, 'startSeconds', { min: -86_400, max: 86_400, unit: 'seconds' });
  }
  if (checkPositive(reachSeconds, 'reachSeconds', 'seconds') > 3600) {
    checkRange(reachSeconds, 'reachSeconds', { min: 1, max: 3600, unit: 'seconds' });
  }
  const timeline = timelineOf(track);
  const timed = timedUplinks(uplinks);
  const byHours = offsetByWholeHours(timeline, timed);
  if (method === 'whole-hours') return byHours;
  if (gateway === undefined) {
    const expected = 'the place of the gateway, from which levels fall with distance';
    throw new InputError({ code: 'missing', argument: 'gateway', received: undefined, expected });
  }
  return offsetByLevels(timeline, timed, gateway, startSeconds ?? byHours.offsetSeconds, reachSeconds);
}

/** The whole hours that put most uplinks on the track; of equals the one nearest to zero. */
export function offsetByWholeHours(timeline: Timeline, timed: readonly TimedUplink[]): ClockOffset {
  let best = { offsetSeconds: 0, onTrackFrames: -1 };
  let equals: number[] = [];
  for (const hours of hoursFromZero) {
    const offsetSeconds = hours * 3600;
    const onTrackFrames = onTrackCount(timeline, timed, offsetSeconds);
    if (onTrackFrames > best.onTrackFrames) {
      best = { offsetSeconds, onTrackFrames };
      equals = [];
    }
    if (onTrackFrames === best.onTrackFrames) equals.push(offsetSeconds);
  }
  const warnings: string[] = [];
  if (best.onTrackFrames === 0) warnings.push('no offset of whole hours puts an uplink on the track');
  else if (equals.length > 1) {
    warnings.push(
      `${equals.length} offsets put as many uplinks on the track; the one nearest to zero was taken`,
    );
  }
  return {
    ...best,
    lowerSeconds: equals.reduce((a, b) => Math.min(a, b), best.offsetSeconds),
    upperSeconds: equals.reduce((a, b) => Math.max(a, b), best.offsetSeconds),
    warnings,
  };
}

/** 0, 1, -1, 2, -2 and on to the ends of the world's time zones. */
const hoursFromZero: readonly number[] = /* @__PURE__ */ Array.from({ length: 29 }, (_, index) =>
  index % 2 === 1 ? (index + 1) / 2 : -index / 2 + 0,
);

function onTrackCount(
  { timesSeconds }: Timeline,
  timed: readonly TimedUplink[],
  offsetSeconds: number,
): number {
  const from = (timesSeconds[0] as number) + offsetSeconds;
  const to = (timesSeconds.at(-1) ?? 0) + offsetSeconds;
  return timed.filter(({ timeSeconds }) => timeSeconds >= from && timeSeconds <= to).length;
}

function offsetByLevels(
  timeline: Timeline,
  timed: readonly TimedUplink[],
  gateway: Position,
  startSeconds: number,
  reachSeconds: number,
): ClockOffset {
  const reach = Math.floor(reachSeconds);
  const levels = timed.flatMap(({ uplink: { rssiDbm, snrDb }, timeSeconds }) => {
    if (rssiDbm === undefined) return [];
    const levelDbm = snrDb === undefined ? rssiDbm : effectiveSignalPowerDbm({ rssiDbm, snrDb });
    return [{ timeSeconds, levelDbm }];
  });
  // The same uplinks at every offset, or the offset with the fewest would look best.
  const first = (timeline.timesSeconds[0] as number) + startSeconds + reach;
  const last = (timeline.timesSeconds.at(-1) ?? 0) + startSeconds - reach;
  const used = levels.filter(({ timeSeconds }) => timeSeconds >= first && timeSeconds <= last);
  if (used.length < 8) {
    const expected = `at least 8 uplinks with a level that stay on the track within ${reach} s, not ${used.length}`;
    throw new InputError({ code: 'missing', argument: 'uplinks', received: undefined, expected });
  }
  const tried = Array.from({ length: 2 * reach + 1 }, (_, index) => {
    const offsetSeconds = startSeconds + index - reach;
    return { offsetSeconds, squares: squaresAroundLine(timeline, used, gateway, offsetSeconds) };
  });
  const best = tried.reduce((one, other) => (other.squares < one.squares ? other : one));
  const near = tried.filter(
    ({ squares }) => squares <= best.squares || used.length * Math.log(squares / best.squares) <= 3.84,
  );
  const lowerSeconds = Math.min(...near.map(({ offsetSeconds }) => offsetSeconds));
  const upperSeconds = Math.max(...near.map(({ offsetSeconds }) => offsetSeconds));
  const atEdge = lowerSeconds === startSeconds - reach || upperSeconds === startSeconds + reach;
  return {
    offsetSeconds: best.offsetSeconds,
    lowerSeconds,
    upperSeconds,
    onTrackFrames: onTrackCount(timeline, timed, best.offsetSeconds),
    spreadDb: Math.sqrt(best.squares / (used.length - 2)),
    warnings: atEdge ? ['the bounds reach the end of what was tried: the levels do not fix the offset'] : [],
  };
}

/** Sum of squares of the levels around their straight line over log distance. */
function squaresAroundLine(
  timeline: Timeline,
  levels: readonly { readonly timeSeconds: number; readonly levelDbm: number }[],
  gateway: Position,
  offsetSeconds: number,
): number {
  const logs: number[] = [];
  for (const { timeSeconds } of levels) {
    const place = placeAt(timeline, timeSeconds - offsetSeconds);
    if (place === undefined) continue;
    const { latitudeDeg, longitudeDeg } = gateway;
    const distanceM = groundDistanceKernel(place.latitudeDeg, place.longitudeDeg, latitudeDeg, longitudeDeg);
    // Within the error of the receiver all distances are one.
    logs.push(Math.log10(Math.max(distanceM, 10)));
  }
  const count = levels.length;
  const meanLog = logs.reduce((sum, value) => sum + value, 0) / count;
  const meanLevel = levels.reduce((sum, { levelDbm }) => sum + levelDbm, 0) / count;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  levels.forEach(({ levelDbm }, index) => {
    const x = (logs[index] ?? meanLog) - meanLog;
    const y = levelDbm - meanLevel;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  });
  return Math.max(xx === 0 ? yy : yy - (xy * xy) / xx, 1e-12);
}
