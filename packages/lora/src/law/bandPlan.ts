import type { Citation } from '../Citation.js';

/** The facts of a {@link SubBand} that may each come from a source of its own. */
export type BandFact =
  | 'erp'
  | 'eirp'
  | 'gatewayEirp'
  | 'conductedPower'
  | 'bandwidth'
  | 'dutyCycle'
  | 'observation'
  | 'burst'
  | 'listening';

/** A stretch of spectrum with one set of rules. */
export interface SubBand {
  /** Lower edge in hertz. */
  readonly minHz: number;
  /** Upper edge in hertz. */
  readonly maxHz: number;
  /** Highest effective radiated power in dBm, where the rule is stated so. */
  readonly maxErpDbm?: number | undefined;
  /** Highest equivalent isotropically radiated power in dBm, where the rule is stated so. */
  readonly maxEirpDbm?: number | undefined;
  /** The same for gateways, where they have a limit of their own. */
  readonly maxGatewayEirpDbm?: number | undefined;
  /** Highest power at the transmitter's port in dBm, where the rule is stated so. */
  readonly maxConductedPowerDbm?: number | undefined;
  /** Greatest bandwidth of a signal in hertz, where it is less than the stretch. */
  readonly maxBandwidthHz?: number | undefined;
  /** Greatest share of the time on the air, as a ratio, where there is a duty cycle. */
  readonly dutyCycleRatio?: number | undefined;
  /** Time in seconds over which that share is counted; given with every duty cycle. */
  readonly observationSeconds?: number | undefined;
  /** Longest single transmission in seconds, where there is a limit; with `listening` that of a station that listens. */
  readonly longestSeconds?: number | undefined;
  /** Least silence after a transmission in seconds, where there is a limit; with `listening` that of a station that listens. */
  readonly pauseSeconds?: number | undefined;
  /** Power up to which another row of the law asks for no duty cycle. */
  readonly withoutDutyCycle?: FreeOfDutyCycle | undefined;
  /** What a station must do that listens before it talks; left out where that way is not known. */
  readonly listening?: Listening | undefined;
  /** Where the rule comes from. */
  readonly citation: Citation;
  /** Where single facts come from, if not from there. */
  readonly sources?: Readonly<Partial<Record<BandFact, Citation>>> | undefined;
}

/** What a station must hear, or not hear, before it talks. */
export interface Listening {
  /** Least time of listening in seconds. */
  readonly listenSeconds: number;
  /** Level in dBm from which the channel counts as occupied. */
  readonly thresholdDbm: number;
  /** Whether a station that listens need not keep the duty cycle. */
  readonly sparesDutyCycle: boolean;
}

/** A low power at which a sub-band has no duty cycle. */
export interface FreeOfDutyCycle {
  /** Highest effective radiated power in dBm. */
  readonly maxErpDbm: number;
  /** Where the rule comes from. */
  readonly citation: Citation;
}

/** A stretch of spectrum that belongs to others. */
export interface ReservedBand {
  /** Lower edge in hertz. */
  readonly minHz: number;
  /** Upper edge in hertz. */
  readonly maxHz: number;
  /** Whom it is kept for. */
  readonly use: string;
  /** Where the rule comes from. */
  readonly citation: Citation;
}

/** The stretches of a law, in order of frequency. Whatever lies in none of them is not covered, which is not permission. */
export interface BandPlan {
  /** Stretches in which frames may be sent. */
  readonly subBands: readonly SubBand[];
  /** Stretches in which it may not. */
  readonly reserved: readonly ReservedBand[];
}

/** Where a channel lies in a band plan. */
export type BandPlace = InSubBand | InReservedBand | AcrossAnEdge | NotCovered;

/** A channel that lies in one sub-band as a whole. */
export interface InSubBand {
  /** Tells the four places apart. */
  readonly kind: 'inside';
  /** The sub-band whose rules hold. */
  readonly subBand: SubBand;
}

/** A channel that reaches into a stretch kept for others. */
export interface InReservedBand {
  /** Tells the four places apart. */
  readonly kind: 'reserved';
  /** The stretch it reaches into. */
  readonly reserved: ReservedBand;
}

/** A channel that reaches over the edge of a sub-band. */
export interface AcrossAnEdge {
  /** Tells the four places apart. */
  readonly kind: 'across-an-edge';
  /** The sub-band that holds a part of it. */
  readonly subBand: SubBand;
}

/** A channel that no known rule covers, which is not permission. */
export interface NotCovered {
  /** Tells the four places apart. */
  readonly kind: 'not-covered';
}

/** Where a fact of a sub-band comes from. */
export function sourceOf(subBand: SubBand, fact: BandFact): Citation {
  return subBand.sources?.[fact] ?? subBand.citation;
}

/** What bands and channels have in common. */
interface Stretch {
  readonly minHz: number;
  readonly maxHz: number;
}

/** Finds the sub-band that holds the whole occupied bandwidth; touching its edges from inside is allowed. */
export function placeInBandPlan(plan: BandPlan, frequencyHz: number, bandwidthHz: number): BandPlace {
  const channel = { minHz: frequencyHz - bandwidthHz / 2, maxHz: frequencyHz + bandwidthHz / 2 };
  const subBand = plan.subBands.find((band) => channel.minHz >= band.minHz && channel.maxHz <= band.maxHz);
  if (subBand !== undefined) return { kind: 'inside', subBand };
  const reserved = plan.reserved.find((band) => overlaps(band, channel));
  if (reserved !== undefined) return { kind: 'reserved', reserved };
  const touched = plan.subBands.find((band) => overlaps(band, channel));
  return touched === undefined ? { kind: 'not-covered' } : { kind: 'across-an-edge', subBand: touched };
}

/** The nearest centre frequency on which the channel would lie in one sub-band, if one is near enough to be meant. */
export function nearestLawfulHz(
  plan: BandPlan,
  frequencyHz: number,
  bandwidthHz: number,
): number | undefined {
  const centres = plan.subBands
    .filter((band) => band.maxHz - band.minHz >= bandwidthHz)
    .map((band) =>
      Math.min(Math.max(frequencyHz, band.minHz + bandwidthHz / 2), band.maxHz - bandwidthHz / 2),
    );
  const nearest = centres.sort((a, b) => Math.abs(a - frequencyHz) - Math.abs(b - frequencyHz))[0];
  // Farther than this no slip of the pen is at work, but another band or country.
  const farthestHz = 1e6 + bandwidthHz;
  return nearest !== undefined && Math.abs(nearest - frequencyHz) <= farthestHz ? nearest : undefined;
}

function overlaps(a: Stretch, b: Stretch): boolean {
  return a.minHz < b.maxHz && b.minHz < a.maxHz;
}
