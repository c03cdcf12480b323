import { type Correction, corrected, correctionOf } from './correction.js';
import { framesOf, type PredictedLevels } from './predictedLevels.js';

/** Errors of a prediction, over spots. */
export interface PredictionScore {
  /** Mean of predicted minus measured in dB: positive is optimistic. */
  readonly biasDb: number;
  /** Root of the mean squared error in dB. */
  readonly rmseDb: number;
  /** Mean of the errors' magnitudes in dB. */
  readonly meanAbsoluteErrorDb: number;
}

/** The prediction as it came. */
export const uncorrected: Correction = {
  levelDbm: 0,
  pivotDbm: 0,
  slope: 1,
  sigmaDb: 0,
  levelStandardErrorDb: 0,
  slopeStandardError: 0,
};

/**
 * Error of every frame, corrected minus measured, each by a correction found without the frames of its own spot. Frames of one spot
 * share their shadowing: left in, they would foretell each other.
 */
export function leaveOneSpotOut(levels: PredictedLevels, isLinear: boolean): Float64Array | undefined {
  const errors = new Float64Array(levels.spotOf.length);
  for (const left of new Set(levels.spotOf)) {
    const correction = correctionOf(
      framesOf(levels, (spot) => spot !== left),
      isLinear,
    );
    if (correction === undefined) return undefined;
    levels.spotOf.forEach((spot, i) => {
      if (spot === left) errors[i] = frameError(levels, correction, i);
    });
  }
  return errors;
}

/** Error of every frame under one correction. */
export function frameErrors(levels: PredictedLevels, correction: Correction): Float64Array {
  return levels.predictedDbm.map((_, i) => frameError(levels, correction, i));
}

/** Scores of the spots' mean errors. */
export function scoreBySpot({ spotOf, weights }: PredictedLevels, errorsDb: Float64Array): PredictionScore {
  const sums = new Map<number, number>();
  errorsDb.forEach((error, i) => {
    const spot = spotOf[i] as number;
    sums.set(spot, (sums.get(spot) ?? 0) + error * (weights[i] as number));
  });
  const errors = [...sums.values()];
  const mean = (of: (error: number) => number): number =>
    errors.reduce((sum, error) => sum + of(error), 0) / errors.length;
  return {
    biasDb: mean((error) => error),
    rmseDb: Math.sqrt(mean((error) => error * error)),
    meanAbsoluteErrorDb: mean(Math.abs),
  };
}

/** A missed frame proves an error only where the prediction lies above the threshold: it counts with that much. */
function frameError(
  { predictedDbm, levelDbm, missed }: PredictedLevels,
  correction: Correction,
  i: number,
): number {
  const error = corrected(correction, predictedDbm[i] as number) - (levelDbm[i] as number);
  return missed[i] === 1 ? Math.max(0, error) : error;
}
