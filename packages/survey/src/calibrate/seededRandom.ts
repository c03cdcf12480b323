/**
 * A sequence of numbers from 0 (included) to 1 (left out) that the seed alone determines; unchecked. Good enough for resampling, not for
 * secrets.
 *
 * Source: G. Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003) 14: three shifts of 32 bits, twice, for 53 bits.
 */
export function seededRandom(seed: number): () => number {
  // Neighbouring seeds are spread over all 32 bits first; the state must not be zero.
  let state = Math.imul(seed ^ (seed >>> 16) ^ 0x2545f491, 0x9e3779b1) >>> 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  for (let i = 0; i < 16; i += 1) next();
  return () => ((next() >>> 5) * 67_108_864 + (next() >>> 6)) / 9_007_199_254_740_992;
}

/** Puts the items into a random order. Source: R. A. Fisher and F. Yates, in the form of R. Durstenfeld, Algorithm 235 (1964). */
export function shuffled<Item>(items: readonly Item[], random: () => number): Item[] {
  const order = [...items];
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1));
    [order[last], order[other]] = [order[other] as Item, order[last] as Item];
  }
  return order;
}
