import { jsonPlaces } from '../jsonPlaces.js';
import type { FieldRules } from '../observationFields.js';
import type { BrokenRow, SurveyRow, SurveyTable } from '../SurveyTable.js';
import { type ColumnPlace, inUnderscores, type WantedColumn } from '../surveyColumnPlaces.js';
import type { TextLine } from './textLines.js';

/** How records of NDJSON become rows. */
export interface RecordCut {
  readonly wanted: ReadonlyMap<string, WantedColumn>;
  readonly rules: FieldRules;
  /** Path of a list in each record that gives one row per entry. */
  readonly each: string | undefined;
}

/** Where the fields stand in the rows of {@link ndjsonTable}: one cell per field, whatever the record calls it. */
export function recordPlaces({ wanted, rules }: RecordCut): ReadonlyMap<string, ColumnPlace> {
  const places = Object.entries(rules).map(([field, rule], index): [string, ColumnPlace] => {
    const { column: name = field, convert, inverted = false } = wanted.get(field) ?? {};
    return [field, { field, rule, index, name, convert, inverted, inHeader: wanted.has(field) }];
  });
  return new Map(places);
}

/** Reads lines of JSON, one record a line, as a table of one column per field. */
export function ndjsonTable(lines: readonly TextLine[], cut: RecordCut): SurveyTable {
  const rows: SurveyRow[] = [];
  const broken: BrokenRow[] = [];
  for (const { line, text } of lines) {
    if (text.trim() === '') continue;
    const record = parsedRecord(text);
    if ('expected' in record) {
      broken.push({ line, text, field: '', received: text, ...record });
      continue;
    }
    for (const part of partsOf(record.value, cut.each)) {
      const row = part === undefined ? cut.each : rowOf(part, cut);
      if (typeof row === 'object') rows.push({ line, text, cells: row.cells });
      else {
        const expected =
          part === undefined ? 'a list with at least one entry' : 'one name of the field, not two';
        broken.push({ line, text, field: row ?? '', expected, received: text });
      }
    }
  }
  return {
    header: Object.keys(cut.rules),
    columnWord: 'property',
    headerLine: undefined,
    positionFirst: false,
    rows,
    broken,
  };
}

type ParsedRecord =
  | { readonly value: Readonly<Record<string, unknown>> }
  | { readonly expected: string; readonly column?: number | undefined };

function parsedRecord(text: string): ParsedRecord {
  try {
    const value: unknown = JSON.parse(text);
    return isRecord(value) ? { value } : { expected: 'a JSON object on each line' };
  } catch {
    const { fault } = jsonPlaces(text);
    if (fault === undefined) return { expected: 'a JSON object on each line' };
    return { expected: `JSON with ${fault.expected} here`, column: fault.at + 1 };
  }
}

/** The record once per entry of its list, the entry standing in the list's place; `undefined` where there is no such entry. */
function partsOf(
  record: Readonly<Record<string, unknown>>,
  each: string | undefined,
): readonly (Readonly<Record<string, unknown>> | undefined)[] {
  if (each === undefined) return [record];
  const list = valueAt(record, each);
  if (!Array.isArray(list) || list.length === 0) return [undefined];
  return list.map((entry) => withEntry(record, each, entry));
}

function withEntry(
  record: Readonly<Record<string, unknown>>,
  path: string,
  entry: unknown,
): Readonly<Record<string, unknown>> {
  const key = ownKey(record, path);
  if (key === path) return { ...record, [key]: entry };
  const inner = record[key];
  return isRecord(inner) ? { ...record, [key]: withEntry(inner, path.slice(key.length + 1), entry) } : record;
}

/** The cells, or the name of the field that stands there under two names. */
function rowOf(
  record: Readonly<Record<string, unknown>>,
  { wanted, rules }: RecordCut,
): { readonly cells: readonly unknown[] } | string {
  const cells: unknown[] = [];
  for (const field of Object.keys(rules)) {
    const path = wanted.get(field)?.column;
    if (path !== undefined) {
      cells.push(valueAt(record, path));
      continue;
    }
    const other = inUnderscores(field);
    if (other !== field && Object.hasOwn(record, field) && Object.hasOwn(record, other)) return field;
    cells.push(Object.hasOwn(record, field) ? record[field] : ownValue(record, other));
  }
  return { cells };
}

/** What stands at a dotted path such as `radio.levels.0.rssi`; a key that itself has dots is found as well. */
export function valueAt(value: unknown, path: string): unknown {
  if (Array.isArray(value)) {
    const [place = '', ...rest] = path.split('.');
    const entry: unknown = /^\d+$/.test(place) ? value[Number(place)] : undefined;
    return rest.length === 0 ? entry : valueAt(entry, rest.join('.'));
  }
  if (!isRecord(value)) return undefined;
  const key = ownKey(value, path);
  const inner = ownValue(value, key);
  return key === path ? inner : valueAt(inner, path.slice(key.length + 1));
}

/** The whole path where the record has such a key, else its first part. */
function ownKey(record: Readonly<Record<string, unknown>>, path: string): string {
  return Object.hasOwn(record, path) ? path : (path.split('.', 1)[0] ?? path);
}

function ownValue(record: Readonly<Record<string, unknown>>, key: string): unknown {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
