import { checkObject, checkOneOf, checkPositive, InputError, isInputError } from '@finial/units';
import { csvTable } from './csvTable.js';
import { geoJsonTable } from './geoJsonTable.js';
import type { Observation } from './Observation.js';
import type { SurveyField } from './observationFields.js';
import { observationOfRow, type RowReading } from './observationOfRow.js';
import type { SurveyColumns } from './SurveyColumns.js';
import type { SurveyTable } from './SurveyTable.js';
import { type ColumnPlace, columnPlaces, missingColumn, wantedColumns } from './surveyColumnPlaces.js';

/** How to read a walk log. */
export interface ReadSurveyOptions {
  /** Name of the file, for messages. @defaultValue `'survey'` */
  readonly file?: string | undefined;
  /** Format of the text. @defaultValue GeoJSON where the text begins with a brace, else CSV */
  readonly format?: 'csv' | 'geojson' | undefined;
  /** Which column holds which field. @defaultValue columns named after the fields */
  readonly columns?: SurveyColumns | undefined;
  /** True for a log that lists received frames only and has no column for it. @defaultValue `false` */
  readonly receivedOnly?: boolean | undefined;
  /** `'throw'` at the first bad row, or `'skip'` it and list it. @defaultValue `'throw'` */
  readonly onBadRow?: 'throw' | 'skip' | undefined;
  /** One character between the fields of CSV. @defaultValue comma, semicolon, tab or bar, as the header line shows */
  readonly separator?: string | undefined;
  /** Lines of CSV that begin with this are passed over. @defaultValue none */
  readonly commentPrefix?: string | undefined;
  /** Decimal mark of the numbers in CSV. @defaultValue `'.'` */
  readonly decimal?: '.' | ',' | undefined;
  /** Longest text that is read, in characters. @defaultValue 32 million, some 300 000 frames */
  readonly maximumCharacters?: number | undefined;
}

/** A row that was left out. */
export interface SkippedRow {
  /** Line where the row begins, counted from 1. */
  readonly line: number;
  /** Column of the field in that line as a spreadsheet counts it, from 1; absent in GeoJSON and for whole rows. */
  readonly column?: number | undefined;
  /** The field that was wrong, such as `rssiDbm`; empty where the whole row was. */
  readonly field: string;
  /** What was expected and what came. */
  readonly reason: string;
  /** The row as it stood in the file. */
  readonly text: string;
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
 * Reads the log of a walk: one frame per row, received or missed, from CSV or GeoJSON text.
 *
 * CSV needs a header line. Quoted fields (RFC 4180), a byte order mark, all line ends, blank lines and comment lines are
 * understood; line breaks inside quotes are read as line feeds and spaces around a field are cut. GeoJSON (RFC 7946) is a
 * FeatureCollection of Points; a height is not read. A null, empty or absent value means 'not known', never zero: writers
 * that drop zeros lose an SNR of 0 dB, which this cannot know.
 *
 * A row is bad when a field cannot be read or lies outside what {@link Observation} says, when it has more or fewer fields
 * than the header, when a received frame has no RSSI although the table has a column for it, or when a missed frame has an
 * RSSI or SNR. Columns that no field asks for are passed over. Nothing is guessed: a time needs its zone, and a table
 * without a column for `received` is refused unless `receivedOnly` says what it is.
 *
 * @param input - the text, up to `maximumCharacters`
 * @returns observations, skipped rows and the number of rows; numbers as the text gives them, times in UTC
 * @throws {@link InputError} `malformed-file` with file, line and column for a bad row, a missing or doubled column and an
 * empty file; `unknown-option`, `wrong-type` or `out-of-range` for the options and for a text that is too long
 * @source RFC 4180 (October 2005) for CSV; RFC 7946 (August 2016) sections 3.1.2 and 3.3 for GeoJSON
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
export function readSurvey(input: string, options: ReadSurveyOptions = {}): Survey {
  const { file = 'survey', columns = {}, maximumCharacters = 32_000_000 } = checkObject(options, 'options');
  const { receivedOnly = false, onBadRow = 'throw', decimal = '.' } = options;
  if (typeof file !== 'string') {
    throw new InputError({ code: 'wrong-type', argument: 'file', received: file, expected: 'a name' });
  }
  checkText(input, maximumCharacters, file);
  checkOneOf(onBadRow, 'onBadRow', ['throw', 'skip']);
  checkOneOf(decimal, 'decimal', ['.', ',']);
  checkOneOf(receivedOnly, 'receivedOnly', [true, false]);
  const wanted = wantedColumns(columns);
  const table = tableOf(input, options, file);
  if (table.rows.length + table.broken.length === 0) {
    throw new InputError({
      code: 'malformed-file',
      argument: '',
      received: undefined,
      expected: table.positionFirst ? 'at least one feature' : 'at least one row below the header',
      file,
      line: table.headerLine,
    });
  }
  const places = columnPlaces(table, wanted, file);
  checkNeededColumns(table, places, receivedOnly, file);
  return surveyOf(table, { places, decimal, receivedOnly }, onBadRow, file);
}

function checkText(input: unknown, maximumCharacters: unknown, file: string): void {
  const most = checkPositive(maximumCharacters, 'maximumCharacters', 'characters');
  if (typeof input !== 'string') {
    throw new InputError({ code: 'wrong-type', argument: 'input', received: input, expected: 'a text' });
  }
  if (input.length > most) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'input.length',
      received: input.length,
      expected: `at most ${most} characters (maximumCharacters)`,
      file,
    });
  }
  if (input.trim() === '') {
    throw new InputError({
      code: 'malformed-file',
      argument: '',
      received: undefined,
      expected: 'a header line and rows, or GeoJSON',
      file,
    });
  }
}

