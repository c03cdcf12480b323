import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import type { Position } from '../Observation.js';
import { normalShareBelow } from '../pathLoss/normalTail.js';
import { meanAt, seePlace, varianceAt } from './kriging.js';
import { cellCentre, type MapFrame } from './PredictedPower.js';
import { type SurveyedPrediction, solveSpots, trendOf } from './ReceptionSpot.js';
import { trendTerms } from './trend.js';

/** A data rate and the power that it needs. */
export interface RequiredPower {
  /** Name of the data rate, as it should stand in the legend. */
  readonly name: string;
  /** Weakest power in dBm that the receiver still reads, -200 to 0. */
  readonly requiredPowerDbm: number;
}

/** A prediction, the walk that puts it right, and the data rates asked for. */
export interface ReceptionQuestion extends SurveyedPrediction {
  /** Data rates to map, at least one. */
  readonly dataRates: readonly RequiredPower[];
}

/** Reception at one data rate. */
export interface DataRateMap extends RequiredPower {
  /** Probability, 0 to 1, that a single frame sent from the cell is strong enough; NaN without data. */
  readonly probability: Float32Array;
}

/** A map put right by a walk. Series run row by row from the north-west corner; NaN means no data. */
export interface ReceptionMap extends MapFrame {
  /** Centre of the middle cell: the gateway. */
  readonly origin: Position;
  /** Predicted power and kriged residual, in dBm: the mean power at the cell. */
  readonly powerDbm: Float32Array;
  /** Standard deviation of that mean power in dB: of the place, not of a single frame. */
  readonly standardDeviationDb: Float32Array;
  /** Reception at each data rate asked for. */
  readonly dataRates: readonly DataRateMap[];
  /** What the walk adds to the prediction far from all spots, in dB; 0 with a known trend. */
  readonly offsetDb: number;
  /** Standard error of that offset in dB; 0 with a known trend. */
  readonly offsetStandardErrorDb: number;
  /** Spots that came in. */
  readonly spotCount: number;
  /** Spots among them of which only a bound is known. */
  readonly boundedSpotCount: number;
  /** What the map does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Puts a predicted map right with the residuals of a walk: kriged mean power, its standard deviation, and how likely a frame gets through.
 *
 * Near a spot the map follows the walk; some decorrelation distances away it is the prediction and its mean offset, and the
 * deviation tells so. The probability is for one frame, with shadowing that is not known and the frame's own scatter (nugget), and for
 * power alone: collisions, duty cycle and a busy gateway are not in it. It is no share of an area: neighbouring cells fail together. A spot
 * where every frame was missed enters as a bound on its mean; leaving such spots out makes the map too good just where it ends.
 * The shadowing counts as known. Cells of ground unlike any that was walked (other woods, other streets) are guessed like the rest.
 *
 * @returns the map; rounding to 32 bits (1e-5 dB) aside, kriging within 1e-8 of R's gstat. A million cells and a hundred spots
 * take some seconds; the time grows with the square of the spots
 * @throws {@link InputError} `wrong-type`, `missing` (fewer than two spots with a residual), `not-a-finite-number`, `unknown-option` or
 * `out-of-range` (also two spots at one place without nugget, and a spot 1000 km away)
 * @source kriging as in `krige`; bounds: T. P. Minka, Expectation propagation (2001) (from memory)
 * @example Three spots along a street, the last of them deaf
 * ```ts
 * import { mapReception } from '@finial/survey';
 *
 * const origin = { latitudeDeg: 50, longitudeDeg: 16 };
 * const prediction = { columns: 3, rows: 3, cellM: 1000, origin, powerDbm: new Float32Array(9).fill(-120) };
 * const map = mapReception({
 *   prediction,
 *   shadowing: { shadowingDb: 7, decorrelationM: 300, nuggetDb: 3 },
 *   spots: [
 *     { latitudeDeg: 50, longitudeDeg: 16.002, residualDb: 3, frames: 10 },
 *     { latitudeDeg: 50, longitudeDeg: 16.008, residualDb: -2, frames: 10 },
 *     { latitudeDeg: 50, longitudeDeg: 16.014, residualBelowDb: -9, frames: 10 },
 *   ],
 *   dataRates: [{ name: 'SF9', requiredPowerDbm: -129 }],
 * });
 * map.powerDbm[5]; // ≈ -132.7 (a kilometre east, beside the deaf spot)
 * map.dataRates[0]?.probability[5]; // ≈ 0.221
 * ```
 */
export function mapReception(question: ReceptionQuestion): ReceptionMap {
  const trend = trendOf(question);
  const { prediction, spots, shadowing } = question;
  const { kriging, boundedCount, warnings } = solveSpots(question, trend);
  const dataRates = checkDataRates(question.dataRates);
  const { columns, rows, cellM, origin } = prediction;
  const empty = () => new Float32Array(columns * rows).fill(Number.NaN);
  const powerDbm = empty();
  const standardDeviationDb = empty();
  const maps = dataRates.map(({ name, requiredPowerDbm }) => ({
    name,
    requiredPowerDbm,
    probability: empty(),
  }));
  const terms = trendTerms(trend, { eastM: 0, northM: 0 }, 'prediction');
  const white = new Float64Array(spots.length);
  for (let index = 0; index < powerDbm.length; index += 1) {
    const predictedDbm = prediction.powerDbm[index] as number;
    if (Number.isNaN(predictedDbm)) continue;
    const { eastM, northM } = cellCentre(prediction, index);
    const seen = seePlace(kriging, eastM, northM, terms, white);
    const meanDbm = predictedDbm + meanAt(kriging, seen, terms);
    const varianceDb2 = Math.max(0, varianceAt(kriging, seen));
    const frameDb = Math.sqrt(varianceDb2 + shadowing.nuggetDb ** 2);
    powerDbm[index] = meanDbm;
    standardDeviationDb[index] = Math.sqrt(varianceDb2);
    for (const { requiredPowerDbm, probability } of maps) {
      probability[index] = probabilityAbove(meanDbm - requiredPowerDbm, frameDb);
    }
  }
  const [offsetDb = 0] = kriging.coefficients;
  return {
    columns,
    rows,
    cellM,
    origin,
    powerDbm,
    standardDeviationDb,
    dataRates: maps,
    offsetDb,
    offsetStandardErrorDb: trend === 'known' ? 0 : 1 / (kriging.trendFactor.rows[0] as number),
    spotCount: spots.length,
    boundedSpotCount: boundedCount,
    warnings: [...warnings, ...warningsOf(spots.length, boundedCount)],
  };
}

/** At a spot itself, without nugget, nothing is left to chance. */
function probabilityAbove(marginDb: number, deviationDb: number): number {
  if (deviationDb === 0) return marginDb >= 0 ? 1 : 0;
  return normalShareBelow(marginDb / deviationDb);
}

function checkDataRates(dataRates: readonly RequiredPower[]): readonly RequiredPower[] {
  checkList(dataRates, 'dataRates').forEach((each, index) => {
    const argument = `dataRates[${index}]`;
    const { name, requiredPowerDbm } = checkObject(each, argument);
    if (typeof name !== 'string' || name === '') {
      const expected = 'a text that is not empty';
      throw new InputError({ code: 'wrong-type', argument: `${argument}.name`, received: name, expected });
    }
    checkRange(requiredPowerDbm, `${argument}.requiredPowerDbm`, { min: -200, max: 0, unit: 'dBm' });
  });
  return dataRates;
}

function warningsOf(spotCount: number, boundedCount: number): string[] {
  const warnings: string[] = [];
  if (spotCount < 10) {
    warnings.push(
      `${spotCount} spots: most of the map is still the prediction, and its deviation rests on the shadowing given.`,
    );
  }
  if (boundedCount > spotCount / 2) {
    warnings.push(
      `${boundedCount} of ${spotCount} spots heard nothing: how far below the prediction they lie rests on the shadowing given.`,
    );
  }
  return warnings;
}
