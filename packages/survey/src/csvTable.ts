import { InputError } from '@finial/units';
// The build for browsers runs in every runtime; the other one needs Node's Buffer.
import { type CsvError, parse } from 'csv-parse/browser/esm/sync';
import type { BrokenRow, SurveyRow, SurveyTable } from './SurveyTable.js';

/** How a CSV text is cut. */
export interface CsvCut {
  readonly file: string;
  readonly separator?: string | undefined;
  readonly commentPrefix?: string | undefined;
}

/** A row of CSV that has been cut, with its separator known. */
export interface CsvRows {
  readonly header: readonly string[];
  readonly headerLine: number;
  readonly separator: string;
}

/** A frame's row is short; a longer one means a quote that was never closed. */
export const longestRow = 20_000;
/** Each broken quote costs a fresh start of the parser, so a hostile file must not have thousands of them. */
const mostBrokenQuotes = 100;

/** Cuts CSV text into rows and cells (RFC 4180 quoting; any of the three line ends; byte order mark dropped). */
export function csvTable(input: string, cut: CsvCut): SurveyTable {
  // One kind of line end, or the parser would count a CRLF inside quotes as two lines.
  const text = input.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const separator = cut.separator ?? likelySeparator(text, cut.commentPrefix);
  const { rows, broken } = cutRows(text, separator, cut);
  const first = rows[0];
  const brokenFirst = broken[0];
  if (brokenFirst !== undefined && (first === undefined || brokenFirst.line < first.line)) {
    const { line, column, expected, received } = brokenFirst;
    throw malformed(cut.file, { line, column, argument: 'header', expected, received });
  }
  if (first === undefined) {
    throw malformed(cut.file, { argument: '', expected: 'a header line and rows', received: input });
  }
  const header = first.cells.map((cell) => String(cell).trim());
  refuseDuplicates(header, first.line, cut.file);
  return tableBelow({ header, headerLine: first.line, separator }, rows.slice(1), broken);
}

/** The table of some rows further down in a file whose header line is known. */
export function csvTableBelow(text: string, above: CsvRows, linesBefore: number, cut: CsvCut): SurveyTable {
  const { rows, broken } = cutRows(text, above.separator, cut, linesBefore);
  return tableBelow(above, rows, broken);
}

function tableBelow(
  { header, headerLine }: CsvRows,
  rows: readonly SurveyRow[],
  broken: readonly BrokenRow[],
): SurveyTable {
  const whole = rows.filter((row) => row.cells.length === header.length);
  const ragged = rows.filter((row) => row.cells.length !== header.length);
  return {
    header,
    columnWord: 'column',
    headerLine,
    positionFirst: false,
    rows: whole,
    broken: [...broken, ...ragged.map((row) => raggedRow(row, header.length))],
  };
}

interface RecordPlace {
  /** The line that was reached, counted from 1. */
  readonly lines: number;
}

interface CutRows {
  readonly rows: SurveyRow[];
  readonly broken: BrokenRow[];
}

/** After a broken quote the parser no longer knows where rows end: it starts afresh on the next line. */
function cutRows(text: string, separator: string, cut: CsvCut, linesAbove = 0): CutRows {
  const rows: SurveyRow[] = [];
  const broken: BrokenRow[] = [];
  let rest = text;
  let linesBefore = linesAbove;
  while (rest !== '') {
    const failure = cutUntilBroken(rest, linesBefore, separator, cut, rows);
    if (failure === undefined) break;
    broken.push(failure);
    if (broken.length > mostBrokenQuotes) {
      const { line, column, received } = failure;
      const expected = `at most ${mostBrokenQuotes} rows with broken quotes`;
      throw malformed(cut.file, { line, column, argument: '', expected, received });
    }
    rest = afterLine(rest, failure.line - linesBefore);
    linesBefore = failure.line;
  }
  return { rows, broken };
}

