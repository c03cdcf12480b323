import { checkInteger, checkObject, checkOneOf, checkRange, type Finding, InputError } from '@finial/units';
import { type BeaconReading, checkSeries } from './BeaconReading.js';
import { type BeaconOutage, beaconOutages } from './beaconOutages.js';
import { type DriftAlarm, driftAlarms } from './driftAlarms.js';
import { type ChartDesigns, type ChartPoint, chartDesigns, chartPoints } from './driftCharts.js';
import { driftFindings } from './driftFindings.js';
import { type BeaconReference, referencePeriod } from './referencePeriod.js';
import { runOfMisses } from './runLength.js';

/** How a beacon is watched. */
export interface BeaconDriftOptions {
  /** Readings from the first on that tell what is normal, 50 to 100000; all must be well then. @defaultValue `200` */
  readonly referenceCount?: number | undefined;
  /**
   * Readings from one false alarm of a chart to the next on average, 50 to 1e6. Two charts watch, so that together they may cry wolf
   * twice as often. @defaultValue `2000`
   */
  readonly averageRunLengthCount?: number | undefined;
  /** Share of the newest reading in the weighted mean, 0.01 to 1; small finds slow drift. @defaultValue `0.05` */
  readonly weightRatio?: number | undefined;
  /** Jump in dB that the cumulative sum is tuned to, 0.1 to 40. @defaultValue `3` */
  readonly stepDb?: number | undefined;
  /** Step in dB in which the receiver reports levels, 0.001 to 10: a level is never known better. @defaultValue `1` */
  readonly resolutionDb?: number | undefined;
  /** `'regress'` takes the temperature's part out; `'auto'` does if the readings bring it. @defaultValue `'auto'` */
  readonly temperature?: 'auto' | 'regress' | 'ignore' | undefined;
  /** Time between frames in seconds, 1 to 1e7. @defaultValue the median of the reference period */
  readonly heartbeatSeconds?: number | undefined;
  /**
   * Frames missed in a row that make an outage, 1 to 100000. @defaultValue at least 3, and as many as the beacon's usual losses come to
   * only once in `averageRunLengthCount` frames
   */
  readonly outageFrames?: number | undefined;
  /** End of the watch in seconds, so that a beacon that fell silent is noticed. @defaultValue the last reading */
  readonly untilSeconds?: number | undefined;
}

