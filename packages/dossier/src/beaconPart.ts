import {
  type BeaconColumns,
  type BeaconDrift,
  type BeaconLog,
  beaconDrift,
  readBeacon,
  type SkippedRow,
} from '@finial/survey';
import { type Finding, InputError, isInputError } from '@finial/units';
import { type BeaconDay, beaconDays } from './beaconDays.js';
import { type BeaconPoint, beaconPoints, thinnedTimes } from './beaconPoints.js';
import { inPlan } from './inPlan.js';
import type { BeaconPlan } from './plan.js';

/** What the watch shows, without its readings. */
export type BeaconWatch = Omit<BeaconDrift, 'points' | 'findings' | 'warnings'>;

/** The fixed beacon in the dossier. */
export interface BeaconPart {
  /** Rows read from the log, skipped ones included. */
  readonly rows: number;
  /** Rows that could not be used, each with its reason. */
  readonly skipped: readonly SkippedRow[];
  /** Frames received. */
  readonly received: number;
  /** Rows of missed frames. */
  readonly missed: number;
  /** Received frames without an SNR, whose level is the RSSI, noise included. */
  readonly withoutSnrCount: number;
  /** Time of the first frame in seconds since 1970-01-01T00:00:00Z; absent where every row was skipped. */
  readonly fromSeconds?: number | undefined;
  /** End of the watch in the same seconds: as the plan says, or the last frame, received or missed. */
  readonly untilSeconds?: number | undefined;
  /** Readings for the pictures, thinned where there are more than a picture shows. */
  readonly points: readonly BeaconPoint[];
  /** Times of missed frames in seconds for the pictures, thinned likewise. */
  readonly missedSeconds: readonly number[];
  /** The log day by day. */
  readonly days: readonly BeaconDay[];
  /** Reference, charts, alarms and outages; absent where the log does not allow a watch. */
  readonly drift?: BeaconWatch | undefined;
  /** Why there is no watch, in a sentence. */
  readonly driftMissing?: string | undefined;
  /** What the watch cannot tell, in sentences for a person. */
  readonly warnings: readonly string[];
  /** What the beacon says to a person. */
  readonly findings: readonly Finding[];
}

/** Reads the log of the fixed beacon and watches it. */
export function beaconPart(plan: BeaconPlan, text: string): BeaconPart {
  const log = inPlan(
    (argument) => `beacon.${argument}`,
    () => readLog(plan, text),
  );
  const span = spanOf(log);
  const untilSeconds = endOfWatch(plan, span?.lastSeconds);
  const mixture = mixtureOf(log);
  const { drift, missing } = watchOf(plan, log, untilSeconds, mixture.temperature);
  return {
    rows: log.rows,
    skipped: log.skipped,
    received: log.readings.length,
    missed: log.missedCount,
    withoutSnrCount: log.withoutSnrCount,
    fromSeconds: span?.fromSeconds,
    untilSeconds: span && untilSeconds,
    points: beaconPoints(log.readings, drift?.points, drift?.reference.levelDbm ?? 0),
    missedSeconds: thinnedTimes(log.missedSeconds),
    days: beaconDays(log),
    drift: drift && withoutReadings(drift),
    driftMissing: missing?.message,
    warnings: [...mixture.warnings, ...(drift?.warnings ?? [])],
    findings: [
      ...skippedFinding(log, plan),
      ...(drift?.findings ?? []),
      ...(missing === undefined ? [] : [missing]),
    ],
  };
}

function readLog({ file, columns, decimal, onBadRow }: BeaconPlan, text: string): BeaconLog {
  return readBeacon(text, {
    file,
    // The reader checks fields and units itself, and names them when they are wrong.
    columns: columns as BeaconColumns | undefined,
    decimal,
    onBadRow: onBadRow === 'skip' ? 'skip' : 'throw',
  });
}

function withoutReadings({ points: _, findings: __, warnings: ___, ...watch }: BeaconDrift): BeaconWatch {
  return watch;
}