/** Adds rows to the list up to the first row that cannot be cut, and returns that one. */
function cutUntilBroken(
  text: string,
  linesBefore: number,
  separator: string,
  cut: CsvCut,
  rows: SurveyRow[],
): BrokenRow | undefined {
  let failure: BrokenRow | undefined;
  // With `raw` the parser hands over the cells and the text together, which its types do not say.
  const take = (cut: unknown, place: RecordPlace): null => {
    const { record, raw } = cut as { readonly record: string[]; readonly raw: string };
    if (record.length > 1 || record[0]?.trim() !== '')
      rows.push(rowOf(record, raw, linesBefore + place.lines));
    return null;
  };
  try {
    parse(text, {
      delimiter: separator,
      record_delimiter: ['\n'],
      comment: cut.commentPrefix ?? null,
      comment_no_infix: true,
      relax_column_count: true,
      skip_empty_lines: true,
      skip_records_with_error: true,
      max_record_size: longestRow,
      raw: true,
      on_record: take,
      on_skip: (error, raw): undefined => {
        failure = brokenRow(error, raw ?? '', { text, linesBefore, commentPrefix: cut.commentPrefix });
        throw error; // ends the parse
      },
    });
  } catch (error) {
    if (failure === undefined) throw error;
  }
  return failure;
}

function rowOf(cells: readonly string[], raw: string, lastLine: number): SurveyRow {
  const breaksInside = cells.reduce((count, cell) => count + cell.split('\n').length - 1, 0);
  // `raw` begins with the comments and blank lines that were passed over.
  const lines = raw.replace(/\n$/, '').split('\n');
  return { line: lastLine - breaksInside, cells, text: lines.slice(-1 - breaksInside).join('\n') };
}

/** What a broken row was cut from. */
interface BrokenSource {
  readonly text: string;
  readonly linesBefore: number;
  readonly commentPrefix: string | undefined;
}

function brokenRow(error: CsvError | undefined, raw: string, source: BrokenSource): BrokenRow {
  const { text, linesBefore, commentPrefix } = source;
  const place = error as (CsvError & RecordPlace & { readonly column: unknown }) | undefined;
  const cutOff = raw.replace(/\n$/, '').split('\n');
  // Blank and commented lines before the row came along with it.
  const opening = cutOff.findIndex((line) => line.trim() !== '' && !isComment(line, commentPrefix));
  const lineHere = (place?.lines ?? 1) - (cutOff.length - 1) + Math.max(opening, 0);
  const line = text.split('\n', lineHere).at(-1) ?? '';
  return {
    line: linesBefore + lineHere,
    column: typeof place?.column === 'number' ? place.column + 1 : undefined,
    text: line,
    field: '',
    expected:
      error?.code === 'CSV_MAX_RECORD_SIZE'
        ? `a row of at most ${longestRow} characters (a quote left open?)`
        : 'quotes around a whole field, closed, and doubled inside it',
    received: line,
  };
}

function raggedRow(row: SurveyRow, columns: number): BrokenRow {
  return {
    line: row.line,
    column: Math.min(row.cells.length, columns) + 1,
    text: row.text,
    field: '',
    expected: `${columns} fields as in the header, not ${row.cells.length}`,
    received: row.text,
  };
}

/** The separator that cuts the header line into most columns; a comma where none does. */
export function likelySeparator(text: string, commentPrefix: string | undefined): string {
  const header = text.split('\n').find((line) => line.trim() !== '' && !isComment(line, commentPrefix));
  const unquoted = (header ?? '').replace(/"[^"]*"/g, '');
  let best = ',';
  let most = 0;
  for (const candidate of [',', ';', '\t', '|']) {
    const count = unquoted.split(candidate).length - 1;
    if (count > most) [best, most] = [candidate, count];
  }
  return best;
}

export function isComment(line: string, commentPrefix: string | undefined): boolean {
  return commentPrefix !== undefined && line.startsWith(commentPrefix);
}

function refuseDuplicates(header: readonly string[], line: number, file: string): void {
  header.forEach((name, index) => {
    if (name === '' || header.indexOf(name) === index) return;
    throw malformed(file, {
      line,
      column: index + 1,
      argument: 'header',
      expected: 'every column name once',
      received: name,
    });
  });
}

function afterLine(text: string, lines: number): string {
  let at = 0;
  for (let line = 0; line < lines; line += 1) {
    const end = text.indexOf('\n', at);
    if (end === -1) return '';
    at = end + 1;
  }
  return text.slice(at);
}

function malformed(
  file: string,
  detail: {
    readonly argument: string;
    readonly expected: string;
    readonly received: unknown;
    readonly line?: number | undefined;
    readonly column?: number | undefined;
  },
): InputError {
  return new InputError({ code: 'malformed-file', file, ...detail });
}
