import { vswrToReflectionCoefficient } from '@finial/radio';
import { checkObject, checkOneOf, checkRange, dbToAmplitudeRatio, InputError } from '@finial/units';
import { referenceBounds, sweepFrequencyBounds } from './checkSweep.js';
import { minus, over, plus } from './complex.js';
import { type CsvCell, cutCsv } from './cutCsv.js';
import type { MagnitudeSweep, OnePortSweep } from './OnePortSweep.js';
import { reflectionWarnings } from './reflectionWarnings.js';
import { checkText, checkTextSource, expectedNumber, numberOf } from './touchstoneText.js';

/** Names of the columns that hold the sweep: the frequency, and one way to say what comes back. */
export interface SweepCsvColumns {
  /** Column of the frequency. */
  readonly frequency?: string | undefined;
  /** Column of the VSWR, 1 or more. */
  readonly vswr?: string | undefined;
  /** Column of the return loss in dB, 0 or more. */
  readonly returnLoss?: string | undefined;
  /** Column of the resistance in ohms; goes with `reactance`. */
  readonly resistance?: string | undefined;
  /** Column of the reactance in ohms, negative when capacitive; goes with `resistance`. */
  readonly reactance?: string | undefined;
}

/** How a sweep is read from CSV text. */
export interface SweepCsvSource {
  /** Name of the file, for messages. */
  readonly file?: string | undefined;
  /**
   * Names of the columns, as in the header.
   *
   * @defaultValue found by usual headers: frequency or freq; vswr or swr; return loss or rl; r, rs or resistance with x, xs or
   * reactance. Resistance and reactance go before return loss, return loss before VSWR
   */
  readonly columns?: SweepCsvColumns | undefined;
  /** Unit of the frequency. @defaultValue the one in the header: `freq (MHz)`, `frequency_mhz`, `frequencyHz` */
  readonly frequencyUnit?: 'Hz' | 'kHz' | 'MHz' | 'GHz' | undefined;
  /** What stands between two cells. @defaultValue whichever cuts the header into most cells */
  readonly separator?: ',' | ';' | '\t' | undefined;
  /** Resistance in ohms that VSWR and return loss were measured against, 1e-3 to 1e6. @defaultValue 50 */
  readonly referenceOhm?: number | undefined;
  /** Longest text accepted, in characters, up to 100 million. @defaultValue 10 million */
  readonly maximumCharacters?: number | undefined;
}

const powers = { Hz: 0, kHz: 3, MHz: 6, GHz: 9 } as const;
const usualHeaders: Readonly<Record<keyof SweepCsvColumns, RegExp>> = {
  frequency: /^(frequency|freq|f)$/,
  vswr: /^(vswr|swr)$/,
  returnLoss: /^(return ?loss|rl)$/,
  resistance: /^(resistance|r|rs)$/,
  reactance: /^(reactance|x|xs)$/,
};
const noFrequencyUnit = 'a frequency unit, in the header as "frequency (MHz)" or as option frequencyUnit';

/**
 * Reads a sweep from the CSV text that a hand-held analyser or a spreadsheet writes: frequency, and VSWR, return loss, or resistance
 * and reactance.
 *
 * The first line that is neither blank nor a comment (`#`, `!`) is the header. Cells may stand in double quotes; there is no quote
 * inside a quote, since all cells are numbers. A return loss is positive: a column of S11 in decibels is negative and is refused. So
 * are a decimal comma, a ragged row, a frequency that does not rise and a frequency without a unit. With VSWR or return loss the
 * phase is not known: the result then has `reflectionCoefficient` and no real and imaginary part ({@link knowsPhase} tells which).
 *
 * @returns the sweep, error below 1e-13 of the reflection
 * @throws {@link InputError} `wrong-type`, `out-of-range`, `unknown-option`, `missing` or `malformed-file` with line and column
 * @source common practice, no source
 * @example VSWR only
 * ```ts
 * import { knowsPhase, parseSweepCsv } from '@finial/antenna';
 *
 * const sweep = parseSweepCsv('frequency (MHz),VSWR\n867,1.5\n869,2\n');
 * knowsPhase(sweep); // → false
 * if (!knowsPhase(sweep)) sweep.reflectionCoefficient[0]; // ≈ 0.2
 * ```
 */
