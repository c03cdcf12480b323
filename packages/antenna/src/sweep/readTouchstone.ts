import { InputError } from '@finial/units';
import { checkReference, type TouchstoneOptions, touchstoneOptions } from './touchstoneOptions.js';
import { type NumberRow, touchstoneRows } from './touchstoneRows.js';
import { columnBehind, expectedNumber, linesOf, numberOf, type TextLine, wordsOf } from './touchstoneText.js';

/** A Touchstone file, read but not yet turned into reflections. */
export interface TouchstoneReading {
  readonly options: TouchstoneOptions;
  readonly version: '1' | '2.0' | '2.1';
  readonly ports: 1 | 2;
  /** Whether the second pair of a two-port row is N21 (as in version 1) or N12. */
  readonly twoPortOrder: '21_12' | '12_21';
  readonly matrixFormat: 'full' | 'lower' | 'upper';
  /** Resistance in ohms that all ports are stated against. */
  readonly referenceOhm: number;
  /** Frequency in hertz, then the numbers of the pairs as they stand in the file. */
  readonly rows: readonly NumberRow[];
  readonly comments: readonly string[];
  readonly warnings: string[];
}

/** What the lines gathered so far say. */
interface Draft {
  readonly file: string | undefined;
  readonly comments: string[];
  readonly warnings: string[];
  readonly dataLines: TextLine[];
  readonly keywords: Map<string, { readonly value: string; readonly line: TextLine }>;
  options: TouchstoneOptions | undefined;
  version: '1' | '2.0' | '2.1';
  /** Where the reader is: before the data, among the numbers of [Reference], and so on. */
  part: 'head' | 'reference' | 'information' | 'data' | 'noise' | 'behind the end';
  readonly references: number[];
  linesPassed: number;
}

/** Reads a Touchstone text of version 1.0, 1.1, 2.0 or 2.1 with one or two ports. */
export function readTouchstone(
  text: string,
  { file, ports }: { readonly file: string | undefined; readonly ports: 1 | 2 | undefined },
): TouchstoneReading {
  const draft: Draft = {
    file,
    comments: [],
    warnings: [],
    dataLines: [],
    keywords: new Map(),
    options: undefined,
    version: '1',
    part: 'head',
    references: [],
    linesPassed: 0,
  };
  const lines = linesOf(text);
  for (const [index, whole] of lines.entries()) takeLine(draft, whole, index + 1);
  return finish(draft, ports, lines.length);
}

function takeLine(draft: Draft, whole: string, number: number): void {
  const mark = whole.indexOf('!');
  const text = mark === -1 ? whole : whole.slice(0, mark);
  if (mark !== -1) draft.comments.push(whole.slice(mark + 1).trim());
  const words = wordsOf(text);
  const first = words[0]?.text[0];
  if (first === undefined) return;
  const line: TextLine = { line: number, text, words };
  const keyword = /^\s*\[([^\]]*)\]?(.*)$/.exec(text);
  if (draft.part === 'information') {
    if (keyword !== null && plain(keyword[1] ?? '') === 'end information') draft.part = 'head';
    else draft.comments.push(text.trim());
  } else if (draft.part === 'behind the end') {
    passOver(draft, line, 'behind [End]');
  } else if (first === '#') takeOptionLine(draft, line);
  else if (keyword !== null) takeKeyword(draft, plain(keyword[1] ?? ''), (keyword[2] ?? '').trim(), line);
  else takeNumbers(draft, line);
}

function takeOptionLine(draft: Draft, line: TextLine): void {
  if (draft.options === undefined) {
    if (draft.dataLines.length > 0 || draft.part !== 'head') {
      throw fault(draft, line, 'option line', 'the option line before everything but [Version]');
    }
    draft.options = touchstoneOptions(line, draft.file);
  } else {
    draft.warnings.push(
      `line ${line.line}: a further option line was passed over; only the first one counts`,
    );
  }
}

const keywordsWithValue = [
  'number of ports',
  'number of frequencies',
  'number of noise frequencies',
  'two-port data order',
  'matrix format',
];

