/**
 * Where a function of one number is least between two ends: a scan of a hundred steps, then the golden section about the best of them.
 * The scan finds the right valley where there are two.
 */
export function leastOnLine(costOf: (x: number) => number, from: number, to: number): number {
  const steps = 100;
  const at = (step: number) => from + ((to - from) * step) / steps;
  let best = 0;
  let least = Infinity;
  for (let step = 0; step <= steps; step += 1) {
    const value = costOf(at(step));
    if (value < least) [best, least] = [step, value];
  }
  let [low, high] = [at(Math.max(best - 1, 0)), at(Math.min(best + 1, steps))];
  const golden = (Math.sqrt(5) - 1) / 2;
  let inner = high - golden * (high - low);
  let outer = low + golden * (high - low);
  let [atInner, atOuter] = [costOf(inner), costOf(outer)];
  while (high - low > 1e-9 * (1 + Math.abs(low) + Math.abs(high))) {
    if (atInner <= atOuter) {
      [high, outer, atOuter] = [outer, inner, atInner];
      inner = high - golden * (high - low);
      atInner = costOf(inner);
    } else {
      [low, inner, atInner] = [inner, outer, atOuter];
      outer = low + golden * (high - low);
      atOuter = costOf(outer);
    }
  }
  return (low + high) / 2;
}
