import { checkInteger, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Calibration } from './calibrate.js';
import { leastPredictedSpreadDb } from './correction.js';
import { studentQuantile } from './studentDistribution.js';

/** A prediction for a place that was not walked. */
export interface CalibratedQuestion {
  /**
   * The calibration, from `calibrate`: predicted powers -400 to 100 dBm, `levelDbm` -1e6 to 1e6, slope -100 to 100, spreads 0 to 1000 dB
   * (`predictedSpreadDb` from 0.01 on unless the slope is 1), 2 to 1e6 heard spots.
   */
  readonly calibration: Pick<
    Calibration,
    | 'pivotDbm'
    | 'levelDbm'
    | 'slopeRatio'
    | 'remainingSpreadDb'
    | 'predictedSpreadDb'
    | 'heardSpots'
    | 'lowestPredictedDbm'
    | 'highestPredictedDbm'
  >;
  /** Predicted power in dBm, -400 to 100. */
  readonly predictedDbm: number;
  /** Confidence of the interval, 0.5 to 0.9999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
  /** `'allow'` answers beyond the powers that were predicted for the walk, with a warning. @defaultValue `'refuse'` */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** The level to expect at a new spot. */
export interface CalibratedLevel {
  /** Power as it was predicted, in dBm. */
  readonly predictedDbm: number;
  /** Level to expect on the mean, in dBm. */
  readonly levelDbm: number;
  /** Standard deviation of the mean level of a new spot about it in dB: shadowing, and the doubt of the correction. */
  readonly spreadDb: number;
  /** Lower end of the interval for the mean level of a new spot, in dBm. */
  readonly lowerDbm: number;
  /** Upper end of the interval for the mean level of a new spot, in dBm. */
  readonly upperDbm: number;
  /** Confidence of the interval. */
  readonly confidence: number;
  /** What limits the answer, in sentences. */
  readonly warnings: readonly string[];
}

/**
 * Level to expect at a place that was not walked, from its prediction and the calibration of that prediction.
 *
 * The interval is for the mean level of one new spot. Single frames scatter more, the mean over an area less. It takes the spots'
 * errors as normal; `conformalMargin` does without that.
 *
 * @returns level in dBm with its interval, error below 1e-9 dB for the calibration as given
 * @throws {@link InputError} `outside-validity` beyond the powers predicted for the walk, `wrong-type`, `not-a-finite-number`,
 * `out-of-range` or `unknown-option`
 * @source Prediction interval of a straight line: NIST/SEMATECH e-Handbook of Statistical Methods, 4.5.1.2 (from memory)
 * @example
 * ```ts
 * import { calibratedLevel } from '@finial/survey';
 *
 * const calibration = {
 *   pivotDbm: -100, levelDbm: -104, slopeRatio: 1, remainingSpreadDb: 6, predictedSpreadDb: 12, heardSpots: 9,
 *   lowestPredictedDbm: -130, highestPredictedDbm: -70,
 * };
 * const { levelDbm, lowerDbm } = calibratedLevel({ calibration, predictedDbm: -110 });
 * levelDbm; // → -114
 * lowerDbm; // ≈ -128.6
 * ```
 */
export function calibratedLevel(question: CalibratedQuestion): CalibratedLevel {
  const {
    calibration,
    predictedDbm,
    confidence = 0.95,
    outsideValidity = 'refuse',
  } = checkObject(question, 'question');
  checkCalibration(calibration);
  checkRange(predictedDbm, 'predictedDbm', powers);
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.9999, unit: 'as a confidence' });
  checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  const { lowestPredictedDbm, highestPredictedDbm, heardSpots, slopeRatio, remainingSpreadDb } = calibration;
  const seen = `${lowestPredictedDbm} to ${highestPredictedDbm} dBm`;
  const isOutside = predictedDbm < lowestPredictedDbm || predictedDbm > highestPredictedDbm;
  if (isOutside && outsideValidity === 'refuse') {
    const expected = `${seen}, as predicted for the walk (or outsideValidity: 'allow')`;
    throw new InputError({
      code: 'outside-validity',
      argument: 'predictedDbm',
      received: predictedDbm,
      expected,
    });
  }
  const away = predictedDbm - calibration.pivotDbm;
  const levelDbm = calibration.levelDbm + slopeRatio * away;
  const isLinear = slopeRatio !== 1;
  const squares = (heardSpots - 1) * calibration.predictedSpreadDb ** 2;
  const spreadDb =
    remainingSpreadDb * Math.sqrt(1 + 1 / heardSpots + (isLinear ? (away * away) / squares : 0));
  const half = studentQuantile((1 - confidence) / 2, Math.max(1, heardSpots - (isLinear ? 2 : 1))) * spreadDb;
  return {
    predictedDbm,
    levelDbm,
    spreadDb,
    lowerDbm: levelDbm - half,
    upperDbm: levelDbm + half,
    confidence,
    warnings: isOutside ? [`${predictedDbm} dBm lies outside ${seen}, as predicted for the walk.`] : [],
  };
}

const powers = { min: -400, max: 100, unit: 'dBm' };

function checkCalibration(calibration: CalibratedQuestion['calibration']): void {
  checkObject(calibration, 'calibration');
  for (const name of ['lowestPredictedDbm', 'highestPredictedDbm', 'pivotDbm'] as const) {
    checkRange(calibration[name], `calibration.${name}`, powers);
  }
  checkRange(calibration.levelDbm, 'calibration.levelDbm', { min: -1e6, max: 1e6, unit: 'dBm' });
  checkRange(calibration.slopeRatio, 'calibration.slopeRatio', { min: -100, max: 100, unit: 'dB per dB' });
  checkInteger(calibration.heardSpots, 'calibration.heardSpots', { min: 2, max: 1e6, unit: 'spots' });
  checkRange(calibration.remainingSpreadDb, 'calibration.remainingSpreadDb', {
    min: 0,
    max: 1000,
    unit: 'dB',
  });
  // A slope from predictions that hardly differ would be worth nothing a decibel away.
  const min = calibration.slopeRatio === 1 ? 0 : leastPredictedSpreadDb;
  checkRange(calibration.predictedSpreadDb, 'calibration.predictedSpreadDb', { min, max: 1000, unit: 'dB' });
}
