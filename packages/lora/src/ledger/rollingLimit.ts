import type { Span, SpanBook } from './SpanBook.js';

/** So much time on the air in any window, in whole microseconds. */
export interface RollingLimit {
  readonly budgetUs: number;
  readonly windowUs: number;
}

/** Why a frame cannot start when it is meant to. */
export interface Conflict {
  /** Time on air within the window that is too full, the frame included. */
  readonly usedUs: number;
  /** No start before this instant, from the one that was meant, can be free of the conflict. */
  readonly notBeforeUs: number;
}

/** Whether a frame could ever be sent, were it the only one. */
export function fitsAlone({ budgetUs, windowUs }: RollingLimit, durationUs: number): boolean {
  return Math.min(durationUs, windowUs) <= budgetUs;
}

/**
 * Whether some window that holds a part of the frame would hold more than the budget.
 *
 * As a window slides, the time on air within it stops growing only when a frame at its head has come in as a whole: the fullest
 * window ends with the end of a frame, this one or a later one, so that only those are looked at. The frame must fit alone and lie over
 * no other.
 */
export function budgetConflict(book: SpanBook, limit: RollingLimit, frame: Span): Conflict | undefined {
  const conflicts = windowsOf(book, limit, frame).flatMap((fromUs) => {
    const usedUs = book.onAirUs(fromUs, fromUs + limit.windowUs) + partWithinUs(frame, fromUs, limit);
    if (usedUs <= limit.budgetUs) return [];
    return [{ usedUs, notBeforeUs: notBeforeUs(book, limit, frame, fromUs) }];
  });
  return latest(conflicts);
}

/** The conflict that holds a frame back longest. */
export function latest(conflicts: readonly Conflict[]): Conflict | undefined {
  return conflicts.reduce<Conflict | undefined>(
    (last, each) => (last === undefined || each.notBeforeUs > last.notBeforeUs ? each : last),
    undefined,
  );
}

/** Starts of the windows that end with the frame, or with a later one while they still hold a part of it. */
function windowsOf(book: SpanBook, { windowUs }: RollingLimit, { startUs, endUs }: Span): readonly number[] {
  return [endUs, ...book.endsBetweenUs(startUs, endUs + windowUs)].map((lastUs) => lastUs - windowUs);
}

function partWithinUs({ startUs, endUs }: Span, fromUs: number, { windowUs }: RollingLimit): number {
  return Math.max(0, Math.min(endUs, fromUs + windowUs) - Math.max(startUs, fromUs));
}

/** The earliest start that could help, seen from one window that is too full; a later frame may still be in the way there. */
function notBeforeUs(book: SpanBook, limit: RollingLimit, frame: Span, fromUs: number): number {
  const { budgetUs, windowUs } = limit;
  const durationUs = frame.endUs - frame.startUs;
  if (fromUs === frame.endUs - windowUs) {
    return book.quietSinceUs(budgetUs - durationUs, frame.startUs) + windowUs - durationUs;
  }
  // A window that ends with a later frame holds ever more of this one, until this one comes after it.
  return fromUs + windowUs;
}
