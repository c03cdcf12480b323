import { checkObject, type Finding } from '@finial/units';
import { checkedRegion } from './checkedRegion.js';
import { AirtimeBooks, spanOf } from './ledger/AirtimeBooks.js';
import { checkedTerms } from './ledger/checkedTerms.js';
import { type FrameLimit, type FrameLimits, frameLimits } from './ledger/frameLimits.js';
import {
  type CheckedFrame,
  checkedFrame,
  checkedInstantUs,
  type LedgerTransmission,
  type WaitingFrame,
} from './ledger/LedgerFrame.js';
import { framesOfState, type LedgerState, stateOf } from './ledger/LedgerState.js';
import { busyFinding, limitFindings, neverFits, notCoveredFinding } from './ledger/ledgerFindings.js';
import { secondsOf } from './ledger/microseconds.js';
import type { Span } from './ledger/SpanBook.js';
import type { Region } from './Region.js';
import type { Access, ChannelUse, JurisdictionName } from './Transmission.js';

/** A station, and what it is bound by. */
export interface LedgerSettings {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** How a node spreads its narrow uplinks, in the United States and Australia; `hopping-64` unless given. */
  readonly channelUse?: ChannelUse | undefined;
  /** How the station shares its channel, where the law leaves the choice; the usual way of the jurisdiction unless given. */
  readonly access?: Access | undefined;
  /**
   * Seconds on the air that the station allows itself in any 24 hours beside the law, above 0 to 86 400. Community networks ask
   * for something like 30 s of each node (common practice, no source).
   */
  readonly dailyBudgetSeconds?: number | undefined;
  /** What `toJSON` of an earlier ledger gave, under the same settings. */
  readonly state?: LedgerState | undefined;
}

/** How full a book is when a frame is meant to end. */
export interface BookUse {
  /** Name of the frames that share the budget. */
  readonly book: string;
  /** Seconds on the air of other frames, within the window that ends with this one. */
  readonly usedSeconds: number;
  /** Seconds that may be on the air within any window. */
  readonly budgetSeconds: number;
  /** Length of the window in seconds. */
  readonly windowSeconds: number;
}

/** Whether a frame may start when it is meant to. */
export interface LedgerAnswer {
  /** Whether it may. */
  readonly permitted: boolean;
  /** Time on air in seconds, as the books count it: rounded up to the microsecond. */
  readonly timeOnAirSeconds: number;
  /**
   * Earliest start at or after the one that was meant at which the frame may be sent, in seconds of the ledger's epoch; the very
   * one where it is permitted, undefined where it never may be sent.
   */
  readonly nextPermittedSeconds: number | undefined;
  /** Each budget that the frame draws on. */
  readonly books: readonly BookUse[];
  /** Why it may not, and what is worth to know. A limit that is known from memory only makes a note and holds nothing back. */
  readonly findings: readonly Finding[];
}

/** The frames of one transmitter, and what they leave of its budgets. */
export interface TransmitLedger {
  /** Whether a frame may start when it is meant to. Changes nothing. */
  readonly permits: (tx: LedgerTransmission) => LedgerAnswer;
  /** Takes down a frame that was sent, or surely will be. It is counted even if it was not permitted. */
  readonly record: (tx: LedgerTransmission) => void;
  /**
   * Earliest start at which the frame may be sent, in seconds of the ledger's epoch: at or after `startSeconds` if that is given, else
   * after the last recorded frame (0 where nothing was recorded). Undefined where it never may be sent.
   */
  readonly nextPermitted: (tx: WaitingFrame) => number | undefined;
  /** The ledger as plain data, for `JSON.stringify` and the `state` of another. */
  readonly toJSON: () => LedgerState;
}

/**
 * A book of what one transmitter sent, which says when it may send again.
 *
 * In no window of the law's length, wherever it begins, is more on the air than the law allows; a frame that a window cuts is counted with
 * the part inside. Frames that share a budget are in one book (all of a sub-band in Europe, one frequency in the United States),
 * the other books stay free. Beside the budgets it keeps the longest frame, the pause after a frame, and that a transmitter sends one frame at
 * a time. It counts whole microseconds, so that a budget can be filled to its edge and no further. Power, payload and channel plan are
 * no business of the ledger: see `checkTransmission`.
 *
 * Frames may be asked for and recorded in any order, as a gateway plans them, but not longer ago than an hour before the end of the last
 * one: older frames are forgotten as soon as no window can reach them. An average share of the time, as the law's wording can also
 * be read, would allow a little more than the sliding window.
 *
 * @returns the ledger; its methods throw {@link InputError} `not-a-finite-number`, `out-of-range` (also: too long ago; recorded over another
 * frame), `unknown-option`, `missing` or `wrong-type`. Instants are exact to the microsecond
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a setting is not what {@link LedgerSettings}
 * says, or the state is none of this format or was kept under other settings
 * @source Limits: EN 300 220-2 and ERC/REC 70-03 (EU), 47 CFR 15.247 (US) and the others of `airtimeLimits`, with their citations
 * @example A gateway's answers at SF12 on 869.525 MHz, one after the other
 * ```ts
 * import { regions, transmitLedger } from '@finial/lora';
 *
 * const ledger = transmitLedger({ region: regions.EU868, jurisdiction: 'EU' });
 * const frame = { frequencyHz: 869.525e6, dataRate: 0, applicationBytes: 51, direction: 'downlink' } as const;
 * let sentFrames = 0;
 * for (let startSeconds = 0; ledger.permits({ ...frame, startSeconds }).permitted; startSeconds += 5) {
 *   ledger.record({ ...frame, startSeconds });
 *   sentFrames += 1;
 * }
 * sentFrames; // → 128
 * ledger.nextPermitted(frame); // ≈ 3597.56
 * ledger.nextPermitted({ ...frame, frequencyHz: 868.1e6 }); // ≈ 637.79
 * ```
 */
