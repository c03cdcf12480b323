import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import { offsetWithin } from './azimuthalPlane.js';
import { solveWithBounds } from './censoredSites.js';
import { unsolvable } from './krige.js';
import type { Kriging } from './kriging.js';
import { checkFrameCount, maximumSamples } from './PlaneSample.js';
import { checkPrediction, type PredictedPower } from './PredictedPower.js';
import { checkShadowing, type ShadowingModel } from './ShadowingModel.js';
import { trendSeries } from './trend.js';

/**
 * What a walk found at one spot, against the prediction: either `residualDb`, or `residualBelowDb` where every frame was missed.
 */
export interface ReceptionSpot extends Position {
  /** Measured less predicted power in dB, -300 to 300, mean over the spot's received frames: positive where it works better than predicted. */
  readonly residualDb?: number | undefined;
  /** Where every frame was missed: the weakest power that would have been received, less the predicted power, in dB, -300 to 300. */
  readonly residualBelowDb?: number | undefined;
  /** Frames behind the figure, a whole number from 1 to 1e6. @defaultValue `1` */
  readonly frames?: number | undefined;
}

/** A prediction and the walk that it is put right with. */
export interface SurveyedPrediction {
  /** Predicted received power around the gateway. */
  readonly prediction: PredictedPower;
  /** Spots of the walk, up to 2000. */
  readonly spots: readonly ReceptionSpot[];
  /** How residuals scatter, from `fitShadowing`, `fitVariogram` or the literature. */
  readonly shadowing: ShadowingModel;
  /**
   * `'constant'` lets the spots tell an offset of the whole prediction and needs two spots with a `residualDb`; `'known'` takes the prediction to
   * be right on average and needs no spot at all. @defaultValue `'constant'`
   */
  readonly trend?: 'constant' | 'known' | undefined;
}

/** The residuals of a walk, solved for any place. */
export interface SolvedSpots {
  readonly kriging: Kriging;
  readonly boundedCount: number;
  /** A sentence where the bounds have not settled. */
  readonly warnings: readonly string[];
}

/** Checks a prediction and its walk, and solves the residuals; spots without level enter by their bounds. */
export function solveSpots(question: SurveyedPrediction, trend: 'constant' | 'known'): SolvedSpots {
  const { prediction, spots, shadowing } = question;
  checkPrediction(prediction);
  checkShadowing(shadowing, 'shadowing');
  const places = checkSpots(spots, trend).map((spot, index) =>
    offsetWithin(prediction.origin, spot, `spots[${index}]`),
  );
  const boundsDb = Float64Array.from(spots, ({ residualBelowDb = Number.NaN }) => residualBelowDb);
  const solved = solveWithBounds(
    {
      eastM: Float64Array.from(places, ({ eastM }) => eastM),
      northM: Float64Array.from(places, ({ northM }) => northM),
      levelsDb: Float64Array.from(spots, ({ residualDb = 0 }) => residualDb),
      noiseDb2: Float64Array.from(spots, ({ frames = 1 }) => shadowing.nuggetDb ** 2 / frames),
      trend: trendSeries(trend, places, 'spots'),
      model: shadowing,
    },
    boundsDb,
  );
  if (solved === undefined) throw unsolvable('spots', spots.length);
  return {
    kriging: solved.kriging,
    boundedCount: boundsDb.filter((bound) => !Number.isNaN(bound)).length,
    warnings: solved.isSettled
      ? []
      : ['The levels of spots that heard nothing have not settled: take the map near them with care.'],
  };
}

function checkSpots(spots: readonly ReceptionSpot[], trend: 'constant' | 'known'): readonly ReceptionSpot[] {
  // Before the first walk there is nothing yet, which is fine where the trend is known.
  const isEmpty = Array.isArray(spots) && spots.length === 0 && trend === 'known';
  if (!isEmpty) checkList(spots, 'spots');
  spots.forEach((spot, index) => {
    const name = `spots[${index}]`;
    checkPosition(spot, name);
    const { residualDb, residualBelowDb, frames } = spot;
    const range = { min: -300, max: 300, unit: 'dB' };
    if (residualBelowDb !== undefined) checkRange(residualBelowDb, `${name}.residualBelowDb`, range);
    else checkRange(residualDb, `${name}.residualDb`, range);
    if (residualBelowDb !== undefined && residualDb !== undefined) {
      const expected = 'either residualDb or residualBelowDb';
      throw new InputError({ code: 'out-of-range', argument: name, received: spot, expected });
    }
    checkFrameCount(frames, `${name}.frames`);
  });
  checkRange(spots.length, 'spots.length', { min: 0, max: maximumSamples, unit: 'spots' });
  const withLevel = spots.filter(({ residualDb }) => residualDb !== undefined).length;
  if (trend === 'known' || withLevel >= 2) return spots;
  const expected = "at least 2 spots with residualDb (or trend: 'known')";
  throw new InputError({ code: 'missing', argument: 'spots', received: withLevel, expected });
}

/** Reads the trend of a question, which must be an object. */
export function trendOf(question: SurveyedPrediction): 'constant' | 'known' {
  const { trend = 'constant' } = checkObject(question, 'question');
  if (trend === 'constant' || trend === 'known') return trend;
  throw new InputError({
    code: 'unknown-option',
    argument: 'trend',
    received: trend,
    expected: "'constant' or 'known'",
  });
}
