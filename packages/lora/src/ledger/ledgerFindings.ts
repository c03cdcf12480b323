import type { Finding } from '@finial/units';
import { seconds, waitSeconds } from '../figures.js';
import { findingUnder, type RuleOutcome } from '../findingUnder.js';
import { notCoveredHere } from '../law/notCoveredHere.js';
import type { AirtimeBooks } from './AirtimeBooks.js';
import type { FrameLimit } from './frameLimits.js';
import type { CheckedFrame } from './LedgerFrame.js';
import { secondsOf } from './microseconds.js';
import { fitsAlone } from './rollingLimit.js';
import type { Span } from './SpanBook.js';

/** The finding about a channel that no known rule covers. */
export function notCoveredFinding(wanted: string): Finding {
  return findingUnder(notCoveredHere, {
    rule: 'not-covered',
    severity: 'stop',
    message: `no such frame is permitted, now or later: wanted is ${wanted}`,
  });
}

/** The finding about a transmitter that is busy. */
export function busyFinding({ startUs }: Span, busyUntilUs: number): Finding {
  const arithmetic = {
    document: 'A transmitter sends one frame at a time',
    edition: 'arithmetic',
    status: 'read',
  } as const;
  return findingUnder(arithmetic, {
    rule: 'frames-overlap',
    severity: 'stop',
    message: `another frame is on the air: wait ${wait(startUs, busyUntilUs)}`,
  });
}

/** What a limit has to say against a frame; at most one finding. */
export function limitFindings(
  books: AirtimeBooks,
  limit: FrameLimit,
  frame: CheckedFrame,
  span: Span,
): Finding[] {
  const outcome =
    outcomeAlone(limit, frame) ?? pauseOutcome(books, limit, span) ?? budgetOutcome(books, limit, span);
  return outcome === undefined ? [] : [findingUnder(limit.citation, outcome)];
}

/** Whether a frame that were the only one would break a limit: then it never may be sent. */
export function neverFits(limit: FrameLimit, frame: CheckedFrame): boolean {
  return outcomeAlone(limit, frame) !== undefined;
}

function outcomeAlone(limit: FrameLimit, frame: CheckedFrame): RuleOutcome | undefined {
  const durationUs = limit.perHop ? frame.longestHopUs : frame.durationUs;
  const longestUs = limit.longestUs ?? Number.POSITIVE_INFINITY;
  if (durationUs <= longestUs && fitsAlone(limit, durationUs)) return undefined;
  const limitUs = Math.min(longestUs, limit.budgetUs);
  return {
    rule: 'longest-frame',
    severity: 'stop',
    message: `${limit.book}: a ${limit.perHop ? 'hop' : 'frame'} of ${exact(durationUs)} never fits, the longest is ${exact(limitUs)}`,
    measured: exact(durationUs),
    limit: exact(limitUs),
  };
}

function pauseOutcome(books: AirtimeBooks, limit: FrameLimit, span: Span): RuleOutcome | undefined {
  const conflict = books.pauseConflict(limit, span);
  if (conflict === undefined) return undefined;
  return {
    rule: 'pause',
    severity: 'stop',
    message: `${limit.book}: frames need ${exact(limit.pauseUs)} of silence between them: wait ${wait(span.startUs, conflict.notBeforeUs)}`,
    limit: exact(limit.pauseUs),
  };
}

function budgetOutcome(books: AirtimeBooks, limit: FrameLimit, span: Span): RuleOutcome | undefined {
  const conflict = books.budgetConflict(limit, span);
  if (conflict === undefined) return undefined;
  const { budgetUs, windowUs, book } = limit;
  return {
    rule: 'airtime-budget',
    severity: 'stop',
    message: `${book}: ${exact(conflict.usedUs)} on the air within ${exact(windowUs)}, this frame included, is ${exact(conflict.usedUs - budgetUs)} too much: wait ${wait(span.startUs, conflict.notBeforeUs)} at least`,
    measured: exact(conflict.usedUs),
    limit: `${exact(budgetUs)} in ${exact(windowUs)}`,
  };
}

/** A budget can be missed by a microsecond, so that nothing is rounded here. */
function exact(microseconds: number): string {
  return `${secondsOf(microseconds)} s`;
}

function wait(fromUs: number, untilUs: number): string {
  return seconds(waitSeconds(secondsOf(untilUs - fromUs)));
}