export function transmitLedger(settings: LedgerSettings): TransmitLedger {
  checkObject(settings, 'settings');
  const region = checkedRegion(settings.region);
  const terms = checkedTerms(settings);
  const books = new AirtimeBooks();
  if (settings.state !== undefined) {
    for (const [index, frame] of framesOfState(region, terms, settings.state).entries()) {
      books.add(frame, frameLimits(terms, frame).limits, `state.entries[${index}].startSeconds`);
    }
  }
  return {
    permits(tx) {
      const frame = checkedFrame(region, tx, '');
      const startUs = checkedStartUs(books, tx.startSeconds);
      return answer(books, frameLimits(terms, frame), frame, startUs);
    },
    record(tx) {
      const frame = checkedFrame(region, tx, '');
      const startUs = checkedInstantUs(tx.startSeconds, 'startSeconds');
      books.add({ ...frame, startUs }, frameLimits(terms, frame).limits, 'startSeconds');
    },
    nextPermitted(tx) {
      const frame = checkedFrame(region, tx, '');
      const { startSeconds } = tx;
      const fromUs =
        startSeconds === undefined ? (books.lastEndUs ?? 0) : checkedStartUs(books, startSeconds);
      const startUs = nextStartUs(books, frameLimits(terms, frame), frame, fromUs);
      return startUs === undefined ? undefined : secondsOf(startUs);
    },
    toJSON: () => stateOf(region, terms, books.frames),
  };
}

function checkedStartUs(books: AirtimeBooks, startSeconds: unknown): number {
  const startUs = checkedInstantUs(startSeconds, 'startSeconds');
  books.refuseForgotten(startUs, 'startSeconds');
  return startUs;
}

function answer(books: AirtimeBooks, law: FrameLimits, frame: CheckedFrame, startUs: number): LedgerAnswer {
  const span = spanOf(startUs, frame.durationUs);
  const nextUs = nextStartUs(books, law, frame, startUs);
  return {
    permitted: nextUs === startUs,
    timeOnAirSeconds: secondsOf(frame.durationUs),
    nextPermittedSeconds: nextUs === undefined ? undefined : secondsOf(nextUs),
    books: law.limits.filter(({ perHop }) => !perHop).map((limit) => bookUse(books, limit, span)),
    findings: findingsOf(books, law, frame, span),
  };
}

function bookUse(books: AirtimeBooks, { book, budgetUs, windowUs }: FrameLimit, { endUs }: Span): BookUse {
  return {
    book,
    usedSeconds: secondsOf(books.onAirUs(book, endUs - windowUs, endUs)),
    budgetSeconds: secondsOf(budgetUs),
    windowSeconds: secondsOf(windowUs),
  };
}

function findingsOf(books: AirtimeBooks, law: FrameLimits, frame: CheckedFrame, span: Span): Finding[] {
  if (!law.covered) return [notCoveredFinding(law.wanted)];
  const busyUntilUs = books.busyUntilUs(span);
  // Over another frame no window is worth looking at.
  if (busyUntilUs !== undefined) return [busyFinding(span, busyUntilUs)];
  return law.limits.flatMap((limit) => limitFindings(books, limit, frame, span));
}

/** Every step skips only starts that cannot be free, so that the first free one is found. */
function nextStartUs(
  books: AirtimeBooks,
  law: FrameLimits,
  frame: CheckedFrame,
  fromUs: number,
): number | undefined {
  if (!law.covered) return undefined;
  const binding = law.limits.filter((limit) => limit.binding);
  if (binding.some((limit) => neverFits(limit, frame))) return undefined;
  for (let startUs = fromUs; ; ) {
    const conflict = books.conflict(binding, spanOf(startUs, frame.durationUs));
    if (conflict === undefined) return startUs;
    startUs = conflict.notBeforeUs;
  }
}
