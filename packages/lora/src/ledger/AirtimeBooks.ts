import { InputError } from '@finial/units';
import type { FrameLimit } from './frameLimits.js';
import type { RecordedFrame } from './LedgerState.js';
import { secondsOf } from './microseconds.js';
import { budgetConflict, type Conflict, latest } from './rollingLimit.js';
import { firstIndex, type Span, SpanBook } from './SpanBook.js';

/** How much later than the newest frame another may come in: a gateway plans its answers seconds ahead, and logs are mixed up. */
const latenessUs = 3600e6;

/** The frames of one station, in one book for all of them and one for each budget. */
export class AirtimeBooks {
  readonly #frames: RecordedFrame[] = [];
  readonly #starts: number[] = [];
  readonly #keepUntil: number[] = [];
  readonly #station: SpanBook = new SpanBook();
  readonly #budgets: Map<string, SpanBook> = new Map();

  get frames(): readonly RecordedFrame[] {
    return this.#frames;
  }

  /** End of the last frame, or undefined where there is none. */
  get lastEndUs(): number | undefined {
    return this.#station.lastEndUs;
  }

  /** Refuses an instant so long ago that frames which would matter may have been forgotten. */
  refuseForgotten(startUs: number, argument: string): void {
    const earliestUs = (this.lastEndUs ?? startUs) - latenessUs;
    if (startUs >= earliestUs) return;
    throw new InputError({
      code: 'out-of-range',
      argument,
      received: secondsOf(startUs),
      expected: `${secondsOf(earliestUs)} seconds or later, an hour before the end of the last recorded frame`,
    });
  }

  add(frame: RecordedFrame, limits: readonly FrameLimit[], argument: string): void {
    const span = spanOf(frame.startUs, frame.durationUs);
    this.refuseForgotten(frame.startUs, argument);
    const busyUntilUs = this.#station.endOfLastWithinUs(span.startUs, span.endUs);
    if (busyUntilUs !== undefined) throw overlapping(frame, busyUntilUs, argument);
    this.#station.add(span);
    for (const name of new Set(limits.map(({ book }) => book))) this.#bookFor(name).add(span);
    const place = firstIndex(this.#starts, frame.startUs);
    const windowUs = Math.max(0, ...limits.map((limit) => limit.windowUs));
    this.#frames.splice(place, 0, frame);
    this.#starts.splice(place, 0, frame.startUs);
    this.#keepUntil.splice(place, 0, span.endUs + windowUs + latenessUs);
    this.#forget(limits);
  }

  /** What keeps a frame of such limits from starting when it is meant to. */
  conflict(limits: readonly FrameLimit[], span: Span): Conflict | undefined {
    const busyUntilUs = this.#station.endOfLastWithinUs(span.startUs, span.endUs);
    if (busyUntilUs !== undefined) return { usedUs: 0, notBeforeUs: busyUntilUs };
    return latest(
      limits.flatMap((limit) => this.pauseConflict(limit, span) ?? this.budgetConflict(limit, span) ?? []),
    );
  }

  /** When the transmitter is free again, if it is not while the frame would last. */
  busyUntilUs({ startUs, endUs }: Span): number | undefined {
    return this.#station.endOfLastWithinUs(startUs, endUs);
  }

  pauseConflict({ book, pauseUs }: FrameLimit, { startUs, endUs }: Span): Conflict | undefined {
    const endOfOther = this.#budgets.get(book)?.endOfLastWithinUs(startUs - pauseUs, endUs + pauseUs);
    return endOfOther === undefined ? undefined : { usedUs: 0, notBeforeUs: endOfOther + pauseUs };
  }

  budgetConflict(limit: FrameLimit, span: Span): Conflict | undefined {
    const book = this.#budgets.get(limit.book);
    return book === undefined || limit.perHop ? undefined : budgetConflict(book, limit, span);
  }

  /** Time on air of a book between two instants. */
  onAirUs(book: string, fromUs: number, toUs: number): number {
    return this.#budgets.get(book)?.onAirUs(fromUs, toUs) ?? 0;
  }

  #bookFor(name: string): SpanBook {
    const known = this.#budgets.get(name);
    if (known !== undefined) return known;
    const fresh = new SpanBook();
    this.#budgets.set(name, fresh);
    return fresh;
  }

  /** A frame is dropped when no window of any start that is still accepted can reach it. */
  #forget(limits: readonly FrameLimit[]): void {
    const newestUs = this.lastEndUs ?? 0;
    this.#station.forgetUntil(newestUs - latenessUs);
    for (const { book } of limits) {
      const windowUs = Math.max(...limits.filter((each) => each.book === book).map((each) => each.windowUs));
      this.#bookFor(book).forgetUntil(newestUs - latenessUs - windowUs);
    }
    const keptFrom = this.#keepUntil.findIndex((untilUs) => untilUs > newestUs);
    for (const list of [this.#frames, this.#starts, this.#keepUntil]) list.splice(0, keptFrom);
  }
}

export function spanOf(startUs: number, durationUs: number): Span {
  return { startUs, endUs: startUs + durationUs };
}

function overlapping(frame: RecordedFrame, busyUntilUs: number, argument: string): InputError {
  return new InputError({
    code: 'out-of-range',
    argument,
    received: secondsOf(frame.startUs),
    expected: `a start that keeps clear of the frame on the air until ${secondsOf(busyUntilUs)}: one transmitter sends one frame at a time`,
  });
}