function tableOf(input: string, options: ReadSurveyOptions, file: string): SurveyTable {
  const { separator, commentPrefix } = options;
  // trimStart also drops a byte order mark.
  const detected = input.trimStart().startsWith('{') ? 'geojson' : 'csv';
  const { format = detected } = options;
  checkOneOf(format, 'format', ['csv', 'geojson']);
  if (format === 'geojson') return geoJsonTable(input, file);
  if (
    separator !== undefined &&
    (typeof separator !== 'string' || !/^[^"\r\n\p{L}\p{N}]$/u.test(separator))
  ) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'separator',
      received: separator,
      expected: 'one character that is no letter, digit, quote or line end',
    });
  }
  if (
    commentPrefix !== undefined &&
    (typeof commentPrefix !== 'string' || !/^[^"\s]+$/.test(commentPrefix))
  ) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'commentPrefix',
      received: commentPrefix,
      expected: 'a sign such as #',
    });
  }
  return csvTable(input, { file, separator, commentPrefix });
}

function checkNeededColumns(
  table: SurveyTable,
  places: ReadonlyMap<SurveyField, ColumnPlace>,
  receivedOnly: boolean,
  file: string,
): void {
  for (const field of ['latitudeDeg', 'longitudeDeg'] as const) {
    if (!places.has(field)) throw missingColumn(table, field, field, file);
  }
  const received = places.get('received');
  if (receivedOnly && received !== undefined) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'receivedOnly',
      received: receivedOnly,
      expected: `false, since the ${table.columnWord} "${received.name}" tells received from missed`,
    });
  }
  if (!receivedOnly && received === undefined) throw missingColumn(table, 'received', 'received', file);
}

function surveyOf(table: SurveyTable, reading: RowReading, onBadRow: 'throw' | 'skip', file: string): Survey {
  const observations: Observation[] = [];
  const refusals: { readonly error: InputError; readonly text: string }[] = [];
  for (const { line, column, field, expected, received, text } of table.broken) {
    const error = new InputError({
      code: 'malformed-file',
      argument: field,
      received,
      expected,
      file,
      line,
      column,
    });
    refusals.push({ error, text });
  }
  for (const row of table.rows) {
    try {
      observations.push(observationOfRow(row, reading));
    } catch (cause) {
      if (!isInputError(cause)) throw cause;
      refusals.push({ error: placed(cause, row.line, table, reading.places, file), text: row.text });
    }
  }
  refusals.sort((one, other) => (one.error.line ?? 0) - (other.error.line ?? 0));
  const first = refusals[0];
  if (first !== undefined && onBadRow === 'throw') throw first.error;
  return {
    observations,
    skipped: refusals.map(({ error, text }) => skippedRow(error, text)),
    rows: observations.length + refusals.length,
  };
}

/** A field's refusal as the file's: the code of a file, the column, and the column's own name. */
function placed(
  cause: InputError,
  line: number,
  table: SurveyTable,
  places: ReadonlyMap<SurveyField, ColumnPlace>,
  file: string,
): InputError {
  const place = places.get(cause.argument as SurveyField);
  const named =
    place === undefined || place.name === cause.argument ? '' : ` (${table.columnWord} "${place.name}")`;
  return new InputError(
    {
      code: 'malformed-file',
      argument: cause.argument,
      received: cause.received,
      expected: `${cause.expected}${named}`,
      file,
      line,
      column: place === undefined || table.columnWord === 'property' ? undefined : place.index + 1,
    },
    { cause },
  );
}

function skippedRow(error: InputError, text: string): SkippedRow {
  const { line = 0, column, argument: field, code, received, expected } = error;
  // The same sentence without file and line, which stand beside it.
  const reason = new InputError({ code, argument: field, received, expected }).message;
  return { line, ...(column === undefined ? {} : { column }), field, reason, text };
}
