/** What a series is between its points. */
export interface Interpolated {
  readonly value: number;
  /** By how much the cubic differs from the parabola through the nearest points: more than its own error, where points are dense. */
  readonly doubt: number;
}

/** Place of the last entry of a rising series that is not above a value; the first place where none is. */
export function placeBelow(rising: Float64Array, value: number): number {
  let low = 0;
  let high = rising.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((rising[middle] as number) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * The cubic through the four points around a place (a parabola or a line where there are fewer), by Neville's scheme. It goes through
 * the points themselves, so that a reading on a point is the reading of the file.
 */
export function interpolateSeries(x: Float64Array, y: (index: number) => number, at: number): Interpolated {
  const count = Math.min(4, x.length);
  const below = placeBelow(x, at);
  const start = Math.min(Math.max(below - 1, 0), x.length - count);
  const abscissae = Array.from({ length: count }, (_, index) => x[start + index] as number);
  const values = abscissae.map((_, index) => y(start + index));
  let before = Number.NaN;
  for (let order = 1; order < count; order += 1) {
    // At the last step two parabolas are left: the one around the place is the better of them.
    if (order === count - 1) before = nearer(abscissae, values, at);
    for (let index = 0; index + order < count; index += 1) {
      const [left, right] = [abscissae[index] as number, abscissae[index + order] as number];
      const share = (at - left) / (right - left);
      values[index] = (1 - share) * (values[index] as number) + share * (values[index + 1] as number);
    }
  }
  const value = values[0] as number;
  return { value, doubt: count === 1 ? 0 : Math.abs(value - before) };
}

function nearer(abscissae: readonly number[], values: readonly number[], at: number): number {
  const last = abscissae.length - 1;
  const toFirst = Math.abs(at - (abscissae[0] as number));
  const toLast = Math.abs(at - (abscissae[last] as number));
  return (toFirst <= toLast ? values[0] : values[1]) ?? 0;
}
