/** Standard normal numbers from a seed: a 32-bit shift register with added counter, and Box and Muller's transformation. */
export function seededNormal(seed: number): () => number {
  const uniform = seededUniform(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Uniform numbers from 0 to below 1, from a seed. */
export function seededUniform(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) >>> 0 || 1;
  let counter = 0;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    counter = (counter + 362437) | 0;
    return ((state + counter) >>> 0) / 2 ** 32;
  };
  for (let i = 0; i < 20; i += 1) next();
  return next;
}
