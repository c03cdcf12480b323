import { seededRandom } from '../../src/calibrate/seededRandom.js';

/** Standard normal numbers from a seed (Box and Muller), for simulations. */
export function seededNormal(seed: number): () => number {
  const random = seededRandom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
