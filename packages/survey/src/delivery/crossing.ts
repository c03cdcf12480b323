/** Where a rising function reaches a level, between two places that enclose it, by halving down to the last digits; unchecked. */
export function crossing(
  rising: (x: number) => number,
  level: number,
  within: { readonly low: number; readonly high: number },
): number {
  let { low, high } = within;
  for (let step = 0; step < 200; step += 1) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    if (rising(middle) < level) low = middle;
    else high = middle;
  }
  return low + (high - low) / 2;
}
