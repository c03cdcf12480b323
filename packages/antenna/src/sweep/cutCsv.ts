import { InputError } from '@finial/units';
import { linesOf } from './touchstoneText.js';

/** A cell of a table, and where it stands. */
export interface CsvCell {
  /** What it holds, without quotes and blanks around. */
  readonly text: string;
  readonly line: number;
  /** Column of its first letter in the line, counted from 1. */
  readonly column: number;
}

/** A table of numbers with its header. */
export interface CsvTable {
  readonly header: readonly CsvCell[];
  readonly rows: readonly (readonly CsvCell[])[];
  readonly comments: readonly string[];
}

interface CsvCut {
  readonly file: string | undefined;
  readonly separator: string | undefined;
}

/** Cuts a table of numbers. Numbers need no quoting: a separator or a quote inside a quoted cell is not catered for. */
export function cutCsv(text: string, { file, separator }: CsvCut): CsvTable {
  const comments: string[] = [];
  const rows: CsvCell[][] = [];
  let between = separator;
  for (const [index, whole] of linesOf(text).entries()) {
    const line = whole.trim();
    if (line === '') continue;
    if (line[0] === '#' || line[0] === '!') {
      comments.push(line.slice(1).trim());
      continue;
    }
    between ??= likelySeparator(whole);
    const row = cellsOf(whole, between, index + 1);
    refuseRagged(row, rows[0], file);
    rows.push(row);
  }
  const [header, ...body] = rows;
  if (header !== undefined && body.length > 0) return { header, rows: body, comments };
  const received = header === undefined ? 'none' : 'a header only';
  throw new InputError({
    code: 'malformed-file',
    argument: 'rows',
    received,
    expected: 'a header and rows',
    file,
  });
}

function likelySeparator(header: string): string {
  const count = (separator: string) => header.split(separator).length;
  return [';', '\t'].reduce((best, option) => (count(option) > count(best) ? option : best), ',');
}

function cellsOf(whole: string, separator: string, line: number): CsvCell[] {
  let start = 0;
  return whole.split(separator).map((part) => {
    const text = part
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .trim();
    const column = start + Math.max(part.search(/\S/), 0) + 1;
    start += part.length + 1;
    return { text, line, column };
  });
}

function refuseRagged(
  row: readonly CsvCell[],
  header: readonly CsvCell[] | undefined,
  file: string | undefined,
): void {
  if (header === undefined || row.length === header.length) return;
  const place = {
    file,
    line: row[0]?.line,
    column: row[Math.min(row.length, header.length + 1) - 1]?.column,
  };
  const received = row.map(({ text }) => text).join(', ');
  const expected = `${header.length} cells as in the header, not ${row.length} (a decimal comma would also add one)`;
  throw new InputError({ code: 'malformed-file', argument: 'row', received, expected, ...place });
}
