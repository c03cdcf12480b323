import { checkObject, checkOneOf, InputError } from '@finial/units';
import type { FrequencyColumn, SurveyColumn } from '../SurveyColumns.js';
import { wantedColumns } from '../surveyColumnPlaces.js';
import { checkText, type ReadTableOptions, tableSettings } from './ReadTableOptions.js';
import { checkAbsentIsZero, formatOf, needColumns, readRecords, type TableSource } from './readRecords.js';
import type { SkippedRow, TableKind } from './readTable.js';
import { streamRecords } from './streamRecords.js';
import { isChunks, type TextChunks } from './textLines.js';
import { type Uplink, uplinkFields } from './Uplink.js';
import { recordOf, valuesOfRow } from './valuesOfRow.js';

/**
 * Where each field of an uplink stands: the name of a column, or in NDJSON a dotted path such as `radio.0.rssi`, where a number
 * counts entries of a list from 0. A field that is not named is looked for as `rssiDbm` and `rssi_dbm`.
 */
export interface UplinkColumns {
  /** Time of reception: ISO 8601 with `Z` or an offset; turned into UTC. */
  readonly timeUtc?: string | SurveyColumn | undefined;
  /** Frame counter. */
  readonly counter?: string | SurveyColumn | undefined;
  /** Name or address of the node. */
  readonly device?: string | SurveyColumn | undefined;
  /** Name of the gateway. */
  readonly gateway?: string | SurveyColumn | undefined;
  /** Name of the modulation or data rate. */
  readonly dataRate?: string | SurveyColumn | undefined;
  /** Spreading factor, a bare number. */
  readonly spreadingFactor?: string | SurveyColumn | undefined;
  /** Bandwidth. */
  readonly bandwidthHz?: string | FrequencyColumn | undefined;
  /** Carrier frequency. */
  readonly frequencyHz?: string | FrequencyColumn | undefined;
  /** Packet RSSI in dBm. */
  readonly rssiDbm?: string | SurveyColumn | undefined;
  /** Signal-to-noise ratio in dB. */
  readonly snrDb?: string | SurveyColumn | undefined;
}

/** How to read uplinks. */
export interface ReadUplinksOptions extends ReadTableOptions {
  /** Format of the text. @defaultValue NDJSON where the text begins with a brace, else CSV; in pieces: NDJSON */
  readonly format?: 'csv' | 'ndjson' | undefined;
  /** Where each field stands. @defaultValue under the fields' own names */
  readonly columns?: UplinkColumns | undefined;
  /**
   * Dotted path of a list in each record of NDJSON that holds one entry per gateway. Each entry becomes an uplink; paths in
   * `columns` then go through the list as if it were that entry: `radio.rssi`. @defaultValue one uplink per record
   */
  readonly each?: string | undefined;
  /**
   * Fields that the writer of the log drops where they are zero. In a record with an RSSI their absence then means 0.
   * @defaultValue none: absent means 'not known'
   */
  readonly absentIsZero?: readonly ('counter' | 'snrDb')[] | undefined;
}

/** What {@link readUplinks} returns. */
export interface UplinkLog {
  /** One per good row, in the order of the file. */
  readonly uplinks: readonly Uplink[];
  /** The rows that were left out, in the order of the file; always empty with `onBadRow: 'throw'`. */
  readonly skipped: readonly SkippedRow[];
  /** Rows in the file: uplinks and skipped ones together. */
  readonly rows: number;
}

