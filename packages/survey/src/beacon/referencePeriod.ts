import { InputError } from '@finial/units';
import type { BeaconReading } from './BeaconReading.js';

/** What the beacon was like while all was well. */
export interface BeaconReference {
  /** Readings of the period. */
  readonly readingCount: number;
  /** Time of its first reading in seconds. */
  readonly fromSeconds: number;
  /** Time of its last reading in seconds. */
  readonly untilSeconds: number;
  /** Level in dBm, by a robust mean; with temperature, at `meanTemperatureC`. */
  readonly levelDbm: number;
  /** Standard deviation of the readings about it in dB, outliers left aside, never below resolutionDb/√12. */
  readonly deviationDb: number;
  /** How like a reading is to the one before: correlation of neighbours as a ratio, 0 where none is evident. */
  readonly neighbourRatio: number;
  /** Readings further than 3.5 deviations off. */
  readonly outlierCount: number;
  /** Time between frames in seconds, as given or the median. */
  readonly heartbeatSeconds: number;
  /** Frames missed over frames due within the period. */
  readonly missedRatio: number;
  /** Change of level with temperature in dB per kelvin; absent where temperature is not used. */
  readonly temperatureSlopeDbPerK?: number | undefined;
  /** Standard error of that slope in dB per kelvin. */
  readonly slopeStandardErrorDbPerK?: number | undefined;
  /** Mean temperature of the period in degrees Celsius. */
  readonly meanTemperatureC?: number | undefined;
  /** Least temperature of the period in degrees Celsius. */
  readonly lowestTemperatureC?: number | undefined;
  /** Greatest temperature of the period in degrees Celsius. */
  readonly highestTemperatureC?: number | undefined;
}

/** Huber's constant: 95 % efficient on normal readings. */
const huberK = 1.345;
const outlierK = 3.5;
/** Standard deviation of a normal law cut at 3.5, for scale 1: the cut takes 0.3 % away. */
const cutDeviation = 0.99694;

/** Mean, temperature slope, spread and likeness of neighbours, from readings that may hold a few wild ones; unchecked. */
export function referencePeriod(
  readings: readonly BeaconReading[],
  withTemperature: boolean,
  resolutionDb: number,
  givenHeartbeatSeconds: number | undefined,
): BeaconReference {
  const first = readings[0] as BeaconReading;
  const last = readings.at(-1) as BeaconReading;
  const intervals = readings.slice(1).map(({ timeSeconds }, index) => {
    return timeSeconds - (readings[index] as BeaconReading).timeSeconds;
  });
  const heartbeatSeconds = givenHeartbeatSeconds ?? median(intervals);
  const dueFrames = Math.max(
    Math.round((last.timeSeconds - first.timeSeconds) / heartbeatSeconds),
    intervals.length,
  );
  const leastDb = resolutionDb / Math.sqrt(12);
  const temperatures = withTemperature
    ? readings.map(({ temperatureC }) => temperatureC as number)
    : undefined;
  const fit = huberLine(
    readings.map(({ levelDbm }) => levelDbm),
    temperatures,
    leastDb,
  );
  const scaleDb = Math.max(medianScale(fit.residuals), leastDb);
  const kept = fit.residuals.filter((residual) => Math.abs(residual) <= outlierK * scaleDb);
  const parameterCount = withTemperature ? 2 : 1;
  const keptSquares = kept.reduce((sum, residual) => sum + residual * residual, 0);
  const deviationDb = Math.max(
    Math.sqrt(keptSquares / (kept.length - parameterCount)) / cutDeviation,
    leastDb,
  );
  return {
    readingCount: readings.length,
    fromSeconds: first.timeSeconds,
    untilSeconds: last.timeSeconds,
    levelDbm: fit.levelDbm,
    deviationDb,
    neighbourRatio: neighbourRatio(fit.residuals, intervals, heartbeatSeconds, outlierK * deviationDb),
    outlierCount: fit.residuals.length - kept.length,
    heartbeatSeconds,
    missedRatio: (dueFrames - intervals.length) / dueFrames,
    ...(temperatures === undefined ? {} : temperatureTerms(temperatures, fit.slope, deviationDb)),
  };
}

