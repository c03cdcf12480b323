import { checkObject, checkRange, InputError } from '@finial/units';
import type { Observation, Position } from '../Observation.js';
import { chiSquareQuantile } from './chiSquareQuantile.js';
import { type Correction, corrected, correctionOf, type SpotErrors, spotErrors } from './correction.js';
import {
  frameErrors,
  leaveOneSpotOut,
  type PredictionScore,
  scoreBySpot,
  uncorrected,
} from './leaveOneSpotOut.js';
import {
  framesOf,
  heardSpots,
  leftOutWarnings,
  type PredictedLevelOptions,
  type PredictedLevels,
  type PredictedPowersDbm,
  predictedLevels,
} from './predictedLevels.js';
import { checkTerms, type ResidualTerm, residualTerms } from './residualTerms.js';
import { studentQuantile } from './studentDistribution.js';
import { verdictOf, withinDistance } from './verdict.js';

/** How a prediction is set against a walk. */
export interface CalibrateOptions extends PredictedLevelOptions {
  /** Confidence of the intervals, 0.5 to 0.9999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
  /** Distances to the gateway in metres, 1 to 20.1e6: a verdict is given for the spots within each. @defaultValue `[]` */
  readonly withinM?: readonly number[] | undefined;
  /**
   * Columns that may explain the errors, such as clutter height, distance or obstruction: one number per observation, -1e9 to 1e9, in
   * any unit. @defaultValue `{}`
   */
  readonly terms?: Readonly<Record<string, readonly number[]>> | undefined;
}

/** Error of the prediction at one spot: a row for a map. */
export interface SpotResidual extends Position {
  /** Name of the spot. */
  readonly spot: string;
  /** Distance over ground to the gateway in metres, where it is known. */
  readonly distanceM?: number | undefined;
  /** Frames that were used. */
  readonly usedFrames: number;
  /** Those of them that were missed: their level is only known to lie below the threshold. */
  readonly missedFrames: number;
  /** Mean of the predicted powers in dBm. */
  readonly predictedDbm: number;
  /** Predicted minus measured in dB: positive is optimistic. A missed frame counts with the mean that its bound leaves. */
  readonly errorDb: number;
  /** The same after the correction, in dB. */
  readonly remainingErrorDb: number;
}

/** Offset of the prediction over the spots within a distance. */
export interface BiasWithin {
  /** Distance to the gateway in metres. */
  readonly distanceM: number;
  /** Spots within it that were used. */
  readonly spots: number;
  /** Mean of predicted minus measured in dB; absent where fewer than two spots were heard. */
  readonly biasDb?: number | undefined;
  /** Lower end of its interval in dB. */
  readonly biasLowerDb?: number | undefined;
  /** Upper end of its interval in dB. */
  readonly biasUpperDb?: number | undefined;
  /** The same as a sentence. */
  readonly verdict: string;
}

