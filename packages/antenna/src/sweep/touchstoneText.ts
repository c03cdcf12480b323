import { checkInteger, InputError } from '@finial/units';

/** A word of a line, and where it stands. */
export interface Word {
  readonly text: string;
  /** Column of its first letter, counted from 1. */
  readonly column: number;
}

/** A line with something on it besides a comment. */
export interface TextLine {
  /** Line in the file, counted from 1. */
  readonly line: number;
  /** The line without its comment. */
  readonly text: string;
  readonly words: readonly Word[];
}

/** Longest text in characters unless the caller says otherwise: some 250 000 points. */
const usualLimit = 10_000_000;

/** What every reader of a text is told of it, checked, with the usual limit filled in. */
export function checkTextSource({
  file,
  maximumCharacters = usualLimit,
}: {
  readonly file?: string | undefined;
  readonly maximumCharacters?: number | undefined;
}): { readonly file: string | undefined; readonly maximumCharacters: number } {
  if (file !== undefined && typeof file !== 'string') {
    const expected = 'the name of a file';
    throw new InputError({ code: 'wrong-type', argument: 'file', received: file, expected });
  }
  checkInteger(maximumCharacters, 'maximumCharacters', { min: 1, max: 100_000_000, unit: 'characters' });
  return { file, maximumCharacters };
}

/** Refuses what is not text, and text longer than the limit. */
export function checkText(text: unknown, maximumCharacters: number, file: string | undefined): string {
  if (typeof text !== 'string') {
    throw new InputError({
      code: 'wrong-type',
      argument: 'text',
      received: text,
      expected: 'the text of a file',
      file,
    });
  }
  if (text.length > maximumCharacters) {
    const expected = `at most ${maximumCharacters} characters (maximumCharacters)`;
    throw new InputError({ code: 'out-of-range', argument: 'text', received: text.length, expected, file });
  }
  return text;
}

/** The lines of a text, whichever of the three line ends it has; the byte order mark is dropped. */
export function linesOf(text: string): readonly string[] {
  return text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
}

/** The words of a text that begins at a column. */
export function wordsOf(text: string, firstColumn = 1): readonly Word[] {
  return [...text.matchAll(/\S+/g)].map((match) => ({ text: match[0], column: firstColumn + match.index }));
}

/** Column just behind the last word of a line: where the missing rest should have been. */
export function columnBehind(words: readonly Word[]): number {
  const last = words.at(-1);
  return last === undefined ? 1 : last.column + last.text.length;
}

const numberForm = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+))(?:[eEdD]([+-]?\d+))?$/;

/**
 * The number that a word is, times a power of ten; `undefined` where it is none. Exponents may be marked with D, as Fortran
 * programs write them. The power goes into the exponent, so that 868.1 MHz and 0.8681 GHz are the same double.
 */
export function numberOf(word: string, powerOfTen = 0): number | undefined {
  const match = numberForm.exec(word);
  if (match === null) return undefined;
  const value = Number(`${match[1]}e${Number(match[2] ?? 0) + powerOfTen}`);
  return Number.isFinite(value) ? value : undefined;
}

/** What to say that was expected where a word is no number. */
export function expectedNumber(word: string): string {
  if (/^[+-]?\d*,\d+([eEdD][+-]?\d+)?$/.test(word)) {
    return 'a number with a decimal point (this one has a decimal comma: export again with points)';
  }
  return 'a number';
}
