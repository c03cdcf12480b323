import { inverseMills } from '../pathLoss/normalTail.js';
import { censoredRegression } from './censoredRegression.js';
import type { PredictedLevels } from './predictedLevels.js';

/** What turns a predicted level into the level to expect: level = levelDbm + slope · (predicted - pivotDbm). */
export interface Correction {
  /** Level to expect where `pivotDbm` was predicted. */
  readonly levelDbm: number;
  readonly pivotDbm: number;
  readonly slope: number;
  /** Standard deviation of single frames about it. */
  readonly sigmaDb: number;
  readonly levelStandardErrorDb: number;
  /** Zero where the slope was held at 1. */
  readonly slopeStandardError: number;
}

/** Least standard deviation of the predictions in dB from which a slope is taken. */
export const leastPredictedSpreadDb = 0.01;

/** Finds the correction of an offset alone (`isLinear` false) or of offset and slope; undefined where the frames do not determine it. */
export function correctionOf(levels: PredictedLevels, isLinear: boolean): Correction | undefined {
  const { predictedDbm, levelDbm, missed, weights, spotOf } = levels;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const pivotDbm = predictedDbm.reduce((sum, level, i) => sum + level * (weights[i] as number), 0) / total;
  const centred = predictedDbm.map((level) => level - pivotDbm);
  const squares = centred.reduce((sum, level, i) => sum + level * level * (weights[i] as number), 0);
  if (isLinear && squares < total * leastPredictedSpreadDb ** 2) return undefined;
  const ones = predictedDbm.map(() => 1);
  const fit = censoredRegression({
    columns: isLinear ? [ones, centred] : [ones],
    // About the pivot, the numbers are small and the matrices well conditioned.
    y: levelDbm.map((level, i) => level - pivotDbm - (isLinear ? 0 : (centred[i] as number))),
    missed,
    weights,
    spots: spotOf,
  });
  if (fit === undefined) return undefined;
  const [offset = 0, slope = 1] = fit.coefficients;
  return {
    levelDbm: pivotDbm + offset,
    pivotDbm,
    slope,
    sigmaDb: fit.sigma,
    levelStandardErrorDb: Math.sqrt(fit.covariance[0]?.[0] ?? 0),
    slopeStandardError: Math.sqrt(fit.covariance[1]?.[1] ?? 0),
  };
}

/** The corrected level of a prediction. */
export function corrected({ levelDbm, pivotDbm, slope }: Correction, predictedDbm: number): number {
  return levelDbm + slope * (predictedDbm - pivotDbm);
}

/** How far the levels of each spot lie below the corrected prediction. */
export interface SpotErrors {
  /** Mean of corrected prediction minus measured, by number of the spot; a missed frame counts with its conditional mean. */
  readonly errorsDb: readonly number[];
  /** Standard deviation of the spots about the correction. */
  readonly spreadDb: number;
}

/**
 * Errors by spot about a correction that took `taken` coefficients from the walk.
 *
 * What is not known of a missed frame is counted into the spread as if all missed frames of a spot lay off together, which they do under
 * shadowing: the spread is then rather too large than too small.
 */
export function spotErrors(levels: PredictedLevels, correction: Correction, taken: number): SpotErrors {
  const { predictedDbm, levelDbm, missed, weights, spotOf } = levels;
  const errors = new Map<number, number>();
  const unknowns = new Map<number, number>();
  for (let i = 0; i < spotOf.length; i += 1) {
    const spot = spotOf[i] as number;
    const expected = corrected(correction, predictedDbm[i] as number);
    let error = expected - (levelDbm[i] as number);
    if (missed[i] === 1) {
      const u = -error / correction.sigmaDb;
      const mills = inverseMills(u);
      error = correction.sigmaDb * mills;
      const unknown = correction.sigmaDb * Math.sqrt(Math.max(0, 1 - mills * (u + mills)));
      unknowns.set(spot, (unknowns.get(spot) ?? 0) + (weights[i] as number) * unknown);
    }
    errors.set(spot, (errors.get(spot) ?? 0) + (weights[i] as number) * error);
  }
  const errorsDb = [...errors.keys()]
    .sort((one, other) => one - other)
    .map((spot) => errors.get(spot) as number);
  const count = errorsDb.length;
  const mean = errorsDb.reduce((sum, error) => sum + error, 0) / count;
  const squares = errorsDb.reduce((sum, error) => sum + (error - mean) ** 2, 0);
  const unknown = [...unknowns.values()].reduce((sum, deviation) => sum + deviation * deviation, 0) / count;
  return { errorsDb, spreadDb: Math.sqrt(squares / (count - taken) + unknown) };
}