/** What a walk says about a prediction, and how to correct it. */
export interface Calibration {
  /** Mean of predicted minus measured in dB, every spot weighing the same: positive is optimistic. */
  readonly biasDb: number;
  /** Standard error of the bias in dB, by spots. */
  readonly biasStandardErrorDb: number;
  /** Lower end of the bias's interval in dB. */
  readonly biasLowerDb: number;
  /** Upper end of the bias's interval in dB. */
  readonly biasUpperDb: number;
  /** Confidence of all intervals here. */
  readonly confidence: number;
  /** Standard deviation of the spots' errors about the bias in dB. */
  readonly spreadDb: number;
  /** Lower end of the spread's interval in dB. */
  readonly spreadLowerDb: number;
  /** Upper end of the spread's interval in dB. */
  readonly spreadUpperDb: number;
  /** Root of the mean squared error of the spots in dB: bias and spread together. */
  readonly rmseDb: number;
  /** Standard deviation of single frames about the bias in dB. */
  readonly frameSpreadDb: number;
  /** Change of the measured level for 1 dB of predicted level that the correction takes: 1 below ten heard spots, else as fitted. */
  readonly slopeRatio: number;
  /** The slope that fits the walk best; absent where predictions do not differ or fewer than three spots were heard. */
  readonly fittedSlopeRatio?: number | undefined;
  /** Standard error of `fittedSlopeRatio`, by spots. */
  readonly fittedSlopeStandardErrorRatio?: number | undefined;
  /** Predicted level about which the correction turns, in dBm: the mean of the spots' predictions. */
  readonly pivotDbm: number;
  /** Level to expect in dBm where `pivotDbm` was predicted. */
  readonly levelDbm: number;
  /** Standard deviation of the spots about the corrected prediction in dB. */
  readonly remainingSpreadDb: number;
  /** Standard deviation of the spots' mean predictions in dB. */
  readonly predictedSpreadDb: number;
  /** Lowest power that was predicted for a used frame, in dBm. */
  readonly lowestPredictedDbm: number;
  /** Highest power that was predicted for a used frame, in dBm. */
  readonly highestPredictedDbm: number;
  /** Spots with a frame that was used. */
  readonly spots: number;
  /** Those of them with a received frame; intervals have one degree of freedom less. */
  readonly heardSpots: number;
  /** Frames that came in. */
  readonly frames: number;
  /** Frames that were used. */
  readonly usedFrames: number;
  /** Used frames that were missed and count as bounds. */
  readonly missedFrames: number;
  /** One row per spot, in the order in which the spots first occur. */
  readonly residuals: readonly SpotResidual[];
  /** What explains the errors, most first. */
  readonly terms: readonly ResidualTerm[];
  /** Errors of the prediction as it came, over spots; a missed frame counts with the least error that it proves. */
  readonly before: PredictionScore;
  /**
   * Errors after the correction, each spot by a correction found without it; absent where the others do not determine one. Where
   * this is no better than `before`, leave the prediction as it is.
   */
  readonly after?: PredictionScore | undefined;
  /** One entry for each of `withinM`. */
  readonly within: readonly BiasWithin[];
  /** The finding as a sentence. */
  readonly verdict: string;
  /** What the calibration does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/** A slope from fewer spots says more about their luck than about the prediction. */
const leastSpotsForSlope = 10;

/**
 * Sets a prediction of received power against a walk: how far it is off, how sure that is, and how to correct it.
 *
 * The error is predicted minus measured, so that a positive bias is an optimistic prediction. Spots weigh the same however many
 * frames each has, and intervals come from the spots: frames of one spot share their shadowing and are one sample. With
 * `thresholdDbm` a missed frame counts as a level below the threshold; without it only the lucky frames are left far out, and an
 * optimistic prediction looks right. A frame lost to a collision or a busy gateway is no weak frame: leave such frames out. The intervals
 * take the spots' errors as about normal, and as independent: spots closer than the shadowing reaches count as one. With missed frames
 * the interval of the spread is an approximation.
 *
 * @param predictedDbm - a power in dBm, -400 to 100, per observation in their order, or a function that gives it
 * @param observations - frames of one gateway, heard at two spots or more
 * @returns the calibration; without missed frames relative error below 1e-10, with them below 1e-6
 * @throws {@link InputError} `wrong-type`, `missing` (fewer than two heard spots, no spot, levels that determine nothing),
 * `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Error as predicted minus measured: Recommendation ITU-R P.311 (from memory); t and chi-square intervals: NIST/SEMATECH
 * e-Handbook of Statistical Methods, 1.3.5.2 and 7.2.3.1 (from memory); missed frames: J. Tobin, Econometrica 26 (1958) 24; slope held
 * at 1 below ten spots: common practice, no source
 * @example Three spots, one frame each
 * ```ts
 * import { calibrate } from '@finial/survey';
 *
 * const frame = { latitudeDeg: 45.75, longitudeDeg: 4.9, received: true, snrDb: 10 };
 * const observations = [
 *   { ...frame, spot: 'bridge', rssiDbm: -95 },
 *   { ...frame, spot: 'school', rssiDbm: -106 },
 *   { ...frame, spot: 'hill', rssiDbm: -101 },
 * ];
 * const { biasDb, biasLowerDb, biasUpperDb, verdict } = calibrate([-88, -97, -95], observations, { signal: 'rssi' });
 * biasDb; // ≈ 7.33
 * [biasLowerDb, biasUpperDb].map(Math.round); // → [4, 11]
 * verdict; // → 'The prediction is optimistic by 7.3 ± 3.8 dB (95 % confidence, 3 spots).'
 * ```
 */
export function calibrate(
  predictedDbm: PredictedPowersDbm,
  observations: readonly Observation[],
  options: CalibrateOptions = {},
): Calibration {
  const { confidence = 0.95, withinM = [], terms = {}, signal } = checkObject(options, 'options');
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.9999, unit: 'as a confidence' });
  checkDistances(withinM);
  const levels = predictedLevels(predictedDbm, observations, options);
  checkTerms(terms, observations.length);
  const heard = heardSpots(levels).size;
  const bias = heard < 2 ? undefined : biasOf(levels, confidence);
  if (bias === undefined) throw tooLittle(heard);
  const line = heard < 3 ? undefined : correctionOf(levels, true);
  const isLinear = heard >= leastSpotsForSlope && line !== undefined;
  const correction = isLinear ? line : bias.correction;
  const remaining = isLinear ? spotErrors(levels, line, 2) : bias.errors;
  const loneErrors = leaveOneSpotOut(levels, isLinear);
  const residuals = residualsOf(levels, bias, remaining);
  return {
    ...bias.interval,
    biasStandardErrorDb: bias.correction.levelStandardErrorDb,
    confidence,
    ...spreadOf(bias.errors.spreadDb, heard - 1, confidence),
    rmseDb: Math.hypot(bias.interval.biasDb, Math.sqrt(1 - 1 / levels.spots.length) * bias.errors.spreadDb),
    frameSpreadDb: bias.correction.sigmaDb,
    slopeRatio: correction.slope,
    ...(line === undefined
      ? {}
      : { fittedSlopeRatio: line.slope, fittedSlopeStandardErrorRatio: line.slopeStandardError }),
    pivotDbm: correction.pivotDbm,
    levelDbm: correction.levelDbm,
    remainingSpreadDb: remaining.spreadDb,
    predictedSpreadDb: deviationOf(residuals.map((row) => row.predictedDbm)),
    lowestPredictedDbm: levels.predictedDbm.reduce((least, level) => Math.min(least, level)),
    highestPredictedDbm: levels.predictedDbm.reduce((most, level) => Math.max(most, level)),
    spots: levels.spots.length,
    heardSpots: heard,
    frames: observations.length,
    usedFrames: levels.places.length,
    missedFrames: levels.missed.reduce((sum, one) => sum + one, 0),
    residuals,
    terms: residualTerms(levels, terms),
    before: scoreBySpot(levels, frameErrors(levels, uncorrected)),
    ...(loneErrors === undefined ? {} : { after: scoreBySpot(levels, loneErrors) }),
    within: withinM.map((distanceM) => biasWithin(levels, distanceM, confidence)),
    verdict: verdictOf({ ...bias.interval, spots: levels.spots.length }, confidence, ''),
    warnings: warningsOf(levels, correction, { isLinear, heard, signal }),
  };
}

