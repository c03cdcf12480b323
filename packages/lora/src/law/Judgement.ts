import type { Direction } from '../Region.js';
import type { ChannelUse, TransmissionChange, TransmissionFinding } from '../Transmission.js';

/** Ways to a frame that lasts no longer than so much, in words and as changes. */
export interface ShorterFrames {
  /** The changes in words; empty where no frame of the region is short enough. */
  readonly advice: string;
  /** The same as changes. */
  readonly remedies: readonly TransmissionChange[];
}

/** What the law is asked about: a frame on the air, not how a region's tables name it. */
export interface FrameOnAir {
  readonly direction: Direction;
  readonly frequencyHz: number;
  /** Nominal bandwidth in hertz, taken as the occupied one. */
  readonly bandwidthHz: number;
  readonly timeOnAirSeconds: number;
  readonly conductedPowerDbm: number;
  readonly antennaGainDbi: number;
  readonly erpDbm: number;
  readonly intervalSeconds: number | undefined;
  readonly channelUse: ChannelUse | undefined;
  /** Finds frames that last no longer than a limit, for the advice. */
  readonly shorterThan: (limitSeconds: number) => ShorterFrames;
}

/** What a law says about a frame. */
export interface Judgement {
  readonly findings: readonly TransmissionFinding[];
  /** Shortest lawful interval in seconds between the starts of such frames; undefined where no known rule sets one. */
  readonly minimumIntervalSeconds: number | undefined;
  /** What the interval binds: all frames in the sub-band, or those on the same frequency. */
  readonly intervalScope: 'sub-band' | 'frequency' | undefined;
}

/** A body of law, as far as this package knows it. */
export interface Jurisdiction {
  readonly judge: (frame: FrameOnAir) => Judgement;
  /** What the law also asks for and this package does not check, in words. */
  readonly notCovered: readonly string[];
}
