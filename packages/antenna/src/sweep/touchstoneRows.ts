import { InputError } from '@finial/units';
import { sweepFrequencyBounds } from './checkSweep.js';
import { columnBehind, expectedNumber, numberOf, type TextLine, type Word } from './touchstoneText.js';

/** The numbers of one frequency. */
export interface NumberRow {
  /** Line on which the row begins, counted from 1. */
  readonly line: number;
  readonly frequencyHz: number;
  /** Two numbers for each pair, in the order of the file. */
  readonly parts: readonly number[];
}

interface RowShape {
  readonly file: string | undefined;
  readonly powerOfTen: number;
  /** Pairs behind each frequency. */
  readonly pairs: number;
  /** In a version 1 two-port file, noise parameters begin where the frequency falls. */
  readonly noiseMayFollow: boolean;
  /** Count of lines in the file. */
  readonly lastLine: number;
  /** Takes what has to be said. */
  readonly warnings: string[];
}

interface OpenRow {
  readonly line: TextLine;
  readonly frequencyHz: number;
  readonly parts: number[];
  lastLine: TextLine;
}

/**
 * Gathers numbers into rows. A line with an odd count of numbers begins a frequency, one with an even count goes on with it.
 */
export function touchstoneRows(
  lines: readonly TextLine[],
  shape: RowShape,
): { readonly rows: readonly NumberRow[]; readonly statedRows: number } {
  const rows: NumberRow[] = [];
  const repeated: number[] = [];
  let open: OpenRow | undefined;
  const close = () => {
    if (open === undefined) return;
    if (open.parts.length < 2 * shape.pairs) throw shortRow(open.lastLine, shape);
    const { frequencyHz, parts } = open;
    if (frequencyHz === rows.at(-1)?.frequencyHz) repeated.push(open.line.line);
    else rows.push({ line: open.line.line, frequencyHz, parts });
    open = undefined;
  };
  for (const line of lines) {
    if (line.words.length % 2 === 1) {
      close();
      const frequencyHz = frequencyOf(line, shape);
      const before = rows.at(-1)?.frequencyHz ?? -1;
      if (shape.noiseMayFollow && frequencyHz <= before && line.words.length === 5) {
        shape.warnings.push(`line ${line.line}: noise parameters, passed over from here on`);
        break;
      }
      if (frequencyHz < before) throw fallingFrequency(line, before, shape);
      open = { line, frequencyHz, parts: [], lastLine: line };
    } else if (open === undefined || open.parts.length === 2 * shape.pairs) {
      throw shortRow(line, shape);
    }
    takeParts(open, line, shape);
  }
  close();
  if (rows.length === 0) {
    const place = { file: shape.file, line: shape.lastLine };
    throw new InputError({
      code: 'malformed-file',
      argument: 'data',
      received: 'none',
      expected: 'at least one frequency with its numbers',
      ...place,
    });
  }
  if (repeated.length > 0) {
    const first = `line ${repeated[0]}: the frequency of the row before comes again`;
    shape.warnings.push(`${first}; of such rows (${repeated.length} in all) only the first is kept`);
  }
  return { rows, statedRows: rows.length + repeated.length };
}

function takeParts(row: OpenRow, line: TextLine, shape: RowShape): void {
  const words = line.words.length % 2 === 1 ? line.words.slice(1) : line.words;
  row.lastLine = line;
  for (const word of words) {
    if (row.parts.length === 2 * shape.pairs) throw longRow(word, line, shape);
    row.parts.push(readNumber(word, line, 0, shape));
  }
}

function frequencyOf(line: TextLine, shape: RowShape): number {
  const word = line.words[0] as Word;
  const frequencyHz = readNumber(word, line, shape.powerOfTen, shape);
  const { min, max, unit } = sweepFrequencyBounds;
  if (frequencyHz >= min && frequencyHz <= max) return frequencyHz;
  throw fault(word, line, 'frequency', `${min} to ${max} ${unit}`, shape);
}

function readNumber(word: Word, line: TextLine, powerOfTen: number, shape: RowShape): number {
  const value = numberOf(word.text, powerOfTen);
  if (value !== undefined) return value;
  throw fault(word, line, 'data', expectedNumber(word.text), shape);
}

function fallingFrequency(line: TextLine, before: number, shape: RowShape): InputError {
  return fault(
    line.words[0] as Word,
    line,
    'frequency',
    `more than the frequency before it (${before} Hz)`,
    shape,
  );
}

function longRow(word: Word, line: TextLine, shape: RowShape): InputError {
  const hint = shape.pairs === 1 && line.words.length === 9 ? ' (a two-port file? pass ports: 2)' : '';
  return fault(word, line, 'data', `no more than ${rowInWords(shape)}${hint}`, shape);
}

/** A row that ends early: the place is where its rest should have been. */
function shortRow(line: TextLine, shape: RowShape): InputError {
  const wrong = line.words.find(({ text }) => numberOf(text) === undefined);
  if (wrong !== undefined) return fault(wrong, line, 'data', expectedNumber(wrong.text), shape);
  const place = { file: shape.file, line: line.line, column: columnBehind(line.words) };
  const expected = `${rowInWords(shape)} (was the line cut off?)`;
  return new InputError({
    code: 'malformed-file',
    argument: 'data',
    received: line.text.trim(),
    expected,
    ...place,
  });
}

function rowInWords({ pairs }: RowShape): string {
  return `${1 + 2 * pairs} numbers: the frequency and ${pairs === 1 ? 'one pair' : `${pairs} pairs`}`;
}

function fault(word: Word, line: TextLine, argument: string, expected: string, shape: RowShape): InputError {
  const place = { file: shape.file, line: line.line, column: word.column };
  return new InputError({ code: 'malformed-file', argument, received: word.text, expected, ...place });
}
