import { cholesky } from '../../src/cholesky.js';
import type { PlanePlace, ShadowingModel } from '../../src/index.js';

/** A pseudo-random sequence that is the same on every machine. */
export interface Random {
  readonly uniform: () => number;
  readonly normal: () => number;
}

/** Mulberry32, and normal numbers from it by Box and Muller. */
export function seeded(seed: number): Random {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

/** Draws shadowing at places, as the model has it. */
export function gaussianField(
  places: readonly PlanePlace[],
  { shadowingDb, decorrelationM }: ShadowingModel,
): (random: Random) => Float64Array {
  const size = places.length;
  const matrix = Float64Array.from({ length: size * size }, (_, i) => {
    const a = places[Math.floor(i / size)] as PlanePlace;
    const b = places[i % size] as PlanePlace;
    const distanceM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
    return shadowingDb ** 2 * Math.exp(-distanceM / decorrelationM);
  });
  const factor = cholesky(matrix, size);
  if (factor === undefined) throw new Error('not positive');
  return (random) => {
    const white = Float64Array.from({ length: size }, random.normal);
    return Float64Array.from(places, (_, i) => {
      let sum = 0;
      for (let k = 0; k <= i; k += 1) sum += (factor.rows[i * size + k] as number) * (white[k] as number);
      return sum;
    });
  };
}
