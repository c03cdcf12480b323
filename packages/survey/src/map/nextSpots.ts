import { checkInteger, checkList, checkRange, InputError } from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import { offsetWithin, positionOfOffset } from './azimuthalPlane.js';
import { greedySpots, type PlaceSeen, seePlaces } from './greedySpots.js';
import { type Kriging, meanAt, varianceAt } from './kriging.js';
import type { PlanePlace } from './PlaneSample.js';
import { cellCentre, type PredictedPower, thinnedCells } from './PredictedPower.js';
import { type SurveyedPrediction, solveSpots, trendOf } from './ReceptionSpot.js';
import { trendTerms } from './trend.js';

/** Where one may walk, and what the next walk is for. */
export interface NextSpotsQuestion extends SurveyedPrediction {
  /**
   * Power in dBm, -200 to 0, whose line on the map matters: the weakest that still works. Left out, the whole area matters alike.
   */
  readonly requiredPowerDbm?: number | undefined;
  /** Places that can be walked to, 1 to 2000. @defaultValue everywhere with a prediction, on a grid of about 600 places */
  readonly candidates?: readonly Position[] | undefined;
  /** Streets as lines of at least two corners each, walked along instead of `candidates`. */
  readonly streets?: readonly (readonly Position[])[] | undefined;
  /** Distance between places along the streets in metres, 1 to 1e6. @defaultValue half the decorrelation distance */
  readonly stepM?: number | undefined;
  /** Count of spots to suggest, 1 to 100. @defaultValue `5` */
  readonly spotCount?: number | undefined;
  /** Frames that will be sent from each spot, a whole number from 1 to 1e6. @defaultValue `10` */
  readonly frames?: number | undefined;
}

/** A place to walk to. */
export interface NextSpot extends Position {
  /** Metres to the east of the gateway. */
  readonly eastM: number;
  /** Metres to the north of the gateway. */
  readonly northM: number;
  /** Distance from the gateway in metres. */
  readonly distanceM: number;
  /** Uncertainty of the map before this spot, the ones above it walked, in dB: root of the weighted mean variance. */
  readonly uncertaintyBeforeDb: number;
  /** The same once this spot has been walked too. */
  readonly uncertaintyAfterDb: number;
  /** What it is worth, in a sentence for a person. */
  readonly reason: string;
}

