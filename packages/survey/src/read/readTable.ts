import { InputError, isInputError } from '@finial/units';
import type { FieldRules } from '../observationFields.js';
import type { SurveyRow, SurveyTable } from '../SurveyTable.js';
import type { ColumnPlace } from '../surveyColumnPlaces.js';
import type { RowReading } from './valuesOfRow.js';

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

/** One kind of table: which fields it has and what a row becomes. */
export interface TableKind<Item> {
  readonly rules: FieldRules;
  /** Refuses a header that lacks a column; not asked of NDJSON, which has none. */
  readonly checkColumns: (table: SurveyTable, places: ReadonlyMap<string, ColumnPlace>, file: string) => void;
  readonly itemOfRow: (row: SurveyRow, reading: RowReading) => Item;
}

/** What the rows of a table became. */
export interface ReadRows<Item> {
  readonly items: readonly Item[];
  readonly skipped: readonly SkippedRow[];
}

/** Turns rows into items; a bad row ends it or is listed. */
export function readTable<Item>(
  table: SurveyTable,
  itemOfRow: (row: SurveyRow) => Item,
  places: ReadonlyMap<string, ColumnPlace>,
  { file, onBadRow }: { readonly file: string; readonly onBadRow: 'throw' | 'skip' },
): ReadRows<Item> {
  const items: Item[] = [];
  const refusals: { readonly error: InputError; readonly text: string }[] = [];
  for (const { line, column, field, expected, received, text } of table.broken) {
    const detail = { argument: field, received, expected, file, line, column };
    refusals.push({ error: new InputError({ code: 'malformed-file', ...detail }), text });
  }
  for (const row of table.rows) {
    try {
      items.push(itemOfRow(row));
    } catch (cause) {
      if (!isInputError(cause)) throw cause;
      refusals.push({ error: placed(cause, row.line, table, places, file), text: row.text });
    }
  }
  refusals.sort((one, other) => (one.error.line ?? 0) - (other.error.line ?? 0));
  const first = refusals[0];
  if (first !== undefined && onBadRow === 'throw') throw first.error;
  return { items, skipped: refusals.map(({ error, text }) => skippedRow(error, text)) };
}

/** A field's refusal as the file's: the code of a file, the column, and the column's own name. */
function placed(
  cause: InputError,
  line: number,
  table: SurveyTable,
  places: ReadonlyMap<string, ColumnPlace>,
  file: string,
): InputError {
  const place = places.get(cause.argument);
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

/** The refusal of a row as an entry of a list. */
export function skippedRow(error: InputError, text: string): SkippedRow {
  const { line = 0, column, argument: field, code, received, expected } = error;
  // The same sentence without file and line, which stand beside it.
  const reason = new InputError({ code, argument: field, received, expected }).message;
  return { line, ...(column === undefined ? {} : { column }), field, reason, text };
}
