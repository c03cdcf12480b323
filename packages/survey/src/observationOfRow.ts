import { checkInteger, checkRange, InputError } from '@finial/units';
import type { Observation } from './Observation.js';
import { type NumberFieldRule, observationFields, type SurveyField } from './observationFields.js';
import type { SurveyRow } from './SurveyTable.js';
import type { ColumnPlace } from './surveyColumnPlaces.js';

/** How the rows of one table become observations. */
export interface RowReading {
  readonly places: ReadonlyMap<SurveyField, ColumnPlace>;
  readonly decimal: '.' | ',';
  readonly receivedOnly: boolean;
}

const mustBeThere: readonly SurveyField[] = ['latitudeDeg', 'longitudeDeg', 'received'];

/**
 * The observation in one row.
 *
 * @throws {@link InputError} whose `argument` is the field that is wrong
 */
export function observationOfRow(row: SurveyRow, reading: RowReading): Observation {
  const values = new Map<string, unknown>();
  for (const [field, place] of reading.places) {
    const value = cellValue(row.cells[place.index], place, reading.decimal);
    if (value !== undefined) values.set(field, value);
    else if (mustBeThere.includes(field)) throw refused(field, undefined, 'a value');
  }
  if (reading.receivedOnly) values.set('received', true);
  const received = values.get('received') === true;
  if (received && reading.places.has('rssiDbm') && !values.has('rssiDbm')) {
    throw refused('rssiDbm', undefined, 'a level in dBm, since the frame was received');
  }
  for (const level of ['rssiDbm', 'snrDb']) {
    if (received || !values.has(level)) continue;
    throw refused(level, values.get(level), 'nothing, since the frame was missed');
  }
  // Keys come from our own list of fields, never from the file.
  return { ...Object.fromEntries(values), line: row.line } as unknown as Observation;
}

function cellValue(cell: unknown, place: ColumnPlace, decimal: '.' | ','): unknown {
  const content = typeof cell === 'string' ? cell.trim() : cell;
  if (content === undefined || content === null || content === '') return undefined;
  const rule = observationFields[place.field];
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
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(plain)) throw refused(field, content, expected);
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
function utcOf(content: unknown, field: string): string {
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

function refused(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'malformed-file', argument, received, expected });
}
