import type { BeaconReading } from './BeaconReading.js';
import type { BeaconReference } from './referencePeriod.js';
import { ewmaRunLength, limitFor, twoSidedCusumRunLength } from './runLength.js';

/** How one chart is set, and how often it cries wolf. */
export interface ChartDesign {
  /**
   * Of the weighted mean: the share of the newest reading. Of the cumulative sum: what is taken off each reading, in standard
   * deviations.
   */
  readonly settingRatio: number;
  /** Alarm limit in standard deviations (of the weighted mean; of one reading). */
  readonly limitRatio: number;
  /** Readings from one false alarm to the next on average, both directions together, if the reference is exact. */
  readonly averageRunLengthCount: number;
  /** The same if the reference level is off by one of its own standard errors: the price of a short reference period. */
  readonly offsetRunLengthCount: number;
}

/** Both charts. */
export interface ChartDesigns {
  /** Exponentially weighted mean, for slow drift. */
  readonly ewma: ChartDesign;
  /** Cumulative sum, for steps. */
  readonly cusum: ChartDesign;
}

/** One reading on the charts. */
export interface ChartPoint {
  /** Time of the reading in seconds. */
  readonly timeSeconds: number;
  /** Level over the reference in dB, with the temperature's part taken out. */
  readonly deviationDb: number;
  /** Weighted mean over its limit: below -1 or above 1 it alarms; 0 in the reference period. */
  readonly ewmaRatio: number;
  /** Cumulative sum of rises over its limit, 0 to 2: above 1 it alarms. */
  readonly riseRatio: number;
  /** Cumulative sum of losses over its limit, 0 to 2: above 1 it alarms. */
  readonly lossRatio: number;
}

/** Limits of both charts for a wanted average run length; unchecked. */
export function chartDesigns(
  reference: BeaconReference,
  weightRatio: number,
  stepDb: number,
  averageRunLengthCount: number,
): ChartDesigns {
  const { deviationDb, neighbourRatio: likeness, readingCount } = reference;
  // A step of the level shows in the unlike part of the readings only, smaller but against less noise.
  const step = (stepDb / deviationDb) * Math.sqrt((1 - likeness) / (1 + likeness));
  const taken = Math.min(1, Math.max(0.1, step / 2));
  const meanError = 1 / Math.sqrt(readingCount);
  const ewmaLimit = limitFor((limit) => ewmaRunLength(weightRatio, limit, 0), averageRunLengthCount);
  const cusumLimit = limitFor((limit) => twoSidedCusumRunLength(taken, limit, 0), averageRunLengthCount);
  return {
    ewma: {
      settingRatio: weightRatio,
      limitRatio: ewmaLimit,
      averageRunLengthCount,
      offsetRunLengthCount: ewmaRunLength(weightRatio, ewmaLimit, meanError),
    },
    cusum: {
      settingRatio: taken,
      limitRatio: cusumLimit,
      averageRunLengthCount,
      offsetRunLengthCount: twoSidedCusumRunLength(taken, cusumLimit, meanError),
    },
  };
}

/** A single reading counts as at most this many deviations: one deep fade is no drift. */
const mostDeviations = 4;

/** Both charts over a series; unchecked. They start after the reference period. */
export function chartPoints(
  series: readonly BeaconReading[],
  reference: BeaconReference,
  { ewma, cusum }: ChartDesigns,
): readonly ChartPoint[] {
  const bound = ewma.limitRatio * Math.sqrt(ewma.settingRatio / (2 - ewma.settingRatio));
  let weighted = 0;
  let rise = 0;
  let loss = 0;
  let before: { readonly timeSeconds: number; readonly deviationDb: number } | undefined;
  return series.map((reading, index) => {
    const { timeSeconds } = reading;
    const deviationDb = deviationOf(reading, reference);
    if (index >= reference.readingCount) {
      const z = standardised(timeSeconds, deviationDb, before, reference);
      weighted += ewma.settingRatio * (z - weighted);
      // Held at twice the limit, so that a long loss is forgotten soon after its repair.
      rise = Math.min(2 * cusum.limitRatio, Math.max(0, rise + z - cusum.settingRatio));
      loss = Math.min(2 * cusum.limitRatio, Math.max(0, loss - z - cusum.settingRatio));
    }
    before = { timeSeconds, deviationDb };
    return {
      timeSeconds,
      deviationDb,
      ewmaRatio: weighted / bound,
      riseRatio: rise / cusum.limitRatio,
      lossRatio: loss / cusum.limitRatio,
    };
  });
}

function deviationOf({ levelDbm, temperatureC }: BeaconReading, reference: BeaconReference): number {
  const { temperatureSlopeDbPerK: slope, meanTemperatureC } = reference;
  const explained =
    slope === undefined || meanTemperatureC === undefined || temperatureC === undefined
      ? 0
      : slope * (temperatureC - meanTemperatureC);
  return levelDbm - reference.levelDbm - explained;
}

/** What is new in a reading, in standard deviations: neighbours that are alike would shorten the run length many times. */
function standardised(
  timeSeconds: number,
  deviationDb: number,
  before: { readonly timeSeconds: number; readonly deviationDb: number } | undefined,
  { deviationDb: spreadDb, neighbourRatio: likeness, heartbeatSeconds }: BeaconReference,
): number {
  const isNeighbour = before !== undefined && timeSeconds - before.timeSeconds <= 1.5 * heartbeatSeconds;
  const z = isNeighbour
    ? (deviationDb - likeness * before.deviationDb) / (spreadDb * Math.sqrt(1 - likeness * likeness))
    : deviationDb / spreadDb;
  return Math.max(-mostDeviations, Math.min(mostDeviations, z));
}