/** What the long watch of a beacon shows. */
export interface BeaconDrift {
  /** What was normal. */
  readonly reference: BeaconReference;
  /** How the charts are set, and how often they cry wolf. */
  readonly charts: ChartDesigns;
  /** Frames missed in a row that count as an outage. */
  readonly outageFrames: number;
  /** Frames from one false outage to the next on average, at the losses of the reference period and if losses are independent. */
  readonly outageRunLengthCount: number;
  /** Each reading on the charts. */
  readonly points: readonly ChartPoint[];
  /** Changes of level, in order of time. */
  readonly alarms: readonly DriftAlarm[];
  /** Silences, in order of time. */
  readonly outages: readonly BeaconOutage[];
  /** Alarms and outages in sentences for a person. */
  readonly findings: readonly Finding[];
  /** What the watch cannot tell, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Watches a fixed beacon for months: slow loss (water in a connector, a tree that grows), steps (a turned antenna), and silences.
 *
 * A reference period gives the normal level, spread, temperature slope and likeness of neighbouring readings, robustly. After it, two
 * charts watch what temperature does not explain: an exponentially weighted mean for slow drift, a cumulative sum for steps. Each reading
 * counts as at most 4 deviations. The limits give the wanted average run length for normal readings with an exact reference; fat tails
 * shorten it, and `offsetRunLengthCount` says what an inexact reference level does. The cumulative sum takes off half of `stepDb`, within 0.1
 * and 1 deviations. Near the sensitivity limit only the stronger frames arrive, so the level stops falling: there the outages tell.
 *
 * @param series - received frames in order of time, at least `referenceCount` of them
 * @returns charts, alarms, outages and findings; run lengths within 0.1 %
 * @throws {@link InputError} `wrong-type`, `missing` (too few readings, a temperature), `not-a-finite-number`, `out-of-range`,
 * `unknown-option` or `outside-validity` (the level of the reference period wanders)
 * @source E. S. Page, Biometrika 41 (1954) 100 and S. W. Roberts, Technometrics 1 (1959) 239 (both from memory);
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3 and 6.3.2.4; the defaults are common practice, no source
 * @example A jumper comes loose after 300 hours
 * ```ts
 * import { beaconDrift } from '@finial/survey';
 *
 * const series = Array.from({ length: 400 }, (_, hour) => ({
 *   timeSeconds: hour * 3600,
 *   levelDbm: -100 + ((hour * 7) % 5) - 2 - (hour >= 300 ? 4 : 0),
 * }));
 * const { alarms } = beaconDrift(series);
 * alarms.map(({ direction, shape }) => `${shape} ${direction}`); // → ['step loss']
 * alarms[0]?.changeDb; // ≈ -4.0
 * ```
 */
export function beaconDrift(series: readonly BeaconReading[], options: BeaconDriftOptions = {}): BeaconDrift {
  const settings = checkedSettings(options);
  const readings = checkSeries(series);
  const { referenceCount, averageRunLengthCount } = settings;
  if (readings.length < referenceCount) {
    throw new InputError({
      code: 'missing',
      argument: 'series',
      received: series,
      expected: `at least ${referenceCount} readings (referenceCount)`,
    });
  }
  const last = (readings.at(-1) as BeaconReading).timeSeconds;
  const untilSeconds =
    settings.untilSeconds === undefined
      ? last
      : checkRange(settings.untilSeconds, 'untilSeconds', { min: last, max: 4e9, unit: 'seconds' });
  const reference = referencePeriod(
    readings.slice(0, referenceCount),
    usesTemperature(readings, settings.temperature),
    settings.resolutionDb,
    settings.heartbeatSeconds,
  );
  const charts = chartDesigns(reference, settings.weightRatio, settings.stepDb, averageRunLengthCount);
  const points = chartPoints(readings, reference, charts);
  const alarms = driftAlarms(points);
  const missRatio = usualMissRatio(reference);
  const outageFrames = settings.outageFrames ?? leastOutage(missRatio, averageRunLengthCount);
  const outages = beaconOutages(readings, reference.heartbeatSeconds, outageFrames, untilSeconds);
  return {
    reference,
    charts,
    outageFrames,
    // Beyond 1e300 the number says nothing, and soon would be no number.
    outageRunLengthCount: Math.min(1e300, runOfMisses(missRatio, outageFrames)),
    points,
    alarms,
    outages,
    findings: driftFindings(alarms, outages, untilSeconds, reference.heartbeatSeconds),
    warnings: warningsOf(readings, reference, charts),
  };
}

type Optional = 'heartbeatSeconds' | 'outageFrames' | 'untilSeconds';
type Settings = {
  [Key in Exclude<keyof BeaconDriftOptions, Optional>]-?: NonNullable<BeaconDriftOptions[Key]>;
} & Pick<BeaconDriftOptions, Optional>;

function checkedSettings(options: BeaconDriftOptions): Settings {
  const {
    referenceCount = 200,
    averageRunLengthCount = 2000,
    weightRatio = 0.05,
    stepDb = 3,
    resolutionDb = 1,
    temperature = 'auto',
    heartbeatSeconds,
    outageFrames,
    untilSeconds,
  } = checkObject(options, 'options');
  checkInteger(referenceCount, 'referenceCount', { min: 50, max: 100_000, unit: 'readings' });
  checkRange(averageRunLengthCount, 'averageRunLengthCount', { min: 50, max: 1e6, unit: 'readings' });
  checkRange(weightRatio, 'weightRatio', { min: 0.01, max: 1, unit: 'as a ratio' });
  checkRange(stepDb, 'stepDb', { min: 0.1, max: 40, unit: 'dB' });
  checkRange(resolutionDb, 'resolutionDb', { min: 0.001, max: 10, unit: 'dB' });
  checkOneOf(temperature, 'temperature', ['auto', 'regress', 'ignore']);
  if (heartbeatSeconds !== undefined) {
    checkRange(heartbeatSeconds, 'heartbeatSeconds', { min: 1, max: 1e7, unit: 'seconds' });
  }
  if (outageFrames !== undefined) {
    checkInteger(outageFrames, 'outageFrames', { min: 1, max: 100_000, unit: 'frames' });
  }
  return {
    referenceCount,
    averageRunLengthCount,
    weightRatio,
    stepDb,
    resolutionDb,
    temperature,
    heartbeatSeconds,
    outageFrames,
    untilSeconds,
  };
}

/** All readings bring a temperature or none does: to guess some would be worse than to ignore all. */
function usesTemperature(readings: readonly BeaconReading[], wanted: Settings['temperature']): boolean {
  if (wanted === 'ignore') return false;
  const without = readings.findIndex(({ temperatureC }) => temperatureC === undefined);
  if (without === -1) return true;
  if (wanted === 'auto' && readings.every(({ temperatureC }) => temperatureC === undefined)) return false;
  throw new InputError({
    code: 'missing',
    argument: `series[${without}].temperatureC`,
    received: undefined,
    expected: "a temperature with every reading (or temperature: 'ignore')",
  });
}

/** Chance of a miss, held above 0 as after one more miss: no loss in a hundred frames is not 'never'. */
function usualMissRatio({ missedRatio, readingCount }: BeaconReference): number {
  const due = (readingCount - 1) / (1 - missedRatio);
  return (missedRatio * due + 1) / (due + 2);
}

function leastOutage(missRatio: number, wantedCount: number): number {
  let frames = 3;
  while (frames < 100_000 && runOfMisses(missRatio, frames) < wantedCount) frames += 1;
  return frames;
}

function warningsOf(
  readings: readonly BeaconReading[],
  reference: BeaconReference,
  { ewma }: ChartDesigns,
): readonly string[] {
  const warnings: string[] = [];
  if (ewma.offsetRunLengthCount < ewma.averageRunLengthCount / 2) {
    warnings.push(
      `A reference of ${reference.readingCount} readings is short: with its level off by one standard error, the weighted mean ` +
        `cries wolf every ${Math.round(ewma.offsetRunLengthCount)} readings instead of ${ewma.averageRunLengthCount}.`,
    );
  }
  const {
    slopeStandardErrorDbPerK: error,
    lowestTemperatureC: lowest,
    highestTemperatureC: highest,
  } = reference;
  if (error === undefined || lowest === undefined || highest === undefined) return warnings;
  const beyond = readings
    .slice(reference.readingCount)
    .filter(({ temperatureC = lowest }) => temperatureC < lowest || temperatureC > highest).length;
  if (beyond > 0) {
    warnings.push(
      `${beyond} readings were warmer or colder than the reference period (${lowest} to ${highest} °C): there the slope of ` +
        `temperature is a guess, good to ${error.toPrecision(2)} dB per kelvin.`,
    );
  }
  return warnings;
}
