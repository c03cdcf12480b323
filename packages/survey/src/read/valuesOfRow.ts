import { checkInteger, checkRange, InputError } from '@finial/units';
import { withoutGuard } from '../formulaGuard.js';
import type { NumberFieldRule } from '../observationFields.js';
import type { SurveyRow } from '../SurveyTable.js';
import type { ColumnPlace } from '../surveyColumnPlaces.js';

/** How the rows of one table become values. */
export interface RowReading {
  readonly places: ReadonlyMap<string, ColumnPlace>;
  readonly decimal: '.' | ',';
  /** True where an apostrophe before a formula is not part of the text: in cells that a spreadsheet may have held. */
  readonly isGuarded: boolean;
  /** Fields whose absence next to a level means zero. */
  readonly absentIsZero: readonly string[];
}

/**
 * The values in one row, by field; a field without a value is not in the map.
 *
 * @throws {@link InputError} whose `argument` is the field that is wrong
 */
export function valuesOfRow(
  row: SurveyRow,
  { places, decimal, isGuarded, absentIsZero }: RowReading,
  needed: readonly string[],
): Map<string, unknown> {
  const values = new Map<string, unknown>();
  for (const [field, place] of places) {
    const value = cellValue(row.cells[place.index], place, decimal);
    const isText = place.rule.kind === 'text' && typeof value === 'string';
    if (value !== undefined) values.set(field, isText && isGuarded ? withoutGuard(value) : value);
  }
  // A writer that drops zeros drops them from records of received frames: without a level nothing was received.
  for (const field of absentIsZero) {
    if (places.has(field) && values.has('rssiDbm') && !values.has(field)) values.set(field, 0);
  }
  for (const field of needed) {
    if (!values.has(field)) throw refused(field, undefined, 'a value');
  }
  return values;
}

/** The record that the values make. */
export function recordOf(values: ReadonlyMap<string, unknown>, row: SurveyRow): Record<string, unknown> {
  // Keys come from our own list of fields, never from the file.
  return { ...Object.fromEntries(values), line: row.line };
}

function cellValue(cell: unknown, place: ColumnPlace, decimal: '.' | ','): unknown {
  const content = typeof cell === 'string' ? cell.trim() : cell;
  if (content === undefined || content === null || content === '') return undefined;
  const { rule } = place;
  switch (rule.kind) {
    case 'text':
      return textOf(content, place.field);
    case 'time':
      return utcOf(content, place.field);
    case 'yes-no':
      return yesOrNo(content, place.field) !== place.inverted;
    default:
      return inRange(place, rule, numberOf(content, place.field, decimal));
  }
}

function inRange(place: ColumnPlace, rule: NumberFieldRule, value: number): number {
  const converted = place.convert === undefined ? value : place.convert(value);
  return rule.whole === true
    ? checkInteger(converted, place.field, rule)
    : checkRange(converted, place.field, rule);
}

/** Strict on purpose: `Number()` reads '' as 0 and '0x1f' as 31, and `parseFloat` reads '868,1' as 868. */
function numberOf(content: unknown, field: string, decimal: '.' | ','): number {
  if (typeof content === 'number') return content;
  const expected = `a number with a decimal ${decimal === '.' ? 'point' : 'comma'}`;
  if (typeof content !== 'string') throw refused(field, content, expected);
  const plain = decimal === ',' ? content.replace('.', '?').replace(',', '.') : content;
  if (!/^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/.test(plain)) throw refused(field, content, expected);
  return Number(plain);
}

function textOf(content: unknown, field: string): string {
  if (typeof content === 'string') return content;
  if (typeof content === 'number') return String(content);
  throw refused(field, content, 'a text');
}

function yesOrNo(content: unknown, field: string): boolean {
  const word = String(content).toLowerCase();
  if (['1', 'true', 'yes'].includes(word)) return true;
  if (['0', 'false', 'no'].includes(word)) return false;
  throw refused(field, content, '1, true or yes, or else 0, false or no');
}

/** A time without zone is refused: logs and tracks in local time are hours apart and nothing shows it. */
export function utcOf(content: unknown, field: string): string {
  const pattern = /^(\d{4})-(\d\d)-(\d\d)[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d)$/;
  const expected = 'a time such as 2024-07-24T05:43:12Z, with Z or an offset';
  const parts = typeof content === 'string' ? pattern.exec(content) : null;
  if (parts === null) throw refused(field, content, expected);
  const iso = parts[0].replace(' ', 'T');
  const milliseconds = Date.parse(iso);
  // Some engines turn 30 February into 1 March instead of refusing it.
  const day = new Date(Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]))).getUTCDate();
  if (Number.isNaN(milliseconds) || day !== Number(parts[3])) throw refused(field, content, expected);
  return iso.endsWith('Z') ? iso : new Date(milliseconds).toISOString();
}

/** A field's refusal, before the file, line and column are known. */
export function refused(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'malformed-file', argument, received, expected });
}