interface Bias {
  readonly correction: Correction;
  readonly errors: SpotErrors;
  readonly interval: Pick<Calibration, 'biasDb' | 'biasLowerDb' | 'biasUpperDb'>;
}

function biasOf(levels: PredictedLevels, confidence: number): Bias | undefined {
  const correction = correctionOf(levels, false);
  if (correction === undefined) return undefined;
  const biasDb = correction.pivotDbm - correction.levelDbm;
  const degreesOfFreedom = heardSpots(levels).size - 1;
  const half = studentQuantile((1 - confidence) / 2, degreesOfFreedom) * correction.levelStandardErrorDb;
  return {
    correction,
    errors: spotErrors(levels, correction, 1),
    interval: { biasDb, biasLowerDb: biasDb - half, biasUpperDb: biasDb + half },
  };
}

function spreadOf(
  spreadDb: number,
  degreesOfFreedom: number,
  confidence: number,
): Pick<Calibration, 'spreadDb' | 'spreadLowerDb' | 'spreadUpperDb'> {
  const tail = (1 - confidence) / 2;
  const end = (probability: number): number =>
    spreadDb * Math.sqrt(degreesOfFreedom / chiSquareQuantile(probability, degreesOfFreedom));
  return { spreadDb, spreadLowerDb: end(1 - tail), spreadUpperDb: end(tail) };
}