function takeKeyword(draft: Draft, name: string, value: string, line: TextLine): void {
  if (name === 'version') {
    if (draft.options !== undefined || draft.dataLines.length > 0 || draft.keywords.size > 0) {
      throw fault(draft, line, '[Version]', '[Version] once, before everything else');
    }
    if (value !== '2.0' && value !== '2.1') throw fault(draft, line, '[Version]', '2.0 or 2.1', value);
    draft.version = value;
    draft.keywords.set(name, { value, line });
    return;
  }
  if (draft.version === '1') {
    throw fault(
      draft,
      line,
      `[${name}]`,
      'no keyword before [Version] 2.0 or 2.1, which opens a file that has keywords',
    );
  }
  if (draft.options === undefined)
    throw fault(draft, line, `[${name}]`, 'the option line (#) behind [Version]');
  if (draft.keywords.has(name)) throw fault(draft, line, `[${name}]`, 'each keyword once');
  draft.keywords.set(name, { value, line });
  const inHead = draft.part === 'head' || draft.part === 'reference';
  if (name === 'end') draft.part = 'behind the end';
  else if (name === 'noise data' && draft.part === 'data') draft.part = 'noise';
  else if (!inHead) throw fault(draft, line, `[${name}]`, 'only [Noise Data] or [End] behind [Network Data]');
  else if (name === 'network data') draft.part = 'data';
  else if (name === 'begin information') draft.part = 'information';
  else if (name === 'reference') {
    draft.part = 'reference';
    const start = line.text.indexOf(']') + 1;
    takeReferences(draft, { ...line, words: wordsOf(line.text.slice(start), start + 1) });
  } else if (keywordsWithValue.includes(name)) draft.part = 'head';
  else throw fault(draft, line, `[${name}]`, unknownKeyword(name));
}

function unknownKeyword(name: string): string {
  if (name === 'mixed-mode order') return 'single-ended ports (mixed-mode data are not read)';
  return 'a keyword of Touchstone 2.0 or 2.1 (an unknown one might change what the numbers mean)';
}

function takeNumbers(draft: Draft, line: TextLine): void {
  if (draft.part === 'reference') takeReferences(draft, line);
  else if (draft.part === 'noise') passOver(draft, line, 'noise parameters');
  else if (draft.options === undefined) {
    throw fault(
      draft,
      line,
      'option line',
      'an option line such as "# MHz S RI R 50" before the first number',
    );
  } else if (draft.part === 'data' || draft.version === '1') draft.dataLines.push(line);
  else throw fault(draft, line, '[Network Data]', '[Network Data] before the first number');
}

/** The resistances of [Reference] may go on over the next lines. */
function takeReferences(draft: Draft, line: TextLine): void {
  for (const word of line.words) {
    const value = numberOf(word.text);
    if (value === undefined) {
      const place = { file: draft.file, line: line.line, column: word.column };
      const expected = expectedNumber(word.text);
      throw new InputError({
        code: 'malformed-file',
        argument: '[Reference]',
        received: word.text,
        expected,
        ...place,
      });
    }
    draft.references.push(checkReference(value, word, line.line, draft.file));
  }
}

function passOver(draft: Draft, line: TextLine, what: string): void {
  draft.linesPassed += 1;
  if (draft.linesPassed === 1) draft.warnings.push(`line ${line.line}: ${what}, passed over from here on`);
}

function finish(draft: Draft, wanted: 1 | 2 | undefined, lineCount: number): TouchstoneReading {
  const { file, version, keywords, comments, warnings } = draft;
  if (draft.options === undefined)
    throw atEnd(draft, lineCount, 'option line', 'an option line such as "# MHz S RI R 50"');
  const ports = version === '1' ? (wanted ?? portsOfName(file) ?? 1) : statedPorts(draft, wanted, lineCount);
  const matrixFormat = oneOfKeyword(draft, 'matrix format', ['full', 'lower', 'upper']) ?? 'full';
  const order = oneOfKeyword(draft, 'two-port data order', ['21_12', '12_21']);
  if (version !== '1') {
    for (const name of ['number of frequencies', 'network data']) {
      if (!keywords.has(name))
        throw atEnd(draft, lineCount, `[${name}]`, `[${name}], which version 2 requires`);
    }
    if (ports === 2 && order === undefined) {
      throw atEnd(
        draft,
        lineCount,
        '[two-port data order]',
        '[Two-Port Data Order], which two ports require',
      );
    }
    checkEnd(draft, lineCount);
  }
  const rows = touchstoneRows(draft.dataLines, {
    file,
    powerOfTen: draft.options.powerOfTen,
    pairs: ports === 1 ? 1 : matrixFormat === 'full' ? 4 : 3,
    noiseMayFollow: ports === 2 && version === '1',
    lastLine: lineCount,
    warnings,
  });
  const stated = keywords.get('number of frequencies');
  if (stated !== undefined && wholeNumber(draft, 'number of frequencies') !== rows.statedRows) {
    const expected = `as many rows as [Number of Frequencies] says (the file holds ${rows.statedRows})`;
    throw fault(draft, stated.line, '[number of frequencies]', expected, stated.value);
  }
  return {
    options: draft.options,
    version,
    ports,
    twoPortOrder: order ?? '21_12',
    matrixFormat,
    referenceOhm: commonReference(draft, ports, draft.options),
    rows: rows.rows,
    comments,
    warnings,
  };
}

