/** Numbers for simulated walks: the same for the same seed. */
export function seededRandom(seed: number): {
  /** Even between 0 and 1, both excluded. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** Beta distributed. */
  readonly beta: (shapeA: number, shapeB: number) => number;
} {
  let state = seed >>> 0;
  // Weyl sequence with a mixing of bits.
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return (((mixed ^ (mixed >>> 16)) >>> 0) + 0.5) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  // G. Marsaglia and W. W. Tsang, ACM Transactions on Mathematical Software 26 (2000) 363; shapes from 1 up.
  const gamma = (shape: number): number => {
    const d = shape - 1 / 3;
    for (;;) {
      const x = normal();
      const v = (1 + x / Math.sqrt(9 * d)) ** 3;
      if (v > 0 && Math.log(uniform()) < (x * x) / 2 + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  const beta = (shapeA: number, shapeB: number): number => {
    const one = gamma(shapeA);
    return one / (one + gamma(shapeB));
  };
  return { uniform, normal, beta };
}