interface HuberLine {
  readonly levelDbm: number;
  readonly slope: number;
  readonly residuals: readonly number[];
}

/**
 * Huber's robust mean or line, by weights that fall off beyond 1.345 scales.
 *
 * Source: P. J. Huber, Annals of Mathematical Statistics 35 (1964) 73 (from memory); scale from the median distance over 0.6745.
 */
function huberLine(
  levels: readonly number[],
  temperatures: readonly number[] | undefined,
  leastDb: number,
): HuberLine {
  const centre = temperatures === undefined ? 0 : mean(temperatures);
  const x = levels.map((_, index) => (temperatures?.[index] ?? centre) - centre);
  let levelDbm = median(levels);
  let slope = 0;
  let residuals = levels.map((level) => level - levelDbm);
  for (let round = 0; round < 100; round += 1) {
    const scale = Math.max(medianScale(residuals), leastDb);
    const weights = residuals.map((residual) => Math.min(1, (huberK * scale) / Math.abs(residual || 1e-300)));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const meanX = weightedSum(weights, x) / total;
    const meanY = weightedSum(weights, levels) / total;
    let sumXx = 0;
    let sumXy = 0;
    weights.forEach((weight, index) => {
      const dx = (x[index] as number) - meanX;
      sumXx += weight * dx * dx;
      sumXy += weight * dx * ((levels[index] as number) - meanY);
    });
    const nextSlope = sumXx > 0 ? sumXy / sumXx : 0;
    const nextLevel = meanY - nextSlope * meanX;
    const moved = Math.abs(nextLevel - levelDbm) + Math.abs(nextSlope - slope);
    levelDbm = nextLevel;
    slope = nextSlope;
    residuals = levels.map((level, index) => level - levelDbm - slope * (x[index] as number));
    if (moved < 1e-12) break;
  }
  return { levelDbm, slope, residuals };
}

function temperatureTerms(
  temperatures: readonly number[],
  slope: number,
  deviationDb: number,
): Partial<BeaconReference> {
  const meanTemperatureC = mean(temperatures);
  const lowestTemperatureC = temperatures.reduce((least, value) => Math.min(least, value), Infinity);
  const highestTemperatureC = temperatures.reduce((most, value) => Math.max(most, value), -Infinity);
  const squares = temperatures.reduce((sum, value) => sum + (value - meanTemperatureC) ** 2, 0);
  return {
    temperatureSlopeDbPerK: slope,
    slopeStandardErrorDbPerK: deviationDb / Math.sqrt(squares),
    meanTemperatureC,
    lowestTemperatureC,
    highestTemperatureC,
  };
}

/**
 * Correlation of neighbouring residuals, outliers pulled in; 0 unless it stands out of chance by two standard errors.
 *
 * Source: the downward bias (1 + 3r)/n after M. G. Kendall, Biometrika 41 (1954) 403 (from memory).
 */
function neighbourRatio(
  residuals: readonly number[],
  intervals: readonly number[],
  heartbeatSeconds: number,
  mostDb: number,
): number {
  const tame = residuals.map((residual) => Math.max(-mostDb, Math.min(mostDb, residual)));
  const pairs = intervals.flatMap((interval, index) => (interval <= 1.5 * heartbeatSeconds ? [index] : []));
  const squares = tame.reduce((sum, residual) => sum + residual * residual, 0) / tame.length;
  if (squares === 0 || pairs.length < 10) return 0;
  const products = pairs.reduce(
    (sum, index) => sum + (tame[index] as number) * (tame[index + 1] as number),
    0,
  );
  const ratio = products / pairs.length / squares;
  if (ratio < 2 / Math.sqrt(pairs.length)) return 0;
  const corrected = ratio + (1 + 3 * ratio) / pairs.length;
  if (corrected < 0.98) return corrected;
  throw new InputError({
    code: 'outside-validity',
    argument: 'series',
    received: corrected,
    expected: 'a reference period whose level does not wander (correlation of neighbours below 0.98)',
  });
}

function medianScale(residuals: readonly number[]): number {
  return median(residuals.map((residual) => Math.abs(residual))) / 0.6745;
}

function weightedSum(weights: readonly number[], values: readonly number[]): number {
  return weights.reduce((sum, weight, index) => sum + weight * (values[index] as number), 0);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
}
