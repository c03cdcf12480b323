import { inverseMills } from '../pathLoss/normalTail.js';
import { type Kriging, type KrigingInput, leaveOneOut, solveKriging } from './kriging.js';

/** A normal number known to lie below a bound. */
export interface BelowBound {
  readonly mean: number;
  readonly variance: number;
}

/**
 * Mean and variance of a normal number that is known to lie below a bound: unchecked.
 *
 * Source: N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate Distributions 1, section 13.10 (from memory): the mean
 * falls by s φ(z)/Φ(z).
 */
export function belowBound(mean: number, variance: number, bound: number): BelowBound {
  const deviation = Math.sqrt(variance);
  const z = (bound - mean) / deviation;
  const mills = inverseMills(z);
  // Far above the mean the difference of z + mills cancels: its series is 1/z² there.
  const share = z < -1e4 ? 1 / (z * z) : Math.max(1 - mills * (z + mills), 0);
  return { mean: mean - deviation * mills, variance: variance * share };
}

/** Samples solved together with their bounds. */
export interface SolvedBounds {
  readonly kriging: Kriging;
  /** Whether levels and variances agreed within a hundred rounds. */
  readonly isSettled: boolean;
}

/**
 * Turns samples of which only an upper bound is known into samples with a level and a variance of its own, by their conditional means
 * under what all other samples say, repeated until they agree; unchecked.
 *
 * The conditional mean already leans on the other samples. So that these do not count twice, level and variance are those of a
 * measurement which, put to the others' estimate, gives that conditional mean and variance.
 *
 * Source: T. P. Minka, Expectation propagation for approximate Bayesian inference (2001) (from memory). Exact for one bound.
 *
 * @param boundsDb - the bound of each sample, NaN for those with a level
 */
export function solveWithBounds(input: KrigingInput, boundsDb: Float64Array): SolvedBounds | undefined {
  const bounded = Array.from(boundsDb.keys()).filter((i) => !Number.isNaN(boundsDb[i]));
  const levelsDb = Float64Array.from(input.levelsDb);
  const noiseDb2 = Float64Array.from(input.noiseDb2);
  // Before the first round a bound says nothing: a variance beyond any other.
  const vagueDb2 = 1e6 * input.model.shadowingDb ** 2;
  for (const i of bounded) {
    levelsDb[i] = boundsDb[i] as number;
    noiseDb2[i] = vagueDb2;
  }
  let kriging = solveKriging({ ...input, levelsDb, noiseDb2 });
  let isSettled = bounded.length === 0;
  for (let round = 0; round < 100 && bounded.length > 0 && kriging !== undefined; round += 1) {
    let change = 0;
    for (const i of bounded) {
      const site = siteFor(kriging, i, boundsDb[i] as number, input.noiseDb2[i] as number, vagueDb2);
      if (site === undefined) continue;
      // Weighed in precision, half old and half new: a full step may swing about the answer.
      const precision = (1 / (noiseDb2[i] as number) + 1 / site.varianceDb2) / 2;
      const shift = ((levelsDb[i] as number) / (noiseDb2[i] as number) + site.levelDb / site.varianceDb2) / 2;
      const next = shift / precision;
      change = Math.max(
        change,
        Math.abs(next - (levelsDb[i] as number)) * Math.min(1, precision * input.model.shadowingDb ** 2),
      );
      levelsDb[i] = next;
      noiseDb2[i] = 1 / precision;
    }
    kriging = solveKriging({
      ...input,
      levelsDb: Float64Array.from(levelsDb),
      noiseDb2: Float64Array.from(noiseDb2),
    });
    isSettled = change < 1e-7;
    if (isSettled) break;
  }
  return kriging === undefined ? undefined : { kriging, isSettled };
}

function siteFor(
  kriging: Kriging,
  index: number,
  boundDb: number,
  ownNoiseDb2: number,
  vagueDb2: number,
): { readonly levelDb: number; readonly varianceDb2: number } | undefined {
  const others = leaveOneOut(kriging, index);
  if (others === undefined) return undefined;
  // The bound holds for the place's mean with the noise of its frames, not for the place alone.
  const placeDb2 = Math.max(others.varianceDb2 - (kriging.input.noiseDb2[index] as number), 0);
  const spreadDb2 = placeDb2 + ownNoiseDb2;
  // Where the others know the level already, a bound adds nothing.
  if (spreadDb2 < 1e-9 * kriging.input.model.shadowingDb ** 2)
    return { levelDb: boundDb, varianceDb2: vagueDb2 };
  const below = belowBound(others.levelDb, spreadDb2, boundDb);
  const gain = 1 / below.variance - 1 / spreadDb2;
  if (!(gain > 1 / vagueDb2)) return { levelDb: boundDb, varianceDb2: vagueDb2 };
  const precision = Math.min(gain, 1e9);
  const levelDb = (below.mean / below.variance - others.levelDb / spreadDb2) / gain;
  // What was said of place and frames together says that much less of the place.
  return { levelDb, varianceDb2: 1 / precision + ownNoiseDb2 };
}