/** The count of ports by the ending of a file's name: `.s1p`, `.s2p`. */
function portsOfName(file: string | undefined): 1 | 2 | undefined {
  const digits = /\.s(\d+)p$/i.exec(file ?? '')?.[1];
  if (digits === undefined) return undefined;
  return onlyOneOrTwo(Number(digits), { argument: 'file', received: file, file });
}

function statedPorts(draft: Draft, wanted: 1 | 2 | undefined, lineCount: number): 1 | 2 {
  const stated = draft.keywords.get('number of ports');
  if (stated === undefined)
    throw atEnd(draft, lineCount, '[number of ports]', '[Number of Ports], which version 2 requires');
  const place = { file: draft.file, line: stated.line.line, received: stated.value };
  const ports = onlyOneOrTwo(wholeNumber(draft, 'number of ports'), {
    argument: '[number of ports]',
    ...place,
  });
  if (wanted === undefined || wanted === ports) return ports;
  throw fault(draft, stated.line, '[number of ports]', `${wanted}, as the caller says`, stated.value);
}

function onlyOneOrTwo(
  count: number,
  place: { readonly argument: string; readonly received: unknown; readonly file: string | undefined },
): 1 | 2 {
  if (count === 1 || count === 2) return count;
  throw new InputError({ code: 'malformed-file', expected: 'one or two ports', ...place });
}

function wholeNumber(draft: Draft, name: string): number {
  const entry = draft.keywords.get(name);
  if (entry === undefined) return 0;
  if (/^\d{1,9}$/.test(entry.value)) return Number(entry.value);
  throw fault(draft, entry.line, `[${name}]`, 'a whole number', entry.value);
}

function oneOfKeyword<Option extends string>(
  draft: Draft,
  name: string,
  options: readonly Option[],
): Option | undefined {
  const entry = draft.keywords.get(name);
  if (entry === undefined) return undefined;
  const found = options.find((option) => option === entry.value.toLowerCase());
  if (found !== undefined) return found;
  throw fault(draft, entry.line, `[${name}]`, options.join(' or '), entry.value);
}

/** [End] is required since TSIRD 4.1 (2022); the text of 2.0 was silent about it. */
function checkEnd(draft: Draft, lineCount: number): void {
  if (draft.keywords.has('end')) return;
  if (draft.version === '2.1')
    throw atEnd(draft, lineCount, '[end]', '[End] as the last line (was the file cut off?)');
  draft.warnings.push('the file has no [End]: it may have been cut off');
}

function commonReference(draft: Draft, ports: 1 | 2, options: TouchstoneOptions): number {
  const entry = draft.keywords.get('reference');
  const list = entry === undefined ? options.referencesOhm : draft.references;
  const argument = entry === undefined ? 'option line' : '[Reference]';
  const place = { file: draft.file, line: entry?.line.line, received: list.join(' ') };
  const [first] = list;
  const right = list.length === ports || (entry === undefined && list.length === 1);
  if (first === undefined || !right) {
    const expected =
      ports === 1 ? 'one reference resistance' : 'a reference resistance for each of the two ports';
    throw new InputError({ code: 'malformed-file', argument, expected, ...place });
  }
  if (list.every((ohm) => ohm === first)) return first;
  const expected = 'the same reference resistance at both ports';
  throw new InputError({ code: 'malformed-file', argument, expected, ...place });
}

function plain(keyword: string): string {
  return keyword.trim().replace(/\s+/g, ' ').toLowerCase();
}

function fault(
  draft: Draft,
  line: TextLine,
  argument: string,
  expected: string,
  received?: string,
): InputError {
  const column = line.words[0]?.column;
  const place = { file: draft.file, line: line.line, column };
  return new InputError({
    code: 'malformed-file',
    argument,
    received: received ?? line.text.trim(),
    expected,
    ...place,
  });
}

function atEnd(draft: Draft, lineCount: number, argument: string, expected: string): InputError {
  const last = draft.dataLines.at(-1);
  const column = last?.line === lineCount ? columnBehind(last.words) : 1;
  const place = { file: draft.file, line: lineCount, column };
  return new InputError({
    code: 'malformed-file',
    argument,
    received: 'the end of the file',
    expected,
    ...place,
  });
}
