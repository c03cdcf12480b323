import { faultOf } from './faultOf.js';
import type { Target } from './Target.js';
import { inputOf } from './targets.js';

/** How long a target runs. */
export interface Budget {
  readonly seed: number;
  readonly inputs: number;
  readonly seconds: number;
  /** Index of the first input. */
  readonly from?: number | undefined;
}

/** One kind of fault, with the first input that shows it. */
export interface Fault {
  readonly index: number;
  readonly what: string;
  count: number;
}

/** What came of a target. */
export interface TargetReport {
  /** Index behind the last input. */
  readonly to: number;
  readonly seconds: number;
  readonly slowestSeconds: number;
  readonly slowestIndex: number;
  readonly faults: readonly Fault[];
}

/** Runs inputs until the count or the time is used up. */
export async function runTarget(
  target: Target,
  { seed, inputs, seconds, from = 0 }: Budget,
  enter: (index: number) => void = () => undefined,
): Promise<TargetReport> {
  const faults = new Map<string, Fault>();
  const start = performance.now();
  let [slowestSeconds, slowestIndex, index] = [0, 0, from];
  for (let before = start; index < inputs && before - start < seconds * 1000; index++) {
    enter(index);
    const what = await faultOf(target, inputOf(target, seed, index));
    if (what !== undefined) {
      const kind = what.replace(/[\d.]+/g, '0').slice(0, 60);
      const known = faults.get(kind);
      if (known === undefined) faults.set(kind, { index, what, count: 1 });
      else known.count += 1;
    }
    const after = performance.now();
    if (after - before > slowestSeconds * 1000)
      [slowestSeconds, slowestIndex] = [(after - before) / 1000, index];
    before = after;
  }
  const ended = performance.now();
  return {
    to: index,
    seconds: (ended - start) / 1000,
    slowestSeconds,
    slowestIndex,
    faults: [...faults.values()],
  };
}