function residualsOf(levels: PredictedLevels, bias: Bias, remaining: SpotErrors): SpotResidual[] {
  const rows = levels.spots.map(() => ({ usedFrames: 0, missedFrames: 0, predictedDbm: 0 }));
  levels.spotOf.forEach((spot, i) => {
    const row = rows[spot] as (typeof rows)[number];
    row.usedFrames += 1;
    row.missedFrames += levels.missed[i] as number;
    row.predictedDbm += (levels.predictedDbm[i] as number) * (levels.weights[i] as number);
  });
  return levels.spots.map((place, spot) => ({
    ...place,
    ...(rows[spot] as (typeof rows)[number]),
    errorDb: bias.interval.biasDb + (bias.errors.errorsDb[spot] as number),
    remainingErrorDb: remaining.errorsDb[spot] as number,
  }));
}

function biasWithin(levels: PredictedLevels, distanceM: number, confidence: number): BiasWithin {
  const near = framesOf(levels, (spot) => (levels.spots[spot]?.distanceM ?? Infinity) <= distanceM);
  const spots = new Set(near.spotOf).size;
  const where = withinDistance(distanceM);
  const bias = heardSpots(near).size < 2 ? undefined : biasOf(near, confidence);
  if (bias === undefined) {
    return {
      distanceM,
      spots,
      verdict: `Too few spots were heard${where} to say how far the prediction is off.`,
    };
  }
  return {
    distanceM,
    spots,
    ...bias.interval,
    verdict: verdictOf({ ...bias.interval, spots }, confidence, where),
  };
}

interface WalkFacts {
  readonly isLinear: boolean;
  readonly heard: number;
  readonly signal: 'effective' | 'rssi' | undefined;
}

function warningsOf(levels: PredictedLevels, correction: Correction, facts: WalkFacts): string[] {
  const { missed, predictedDbm, levelDbm } = levels;
  const warnings = leftOutWarnings(levels);
  if (!facts.isLinear) {
    warnings.push(
      `Only an offset is corrected: ${facts.heard} spots were heard, and a slope needs ${leastSpotsForSlope}.`,
    );
  }
  if (facts.signal === 'rssi') {
    warnings.push(
      'RSSI holds signal and noise: where the signal is weak, the prediction looks more pessimistic than it is.',
    );
  }
  const strong = missed.filter(
    (isMissed, i) =>
      isMissed === 1 && corrected(correction, predictedDbm[i] as number) > (levelDbm[i] as number) + 15,
  );
  if (strong.length > 0) {
    warnings.push(
      `${strong.length} missed frames should have arrived with more than 15 dB to spare: lost to collisions or a busy gateway, they say ` +
        'nothing about the level and should be left out.',
    );
  }
  return warnings;
}

function checkDistances(withinM: readonly number[]): void {
  if (!Array.isArray(withinM)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'withinM',
      received: withinM,
      expected: 'a list of metres',
    });
  }
  withinM.forEach((distanceM, index) => {
    checkRange(distanceM, `withinM[${index}]`, { min: 1, max: 20_100_000, unit: 'metres' });
  });
}

function tooLittle(heard: number): InputError {
  return new InputError({
    code: 'missing',
    argument: 'observations',
    received: heard,
    expected:
      'received frames with a level at two spots or more (and, where missed frames count, levels that do not all err alike)',
  });
}

function deviationOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}
