import { checkObject, checkRange, InputError } from '@finial/units';
import { checkOnePortSweep, checkTwoPortSweep } from './checkSweep.js';
import { type Complex, magnitudeOf, minus, one, over, plus, times } from './complex.js';
import { interpolateSeries } from './interpolateSeries.js';
import type { OnePortSweep } from './OnePortSweep.js';
import { reflectionWarnings } from './reflectionWarnings.js';
import type { ComplexSeries, TwoPortSweep } from './TwoPortSweep.js';
import { withReflections } from './withReflections.js';

/**
 * Takes a measured cable or adapter out of a sweep: port 1 was at the analyser, port 2 at the antenna. Any impedance, any loss.
 *
 * Between the points of the two-port its parameters follow the cubic through the four nearest: they must turn by well under 60
 * degrees from point to point. The sweep must lie within the frequencies of the two-port, and both have one reference.
 *
 * @returns the sweep at port 2; on points of the two-port the error is a rounding
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source signal-flow algebra of a two-port closed with a load (textbook, from memory): Γin = S11 + S12 S21 Γ / (1 − S22 Γ)
 * @example
 * ```ts
 * import { deembedTwoPort, parseTouchstone, parseTouchstoneTwoPort } from '@finial/antenna';
 *
 * const cable = parseTouchstoneTwoPort('# MHz S MA R 50\n868 0 0 0.9 0 0.9 0 0 0\n');
 * deembedTwoPort(parseTouchstone('# MHz S RI R 50\n868 0.243 0\n'), cable).reflectionReal[0]; // ≈ 0.3
 * ```
 */
export function deembedTwoPort(sweep: OnePortSweep, twoPort: TwoPortSweep): OnePortSweep {
  const at = parametersAt(sweep, twoPort);
  const result = withReflections(sweep, (seen, hertz) => {
    const { s11, s12, s21, s22 } = at(hertz);
    const own = minus(seen, s11);
    return over(own, plus(times(s12, s21), times(s22, own)));
  });
  const { frequencyHz, reflectionReal, reflectionImaginary } = result;
  const magnitudeAt = (index: number) =>
    Math.hypot(reflectionReal[index] as number, reflectionImaginary[index] as number);
  const cause = 'the two-port is not the one that was in the way, or the reading is bad';
  return { ...result, warnings: [...sweep.warnings, ...reflectionWarnings(frequencyHz, magnitudeAt, cause)] };
}

/**
 * Puts a measured cable or adapter in front of a sweep: port 1 to the analyser, port 2 to the antenna. The inverse of
 * {@link deembedTwoPort}, under the same conditions.
 *
 * @returns the sweep at port 1; on points of the two-port the error is a rounding
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source signal-flow algebra of a two-port closed with a load (textbook, from memory): Γin = S11 + S12 S21 Γ / (1 − S22 Γ)
 * @example
 * ```ts
 * import { embedTwoPort, parseTouchstone, parseTouchstoneTwoPort } from '@finial/antenna';
 *
 * const cable = parseTouchstoneTwoPort('# MHz S MA R 50\n868 0 0 0.9 0 0.9 0 0 0\n');
 * embedTwoPort(parseTouchstone('# MHz S RI R 50\n868 0.3 0\n'), cable).reflectionReal[0]; // ≈ 0.243
 * ```
 */
export function embedTwoPort(sweep: OnePortSweep, twoPort: TwoPortSweep): OnePortSweep {
  const at = parametersAt(sweep, twoPort);
  return withReflections(sweep, (own, hertz) => {
    const { s11, s12, s21, s22 } = at(hertz);
    return plus(s11, over(times(times(s12, s21), own), minus(one, times(s22, own))));
  });
}

/** What to look up in a two-port. */
export interface InsertionLossQuestion {
  /** Frequency in hertz, inside the frequencies of the two-port. */
  readonly frequencyHz: number;
}

/**
 * Loss in decibels of a measured cable from port 1 to port 2. Positive means loss.
 *
 * It is the loss between two ends of the reference resistance; for a matched cable that is its attenuation. Between points the
 * decibels follow the cubic through the four nearest.
 *
 * @returns dB; on points the error is a rounding
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), insertion loss; −20 lg |S21|
 * @example
 * ```ts
 * import { insertionLossDb, parseTouchstoneTwoPort } from '@finial/antenna';
 *
 * const cable = parseTouchstoneTwoPort('# MHz S DB R 50\n868 -40 0 -1.3 20 -1.3 20 -40 0\n');
 * insertionLossDb(cable, { frequencyHz: 868e6 }); // ≈ 1.3
 * ```
 */
export function insertionLossDb(twoPort: TwoPortSweep, question: InsertionLossQuestion): number {
  checkTwoPortSweep(twoPort, 'twoPort');
  checkObject(question, 'question');
  const { frequencyHz, s21 } = twoPort;
  const [min = 0, max = 0] = [frequencyHz[0], frequencyHz.at(-1)];
  const at = checkRange(question.frequencyHz, 'frequencyHz', {
    min,
    max,
    unit: 'hertz, inside the two-port',
  });
  for (const [index, real] of s21.real.entries()) {
    if (magnitudeOf({ real, imaginary: s21.imaginary[index] as number }) >= 1e-15) continue;
    const expected = 'a transmission of more than -300 dB';
    throw new InputError({
      code: 'out-of-range',
      argument: `twoPort.s21.real[${index}]`,
      received: real,
      expected,
    });
  }
  const lossAt = (index: number) =>
    -20 * Math.log10(Math.hypot(s21.real[index] as number, s21.imaginary[index] as number));
  return interpolateSeries(frequencyHz, lossAt, at).value;
}

type Parameters = Readonly<Record<'s11' | 's12' | 's21' | 's22', Complex>>;

function parametersAt(sweep: OnePortSweep, twoPort: TwoPortSweep): (frequencyHz: number) => Parameters {
  checkOnePortSweep(sweep);
  checkTwoPortSweep(twoPort, 'twoPort');
  const { frequencyHz, referenceOhm, s11, s12, s21, s22 } = twoPort;
  if (referenceOhm !== sweep.referenceOhm) {
    const expected = `the reference of the sweep, ${sweep.referenceOhm} ohms`;
    throw new InputError({
      code: 'out-of-range',
      argument: 'twoPort.referenceOhm',
      received: referenceOhm,
      expected,
    });
  }
  const [min = 0, max = 0] = [frequencyHz[0], frequencyHz.at(-1)];
  const bounds = { min, max, unit: 'hertz, inside the two-port' };
  checkRange(sweep.frequencyHz[0], 'sweep.frequencyHz', bounds);
  checkRange(sweep.frequencyHz.at(-1), 'sweep.frequencyHz', bounds);
  const read = ({ real, imaginary }: ComplexSeries, hertz: number): Complex => ({
    real: interpolateSeries(frequencyHz, (index) => real[index] as number, hertz).value,
    imaginary: interpolateSeries(frequencyHz, (index) => imaginary[index] as number, hertz).value,
  });
  return (hertz) => ({
    s11: read(s11, hertz),
    s12: read(s12, hertz),
    s21: read(s21, hertz),
    s22: read(s22, hertz),
  });
}
