import { InputError } from '@finial/units';
import {
  type Complex,
  isFiniteComplex,
  magnitudeOf,
  minus,
  one,
  over,
  plus,
  polar,
  scaled,
  times,
} from './complex.js';
import type { TouchstoneReading } from './readTouchstone.js';
import type { NumberRow } from './touchstoneRows.js';

/** Scattering parameters at one frequency; the last three only of a two-port. */
export type Scattering =
  | readonly [s11: Complex]
  | readonly [s11: Complex, s12: Complex, s21: Complex, s22: Complex];

/** Beyond this a reading is no reflection of anything, and squares of it lose their digits. */
const greatestReflection = 1e6;

/** Turns a row of a file, in whichever parameter and format, into scattering parameters. */
export function scatteringOf(
  row: NumberRow,
  reading: TouchstoneReading,
  file: string | undefined,
): Scattering {
  const pairs = Array.from({ length: row.parts.length / 2 }, (_, index) =>
    complexOf(row.parts[2 * index] as number, row.parts[2 * index + 1] as number, reading.options.format),
  );
  const matrix = matrixOf(pairs, reading);
  const scattering = matrix.length === 1 ? onePort(matrix[0], reading) : twoPort(matrix, reading);
  if (scattering.every((part) => isFiniteComplex(part) && magnitudeOf(part) <= greatestReflection))
    return scattering;
  throw new InputError({
    code: 'malformed-file',
    argument: 'data',
    received: row.parts.join(' '),
    expected: `numbers of a wave that comes back at most ${greatestReflection} times as large`,
    file,
    line: row.line,
    column: 1,
  });
}

function complexOf(first: number, second: number, format: TouchstoneReading['options']['format']): Complex {
  if (format === 'RI') return { real: first, imaginary: second };
  const magnitude = format === 'MA' ? first : 10 ** (first / 20);
  return polar(magnitude, (second * Math.PI) / 180);
}

/** The whole matrix by rows, 11 12 21 22. */
function matrixOf(pairs: readonly Complex[], reading: TouchstoneReading): Scattering {
  const [a, b, c, d] = pairs as [Complex, Complex, Complex, Complex];
  if (reading.ports === 1) return [a];
  // A triangle stands for a symmetric matrix: N11 N21 N22 or N11 N12 N22.
  if (reading.matrixFormat !== 'full') return [a, b, b, c];
  return reading.twoPortOrder === '21_12' ? [a, c, b, d] : [a, b, c, d];
}

function onePort(value: Complex, reading: TouchstoneReading): Scattering {
  const { parameter } = reading.options;
  if (parameter === 'S') return [value];
  const normal = scaled(value, normalisation(reading));
  const [above, below] =
    parameter === 'Z' ? [minus(normal, one), plus(normal, one)] : [minus(one, normal), plus(one, normal)];
  return [over(above, below)];
}

function twoPort(matrix: Scattering, reading: TouchstoneReading): Scattering {
  const { parameter } = reading.options;
  if (parameter === 'S') return matrix;
  const ratio = normalisation(reading);
  const [a, b, c, d] = matrix.map((part) => scaled(part, ratio)) as [Complex, Complex, Complex, Complex];
  const product = times(b, c);
  const determinant = minus(times(plus(a, one), plus(d, one)), product);
  const by = (above: Complex) => over(above, determinant);
  if (parameter === 'Z') {
    return [
      by(minus(times(minus(a, one), plus(d, one)), product)),
      by(scaled(b, 2)),
      by(scaled(c, 2)),
      by(minus(times(plus(a, one), minus(d, one)), product)),
    ];
  }
  return [
    by(plus(times(minus(one, a), plus(one, d)), product)),
    by(scaled(b, -2)),
    by(scaled(c, -2)),
    by(plus(times(plus(one, a), minus(one, d)), product)),
  ];
}

/** Version 1 states Z and Y over the reference, version 2 in ohms and siemens. */
function normalisation({ version, referenceOhm, options }: TouchstoneReading): number {
  if (version === '1') return 1;
  return options.parameter === 'Z' ? 1 / referenceOhm : referenceOhm;
}
