/** A ratio as a person reads it: `95 %`, with the digits it has up to four, or with a fixed number of decimals. */
export function percent(ratio: number, decimalCount?: number): string {
  const inPercent = 100 * ratio;
  return `${decimalCount === undefined ? Number(inPercent.toFixed(4)) : inPercent.toFixed(decimalCount)} %`;
}
