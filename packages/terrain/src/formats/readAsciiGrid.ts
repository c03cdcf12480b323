import { InputError, type InputErrorDetail } from '@finial/units';
import type { ElevationTile } from '../parts.js';
import { mostCells } from '../tile/checkElevation.js';
import { type FileCoordinates, gridOf } from './FileCoordinates.js';

// The header's words, in lower case: spelling varies in case from writer to writer.
const headerWords = /^(?:ncols|nrows|xllcorner|xllcenter|yllcorner|yllcenter|cellsize|dx|dy|nodata_value)$/i;
const decimalNumber = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i;
// What a grid without its own line means by no data, as the format has it.
const usualVoidValue = -9999;

/** A word of the file and where it stands. */
interface Word {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/**
 * Reads an ASCII grid: header lines of a word and a number, then heights row by row from the north-west, split by blanks or line
 * ends. The format says no coordinate system; the caller does, else degrees are taken.
 *
 * @source Esri, ASCII raster format: header words, defaults, order of the rows
 */
export function readAsciiGrid(
  name: string,
  text: string,
  coordinates: FileCoordinates | undefined,
): ElevationTile {
  const words = wordsOf(text);
  const header = readHeader(words, name);
  const columns = header.count('ncols');
  const rows = header.count('nrows');
  const rowStep = header.number(header.has('cellsize') ? 'cellsize' : 'dy');
  const columnStep = header.number(header.has('cellsize') ? 'cellsize' : 'dx');
  const west = header.has('xllcenter')
    ? header.number('xllcenter')
    : header.number('xllcorner') + columnStep / 2;
  const south = header.has('yllcenter')
    ? header.number('yllcenter')
    : header.number('yllcorner') + rowStep / 2;
  // Two characters are the least that a height takes: a header that claims more is refused before memory is asked for.
  if (columns * rows > mostCells || 2 * columns * rows - 1 > text.length) {
    throw malformed(
      name,
      'nrows',
      columns * rows,
      'as many heights in the file as ncols times nrows',
      header.places.get('nrows'),
    );
  }
  const heightsM = readHeights(words, header.firstHeight, columns, rows, name);
  const grid = gridOf(coordinates ?? { kind: 'geographic' }, {
    north: south + (rows - 1) * rowStep,
    west,
    rowStep,
    columnStep,
  });
  const voidValue = header.has('nodata_value') ? header.number('nodata_value') : usualVoidValue;
  return { name, columns, rows, heightsM, voidValue, voidCount: 0, grid };
}

interface Header {
  readonly places: ReadonlyMap<string, Word>;
  readonly firstHeight: Word | undefined;
  has(word: string): boolean;
  number(word: string): number;
  count(word: string): number;
}

function readHeader(words: Iterator<Word, undefined>, name: string): Header {
  const places = new Map<string, Word>();
  let word = words.next().value;
  while (word !== undefined && /^[a-z_]+$/i.test(word.text) && !isNaNWord(word.text)) {
    const key = word.text.toLowerCase();
    if (!headerWords.test(key))
      throw malformed(name, 'header', word.text, 'a word of the header, such as ncols', word);
    if (places.has(key)) throw malformed(name, key, word.text, 'each word of the header once', word);
    places.set(key, words.next().value ?? { ...word, text: '' });
    word = words.next().value;
  }
  const header: Header = {
    places,
    firstHeight: word,
    has: (key) => places.has(key),
    number(key) {
      const value = places.get(key);
      if (value === undefined) throw malformed(name, key, undefined, `a line with ${key}`, undefined);
      const number = parseNumber(value, key, name, key === 'nodata_value');
      const isStep = key === 'cellsize' || key === 'dx' || key === 'dy';
      if (isStep && !(number > 0)) throw malformed(name, key, value.text, 'more than 0', value);
      return number;
    },
    count(key) {
      const count = header.number(key);
      if (Number.isInteger(count) && count >= 2) return count;
      throw malformed(name, key, count, 'a whole number of 2 or more', places.get(key));
    },
  };
  return header;
}

function readHeights(
  words: Iterator<Word, undefined>,
  first: Word | undefined,
  columns: number,
  rows: number,
  name: string,
): Float64Array {
  const heightsM = new Float64Array(columns * rows);
  let word = first;
  let last = first;
  for (let index = 0; index < heightsM.length; index++) {
    if (word === undefined) {
      throw malformed(
        name,
        'heightsM',
        index,
        `${heightsM.length} heights (${rows} rows of ${columns})`,
        last,
      );
    }
    heightsM[index] = parseNumber(word, 'heightsM', name, true);
    last = word;
    word = words.next().value;
  }
  if (word === undefined) return heightsM;
  throw malformed(
    name,
    'heightsM',
    word.text,
    `nothing after ${heightsM.length} heights (${rows} rows of ${columns})`,
    word,
  );
}

function parseNumber(word: Word, argument: string, name: string, mayBeNaN: boolean): number {
  if (mayBeNaN && isNaNWord(word.text)) return Number.NaN;
  const value = decimalNumber.test(word.text) ? Number(word.text) : Number.NaN;
  if (Number.isFinite(value)) return value;
  throw malformed(name, argument, word.text, 'a number with a decimal point', word);
}

function isNaNWord(text: string): boolean {
  return /^[-+]?nan$/i.test(text);
}

function* wordsOf(text: string): Generator<Word, undefined> {
  let line = 1;
  let lineStart = 0;
  // One pass over the text: looking for the end of each line first would look through a run of blank lines anew for each of them.
  for (const { 0: found, index } of text.matchAll(/\S+|\n/g)) {
    if (found !== '\n') yield { text: found, line, column: index - lineStart + 1 };
    else {
      line++;
      lineStart = index + 1;
    }
  }
  return undefined;
}

function malformed(
  file: string,
  argument: string,
  received: InputErrorDetail['received'],
  expected: string,
  place: Word | undefined,
): InputError {
  return new InputError({
    code: 'malformed-file',
    argument,
    received,
    expected,
    file,
    line: place?.line,
    column: place?.column,
  });
}
