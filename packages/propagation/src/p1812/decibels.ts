/** Ten times the logarithm to base ten of a ratio; the natural logarithm is the faster one. Positional and unchecked, for inner loops. */
export function decibels(ratio: number): number {
  return (10 / Math.LN10) * Math.log(ratio);
}
