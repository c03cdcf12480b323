import { InputError } from '@finial/units';
import {
  checkText,
  type ReadTableOptions,
  type TableSettings,
  tableSettings,
} from '../read/ReadTableOptions.js';
import { needColumns, readRecords } from '../read/readRecords.js';
import { type SkippedRow, skippedRow, type TableKind } from '../read/readTable.js';
import { wantedColumns } from '../surveyColumnPlaces.js';
import type { BeaconReading } from './BeaconReading.js';
import { type BeaconColumns, beaconFields } from './beaconFields.js';
import { type BeaconFrame, beaconFrameOfRow } from './beaconFrame.js';
import { longestRise } from './longestRise.js';

/** How to read the log of a beacon. */
export interface ReadBeaconOptions extends ReadTableOptions {
  /** Which column holds which field. @defaultValue columns named after the fields */
  readonly columns?: BeaconColumns | undefined;
}

/** What {@link readBeacon} returns. */
export interface BeaconLog {
  /** The received frames in order of time, as `beaconDrift` wants them. */
  readonly readings: readonly BeaconReading[];
  /** Rows of missed frames. */
  readonly missedCount: number;
  /** Their times in seconds, in order. */
  readonly missedSeconds: readonly number[];
  /** Readings without an SNR: their level is the RSSI, noise included. */
  readonly withoutSnrCount: number;
  /** Readings without a temperature. */
  readonly withoutTemperatureCount: number;
  /** The rows that were left out, in the order of the file; always empty with `onBadRow: 'throw'`. */
  readonly skipped: readonly SkippedRow[];
  /** Rows in the file: readings, missed and skipped ones together. */
  readonly rows: number;
}

/**
 * Reads the log of a fixed beacon: CSV with one row per frame, received or missed, for `beaconDrift`.
 *
 * Columns, quotes, line ends, byte order mark, separators and decimal mark are those of `readSurvey`. Each row needs a time; a received
 * frame needs an RSSI, a missed one has neither RSSI nor SNR. Without a column for `received` every row is a received frame. The level is the signal's
 * own power where the row brings an SNR, else the RSSI: near the noise the two differ by decibels, so a log should have it always or never
 * (`withoutSnrCount`).
 *
 * Times must rise from row to row. Rows that stand out of order or repeat a time are bad: the fewest whose absence leaves the others in order.
 *
 * An empty temperature means 'not known' and is not made up from its neighbours: the reading comes without one. `beaconDrift` takes
 * temperatures with all readings or with none, and refuses a mixture unless told `temperature: 'ignore'`; `withoutTemperatureCount` tells.
 *
 * @param input - the text, up to `maximumCharacters`
 * @returns readings, missed frames, skipped rows and their numbers; times in seconds since 1970-01-01T00:00:00Z, to the millisecond
 * @throws {@link InputError} `malformed-file` with file, line and column for a bad row, a missing or doubled column and an
 * empty file; `unknown-option`, `wrong-type` or `out-of-range` for the options and for a text that is too long
 * @source RFC 4180 (October 2005)
 * @example Three frames of a beacon, one of them missed
 * ```ts
 * import { readBeacon } from '@finial/survey';
 *
 * const log = `time_utc,counter,received,rssi_dbm,snr_db,temperature_c
 * 2026-03-01T00:00:00Z,1,1,-117,-16,4.5
 * 2026-03-01T01:00:00Z,2,0,,,
 * 2026-03-01T02:00:00Z,3,1,-116,-15,4`;
 * const { readings, missedCount } = readBeacon(log, { file: 'beacon.csv' });
 * readings[0]?.levelDbm; // ≈ -133.11
 * missedCount; // → 1
 * ```
 */
export function readBeacon(input: string, options: ReadBeaconOptions = {}): BeaconLog {
  const settings = tableSettings(options, 'beacon');
  const wanted = wantedColumns(options.columns ?? {}, beaconFields);
  const text = checkText(input, settings, 'a header line and rows');
  const { items, skipped } = readRecords(text, {
    kind: beaconKind,
    format: 'csv',
    wanted,
    each: undefined,
    absentIsZero: [],
    settings,
  });
  const kept = new Set(longestRise(items.map(({ timeSeconds }) => timeSeconds)));
  const outOfOrder = items
    .filter((_, index) => !kept.has(index))
    .map((frame) => outOfOrderRow(frame, settings));
  return logOf(
    items.filter((_, index) => kept.has(index)),
    [...skipped, ...outOfOrder].sort((one, other) => one.line - other.line),
  );
}

const beaconKind: TableKind<BeaconFrame> = {
  rules: beaconFields,
  checkColumns: (table, places, file) => {
    needColumns(['rssiDbm'], table, places, file);
    if (!places.has('timeSeconds')) needColumns(['timeUtc'], table, places, file);
  },
  itemOfRow: beaconFrameOfRow,
};

function outOfOrderRow({ row, timePlace }: BeaconFrame, { file, onBadRow }: TableSettings): SkippedRow {
  const { field, name, index } = timePlace;
  const error = new InputError({
    code: 'malformed-file',
    argument: field,
    received: row.cells[index],
    expected: `a time after the rows above and before the rows below${name === field ? '' : ` (column "${name}")`}`,
    file,
    line: row.line,
    column: index + 1,
  });
  if (onBadRow === 'throw') throw error;
  return skippedRow(error, row.text);
}

function logOf(frames: readonly BeaconFrame[], skipped: readonly SkippedRow[]): BeaconLog {
  const readings: BeaconReading[] = [];
  const missedSeconds: number[] = [];
  let withoutSnrCount = 0;
  for (const { timeSeconds, levelDbm, temperatureC, hasSnr } of frames) {
    if (levelDbm === undefined) {
      missedSeconds.push(timeSeconds);
      continue;
    }
    readings.push({ timeSeconds, levelDbm, ...(temperatureC === undefined ? {} : { temperatureC }) });
    if (!hasSnr) withoutSnrCount += 1;
  }
  return {
    readings,
    missedCount: missedSeconds.length,
    missedSeconds,
    withoutSnrCount,
    withoutTemperatureCount: readings.filter(({ temperatureC }) => temperatureC === undefined).length,
    skipped,
    rows: frames.length + skipped.length,
  };
}
