import { groundDistanceKernel } from '../groundDistance.js';
import { chosenUplinks, skip } from './chosenUplinks.js';
import { offsetByWholeHours } from './estimateClockOffset.js';
import type { JoinedFrame, JoinedWalk, JoinTrackOptions, SkippedUplink } from './JoinedWalk.js';
import { checkJoinOptions, nodeFields } from './joinOptions.js';
import { type SentAt, sentFrames } from './sentFrames.js';
import type { TrackPoint } from './TrackPoint.js';
import { placeAt, type Timeline, timedUplinks, timelineOf } from './timeline.js';
import type { Uplink } from './Uplink.js';

/**
 * Puts the frames of a walk on its track: each uplink at the place of its time, and each missed frame, which a gap in the counters
 * shows, at the place of the time when the node must have sent it.
 *
 * A gateway knows nothing of the frames before the first and after the last that it received, and these are the far end of the
 * walk: `firstCounter`, `lastCounter`, `toTrackEnd` or the node's own list `sent` bring them in; without any of them a warning says
 * that they are missing. Places are linear between the two nearest points in time. A missed frame gets the time of a clock that
 * ticks once a period and agrees with most logged times (medians); where the log strays from that clock by more than a period, the
 * node does not send regularly and missed frames are spread evenly between their neighbours.
 *
 * A frame that is received twice counts once, first reception first. A counter that falls back rolls over where the time that
 * passed allows so many frames, and else was reset (the node joined anew): the frames since counter 0 then count, as far as they
 * fit after the uplink before; those between that uplink and the reset cannot be known. One gateway and one node at a time.
 *
 * @param track - points in any order; of points with one time the first is taken
 * @param uplinks - in any order, at least one
 * @returns observations for {@link fitPathLoss} and the other calls; every uplink is in an observation or in `skipped`
 * @throws {@link InputError} `out-of-range`, `not-a-finite-number`, `wrong-type`, `missing` or `unknown-option`: a field or an option
 * is wrong, several devices or gateways without a choice, no uplink left, more missed frames than `maximumMissedFrames`, or
 * a period that is needed and neither given nor shown
 * @source common practice, no source; roll-over and reset of the counter: LoRaWAN L2 1.0.4 Specification (October 2020) 4.3.1.5
 * (from memory)
 * @example Four frames sent on a walk to the east, two of them received
 * ```ts
 * import { joinTrack } from '@finial/survey';
 *
 * const track = [
 *   { timeUtc: '2024-07-24T06:00:00Z', latitudeDeg: 45.7, longitudeDeg: 4.9 },
 *   { timeUtc: '2024-07-24T06:00:30Z', latitudeDeg: 45.7, longitudeDeg: 4.903 },
 * ];
 * const uplinks = [
 *   { timeUtc: '2024-07-24T06:00:00Z', counter: 7, rssiDbm: -101 },
 *   { timeUtc: '2024-07-24T06:00:20Z', counter: 9, rssiDbm: -113 },
 * ];
 * const walk = joinTrack(track, uplinks, { toTrackEnd: true });
 * walk.observations.map(({ received }) => received); // → [true, false, true, false]
 * walk.observations[1]?.longitudeDeg; // ≈ 4.901
 * ```
 */
export function joinTrack(
  track: readonly TrackPoint[],
  uplinks: readonly Uplink[],
  options: JoinTrackOptions = {},
): JoinedWalk {
  checkJoinOptions(options);
  const timeline = timelineOf(track);
  const timed = timedUplinks(uplinks);
  const skipped: SkippedUplink[] = [];
  const chosen = chosenUplinks(timed, options, skipped);
  const clockOffsetSeconds =
    options.clockOffsetSeconds === 'whole-hours'
      ? offsetByWholeHours(timeline, chosen).offsetSeconds
      : (options.clockOffsetSeconds ?? 0);
  const endSeconds = (timeline.timesSeconds.at(-1) ?? 0) + clockOffsetSeconds;
  const { frames, sessions, warnings } = sentFrames(chosen, options, endSeconds, skipped);
  const placed = placedFrames(frames, timeline, clockOffsetSeconds, options, skipped);
  skipped.sort((one, other) => one.index - other.index);
  const observations = placed.observations;
  const receivedFrames = observations.filter(({ received }) => received).length;
  const guessedPlaceFrames = observations.filter(({ placeIsGuess }) => placeIsGuess).length;
  return {
    observations,
    skipped,
    receivedFrames,
    missedFrames: observations.length - receivedFrames,
    missedOffTrackFrames: placed.missedOffTrackFrames,
    guessedPlaceFrames,
    clockOffsetSeconds,
    sessions,
    warnings: [
      ...warnings,
      ...walkWarnings(options, timeline, { guessedPlaceFrames, offTrack: placed, receivedFrames }),
    ],
  };
}

