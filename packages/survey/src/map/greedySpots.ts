import { dot } from '../cholesky.js';
import { type Kriging, type SeenPlace, seePlace, varianceAt } from './kriging.js';
import type { PlanePlace } from './PlaneSample.js';

/** A place together with how the samples see it. */
export interface PlaceSeen {
  readonly place: PlanePlace;
  readonly seen: SeenPlace;
}

/** What to choose from, and what for. */
export interface GreedyQuestion {
  readonly kriging: Kriging;
  readonly targets: readonly PlaceSeen[];
  /** Weight of each target; their sum is 1. */
  readonly weights: Float64Array;
  readonly candidates: readonly PlaceSeen[];
  /** Variance of a new sample about the mean of its place in dB². */
  readonly noiseDb2: number;
  readonly count: number;
}

/** One choice. */
export interface GreedyChoice {
  /** Place of the candidate in the list. */
  readonly index: number;
  /** Weighted mean variance of the targets once it has been sampled, in dB². */
  readonly meanVarianceDb2: number;
}

/** Sees places from the samples; unchecked. */
export function seePlaces(
  kriging: Kriging,
  places: readonly PlanePlace[],
  termsAt: (place: PlanePlace) => Float64Array,
): PlaceSeen[] {
  return places.map((place) => ({
    place,
    seen: seePlace(kriging, place.eastM, place.northM, termsAt(place)),
  }));
}

/**
 * Chooses places one after the other, each the one that lowers the weighted mean variance of the targets most; unchecked.
 *
 * Variances do not depend on what will be measured, so all choices can be made beforehand. Every candidate is weighed again after each choice:
 * a rank-one update of the covariances costs no more than skipping some would save, and skipping (lazy evaluation) could miss
 * the best, since the gain of a place may also grow once another has been sampled.
 */
export function greedySpots(question: GreedyQuestion): GreedyChoice[] {
  const { kriging, targets, weights, candidates, noiseDb2, count } = question;
  const across = candidates.map((candidate) =>
    Float64Array.from(targets, (target) => covarianceBetween(kriging, target, candidate)),
  );
  const variances = Float64Array.from(candidates, ({ seen }) => Math.max(0, varianceAt(kriging, seen)));
  let meanVarianceDb2 = dot(
    weights,
    Float64Array.from(targets, ({ seen }) => Math.max(0, varianceAt(kriging, seen))),
  );
  const choices: GreedyChoice[] = [];
  const taken: Float64Array[] = [];
  while (choices.length < count) {
    const { index, gainDb2 } = bestOf(across, variances, weights, noiseDb2, choices);
    meanVarianceDb2 = Math.max(0, meanVarianceDb2 - gainDb2);
    choices.push({ index, meanVarianceDb2 });
    const spread = Math.sqrt((variances[index] as number) + noiseDb2);
    if (spread === 0) continue;
    const chosen = candidates[index] as PlaceSeen;
    // Covariance of each candidate with the chosen one, after the choices before.
    const shares = Float64Array.from(candidates, (candidate, j) => {
      const before = covarianceBetween(kriging, candidate, chosen);
      const known = taken.reduce((sum, other) => sum + (other[j] as number) * (other[index] as number), 0);
      return (before - known) / spread;
    });
    taken.push(shares);
    const column = Float64Array.from(across[index] as Float64Array);
    candidates.forEach((_, j) => {
      const share = shares[j] as number;
      variances[j] = Math.max(0, (variances[j] as number) - share ** 2);
      const own = across[j] as Float64Array;
      for (let t = 0; t < own.length; t += 1)
        own[t] = (own[t] as number) - ((column[t] as number) / spread) * share;
    });
  }
  return choices;
}

function bestOf(
  across: readonly Float64Array[],
  variances: Float64Array,
  weights: Float64Array,
  noiseDb2: number,
  choices: readonly GreedyChoice[],
): { readonly index: number; readonly gainDb2: number } {
  let best = { index: -1, gainDb2: -1 };
  across.forEach((column, index) => {
    if (choices.some((choice) => choice.index === index)) return;
    const spreadDb2 = (variances[index] as number) + noiseDb2;
    let squares = 0;
    for (let t = 0; t < column.length; t += 1) squares += (weights[t] as number) * (column[t] as number) ** 2;
    // A place that is known already, to the last digit, has nothing to give.
    const gainDb2 = spreadDb2 > 0 ? squares / spreadDb2 : 0;
    if (gainDb2 > best.gainDb2) best = { index, gainDb2 };
  });
  return best;
}

function covarianceBetween(kriging: Kriging, a: PlaceSeen, b: PlaceSeen): number {
  const { shadowingDb, decorrelationM } = kriging.input.model;
  const eastward = a.place.eastM - b.place.eastM;
  const northward = a.place.northM - b.place.northM;
  const distanceM = Math.sqrt(eastward * eastward + northward * northward);
  return (
    shadowingDb ** 2 * Math.exp(-distanceM / decorrelationM) -
    dot(a.seen.white, b.seen.white) +
    dot(a.seen.openTrend, b.seen.openTrend)
  );
}
