/**
 * Indices of a longest strictly rising choice from a list, in order. What it leaves out is the least that must go for the rest to be
 * in order: one time from the far future then costs one row, not all that follow.
 */
export function longestRise(values: readonly number[]): readonly number[] {
  // ends[n] is the index of the least value that a rise of n + 1 values can end with.
  const ends: number[] = [];
  const before = values.map((value, index) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[ends[middle] as number] as number) < value) low = middle + 1;
      else high = middle;
    }
    ends[low] = index;
    return ends[low - 1];
  });
  const chosen: number[] = [];
  for (let index = ends.at(-1); index !== undefined; index = before[index]) chosen.push(index);
  return chosen.reverse();
}
