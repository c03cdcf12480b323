import { checkObject, checkOneOf, InputError } from '@finial/units';
import type { Complex } from './complex.js';
import type { OnePortSweep } from './OnePortSweep.js';
import { readTouchstone, type TouchstoneReading } from './readTouchstone.js';
import { reflectionWarnings } from './reflectionWarnings.js';
import { type Scattering, scatteringOf } from './scatteringOf.js';
import type { ComplexSeries, TwoPortSweep } from './TwoPortSweep.js';
import { checkText, checkTextSource } from './touchstoneText.js';

/** How a Touchstone text is read. */
export interface TouchstoneSource {
  /** Name of the file, for messages; its ending (`.s1p`, `.s2p`) also tells the count of ports. */
  readonly file?: string | undefined;
  /**
   * Count of ports.
   *
   * @defaultValue what [Number of Ports] says, else the ending of the file's name, else 1
   */
  readonly ports?: 1 | 2 | undefined;
  /**
   * Longest text accepted, in characters, up to 100 million: what a file from a stranger may cost.
   *
   * @defaultValue 10 million, some 250 000 points
   */
  readonly maximumCharacters?: number | undefined;
}

/**
 * Reads the reflection at port 1 from the text of a Touchstone file (`.s1p`, or S11 of an `.s2p`).
 *
 * Versions 1.0, 1.1, 2.0 and 2.1; formats MA, DB and RI; parameters S, Z and Y, of which Z and Y are taken over the reference in
 * version 1 and in ohms or siemens in version 2. A missing item of the option line takes its default (GHz, S, MA, R 50); a missing
 * option line, a frequency that falls, a word that is no number and a row cut short are refused with line and column. What is
 * passed over (further option lines, a repeated frequency, noise parameters) is named in `warnings`, and so is a reflection above 1,
 * which no antenna makes: the analyser was not calibrated. A last number that lost its tail is still a number: version 1 has no mark
 * of the end that would show it. Hybrid, mixed-mode and three-port files are refused. S11 of a two-port is the antenna's reflection
 * only while port 2 sees its reference.
 *
 * @returns the sweep, each number the double nearest to the printed one, in whichever unit (formats MA and DB: error below 1e-13)
 * @throws {@link InputError} `wrong-type`, `out-of-range` (text too long), `unknown-option` or `malformed-file`
 * @source Touchstone File Format Specification, version 1.1 (2002), 2.0 (2009) and 2.1 (2024), IBIS Open Forum
 * @example Two points, frequencies in megahertz
 * ```ts
 * import { parseTouchstone } from '@finial/antenna';
 *
 * const sweep = parseTouchstone('! whip, as cut\n# MHz S RI R 50\n868 0.1 -0.2\n869 0.2 -0.1\n', { file: 'whip.s1p' });
 * [...sweep.frequencyHz]; // → [868e6, 869e6]
 * [...sweep.reflectionReal]; // → [0.1, 0.2]
 * sweep.comments; // → ['whip, as cut']
 * ```
 */
export function parseTouchstone(text: string, source: TouchstoneSource = {}): OnePortSweep {
  const { reading, scattering } = read(text, source);
  const { real, imaginary } = seriesOf(scattering.map(([s11]) => s11));
  const warnings = [...reading.warnings];
  if (reading.ports === 2) {
    warnings.push('S11 of a two-port file: right only while port 2 was closed with the reference resistance');
  }
  const sweep = {
    frequencyHz: frequenciesOf(reading),
    reflectionReal: real,
    reflectionImaginary: imaginary,
    referenceOhm: reading.referenceOhm,
    comments: reading.comments,
  };
  const magnitudeAt = (index: number) => Math.hypot(real[index] as number, imaginary[index] as number);
  return { ...sweep, warnings: [...warnings, ...reflectionWarnings(sweep.frequencyHz, magnitudeAt)] };
}

/**
 * Reads all four scattering parameters from the text of a two-port Touchstone file (`.s2p`): a cable measured from both ends, for its
 * loss ({@link insertionLossDb}) or to take it out of a sweep ({@link deembedTwoPort}).
 *
 * As {@link parseTouchstone}, but with both ports. The second pair of a row is S21 in version 1; in version 2 [Two-Port Data Order]
 * says it. Ports of different reference are refused.
 *
 * @returns the two-port, each number the double nearest to the printed one (formats MA and DB: error below 1e-13)
 * @throws {@link InputError} `wrong-type`, `out-of-range`, `unknown-option` or `malformed-file`
 * @source Touchstone File Format Specification, version 1.1 (2002), 2.0 (2009) and 2.1 (2024), IBIS Open Forum
 * @example A cable that loses half of the voltage
 * ```ts
 * import { parseTouchstoneTwoPort } from '@finial/antenna';
 *
 * const cable = parseTouchstoneTwoPort('# MHz S MA R 50\n868 0 0 0.5 0 0.4 0 0.1 0\n');
 * cable.s21.real[0]; // → 0.5
 * cable.s12.real[0]; // → 0.4
 * ```
 */
export function parseTouchstoneTwoPort(text: string, source: TouchstoneSource = {}): TwoPortSweep {
  checkObject(source, 'source');
  const { ports = 2 } = source;
  const { reading, scattering } = read(text, { ...source, ports });
  if (reading.ports !== 2) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'ports',
      received: reading.ports,
      expected: '2',
    });
  }
  const [s11, s12, s21, s22] = [0, 1, 2, 3].map((place) =>
    seriesOf(scattering.map((parts) => parts[place] as Complex)),
  ) as [ComplexSeries, ComplexSeries, ComplexSeries, ComplexSeries];
  const { referenceOhm, comments, warnings } = reading;
  return { frequencyHz: frequenciesOf(reading), s11, s21, s12, s22, referenceOhm, comments, warnings };
}

function read(
  text: string,
  source: TouchstoneSource,
): { readonly reading: TouchstoneReading; readonly scattering: readonly Scattering[] } {
  checkObject(source, 'source');
  const { file, maximumCharacters } = checkTextSource(source);
  const ports = source.ports === undefined ? undefined : checkOneOf(source.ports, 'ports', [1, 2]);
  const reading = readTouchstone(checkText(text, maximumCharacters, file), { file, ports });
  return { reading, scattering: reading.rows.map((row) => scatteringOf(row, reading, file)) };
}

function frequenciesOf(reading: TouchstoneReading): Float64Array {
  return Float64Array.from(reading.rows, ({ frequencyHz }) => frequencyHz);
}

function seriesOf(parts: readonly Complex[]): ComplexSeries {
  return {
    real: Float64Array.from(parts, ({ real }) => real),
    imaginary: Float64Array.from(parts, ({ imaginary }) => imaginary),
  };
}
