import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { checkObservations } from '../checkObservations.js';
import { deliveryBySpot, spotName } from '../deliveryBySpot.js';
import { effectiveSignalPowerDbm } from '../effectiveSignalPower.js';
import type { Observation, Position } from '../Observation.js';

/** Predicted power at the gateway in dBm, -400 to 100: one per observation in their order, or worked out from an observation. */
export type PredictedPowersDbm = readonly number[] | ((observation: Observation) => number);

/** How measured levels are set against predicted ones. */
export interface PredictedLevelOptions {
  /** What makes a spot: the observation's `spot`, or the very same latitude and longitude. @defaultValue `'spot'` */
  readonly by?: 'spot' | 'position' | undefined;
  /** Level that is compared: the signal's own power, or the RSSI as it stands. @defaultValue `'effective'` */
  readonly signal?: 'effective' | 'rssi' | undefined;
  /** Where the gateway stands, for distances. @defaultValue none: the observations' own `distanceM`, where they have one */
  readonly gateway?: Position | undefined;
  /**
   * Least power in dBm, -400 to 100, at which the gateway receives a frame, for all frames or by observation: a missed frame then
   * counts as a level below it. @defaultValue none: missed frames are left out, and the result says so
   */
  readonly thresholdDbm?: number | ((observation: Observation) => number) | undefined;
}

/** A spot of the walk with what was predicted there. */
export interface LevelSpot extends Position {
  readonly spot: string;
  readonly distanceM?: number | undefined;
}

/** Frames with a level or a bound, and their spots; numbers of spots are places in `spots`. */
export interface PredictedLevels {
  readonly spots: readonly LevelSpot[];
  /** Place of each frame in the observations. */
  readonly places: readonly number[];
  readonly predictedDbm: Float64Array;
  /** Measured level, or the threshold where the frame was missed. */
  readonly levelDbm: Float64Array;
  readonly missed: Uint8Array;
  readonly spotOf: Int32Array;
  /** One over the number of frames of the spot: every spot weighs the same. */
  readonly weights: Float64Array;
  readonly missedLeftOut: number;
  readonly noSignalLeftOut: number;
}

const powers = { min: -400, max: 100, unit: 'dBm' };

/** Checks a prediction and a walk, and puts together the frames of which both say something. */
export function predictedLevels(
  predictedDbm: PredictedPowersDbm,
  observations: readonly Observation[],
  options: PredictedLevelOptions,
): PredictedLevels {
  const { by = 'spot', signal = 'effective', gateway, thresholdDbm } = checkObject(options, 'options');
  checkOneOf(by, 'by', ['spot', 'position']);
  checkOneOf(signal, 'signal', ['effective', 'rssi']);
  checkThreshold(thresholdDbm);
  checkPrediction(predictedDbm, checkObservations(observations).length);
  // Also refuses a gateway that is no place, and frames without a spot.
  const walked = deliveryBySpot(observations, { by, gateway });
  const numbers = new Map(walked.map(({ spot }, index) => [spot, index]));
  const rows: { place: number; spot: number; predicted: number; level: number; isMissed: boolean }[] = [];
  let missedLeftOut = 0;
  let noSignalLeftOut = 0;
  observations.forEach((observation, place) => {
    const predicted = predictionOf(predictedDbm, observation, place);
    const isMissed = !observation.received;
    const level = isMissed ? boundOf(thresholdDbm, observation, place) : levelOf(observation, signal);
    if (level !== undefined) {
      const spot = numbers.get(spotName(observation, by, place)) as number;
      rows.push({ place, spot, predicted, level, isMissed });
    } else if (isMissed) missedLeftOut += 1;
    else noSignalLeftOut += 1;
  });
  const frames = new Map<number, number>();
  for (const { spot } of rows) frames.set(spot, (frames.get(spot) ?? 0) + 1);
  const kept = [...frames.keys()].sort((one, other) => one - other);
  const renumbered = new Map(kept.map((spot, index) => [spot, index]));
  return {
    spots: kept.map((index) => placeOf(walked[index] as LevelSpot)),
    places: rows.map(({ place }) => place),
    predictedDbm: Float64Array.from(rows, ({ predicted }) => predicted),
    levelDbm: Float64Array.from(rows, ({ level }) => level),
    missed: Uint8Array.from(rows, ({ isMissed }) => (isMissed ? 1 : 0)),
    spotOf: Int32Array.from(rows, ({ spot }) => renumbered.get(spot) as number),
    weights: Float64Array.from(rows, ({ spot }) => 1 / (frames.get(spot) as number)),
    missedLeftOut,
    noSignalLeftOut,
  };
}

