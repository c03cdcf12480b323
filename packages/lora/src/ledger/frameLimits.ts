import { isInputError } from '@finial/units';
import type { Citation } from '../Citation.js';
import { type AirtimeLimit, airtimeLimits } from '../law/airtimeLimits.js';
import type { CheckedFrame } from './LedgerFrame.js';
import type { LedgerTerms } from './LedgerState.js';
import { roundedDownUs, roundedUpUs } from './microseconds.js';
import type { RollingLimit } from './rollingLimit.js';

/** A limit that a frame must keep, in whole microseconds. */
export interface FrameLimit extends RollingLimit {
  /** Name of the frames that share the budget. */
  readonly book: string;
  /** Least silence around frames of the book; 0 where none is asked for. */
  readonly pauseUs: number;
  /** Longest single frame, where there is such a limit. */
  readonly longestUs: number | undefined;
  /** Whether only the longest hop of a frame counts: then no book is kept, for the ledger does not know the hops' frequencies. */
  readonly perHop: boolean;
  /** Whether it holds frames back: what is known from memory only makes notes. */
  readonly binding: boolean;
  readonly citation: Citation;
}

const ownBudget: Citation = {
  document: 'Daily budget that the station allows itself',
  edition: 'common practice, no source',
  status: 'read',
};

const dayUs = 86_400e6;

/** What a frame must keep, or why no rule known here lets it on the air. */
export type FrameLimits =
  | { readonly covered: true; readonly limits: readonly FrameLimit[] }
  | { readonly covered: false; readonly limits: readonly []; readonly wanted: string };

/** Every limit that a frame must keep. */
export function frameLimits(terms: LedgerTerms, frame: CheckedFrame): FrameLimits {
  const { jurisdiction, channelUse, access } = terms;
  const { direction, frequencyHz, bandwidthHz, modulation } = frame;
  const question = { jurisdiction, direction, frequencyHz, bandwidthHz, modulation, channelUse, access };
  try {
    return { covered: true, limits: [...airtimeLimits(question).map(counted), ...ownLimits(terms)] };
  } catch (error) {
    // What no rule covers may have been sent all the same, and a scheduler wants an answer, not an exception.
    if (!isInputError(error) || error.code !== 'outside-validity') throw error;
    return { covered: false, limits: [], wanted: error.expected };
  }
}

function ownLimits({ dailyBudgetSeconds }: LedgerTerms): readonly FrameLimit[] {
  if (dailyBudgetSeconds === undefined) return [];
  return [
    {
      book: 'daily budget',
      budgetUs: roundedDownUs(dailyBudgetSeconds),
      windowUs: dayUs,
      pauseUs: 0,
      longestUs: undefined,
      perHop: false,
      binding: true,
      citation: ownBudget,
    },
  ];
}

function counted(limit: AirtimeLimit): FrameLimit {
  const { pauseSeconds, longestSeconds, perHop = false, citation } = limit;
  return {
    book: limit.book,
    budgetUs: roundedDownUs(limit.budgetSeconds),
    windowUs: roundedUpUs(limit.windowSeconds),
    pauseUs: pauseSeconds === undefined ? 0 : roundedUpUs(pauseSeconds),
    longestUs: longestSeconds === undefined ? undefined : roundedDownUs(longestSeconds),
    perHop,
    binding: citation.status !== 'memory',
    citation,
  };
}