/** From the first frame to the last, whether it was received or missed. */
function spanOf({
  readings,
  missedSeconds,
}: BeaconLog): { readonly fromSeconds: number; readonly lastSeconds: number } | undefined {
  const ends = [
    readings[0]?.timeSeconds,
    readings.at(-1)?.timeSeconds,
    missedSeconds[0],
    missedSeconds.at(-1),
  ].filter((time) => time !== undefined);
  return ends.length === 0 ? undefined : { fromSeconds: Math.min(...ends), lastSeconds: Math.max(...ends) };
}

/** The plan's end of the watch, or the last frame: one that was missed counts, or a beacon fallen silent would go unnoticed. */
function endOfWatch({ untilTime }: BeaconPlan, lastFrameSeconds: number | undefined): number | undefined {
  if (untilTime === undefined || lastFrameSeconds === undefined) return lastFrameSeconds;
  const untilSeconds = Date.parse(untilTime) / 1000;
  if (untilSeconds >= lastFrameSeconds && untilSeconds <= 4e9) return untilSeconds;
  throw new InputError({
    code: 'out-of-range',
    argument: 'beacon.untilTime',
    received: untilTime,
    expected: `a time from ${new Date(lastFrameSeconds * 1000).toISOString()}, the last frame of the log, to 2096`,
  });
}

interface Mixture {
  readonly temperature: 'auto' | 'ignore';
  readonly warnings: readonly string[];
}

/** What the log has with some readings only. Temperatures are not made up: where some are missing, none is used. */
function mixtureOf({ readings, withoutTemperatureCount, withoutSnrCount }: BeaconLog): Mixture {
  const isPart = (count: number) => count > 0 && count < readings.length;
  const warnings: string[] = [];
  if (isPart(withoutTemperatureCount)) {
    warnings.push(
      `${withoutTemperatureCount} of ${readings.length} readings have no temperature. It is taken out of all levels or of none, so here of none: warm and cold days may look like drift.`,
    );
  }
  if (isPart(withoutSnrCount)) {
    warnings.push(
      `${withoutSnrCount} of ${readings.length} readings have no SNR; their level is the RSSI with the noise in it. Near the noise that alone looks like a step.`,
    );
  }
  return { temperature: isPart(withoutTemperatureCount) ? 'ignore' : 'auto', warnings };
}

interface Watched {
  readonly drift?: BeaconDrift | undefined;
  /** Why there is none. */
  readonly missing?: Finding | undefined;
}

/** The watch, or why there is none: a log that is still short is no mistake. */
function watchOf(
  { file, stepDb, referenceCount }: BeaconPlan,
  { readings }: BeaconLog,
  untilSeconds: number | undefined,
  temperature: Mixture['temperature'],
): Watched {
  try {
    const options = { stepDb, referenceCount, untilSeconds, temperature };
    const drift = inPlan(
      (argument) => (argument === 'series' ? 'beacon.file' : `beacon.${argument}`),
      () => beaconDrift(readings, options),
    );
    return { drift };
  } catch (error) {
    if (!isInputError(error) || error.argument !== 'beacon.file') throw error;
    const wanted = referenceCount ?? 200;
    const source = "the beacon's log";
    if (error.code === 'missing') {
      const message = `${file} has ${readings.length} readings; the watch wants at least ${wanted} from the time when all was well (beacon.referenceCount, 50 or more), and then some to watch.`;
      return { missing: { rule: 'beacon-log-short', severity: 'note', message, source } };
    }
    const message = `The level wanders through the first ${wanted} readings of ${file}, so they cannot tell what is normal. Watch a beacon that nothing moves or hides, or change beacon.referenceCount.`;
    return { missing: { rule: 'beacon-reference-wanders', severity: 'fix', message, source } };
  }
}

function skippedFinding({ skipped }: BeaconLog, { file }: BeaconPlan): Finding[] {
  const first = skipped[0];
  if (first === undefined) return [];
  return [
    {
      rule: 'beacon-rows-skipped',
      severity: 'fix',
      message: `${skipped.length} rows of ${file} could not be used; the first is line ${first.line}: ${first.reason}.`,
      measured: `${skipped.length} rows`,
      source: "the beacon's log",
    },
  ];
}
