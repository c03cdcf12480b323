import type { Citation } from '../Citation.js';
import type { RuleOutcome } from '../findingUnder.js';
import type { DataRate, Direction } from '../Region.js';
import type { Access, JurisdictionName, TransmissionChange } from '../Transmission.js';
import type { BandPlan, FreeOfDutyCycle } from './bandPlan.js';
import type { CheckedChannelUse } from './channelUse.js';
import type { LawRule } from './LawRule.js';

/** What is to be sent, before anything is known of its length and power. */
export interface Signal {
  readonly direction: Direction;
  readonly modulation: DataRate['modulation'];
  readonly frequencyHz: number;
  /** Nominal bandwidth in hertz, taken as the occupied one; of LR-FHSS that of the channel that is hopped in. */
  readonly bandwidthHz: number;
  /** Gain of the antenna in dBi; conducted limits may depend on it. */
  readonly antennaGainDbi: number;
  readonly channelUse: CheckedChannelUse | undefined;
  readonly access: Access | undefined;
}

/** Ways to a frame that lasts no longer than so much, in words and as changes. */
export interface ShorterFrames {
  /** The changes in words; empty where no frame of the region is short enough. */
  readonly advice: string;
  /** The same as changes. */
  readonly remedies: readonly TransmissionChange[];
}

/** A frame on the air, as the law sees it: not how a region's tables name it. */
export interface FrameOnAir {
  readonly direction: Direction;
  readonly timeOnAirSeconds: number;
  /** Longest time on one frequency in seconds: the whole frame, unless it hops. */
  readonly longestHopSeconds: number;
  readonly conductedPowerDbm: number;
  readonly eirpDbm: number;
  readonly erpDbm: number;
  readonly intervalSeconds: number | undefined;
  /** Finds frames whose time on air, or longest hop, is within a limit, for the advice. */
  readonly shorterThan: (limitSeconds: number, per: 'frame' | 'hop') => ShorterFrames;
}

/** A limit on power. */
export interface PowerLimit {
  readonly rule: string;
  readonly quantity: 'ERP' | 'EIRP' | 'conducted';
  readonly limitDbm: number;
  /** What is wrong beyond it, in words, with the excess in decibels. */
  readonly wrong: (excess: string) => string;
  /** The limit is customary, not law: beyond it is worth a note. */
  readonly customary?: boolean | undefined;
  /** Other ways out than less power, and their words. */
  readonly otherwise?: ShorterFrames | undefined;
  readonly citation: Citation;
}

/** A limit on time. */
export interface TimeLimit {
  /**
   * - `share`: a share of the time, which steady sending keeps by spacing its frames
   * - `window`: so much in any sliding window, in which only whole frames count
   * - `burst`: the length of one transmission and the silence after it
   */
  readonly kind: 'share' | 'window' | 'burst';
  /** Name of the budget; frames with the same name share it. */
  readonly book: string;
  readonly budgetSeconds: number;
  readonly windowSeconds: number;
  readonly longestSeconds?: number | undefined;
  readonly pauseSeconds?: number | undefined;
  /** Whether the limit meets the longest hop and not the whole frame. */
  readonly perHop?: boolean | undefined;
  /** Channels that take turns under the limit; 1 unless given. */
  readonly channelCount?: number | undefined;
  /** What shares the budget. */
  readonly scope: 'sub-band' | 'frequency';
  /** The stretch or frequency in words. */
  readonly where: string;
  readonly citation: Citation;
  /** Power at which the limit may not hold. */
  readonly free?: FreeOfDutyCycle | undefined;
  /** Where the length of the window comes from, if not from there. */
  readonly windowCitation?: Citation | undefined;
}

/** Something to say about every such signal, whatever its length and power. */
export interface Remark extends RuleOutcome {
  readonly citation: Citation;
}

/** What a law asks of a signal. */
export interface Demands {
  readonly remarks: readonly Remark[];
  readonly power: readonly PowerLimit[];
  readonly time: readonly TimeLimit[];
}

/** A signal that the law, as far as it is known here, does not let on the air, and why. */
export interface Refusal {
  readonly refusal: Remark;
}

/** A body of law, as far as this package knows it. */
export interface Jurisdiction {
  readonly name: JurisdictionName;
  readonly plan: BandPlan;
  /** What the law asks of a signal, or why no frame of it may be sent. */
  readonly demandsOn: (signal: Signal) => Demands | Refusal;
  /** Rules beside the band plan, and those that the law has and this package does not check. */
  readonly otherRules: readonly LawRule[];
}
