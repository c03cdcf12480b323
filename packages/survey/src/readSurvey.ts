import { checkObject, checkOneOf, InputError } from '@finial/units';
import type { Observation } from './Observation.js';
import { observationFields } from './observationFields.js';
import { observationOfRow } from './observationOfRow.js';
import { checkText, type ReadTableOptions, tableSettings } from './read/ReadTableOptions.js';
import {
  checkAbsentIsZero,
  formatOf,
  needColumns,
  readRecords,
  type TableSource,
} from './read/readRecords.js';
import type { SkippedRow, TableKind } from './read/readTable.js';
import { streamRecords } from './read/streamRecords.js';
import { isChunks, type TextChunks, wholeText } from './read/textLines.js';
import type { SurveyColumns } from './SurveyColumns.js';
import { wantedColumns } from './surveyColumnPlaces.js';

/** How to read a walk log. */
export interface ReadSurveyOptions extends ReadTableOptions {
  /** Format of the text. @defaultValue what the text begins with: a JSON object on its first line is NDJSON, another brace GeoJSON, else CSV */
  readonly format?: 'csv' | 'geojson' | 'ndjson' | undefined;
  /**
   * Which column holds which field; in NDJSON a dotted path such as `radio.0.rssi`, where a number counts entries of a list
   * from 0. @defaultValue columns named after the fields
   */
  readonly columns?: SurveyColumns | undefined;
  /** True for a log that lists received frames only and has no column for it. @defaultValue `false` */
  readonly receivedOnly?: boolean | undefined;
  /**
   * Fields that the writer of the log drops where they are zero. In a row with an RSSI their absence then means 0.
   * @defaultValue none: absent means 'not known'
   */
  readonly absentIsZero?: readonly ('counter' | 'snrDb')[] | undefined;
}

/** What {@link readSurvey} returns. */
export interface Survey {
  /** One per good row, in the order of the file. */
  readonly observations: readonly Observation[];
  /** The rows that were left out, in the order of the file; always empty with `onBadRow: 'throw'`. */
  readonly skipped: readonly SkippedRow[];
  /** Rows in the file: observations and skipped ones together. */
  readonly rows: number;
}

/**
 * Reads the log of a walk: one frame per row, received or missed, from CSV, GeoJSON or NDJSON.
 *
 * CSV needs a header line. Quoted fields (RFC 4180), a byte order mark, all line ends, blank lines and comment lines are
 * understood; line breaks inside quotes are read as line feeds, spaces around a field are cut, and so is the
 * apostrophe that keeps a text such as `=x` from being a formula ({@link surveyCsv}). GeoJSON (RFC 7946) is a
 * FeatureCollection of Points; a height is not read. NDJSON is one JSON object per line. A null, empty or absent value means
 * 'not known', never zero; writers that drop zeros lose an SNR of 0 dB, and `absentIsZero` gives it back.
 *
 * Text or bytes that come in pieces (a file's stream, a response's body) are gathered first, so the promise resolves to the same
 * result; {@link readSurveyStream} reads logs that are too large for that.
 *
 * A row is bad when a field cannot be read or lies outside what {@link Observation} says, when it has more or fewer fields
 * than the header, when a received frame has no RSSI although the table has a column for it, or when a missed frame has an
 * RSSI or SNR. Columns that no field asks for are passed over. Nothing is guessed: a time needs its zone, and a table
 * without a column for `received` is refused unless `receivedOnly` says what it is.
 *
 * @param input - the text, or pieces of it, up to `maximumCharacters`
 * @returns observations, skipped rows and the number of rows; numbers as the text gives them, times in UTC
 * @throws {@link InputError} `malformed-file` with file, line and column for a bad row, a missing or doubled column and an
 * empty file; `unknown-option`, `wrong-type` or `out-of-range` for the options and for a text that is too long
 * @source RFC 4180 (October 2005) for CSV; RFC 7946 (August 2016) sections 3.1.2 and 3.3 for GeoJSON;
 * RFC 8259 (December 2017) for each line of NDJSON
 * @example A log with its own column names, kilometres and a column that marks the lost frames
 * ```ts
 * import { readSurvey } from '@finial/survey';
 *
 * const log = 'lat;lon;km;lost;rssi\n45.7863;4.8797;0.4;0;-97\n45.7039;4.9390;10.2;1;\n';
 * const { observations } = readSurvey(log, {
 *   columns: {
 *     latitudeDeg: 'lat', longitudeDeg: 'lon', rssiDbm: 'rssi',
 *     distanceM: { column: 'km', unit: 'km' }, received: { column: 'lost', inverted: true },
 *   },
 * });
 * observations.map(({ received }) => received); // → [true, false]
 * observations.map(({ distanceM }) => distanceM); // → [400, 10200]
 * ```
 */
