import { checkOneOf, InputError } from '@finial/units';
import { csvTable } from '../csvTable.js';
import { geoJsonTable } from '../geoJsonTable.js';
import type { SurveyTable } from '../SurveyTable.js';
import { type ColumnPlace, columnPlaces, missingColumn, type WantedColumn } from '../surveyColumnPlaces.js';
import { ndjsonTable, recordPlaces } from './ndjsonTable.js';
import type { TableSettings } from './ReadTableOptions.js';
import { type ReadRows, readTable, type TableKind } from './readTable.js';
import { linesOfText } from './textLines.js';

/** Formats of a table of text. */
export type TableFormat = 'csv' | 'geojson' | 'ndjson';

/** What is read, and how. */
export interface TableSource<Item> {
  readonly kind: TableKind<Item>;
  readonly format: TableFormat;
  readonly wanted: ReadonlyMap<string, WantedColumn>;
  readonly each: string | undefined;
  readonly absentIsZero: readonly string[];
  readonly settings: TableSettings;
}

/** Reads all rows of a text. */
export function readRecords<Item>(text: string, source: TableSource<Item>): ReadRows<Item> {
  const { settings, kind, wanted } = source;
  const table = tableOf(text, source);
  if (table.rows.length + table.broken.length === 0) throw noRows(source, table.headerLine);
  const places = placesOf(table, source);
  if (source.format === 'ndjson' && table.rows.length > 0) {
    const seen = new Set<string>();
    noteSeen(table, places, seen);
    refuseUnseen(wanted, seen, settings.file);
  }
  const { decimal } = settings;
  const reading = { places, decimal, isGuarded: source.format === 'csv', absentIsZero: source.absentIsZero };
  return readTable(table, (row) => kind.itemOfRow(row, reading), places, settings);
}

function tableOf<Item>(
  text: string,
  { format, settings, wanted, kind, each }: TableSource<Item>,
): SurveyTable {
  if (format === 'csv') return csvTable(text, settings);
  if (format === 'geojson') return geoJsonTable(text, settings.file);
  return ndjsonTable(linesOfText(text), { wanted, rules: kind.rules, each });
}

/** Where the fields stand in a table of this source. */
export function placesOf<Item>(
  table: SurveyTable,
  { format, kind, wanted, each, settings }: TableSource<Item>,
): ReadonlyMap<string, ColumnPlace> {
  if (format === 'ndjson') return recordPlaces({ wanted, rules: kind.rules, each });
  const places = columnPlaces(table, wanted, kind.rules, settings.file);
  kind.checkColumns(table, places, settings.file);
  return places;
}

/** Notes which fields had a value in some record. */
export function noteSeen(
  table: SurveyTable,
  places: ReadonlyMap<string, ColumnPlace>,
  seen: Set<string>,
): void {
  for (const [field, { index }] of places) {
    if (!seen.has(field) && table.rows.some(({ cells }) => cells[index] !== undefined)) seen.add(field);
  }
}

/** Refuses a path that no record of the file has: a spelling mistake would otherwise look like 'not known'. */
export function refuseUnseen(
  wanted: ReadonlyMap<string, WantedColumn>,
  seen: ReadonlySet<string>,
  file: string,
): void {
  for (const [field, { column }] of wanted) {
    if (seen.has(field)) continue;
    throw new InputError({
      code: 'malformed-file',
      argument: field,
      received: undefined,
      expected: `some record with the property "${column}"`,
      file,
    });
  }
}

/** The refusal of a file without rows. */
export function noRows<Item>({ format, settings }: TableSource<Item>, line: number | undefined): InputError {
  const expected = {
    csv: 'at least one row below the header',
    geojson: 'at least one feature',
    ndjson: 'at least one record',
  }[format];
  return new InputError({
    code: 'malformed-file',
    argument: '',
    received: undefined,
    expected,
    file: settings.file,
    line,
  });
}

/** The format that the caller names, or the one that the text looks like. */
export function formatOf<const Format extends TableFormat>(
  text: string,
  format: Format | undefined,
  formats: readonly Format[],
): Format {
  if (format !== undefined) return checkOneOf(format, 'format', formats);
  const looksLike = likelyFormat(text);
  // Where GeoJSON is no choice, a brace is a record, be it a broken one.
  const readAs =
    looksLike === 'geojson' && !formats.some((known) => known === looksLike) ? 'ndjson' : looksLike;
  return checkOneOf(readAs, 'format', formats);
}

function likelyFormat(text: string): TableFormat {
  // trimStart also drops a byte order mark.
  const start = text.trimStart();
  if (!start.startsWith('{')) return 'csv';
  // One value over many lines, or one value a line.
  const firstLine = start.split(/\r\n|\n|\r/, 1)[0] ?? '';
  return isWholeRecord(firstLine) ? 'ndjson' : 'geojson';
}

function isWholeRecord(line: string): boolean {
  try {
    const value = JSON.parse(line) as { readonly type?: unknown } | null;
    return value !== null && Object.keys(value).length > 0 && typeof value.type !== 'string';
  } catch {
    return false;
  }
}

/** Refuses columns that the table lacks and rows cannot do without. */
export function needColumns(
  fields: readonly string[],
  table: SurveyTable,
  places: ReadonlyMap<string, ColumnPlace>,
  file: string,
): void {
  for (const field of fields) {
    if (!places.has(field)) throw missingColumn(table, field, field, file);
  }
}

/** Refuses a list of fields whose absence means zero, where it names others than these. */
export function checkAbsentIsZero(fields: unknown): readonly string[] {
  if (!Array.isArray(fields)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'absentIsZero',
      received: fields,
      expected: 'a list of fields',
    });
  }
  return fields.map((field) => checkOneOf(field, 'absentIsZero', ['counter', 'snrDb']));
}
