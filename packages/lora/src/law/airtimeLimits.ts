import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Citation } from '../Citation.js';
import { checkedDirection } from '../checkedRegion.js';
import type { DataRate, Direction } from '../Region.js';
import { frequencyBounds } from '../subBandAt.js';
import type { Access, ChannelUse, JurisdictionName } from '../Transmission.js';
import { checkedChannelUse } from './channelUse.js';
import { checkedAccess } from './checkedAccess.js';
import type { Remark, Signal, TimeLimit } from './Jurisdiction.js';
import { checkedJurisdiction } from './jurisdictions.js';
import { stoppingRemark } from './stoppingRemark.js';

/** A channel, and how it is used, whose limits on time are wanted. */
export interface AirtimeQuestion {
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** Which way the frames go. */
  readonly direction: Direction;
  /** Centre frequency in hertz, 100 MHz to 3 GHz. */
  readonly frequencyHz: number;
  /** Occupied bandwidth in hertz, 0 to 10 MHz; of LR-FHSS the width of the channel that is hopped in. */
  readonly bandwidthHz: number;
  /** How the frames are modulated; `LoRa` unless given. */
  readonly modulation?: DataRate['modulation'] | undefined;
  /** How a node spreads its narrow uplinks, in the United States and Australia; `hopping-64` unless given. */
  readonly channelUse?: ChannelUse | undefined;
  /** How the channel is shared with others; the usual way of the jurisdiction unless given. */
  readonly access?: Access | undefined;
}

/** A limit on the time on air, as a book of frames keeps it. */
export interface AirtimeLimit {
  /** Name of the book: all frames of the station with the same name share the budget. */
  readonly book: string;
  /** Longest time on air within any window, in seconds. */
  readonly budgetSeconds: number;
  /** Length of the window in seconds. */
  readonly windowSeconds: number;
  /** Least silence after a frame in seconds, where the law asks for one. */
  readonly pauseSeconds?: number | undefined;
  /** Longest single frame in seconds, where the law limits it apart from the budget. */
  readonly longestSeconds?: number | undefined;
  /** True where the limit counts only the longest hop of a frame that hops (LR-FHSS), not the whole frame. */
  readonly perHop?: boolean | undefined;
  /** Where the limit comes from; one of status `memory` forbids nothing for certain. */
  readonly citation: Citation;
}

/**
 * The limits on the time on air that the law sets on a channel: budgets within windows, pauses, longest frames.
 *
 * An empty list means that the law there, as far as it is known, sets none: digital modulation in the United States. A channel that no
 * known rule covers is refused, so that nobody takes it for free. Where a limit has a length or a pause only, its budget is one that
 * such frames cannot exceed. Budgets are per book: all of a sub-band in Europe, one frequency in the United States.
 *
 * Keeping a budget in every sliding window can take a little longer than the steady interval of `checkTransmission`, because at the end
 * of an hour only whole frames fit.
 *
 * @returns the limits with their citations, exact to the cited editions
 * @throws {@link InputError} `outside-validity`: no known rule covers the channel, or this use of it; `not-a-finite-number`,
 * `out-of-range`, `unknown-option` or `wrong-type`: a field is not what {@link AirtimeQuestion} says
 * @source Each limit's citation; see `lawRules` for all of them
 * @example The second receive window of Europe: 360 s in an hour
 * ```ts
 * import { airtimeLimits } from '@finial/lora';
 *
 * const [limit] = airtimeLimits({
 *   jurisdiction: 'EU', direction: 'downlink', frequencyHz: 869.525e6, bandwidthHz: 125e3,
 * });
 * limit?.book; // → 'EU 869.4 to 869.65 MHz'
 * limit?.budgetSeconds; // → 360
 * limit?.windowSeconds; // → 3600
 * ```
 */
export function airtimeLimits(question: AirtimeQuestion): readonly AirtimeLimit[] {
  checkObject(question, 'question');
  const law = checkedJurisdiction(question.jurisdiction);
  const signal = checkedSignal(question);
  const demands = law.demandsOn(signal);
  if ('refusal' in demands) throw refusedQuestion(demands.refusal, signal);
  const stop = stoppingRemark(demands);
  if (stop !== undefined) throw refusedQuestion(stop, signal);
  return demands.time.map(publicLimit);
}

function checkedSignal(question: AirtimeQuestion): Signal {
  const { modulation = 'LoRa' } = question;
  return {
    direction: checkedDirection(question.direction),
    frequencyHz: checkRange(question.frequencyHz, 'frequencyHz', frequencyBounds),
    bandwidthHz: checkRange(question.bandwidthHz, 'bandwidthHz', { min: 0, max: 10e6, unit: 'hertz' }),
    modulation: checkOneOf(modulation, 'modulation', ['LoRa', 'FSK', 'LR-FHSS']),
    antennaGainDbi: 0,
    channelUse: checkedChannelUse(question.channelUse),
    access: checkedAccess(question.access),
  };
}

/** A limit as callers see it. */
export function publicLimit(limit: TimeLimit): AirtimeLimit {
  const { book, budgetSeconds, windowSeconds, pauseSeconds, longestSeconds, perHop, citation } = limit;
  return {
    book,
    budgetSeconds,
    windowSeconds,
    ...(pauseSeconds === undefined ? {} : { pauseSeconds }),
    // A share has no longest frame but its budget, which says so already.
    ...(longestSeconds === undefined || limit.kind === 'share' ? {} : { longestSeconds }),
    ...(perHop === undefined ? {} : { perHop }),
    citation,
  };
}

/** Which field of the question a rule is about, if not the frequency. */
const fieldOf: Readonly<Record<string, 'access' | 'channelUse' | 'bandwidthHz'>> = {
  'access-not-covered': 'access',
  'hopping-channels': 'channelUse',
  bandwidth: 'bandwidthHz',
};

function refusedQuestion(remark: Remark, signal: Signal): InputError {
  const argument = fieldOf[remark.rule] ?? 'frequencyHz';
  return new InputError({
    code: 'outside-validity',
    argument,
    received: argument === 'channelUse' ? signal.channelUse?.channelCount : signal[argument],
    expected: `a channel and a use of it that a known rule permits (${remark.message})`,
  });
}
