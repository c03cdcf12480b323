import { checkObject } from '@finial/units';
import { checkedRegion } from './checkedRegion.js';
import { checkedTerms } from './ledger/checkedTerms.js';
import { type FrameLimit, frameLimits } from './ledger/frameLimits.js';
import { checkedFrame, type LedgerFrame } from './ledger/LedgerFrame.js';
import { neverFits } from './ledger/ledgerFindings.js';
import { secondsOf } from './ledger/microseconds.js';
import type { LedgerSettings } from './transmitLedger.js';

/** Equal frames that a station sends over and over on one channel, and what binds the station. */
export interface SteadySender extends LedgerFrame, Omit<LedgerSettings, 'state'> {}

/** How often such frames may be sent. */
export type LawfulPace =
  | {
      /** Whether they may be sent at all. */
      readonly possible: true;
      /** Time on air of each in seconds, rounded up to the microsecond. */
      readonly timeOnAirSeconds: number;
      /**
       * Shortest steady interval in seconds between starts that keeps every known limit for ever, rounded up to the microsecond; the time
       * on air itself where no limit asks for more.
       */
      readonly minimumIntervalSeconds: number;
      /** Whole intervals in an hour: frames that can be sent steadily. */
      readonly framesPerHour: number;
      /** Name of the frames that share the limit which binds, such as `EU 868 to 868.6 MHz`; undefined where none binds. */
      readonly book: string | undefined;
    }
  | {
      /** Whether they may be sent at all. */
      readonly possible: false;
      /** Why not, in words. */
      readonly reason: string;
    };

const hourUs = 3600e6;

/**
 * How often a station may send equal frames on one channel, so that no window of the law's length ever holds too much of them.
 *
 * Only whole frames fit into the end of a window, so that under a duty cycle this is a little slower than time on air over duty cycle:
 * `checkTransmission` counts by the average, {@link transmitLedger} by the window, as here. All frames of the book share the pace; in
 * the United States each frequency is a book, and a node that takes turns over 64 of them may send 64 times as often. What is known
 * from memory only slows nothing down.
 *
 * @returns interval and frames an hour, exact to the microsecond; or the reason why no such frame may be sent
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option`, `missing` or `wrong-type`: a field is not what
 * {@link SteadySender} says
 * @source Limits of `airtimeLimits` with their citations; the interval is derived from the sliding window
 * @example The longest frame of SF12 in Europe
 * ```ts
 * import { lawfulPace, regions } from '@finial/lora';
 *
 * const pace = lawfulPace({
 *   region: regions.EU868, jurisdiction: 'EU', frequencyHz: 868.1e6, dataRate: 0, applicationBytes: 51,
 * });
 * pace.possible && pace.minimumIntervalSeconds; // ≈ 299.79
 * pace.possible && pace.framesPerHour; // → 12
 * ```
 */
export function lawfulPace(sender: SteadySender): LawfulPace {
  checkObject(sender, 'sender');
  const region = checkedRegion(sender.region);
  const terms = checkedTerms(sender);
  const frame = checkedFrame(region, sender, '');
  const law = frameLimits(terms, frame);
  if (!law.covered) return { possible: false, reason: `wanted is ${law.wanted}` };
  const binding = law.limits.filter((limit) => limit.binding);
  const tooShort = binding.find((limit) => neverFits(limit, frame));
  if (tooShort !== undefined) return { possible: false, reason: `too long for ${tooShort.book}` };
  const slowest = binding
    .filter((limit) => !limit.perHop)
    .map((limit) => ({ book: limit.book, intervalUs: intervalUs(limit, frame.durationUs) }))
    .reduce<Pace>((most, each) => (each.intervalUs > most.intervalUs ? each : most), {
      book: undefined,
      intervalUs: frame.durationUs,
    });
  return {
    possible: true,
    timeOnAirSeconds: secondsOf(frame.durationUs),
    minimumIntervalSeconds: secondsOf(slowest.intervalUs),
    framesPerHour: Math.floor(hourUs / slowest.intervalUs),
    book: slowest.book,
  };
}

interface Pace {
  readonly book: string | undefined;
  readonly intervalUs: number;
}

/** With n whole frames in the budget, n intervals and what the budget has left beside them must fill the window. */
function intervalUs({ budgetUs, windowUs, pauseUs }: FrameLimit, durationUs: number): number {
  const wholeFrames = Math.floor(budgetUs / durationUs);
  const leftUs = budgetUs - wholeFrames * durationUs;
  const steadyUs = wholeFrames === 0 ? 0 : Math.ceil((windowUs - leftUs) / wholeFrames);
  return Math.max(steadyUs, durationUs + pauseUs);
}