/** Where to walk next. */
export interface NextSpots {
  /** Spots, the most useful first. */
  readonly spots: readonly NextSpot[];
  /** Uncertainty of the map as it stands in dB. */
  readonly uncertaintyDb: number;
  /** Cells that the uncertainty was taken over. */
  readonly cellCount: number;
  /** Places that were weighed. */
  readonly candidateCount: number;
  /** What the choice does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Where to walk next: the places whose measurement makes the map surest, the most useful first, and by how much.
 *
 * With `requiredPowerDbm` the cells near the line where it stops working count most, each by how near it is (the normal density of its
 * margin over its deviation); without, all cells count alike. The choice is greedy: each spot is the best after those above it, and the
 * best set of five may differ. Uncertainty falls by the same amount whatever will be measured there, as long as the shadowing holds; a walk
 * that finds shadowing to be otherwise changes the answer.
 *
 * @returns spots and uncertainties; against R's gstat within 1e-9 dB² for one list of candidates. Large maps are thinned to about
 * 2500 cells
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `unknown-option` or `out-of-range` (also more spots than
 * candidates, and both candidates and streets)
 * @source conditional variances as in `krige`; weights: common practice, no source
 * @example Two spots for a map that was walked in the west only
 * ```ts
 * import { nextSpots } from '@finial/survey';
 *
 * const origin = { latitudeDeg: 50, longitudeDeg: 16 };
 * const prediction = { columns: 21, rows: 21, cellM: 100, origin, powerDbm: new Float32Array(441).fill(-120) };
 * const { spots } = nextSpots({
 *   prediction,
 *   shadowing: { shadowingDb: 7, decorrelationM: 400, nuggetDb: 3 },
 *   spots: [
 *     { latitudeDeg: 50.004, longitudeDeg: 15.99, residualDb: 3, frames: 10 },
 *     { latitudeDeg: 49.998, longitudeDeg: 15.993, residualDb: -2, frames: 10 },
 *   ],
 *   spotCount: 2,
 * });
 * spots.map(({ eastM, northM }) => [eastM, northM]); // → [[600, 100], [400, -700]]
 * ```
 */
export function nextSpots(question: NextSpotsQuestion): NextSpots {
  const trend = trendOf(question);
  const { prediction, requiredPowerDbm, shadowing, spotCount = 5, frames = 10 } = question;
  if (requiredPowerDbm !== undefined) {
    checkRange(requiredPowerDbm, 'requiredPowerDbm', { min: -200, max: 0, unit: 'dBm' });
  }
  checkInteger(spotCount, 'spotCount', { min: 1, max: 100, unit: 'spots' });
  checkInteger(frames, 'frames', { min: 1, max: 1e6, unit: 'frames' });
  const { kriging, warnings } = solveSpots(question, trend);
  const places = candidatePlaces(question);
  if (places.length < spotCount) {
    const expected = `at most as many as there are candidates (${places.length})`;
    throw new InputError({ code: 'out-of-range', argument: 'spotCount', received: spotCount, expected });
  }
  const cells = thinnedCells(prediction, 2500);
  if (cells.length === 0) {
    const expected = 'at least one cell with a power';
    throw new InputError({ code: 'missing', argument: 'prediction.powerDbm', received: 0, expected });
  }
  const termsAt = (place: PlanePlace) => trendTerms(trend, place, 'prediction');
  const targets = seePlaces(
    kriging,
    cells.map((cell) => cellCentre(prediction, cell)),
    termsAt,
  );
  const weighing = weightsOf(question, kriging, cells, targets, termsAt);
  const variances = targets.map(({ seen }) => Math.max(0, varianceAt(kriging, seen)));
  const uncertaintyDb = Math.sqrt(
    variances.reduce((sum, v, t) => sum + v * (weighing.weights[t] as number), 0),
  );
  const choices = greedySpots({
    kriging,
    targets,
    weights: weighing.weights,
    candidates: seePlaces(kriging, places, termsAt),
    noiseDb2: shadowing.nuggetDb ** 2 / frames,
    count: spotCount,
  });
  let beforeDb = uncertaintyDb;
  const spots = choices.map(({ index, meanVarianceDb2 }): NextSpot => {
    const place = places[index] as PlanePlace;
    const spot = spotAt(prediction.origin, place, beforeDb, Math.sqrt(meanVarianceDb2), requiredPowerDbm);
    beforeDb = spot.uncertaintyAfterDb;
    return spot;
  });
  return {
    spots,
    uncertaintyDb,
    cellCount: cells.length,
    candidateCount: places.length,
    warnings: [...warnings, ...weighing.warnings],
  };
}

function spotAt(
  origin: Position,
  { eastM, northM }: PlanePlace,
  uncertaintyBeforeDb: number,
  uncertaintyAfterDb: number,
  requiredPowerDbm: number | undefined,
): NextSpot {
  const where = requiredPowerDbm === undefined ? 'of the map' : `near the ${requiredPowerDbm} dBm line`;
  return {
    ...positionOfOffset(origin, { eastM, northM }),
    eastM,
    northM,
    distanceM: Math.hypot(eastM, northM),
    uncertaintyBeforeDb,
    uncertaintyAfterDb,
    reason: `lowers the uncertainty ${where} from ${uncertaintyBeforeDb.toFixed(2)} to ${uncertaintyAfterDb.toFixed(2)} dB`,
  };
}

interface CellWeights {
  readonly weights: Float64Array;
  readonly warnings: readonly string[];
}

function weightsOf(
  { prediction, shadowing, requiredPowerDbm }: NextSpotsQuestion,
  kriging: Kriging,
  cells: readonly number[],
  targets: readonly PlaceSeen[],
  termsAt: (place: PlanePlace) => Float64Array,
): CellWeights {
  if (requiredPowerDbm === undefined) {
    return { weights: new Float64Array(cells.length).fill(1 / cells.length), warnings: [] };
  }
  const squares = Float64Array.from(targets, ({ place, seen }, t) => {
    const predictedDbm = prediction.powerDbm[cells[t] as number] as number;
    const marginDb = predictedDbm + meanAt(kriging, seen, termsAt(place)) - requiredPowerDbm;
    const varianceDb2 = Math.max(0, varianceAt(kriging, seen)) + shadowing.nuggetDb ** 2;
    // A cell that is known to the last digit is as far from the line as can be, unless it is the line.
    return Math.min(marginDb ** 2 / Math.max(varianceDb2, 1e-12), 1e12);
  });
  const nearest = squares.reduce((least, square) => Math.min(least, square), Infinity);
  // From the nearest cell: far from the line every density underflows to zero.
  const densities = squares.map((square) => Math.exp((nearest - square) / 2));
  const sum = densities.reduce((total, density) => total + density, 0);
  return {
    weights: densities.map((density) => density / sum),
    warnings:
      nearest > 9
        ? [
            `No cell lies within three standard deviations of ${requiredPowerDbm} dBm: the map holds no line to make surer.`,
          ]
        : [],
  };
}

/** Places that can be walked to, on the plane. */
function candidatePlaces(question: NextSpotsQuestion): PlanePlace[] {
  const { prediction, candidates, streets, stepM = question.shadowing.decorrelationM / 2 } = question;
  checkRange(stepM, 'stepM', { min: question.stepM === undefined ? 0 : 1, max: 1e6, unit: 'metres' });
  if (candidates !== undefined && streets !== undefined) {
    const expected = 'either candidates or streets';
    throw new InputError({ code: 'out-of-range', argument: 'candidates', received: candidates, expected });
  }
  if (streets !== undefined) return alongStreets(prediction, streets, stepM);
  if (candidates !== undefined) {
    const places = placesOf(prediction, candidates, 'candidates');
    checkInteger(places.length, 'candidates.length', { min: 1, max: 2000, unit: 'places' });
    return places;
  }
  return thinnedCells(prediction, 600).map((cell) => cellCentre(prediction, cell));
}

function placesOf(
  { origin }: PredictedPower,
  positions: readonly Position[],
  argument: string,
): PlanePlace[] {
  return checkList(positions, argument).map((position, index) => {
    const name = `${argument}[${index}]`;
    return offsetWithin(origin, checkPosition(position, name), name);
  });
}

function alongStreets(
  prediction: PredictedPower,
  streets: readonly (readonly Position[])[],
  stepM: number,
): PlanePlace[] {
  const places: PlanePlace[] = [];
  checkList(streets, 'streets').forEach((street, number) => {
    const corners = placesOf(prediction, street, `streets[${number}]`);
    if (corners.length < 2) {
      const expected = 'at least two corners';
      throw new InputError({ code: 'missing', argument: `streets[${number}]`, received: street, expected });
    }
    places.push(corners[0] as PlanePlace);
    corners.slice(1).forEach((to, index) => {
      const from = corners[index] as PlanePlace;
      const lengthM = Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
      // A long street at a short step would fill the memory before it could be counted.
      const steps = Math.max(1, Math.ceil(lengthM / stepM));
      if (places.length + steps > 2000) throw tooManyPlaces(stepM);
      for (let step = 1; step <= steps; step += 1) {
        const share = step / steps;
        places.push({
          eastM: from.eastM + share * (to.eastM - from.eastM),
          northM: from.northM + share * (to.northM - from.northM),
        });
      }
    });
  });
  return places;
}

function tooManyPlaces(stepM: number): InputError {
  const expected = 'a step that leaves at most 2000 places along the streets';
  return new InputError({ code: 'out-of-range', argument: 'stepM', received: stepM, expected });
}
