/** A frame on the air, in whole microseconds: from its start up to its end. */
export interface Span {
  readonly startUs: number;
  readonly endUs: number;
}

/** Frames that share a budget, in order of time, none over another; tells how long any stretch of time was on the air. */
export class SpanBook {
  readonly #starts: number[] = [];
  readonly #ends: number[] = [];
  /** Time on air up to the start of each frame, and a last entry for the end of the last. Only differences count. */
  readonly #sums: number[] = [0];

  /** End of the last frame, or undefined where there is none. */
  get lastEndUs(): number | undefined {
    return this.#ends.at(-1);
  }

  add({ startUs, endUs }: Span): void {
    const place = firstIndex(this.#starts, startUs);
    this.#starts.splice(place, 0, startUs);
    this.#ends.splice(place, 0, endUs);
    this.#sums.splice(place + 1, 0, 0);
    for (let index = place; index < this.#starts.length; index++) {
      this.#sums[index + 1] = this.#sum(index) + this.#end(index) - this.#start(index);
    }
  }

  /** Drops the frames that ended at an instant or before. */
  forgetUntil(instantUs: number): void {
    const count = firstIndex(this.#ends, instantUs + 1);
    if (count === 0) return;
    for (const list of [this.#starts, this.#ends, this.#sums]) list.splice(0, count);
  }

  /** Time on air between two instants. */
  onAirUs(fromUs: number, toUs: number): number {
    return this.#sumUpTo(toUs) - this.#sumUpTo(fromUs);
  }

  /** The least instant since which no more than a budget was on the air up to another instant. */
  quietSinceUs(budgetUs: number, untilUs: number): number {
    const spent = this.#sumUpTo(untilUs) - budgetUs;
    if (spent <= this.#sum(0)) return Number.NEGATIVE_INFINITY;
    const index = firstIndex(this.#sums, spent) - 1;
    return this.#start(index) + spent - this.#sum(index);
  }

  /** End of the last frame that a stretch of time touches, or undefined where it touches none. */
  endOfLastWithinUs(fromUs: number, toUs: number): number | undefined {
    const index = firstIndex(this.#starts, toUs) - 1;
    return index >= 0 && this.#end(index) > fromUs ? this.#end(index) : undefined;
  }

  /** Ends of the frames that end between two instants, both left out. */
  endsBetweenUs(afterUs: number, beforeUs: number): readonly number[] {
    return this.#ends.slice(firstIndex(this.#ends, afterUs + 1), firstIndex(this.#ends, beforeUs));
  }

  #sumUpTo(instantUs: number): number {
    const index = firstIndex(this.#starts, instantUs) - 1;
    if (index < 0) return this.#sum(0);
    return this.#sum(index) + Math.min(instantUs, this.#end(index)) - this.#start(index);
  }

  #start(index: number): number {
    return this.#starts[index] as number;
  }

  #end(index: number): number {
    return this.#ends[index] as number;
  }

  #sum(index: number): number {
    return this.#sums[index] as number;
  }
}

/** Place of the first entry of a rising list that is not below a value. */
export function firstIndex(rising: readonly number[], value: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((rising[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