/**
 * Reads the frames that a gateway or a server logged, without places: one JSON object per line (NDJSON), or CSV. What such a
 * record looks like is the log's own affair; `columns` says where the fields stand.
 *
 * The list holds received frames only. {@link joinTrack} gives them their places and infers the missed ones. An absent value means
 * 'not known'; many writers of JSON drop zeros, so that frame counter 0 and an SNR of 0 dB are not there: `absentIsZero`.
 *
 * @param input - the text, up to `maximumCharacters`, or pieces of text or of UTF-8 bytes in any number, of which only the
 * uplinks are kept
 * @returns uplinks, skipped rows and the number of rows; for pieces a promise of the same
 * @throws {@link InputError} `malformed-file` with file and line for a bad row, a path that no record has and an empty file;
 * `unknown-option`, `wrong-type` or `out-of-range` for the options and for a text that is too long
 * @source RFC 8259 (December 2017) for each line of NDJSON; RFC 4180 (October 2005) for CSV
 * @example Records of two gateways with their own names, of a writer that drops zeros
 * ```ts
 * import { readUplinks } from '@finial/survey';
 *
 * const log = '{"at":"2024-07-24T06:11:29Z","frame":{"n":7},"heard":[{"by":"roof","level":-117,"ratio":-16},{"by":"hill","level":-101}]}';
 * const { uplinks } = readUplinks(log, {
 *   each: 'heard',
 *   columns: { timeUtc: 'at', counter: 'frame.n', gateway: 'heard.by', rssiDbm: 'heard.level', snrDb: 'heard.ratio' },
 *   absentIsZero: ['snrDb'],
 * });
 * uplinks.map(({ gateway, counter, snrDb }) => `${gateway} ${counter}: ${snrDb} dB`);
 * // → ['roof 7: -16 dB', 'hill 7: 0 dB']
 * ```
 */
export function readUplinks(input: string, options?: ReadUplinksOptions): UplinkLog;
/** The same for pieces of text or of UTF-8 bytes. */
export function readUplinks(input: TextChunks, options?: ReadUplinksOptions): Promise<UplinkLog>;
export function readUplinks(
  input: string | TextChunks,
  options: ReadUplinksOptions = {},
): UplinkLog | Promise<UplinkLog> {
  const source = uplinkSource(checkObject(options, 'options'));
  if (isChunks(input)) return gatheredUplinks(input, { ...source, format: options.format ?? 'ndjson' });
  const text = checkText(input, source.settings, 'a line of JSON, or a header line and rows');
  const format = formatOf(text, options.format, ['csv', 'ndjson']);
  refuseEachOfCsv(options.each, format);
  const { items, skipped } = readRecords(text, { ...source, format });
  return { uplinks: items, skipped, rows: items.length + skipped.length };
}

async function gatheredUplinks(chunks: TextChunks, source: TableSource<Uplink>): Promise<UplinkLog> {
  refuseEachOfCsv(source.each, source.format);
  const uplinks: Uplink[] = [];
  const skipped: SkippedRow[] = [];
  for await (const lot of streamRecords(chunks, source)) {
    for (const uplink of lot.items) uplinks.push(uplink);
    for (const row of lot.skipped) skipped.push(row);
  }
  return { uplinks, skipped, rows: uplinks.length + skipped.length };
}

function uplinkSource({
  columns = {},
  each,
  absentIsZero = [],
  format,
  ...table
}: ReadUplinksOptions): Omit<TableSource<Uplink>, 'format'> {
  if (format !== undefined) checkOneOf(format, 'format', ['csv', 'ndjson']);
  if (each !== undefined && (typeof each !== 'string' || each === '')) {
    throw new InputError({ code: 'wrong-type', argument: 'each', received: each, expected: 'a dotted path' });
  }
  return {
    kind: uplinkKind,
    wanted: wantedColumns(columns, uplinkFields),
    each,
    absentIsZero: checkAbsentIsZero(absentIsZero),
    settings: tableSettings(table, 'uplinks'),
  };
}

function refuseEachOfCsv(each: string | undefined, format: string): void {
  if (each === undefined || format === 'ndjson') return;
  const expected = 'nothing, since only records of NDJSON hold lists';
  throw new InputError({ code: 'unknown-option', argument: 'each', received: each, expected });
}

const uplinkKind: TableKind<Uplink> = {
  rules: uplinkFields,
  checkColumns: (table, places, file) => needColumns(['timeUtc'], table, places, file),
  itemOfRow: (row, reading) => recordOf(valuesOfRow(row, reading, ['timeUtc']), row) as unknown as Uplink,
};