export function parseSweepCsv(text: string, source: SweepCsvSource = {}): OnePortSweep | MagnitudeSweep {
  checkObject(source, 'source');
  const { file, maximumCharacters } = checkTextSource(source);
  const { referenceOhm = 50 } = source;
  checkRange(referenceOhm, 'referenceOhm', referenceBounds);
  const separator =
    source.separator === undefined ? undefined : checkOneOf(source.separator, 'separator', [',', ';', '\t']);
  const table = cutCsv(checkText(text, maximumCharacters, file), { file, separator });
  const places = placesOf(table.header, source, file);
  const powerOfTen = powerOfTenOf(table.header[places.frequency] as CsvCell, source, file);
  const read = (row: readonly CsvCell[], place: number, power = 0) =>
    cellNumber(row[place] as CsvCell, power, file);
  const frequencyHz = Float64Array.from(table.rows, (row) => read(row, places.frequency, powerOfTen));
  refuseFalling(frequencyHz, table.rows, places.frequency, file);
  const shared = { frequencyHz, referenceOhm, comments: table.comments };
  if (places.kind === 'impedance') {
    const reflections = table.rows.map((row) => {
      const load = { real: read(row, places.resistance), imaginary: read(row, places.reactance) };
      const reference = { real: referenceOhm, imaginary: 0 };
      return refuseWild(
        over(minus(load, reference), plus(load, reference)),
        row[places.resistance] as CsvCell,
        file,
      );
    });
    const reflectionReal = Float64Array.from(reflections, ({ real }) => real);
    const reflectionImaginary = Float64Array.from(reflections, ({ imaginary }) => imaginary);
    const magnitudeAt = (index: number) =>
      Math.hypot(reflectionReal[index] as number, reflectionImaginary[index] as number);
    return {
      ...shared,
      reflectionReal,
      reflectionImaginary,
      warnings: reflectionWarnings(frequencyHz, magnitudeAt),
    };
  }
  const { kind, magnitude } = places;
  const reflectionCoefficient = Float64Array.from(table.rows, (row) =>
    coefficientOf(kind, read(row, magnitude), row[magnitude] as CsvCell, file),
  );
  return { ...shared, reflectionCoefficient, warnings: [] };
}

type Places =
  | {
      readonly kind: 'impedance';
      readonly frequency: number;
      readonly resistance: number;
      readonly reactance: number;
    }
  | { readonly kind: 'returnLoss' | 'vswr'; readonly frequency: number; readonly magnitude: number };

function placesOf(header: readonly CsvCell[], source: SweepCsvSource, file: string | undefined): Places {
  const columns = source.columns === undefined ? undefined : checkObject(source.columns, 'columns');
  const place = (field: keyof SweepCsvColumns): number => {
    const name = columns?.[field];
    if (columns === undefined || (field === 'frequency' && name === undefined)) {
      return header.findIndex(
        ({ text }) => text.length <= longestUsualHeader && usualHeaders[field].test(withoutUnit(text)),
      );
    }
    if (name === undefined) return -1;
    const found = header.findIndex(({ text }) => text === name);
    if (found !== -1) return found;
    const expected = `one of the header's columns: ${header.map(({ text }) => text).join(', ')}`;
    throw new InputError({
      code: 'unknown-option',
      argument: `columns.${field}`,
      received: name,
      expected,
      file,
    });
  };
  const frequency = place('frequency');
  if (frequency === -1) throw missingColumn('a column of the frequency', header, file);
  const [resistance, reactance] = [place('resistance'), place('reactance')];
  if (resistance !== -1 && reactance !== -1) return { kind: 'impedance', frequency, resistance, reactance };
  for (const kind of ['returnLoss', 'vswr'] as const) {
    const magnitude = place(kind);
    if (magnitude !== -1) return { kind, frequency, magnitude };
  }
  throw missingColumn(
    'a column of the VSWR, of the return loss, or one each of resistance and reactance',
    header,
    file,
  );
}