export function readSurvey(input: string, options?: ReadSurveyOptions): Survey;
/** The same for pieces of text or of UTF-8 bytes. */
export function readSurvey(input: TextChunks, options?: ReadSurveyOptions): Promise<Survey>;
export function readSurvey(
  input: string | TextChunks,
  options: ReadSurveyOptions = {},
): Survey | Promise<Survey> {
  const sourceOf = surveySource(options);
  return isChunks(input) ? gatheredSurvey(input, sourceOf) : surveyOfText(input, sourceOf);
}

async function gatheredSurvey(chunks: TextChunks, sourceOf: SourceOf): Promise<Survey> {
  const { file, maximumCharacters } = sourceOf('').settings;
  return surveyOfText(await wholeText(chunks, maximumCharacters, file), sourceOf);
}

function surveyOfText(input: string, sourceOf: SourceOf): Survey {
  checkText(input, sourceOf('').settings, 'a header line and rows, or GeoJSON');
  const { items, skipped } = readRecords(input, sourceOf(input));
  return { observations: items, skipped, rows: items.length + skipped.length };
}

/** How to read a walk log piece by piece. */
export interface ReadSurveyStreamOptions extends Omit<ReadSurveyOptions, 'format' | 'maximumCharacters'> {
  /** Format of the text; GeoJSON is one value and cannot be read in pieces. @defaultValue `'csv'` */
  readonly format?: 'csv' | 'ndjson' | undefined;
  /** Called for each row that is left out, with `onBadRow: 'skip'`. */
  readonly onSkippedRow?: ((row: SkippedRow) => void) | undefined;
}

/**
 * Reads the log of a walk while it comes in, in memory that does not grow with its length: some hundred kilobytes besides what
 * the caller keeps.
 *
 * Rows, columns and refusals are those of {@link readSurvey}. A bad row at the end of the log is refused only when the reading
 * gets there, after the observations before it have been handed out. A path of NDJSON that no record has is refused at the end.
 *
 * @param input - pieces of text or of UTF-8 bytes, cut anywhere
 * @returns one observation after the other, in the order of the log
 * @throws {@link InputError} as {@link readSurvey}; `wrong-type` for pieces that are neither text nor bytes
 * @source as {@link readSurvey}
 * @example Received frames among all frames
 * ```ts
 * import { readSurveyStream } from '@finial/survey';
 *
 * async function* pieces() {
 *   yield 'latitude_deg,longitude_deg,rec';
 *   yield 'eived\n45.7,4.9,1\n45.8,4.9,0\n';
 * }
 * let count = 0;
 * for await (const { received } of readSurveyStream(pieces())) if (received) count += 1;
 * count; // → 1
 * ```
 */
export async function* readSurveyStream(
  input: TextChunks,
  options: ReadSurveyStreamOptions = {},
): AsyncGenerator<Observation, void, undefined> {
  const { format = 'csv', onSkippedRow } = checkObject(options, 'options');
  checkOneOf(format, 'format', ['csv', 'ndjson']);
  const source = surveySource({ ...options, format })('');
  if (!isChunks(input)) {
    const expected = 'an async iterable of text or bytes';
    throw new InputError({ code: 'wrong-type', argument: 'input', received: input, expected });
  }
  for await (const { items, skipped } of streamRecords(input, source)) {
    for (const row of skipped) onSkippedRow?.(row);
    yield* items;
  }
}

type SourceOf = (text: string) => TableSource<Observation>;

/** Checks the options at once; the format may have to wait for the text. */
function surveySource(options: ReadSurveyOptions): SourceOf {
  const settings = tableSettings(options, 'survey');
  const { columns = {}, receivedOnly = false, absentIsZero = [], format } = options;
  checkOneOf(receivedOnly, 'receivedOnly', [true, false]);
  const wanted = wantedColumns(columns, observationFields);
  const formats = ['csv', 'geojson', 'ndjson'] as const;
  const common = {
    kind: surveyKind(receivedOnly),
    wanted,
    each: undefined,
    absentIsZero: checkAbsentIsZero(absentIsZero),
    settings,
  };
  if (format !== undefined) checkOneOf(format, 'format', formats);
  return (text) => ({ ...common, format: formatOf(text, format, formats) });
}

function surveyKind(receivedOnly: boolean): TableKind<Observation> {
  return {
    rules: observationFields,
    checkColumns: (table, places, file) => {
      needColumns(['latitudeDeg', 'longitudeDeg'], table, places, file);
      const received = places.get('received');
      if (!receivedOnly) needColumns(['received'], table, places, file);
      else if (received !== undefined) {
        throw new InputError({
          code: 'unknown-option',
          argument: 'receivedOnly',
          received: receivedOnly,
          expected: `false, since the ${table.columnWord} "${received.name}" tells received from missed`,
        });
      }
    },
    itemOfRow: (row, reading) => observationOfRow(row, { ...reading, receivedOnly }),
  };
}