interface PlacedFrames {
  readonly observations: readonly JoinedFrame[];
  readonly missedOffTrackFrames: number;
  readonly receivedOffTrackFrames: number;
}

function placedFrames(
  frames: readonly SentAt[],
  timeline: Timeline,
  offsetSeconds: number,
  options: JoinTrackOptions,
  skipped: SkippedUplink[],
): PlacedFrames {
  const observations: JoinedFrame[] = [];
  let missedOffTrackFrames = 0;
  let receivedOffTrackFrames = 0;
  for (const frame of frames) {
    const place = placeAt(timeline, frame.timeSeconds - offsetSeconds);
    if (place !== undefined) observations.push(joinedFrame(frame, place, options));
    else if (frame.uplink === undefined) missedOffTrackFrames += 1;
    else {
      receivedOffTrackFrames += 1;
      skipped.push(skip(frame.uplink, 'off-track'));
    }
  }
  return { observations, missedOffTrackFrames, receivedOffTrackFrames };
}

function joinedFrame(
  { timeSeconds, counter, uplink: heard, settings }: SentAt,
  place: NonNullable<ReturnType<typeof placeAt>>,
  { gateway, node = {}, maximumGapSeconds = 30 }: JoinTrackOptions,
): JoinedFrame {
  const { latitudeDeg, longitudeDeg, gapSeconds, crossesSegments } = place;
  const distanceM =
    gateway === undefined
      ? undefined
      : groundDistanceKernel(latitudeDeg, longitudeDeg, gateway.latitudeDeg, gateway.longitudeDeg);
  const uplink = heard?.uplink;
  const levels = { rssiDbm: uplink?.rssiDbm, snrDb: uplink?.snrDb, line: uplink?.line };
  const logged = uplink === undefined ? settings : { ...uplink, conductedPowerDbm: undefined };
  const set = nodeFields.map((field) => [field, logged[field] ?? node[field]] as const);
  const known = Object.entries({ counter, ...Object.fromEntries(set), ...levels, distanceM });
  return {
    timeUtc: uplink?.timeUtc ?? new Date(Math.round(timeSeconds * 1000)).toISOString(),
    latitudeDeg,
    longitudeDeg,
    received: uplink !== undefined,
    // Fields without a value are left away, as the readers do.
    ...Object.fromEntries(known.filter(([, value]) => value !== undefined)),
    trackGapSeconds: gapSeconds,
    placeIsGuess: crossesSegments || gapSeconds > maximumGapSeconds,
  };
}

function walkWarnings(
  options: JoinTrackOptions,
  { repeatedCount, wasOutOfOrder }: Timeline,
  {
    guessedPlaceFrames,
    offTrack,
    receivedFrames,
  }: {
    readonly guessedPlaceFrames: number;
    readonly offTrack: PlacedFrames;
    readonly receivedFrames: number;
  },
): readonly string[] {
  const { sent, firstCounter, lastCounter, toTrackEnd } = options;
  const warnings: string[] = [];
  if (sent === undefined && firstCounter === undefined) {
    warnings.push('frames missed before the first uplink are not counted: firstCounter or sent would tell');
  }
  if (sent === undefined && lastCounter === undefined && toTrackEnd !== true) {
    warnings.push(
      'frames missed after the last uplink are not counted: lastCounter, toTrackEnd or sent would tell',
    );
  }
  if (wasOutOfOrder) warnings.push('the track was not in the order of time and has been sorted');
  if (repeatedCount > 0)
    warnings.push(`${repeatedCount} track points repeat the time of another and were left out`);
  if (guessedPlaceFrames > 0)
    warnings.push(`the place of ${guessedPlaceFrames} frames is a guess over a gap in the track`);
  if (offTrack.receivedOffTrackFrames > receivedFrames) {
    warnings.push('most uplinks lie before or after the track: the clocks may be hours apart');
  }
  return warnings;
}