function missingColumn(expected: string, header: readonly CsvCell[], file: string | undefined): InputError {
  const received = header.map(({ text }) => text).join(', ');
  return new InputError({
    code: 'malformed-file',
    argument: 'header',
    received,
    expected,
    file,
    line: header[0]?.line,
  });
}

// A longer cell is no header of these; its blanks would keep the patterns busy.
const longestUsualHeader = 100;
const unitInHeader = /[\s_([/]*(hz|khz|mhz|ghz|db|ohms?|Ω)[\s)\]]*$/i;

/** `Frequency (MHz)`, `freq_mhz` and `frequencyHz` all begin with the same word; a bare `r` or `x` is left alone. */
function withoutUnit(header: string): string {
  return header
    .replace(unitInHeader, '')
    .replace(/[_\s]+/g, ' ')
    .trim()
    .toLowerCase();
}

function powerOfTenOf(header: CsvCell, source: SweepCsvSource, file: string | undefined): number {
  const units = ['Hz', 'kHz', 'MHz', 'GHz'] as const;
  const { frequencyUnit } = source;
  if (frequencyUnit !== undefined) return powers[checkOneOf(frequencyUnit, 'frequencyUnit', units)];
  const stated = unitInHeader.exec(header.text.slice(-longestUsualHeader))?.[1]?.toLowerCase();
  const unit = units.find((option) => option.toLowerCase() === stated);
  if (unit !== undefined) return powers[unit];
  const place = { file, line: header.line, column: header.column };
  const received = header.text;
  throw new InputError({
    code: 'malformed-file',
    argument: 'header',
    received,
    expected: noFrequencyUnit,
    ...place,
  });
}

function cellNumber(cell: CsvCell, powerOfTen: number, file: string | undefined): number {
  const value = numberOf(cell.text, powerOfTen);
  if (value !== undefined) return value;
  throw fault(cell, expectedNumber(cell.text), file);
}

function coefficientOf(
  kind: 'vswr' | 'returnLoss',
  figure: number,
  cell: CsvCell,
  file: string | undefined,
): number {
  if (kind === 'vswr') {
    if (figure >= 1 && figure <= 1e6) return vswrToReflectionCoefficient(figure);
    throw fault(cell, 'a VSWR of 1 to 1e6', file);
  }
  if (figure >= 0 && figure <= 300) return 1 / dbToAmplitudeRatio(figure);
  throw fault(cell, 'a return loss of 0 to 300 dB (positive; S11 in dB is its negative)', file);
}

function refuseWild<Part extends { readonly real: number; readonly imaginary: number }>(
  reflection: Part,
  cell: CsvCell,
  file: string | undefined,
): Part {
  if (Math.hypot(reflection.real, reflection.imaginary) <= 1e6) return reflection;
  throw fault(cell, 'an impedance that a passive antenna can have (its resistance is not negative)', file);
}

function refuseFalling(
  frequencyHz: Float64Array,
  rows: readonly (readonly CsvCell[])[],
  place: number,
  file: string | undefined,
): void {
  const { min, max, unit } = sweepFrequencyBounds;
  for (const [index, hertz] of frequencyHz.entries()) {
    const cell = rows[index]?.[place] as CsvCell;
    if (hertz < min || hertz > max) throw fault(cell, `${min} to ${max} ${unit}`, file);
    const before = frequencyHz[index - 1] ?? -1;
    if (hertz <= before) throw fault(cell, `more than the frequency before it (${before} Hz)`, file);
  }
}

function fault(cell: CsvCell, expected: string, file: string | undefined): InputError {
  const { text: received, line, column } = cell;
  return new InputError({ code: 'malformed-file', argument: 'cell', received, expected, file, line, column });
}
