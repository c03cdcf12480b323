/** Zero of a function between two places where it has different signs, to the last digit. */
export function bisect(value: (x: number) => number, low: number, high: number): number {
  const isPositiveBelow = value(low) > 0;
  let [left, right] = [low, high];
  // 60 halvings leave less of any interval than a double can tell apart.
  for (let step = 0; step < 60; step += 1) {
    const middle = (left + right) / 2;
    if (value(middle) > 0 === isPositiveBelow) left = middle;
    else right = middle;
  }
  return (left + right) / 2;
}
