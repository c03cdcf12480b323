import type { Observation, Position } from '../Observation.js';

/** A frame in the node's own list of what it sent. */
export interface SentFrame {
  /** Frame counter, 0 to 4294967295. */
  readonly counter: number;
  /** When it was sent, by the gateway's clock: ISO 8601 with `Z` or an offset. @defaultValue as the sending period says */
  readonly timeUtc?: string | undefined;
}

/** What the node was set to during the walk; missed frames have no log to say so. */
export interface NodeSettings {
  /** LoRa spreading factor, 5 to 12. */
  readonly spreadingFactor?: number | undefined;
  /** Bandwidth in hertz, 7.8e3 to 1.625e6. */
  readonly bandwidthHz?: number | undefined;
  /** Carrier frequency in hertz, 100e6 to 3e9. */
  readonly frequencyHz?: number | undefined;
  /** Power at the antenna connector in dBm, -60 to 60. */
  readonly conductedPowerDbm?: number | undefined;
}

/** How to join a track and uplinks. */
export interface JoinTrackOptions {
  /** Take uplinks of this node only. @defaultValue the one that occurs; several are refused */
  readonly device?: string | undefined;
  /** Take uplinks at this gateway only. @defaultValue the one that occurs; several are refused */
  readonly gatewayName?: string | undefined;
  /** Take uplinks of this modulation only, where a node takes turns under one counter. @defaultValue all */
  readonly dataRate?: string | undefined;
  /** Place of the gateway, for the distances. @defaultValue none: no distances */
  readonly gateway?: Position | undefined;
  /**
   * Seconds to add to the track's times to get the gateway's, -86400 to 86400, or `'whole-hours'` for a track in local time.
   * @defaultValue 0
   */
  readonly clockOffsetSeconds?: number | 'whole-hours' | undefined;
  /** Time between two frames in seconds, 0.001 to 31622400 (a year). @defaultValue the median of the log */
  readonly periodSeconds?: number | undefined;
  /** Bits of the counter in the log. @defaultValue 16 where no counter is above 65535, else 32 */
  readonly counterBits?: 16 | 32 | undefined;
  /** Counter of the first frame that the node sent, 0 to 4294967295. @defaultValue that of the first uplink */
  readonly firstCounter?: number | undefined;
  /** Counter of the last frame that the node sent. @defaultValue that of the last uplink */
  readonly lastCounter?: number | undefined;
  /** True where the node went on sending to the end of the track. @defaultValue `false` */
  readonly toTrackEnd?: boolean | undefined;
  /** The node's own list of what it sent, in the order of sending: every frame of it counts, and no other. @defaultValue none: gaps in the counters tell */
  readonly sent?: readonly SentFrame[] | undefined;
  /** What the node was set to. @defaultValue what the uplinks before and after agree on */
  readonly node?: NodeSettings | undefined;
  /** Longest time between two track points that is no guess, in seconds, more than 0. @defaultValue 30 */
  readonly maximumGapSeconds?: number | undefined;
  /** Most missed frames that are inferred; more means a misread counter. @defaultValue 1 million */
  readonly maximumMissedFrames?: number | undefined;
}

/** An observation and how well its place is known. */
export interface JoinedFrame extends Observation {
  /** Time of the frame in UTC: as logged where it was received, by the sending clock or the node's list where it was missed. */
  readonly timeUtc: string;
  /** Time between the two track points that the place lies between, in seconds; 0 on a point. */
  readonly trackGapSeconds: number;
  /** True where that time is longer than `maximumGapSeconds` or the points belong to two segments. */
  readonly placeIsGuess: boolean;
}

/** Why an uplink is in no observation. */
export type UplinkSkipReason =
  | 'other-device'
  | 'other-gateway'
  | 'other-data-rate'
  | 'repeated-frame'
  | 'not-in-sent-list'
  | 'outside-sent-range'
  | 'off-track';

/** An uplink that was left out. */
export interface SkippedUplink {
  /** Place in the list of uplinks, from 0. */
  readonly index: number;
  /** Line of the log, where the uplink has one. */
  readonly line?: number | undefined;
  /** Why it was left out. */
  readonly reason: UplinkSkipReason;
}

/** Frames between two resets of the counter. */
export interface JoinedSession {
  /** Counter of the first uplink. */
  readonly firstCounter: number;
  /** Counter of the last uplink. */
  readonly lastCounter: number;
  /** Distinct frames that were received, on the track or off it. */
  readonly receivedFrames: number;
  /** How often the counter rolled over. */
  readonly rollOverCount: number;
  /** Time between two frames in seconds, given or estimated; absent where one frame alone cannot tell. */
  readonly periodSeconds?: number | undefined;
  /** The farthest that a logged time lies from the sending clock, in seconds. */
  readonly worstClockErrorSeconds?: number | undefined;
}

/** What {@link joinTrack} returns. */
export interface JoinedWalk {
  /** Every frame with a place, received or missed, in the order of time. */
  readonly observations: readonly JoinedFrame[];
  /** The uplinks that became no observation, in the order of the list. */
  readonly skipped: readonly SkippedUplink[];
  /** Uplinks that became observations; with the skipped ones these are all. */
  readonly receivedFrames: number;
  /** Missed frames among the observations. */
  readonly missedFrames: number;
  /** Missed frames that have no place, since they were sent before or after the track. */
  readonly missedOffTrackFrames: number;
  /** Observations whose place is a guess. */
  readonly guessedPlaceFrames: number;
  /** Seconds that were added to the track's times. */
  readonly clockOffsetSeconds: number;
  /** One per run of the counter; a reset begins a new one. */
  readonly sessions: readonly JoinedSession[];
  /** What a reader of the result should know, in sentences. */
  readonly warnings: readonly string[];
}