/** The frames of some spots only, which keep their numbers. */
export function framesOf(levels: PredictedLevels, isWanted: (spot: number) => boolean): PredictedLevels {
  const kept = [...levels.spotOf.keys()].filter((i) => isWanted(levels.spotOf[i] as number));
  const pick = (values: Float64Array): Float64Array => Float64Array.from(kept, (i) => values[i] as number);
  return {
    ...levels,
    places: kept.map((i) => levels.places[i] as number),
    predictedDbm: pick(levels.predictedDbm),
    levelDbm: pick(levels.levelDbm),
    missed: Uint8Array.from(kept, (i) => levels.missed[i] as number),
    spotOf: Int32Array.from(kept, (i) => levels.spotOf[i] as number),
    weights: pick(levels.weights),
  };
}

/** Spots that had at least one frame with a level. */
export function heardSpots({ spotOf, missed }: PredictedLevels): ReadonlySet<number> {
  return new Set([...spotOf].filter((_, i) => missed[i] !== 1));
}

/** What the frames that were left out mean for the reader, in sentences. */
export function leftOutWarnings({ missedLeftOut, noSignalLeftOut }: PredictedLevels): string[] {
  const warnings: string[] = [];
  if (missedLeftOut > 0) {
    warnings.push(
      `${missedLeftOut} missed frames were left out, for want of a threshold: the walk looks stronger than it was, and the prediction ` +
        'more pessimistic.',
    );
  }
  if (noSignalLeftOut > 0)
    warnings.push(`${noSignalLeftOut} received frames carry no level and were left out.`);
  return warnings;
}

function placeOf({ spot, latitudeDeg, longitudeDeg, distanceM }: LevelSpot): LevelSpot {
  return { spot, latitudeDeg, longitudeDeg, ...(distanceM === undefined ? {} : { distanceM }) };
}

function checkPrediction(predictedDbm: PredictedPowersDbm, frames: number): void {
  if (typeof predictedDbm === 'function') return;
  if (!Array.isArray(predictedDbm)) {
    const expected = 'a list of dBm, or a function of an observation';
    throw new InputError({ code: 'wrong-type', argument: 'predictedDbm', received: predictedDbm, expected });
  }
  if (predictedDbm.length === frames) return;
  throw new InputError({
    code: 'out-of-range',
    argument: 'predictedDbm.length',
    received: predictedDbm.length,
    expected: `one prediction for each of the ${frames} observations`,
  });
}

function checkThreshold(thresholdDbm: PredictedLevelOptions['thresholdDbm']): void {
  if (thresholdDbm === undefined || typeof thresholdDbm === 'function') return;
  checkRange(thresholdDbm, 'thresholdDbm', powers);
}

function predictionOf(predictedDbm: PredictedPowersDbm, observation: Observation, place: number): number {
  const isList = typeof predictedDbm !== 'function';
  const value = isList ? predictedDbm[place] : predictedDbm(observation);
  return checkRange(
    value,
    isList ? `predictedDbm[${place}]` : `predictedDbm(observations[${place}])`,
    powers,
  );
}

function boundOf(
  thresholdDbm: PredictedLevelOptions['thresholdDbm'],
  observation: Observation,
  place: number,
): number | undefined {
  if (typeof thresholdDbm !== 'function') return thresholdDbm;
  return checkRange(thresholdDbm(observation), `thresholdDbm(observations[${place}])`, powers);
}

function levelOf({ rssiDbm, snrDb }: Observation, signal: 'effective' | 'rssi'): number | undefined {
  if (rssiDbm === undefined || signal === 'rssi') return rssiDbm;
  return snrDb === undefined ? undefined : effectiveSignalPowerDbm({ rssiDbm, snrDb });
}
