import { InputError } from '@finial/units';
import { referenceBounds } from './checkSweep.js';
import { expectedNumber, numberOf, type TextLine, type Word, wordsOf } from './touchstoneText.js';

/** What the option line of a Touchstone file says, defaults filled in. */
export interface TouchstoneOptions {
  /** Power of ten of the frequency unit. */
  readonly powerOfTen: number;
  readonly parameter: 'S' | 'Z' | 'Y';
  readonly format: 'MA' | 'DB' | 'RI';
  /** One resistance, or one for each port. */
  readonly referencesOhm: readonly number[];
}

const powers: Readonly<Record<string, number>> = { HZ: 0, KHZ: 3, MHZ: 6, GHZ: 9 };
const formats = ['MA', 'DB', 'RI'] as const;
const parameters = ['S', 'Z', 'Y'] as const;

/** Reads an option line: `#`, then unit, parameter, format and `R` with its number in any order, each of them optional. */
export function touchstoneOptions({ line, text }: TextLine, file: string | undefined): TouchstoneOptions {
  const start = text.indexOf('#') + 1;
  const words = wordsOf(text.slice(start), start + 1);
  const said = new Map<string, unknown>();
  const say = (what: string, value: unknown, word: Word) => {
    if (said.has(what)) throw fault(word, `one ${what} on the option line`, line, file);
    said.set(what, value);
  };
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] as Word;
    const name = word.text.toUpperCase();
    const format = formats.find((option) => option === name);
    const parameter = parameters.find((option) => option === name);
    if (Object.hasOwn(powers, name)) say('unit', powers[name], word);
    else if (format !== undefined) say('format', format, word);
    else if (parameter !== undefined) say('parameter', parameter, word);
    else if (name === 'R') {
      const numbers = resistancesBehind(words, at, line, file);
      say('R', numbers, word);
      at += numbers.length;
    } else throw fault(word, expectedWord(name), line, file);
  }
  return {
    powerOfTen: (said.get('unit') as number | undefined) ?? 9,
    parameter: (said.get('parameter') as TouchstoneOptions['parameter'] | undefined) ?? 'S',
    format: (said.get('format') as TouchstoneOptions['format'] | undefined) ?? 'MA',
    referencesOhm: (said.get('R') as readonly number[] | undefined) ?? [50],
  };
}

/** Version 2.1 lets `R` list one resistance for each port. */
function resistancesBehind(
  words: readonly Word[],
  at: number,
  line: number,
  file: string | undefined,
): readonly number[] {
  const numbers: number[] = [];
  for (const word of words.slice(at + 1)) {
    const value = numberOf(word.text);
    if (value === undefined) break;
    numbers.push(checkReference(value, word, line, file));
  }
  if (numbers.length > 0) return numbers;
  const next = words[at + 1];
  const word = next ?? (words[at] as Word);
  throw fault(word, next === undefined ? 'a resistance behind R' : expectedNumber(next.text), line, file);
}

/** Returns a reference resistance of a file if it can be one. */
export function checkReference(ohm: number, word: Word, line: number, file: string | undefined): number {
  const { min, max } = referenceBounds;
  if (ohm >= min && ohm <= max) return ohm;
  throw fault(word, `a reference resistance of ${min} to ${max} ohms`, line, file);
}

function expectedWord(name: string): string {
  if (name === 'G' || name === 'H') return 'S, Z or Y (hybrid parameters G and H are not read)';
  return 'Hz, kHz, MHz or GHz; S, Z or Y; MA, DB or RI; or R and a resistance with a blank between';
}

function fault(word: Word, expected: string, line: number, file: string | undefined): InputError {
  const { text: received, column } = word;
  return new InputError({
    code: 'malformed-file',
    argument: 'option line',
    received,
    expected,
    file,
    line,
    column,
  });
}
