import { checkObject, checkRange, InputError } from '@finial/units';
import { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './OnePortSweep.js';
import type { TwoPortSweep } from './TwoPortSweep.js';

/** References from a thousandth of an ohm to a megohm: outside, a number is more likely in the wrong field than meant. */
export const referenceBounds = { min: 1e-3, max: 1e6, unit: 'ohms' };

/** Far beyond any reading; within it no square overflows. */
const greatestReflection = 1e6;

/** Frequencies from 0 (a sweep may hold direct current) to beyond light. */
export const sweepFrequencyBounds = { min: 0, max: 1e16, unit: 'hertz' };

/** Returns the sweep if its series are whole. */
export function checkOnePortSweep(sweep: OnePortSweep, argument = 'sweep'): OnePortSweep {
  checkObject(sweep, argument);
  checkGrid(sweep, argument);
  checkParts(sweep.reflectionReal, 'reflectionReal', sweep.frequencyHz, argument);
  checkParts(sweep.reflectionImaginary, 'reflectionImaginary', sweep.frequencyHz, argument);
  return sweep;
}

/** Returns the sweep, of either kind, if its series are whole. */
export function checkAnySweep<Sweep extends OnePortSweep | MagnitudeSweep>(sweep: Sweep): Sweep {
  checkObject(sweep, 'sweep');
  if (knowsPhase(sweep)) return checkOnePortSweep(sweep) as Sweep;
  checkGrid(sweep, 'sweep');
  const { reflectionCoefficient } = sweep as MagnitudeSweep;
  checkParts(reflectionCoefficient, 'reflectionCoefficient', sweep.frequencyHz, 'sweep', 0);
  return sweep;
}

/** Returns the two-port if its series are whole. */
export function checkTwoPortSweep(sweep: TwoPortSweep, argument: string): TwoPortSweep {
  checkObject(sweep, argument);
  checkGrid(sweep, argument);
  for (const name of ['s11', 's21', 's12', 's22'] as const) {
    const path = `${argument}.${name}`;
    const parameter = checkObject(sweep[name], path);
    checkParts(parameter.real, 'real', sweep.frequencyHz, path);
    checkParts(parameter.imaginary, 'imaginary', sweep.frequencyHz, path);
  }
  return sweep;
}

function checkGrid(
  sweep: Pick<OnePortSweep, 'frequencyHz' | 'referenceOhm' | 'comments' | 'warnings'>,
  argument: string,
): void {
  const path = `${argument}.frequencyHz`;
  const { frequencyHz } = sweep;
  checkRange(sweep.referenceOhm, `${argument}.referenceOhm`, referenceBounds);
  checkTexts(sweep.comments, `${argument}.comments`);
  checkTexts(sweep.warnings, `${argument}.warnings`);
  if (!(frequencyHz instanceof Float64Array)) throw notASeries(frequencyHz, path);
  if (frequencyHz.length === 0) {
    throw new InputError({
      code: 'missing',
      argument: path,
      received: frequencyHz,
      expected: 'at least one point',
    });
  }
  let before = -1;
  for (const [index, hertz] of frequencyHz.entries()) {
    checkRange(hertz, `${path}[${index}]`, sweepFrequencyBounds);
    if (hertz <= before) {
      const expected = `more than the frequency before it (${before} hertz)`;
      throw new InputError({
        code: 'out-of-range',
        argument: `${path}[${index}]`,
        received: hertz,
        expected,
      });
    }
    before = hertz;
  }
}

function checkParts(
  series: Float64Array,
  name: string,
  frequencyHz: Float64Array,
  argument: string,
  min: number = -greatestReflection,
): void {
  const path = `${argument}.${name}`;
  if (!(series instanceof Float64Array)) throw notASeries(series, path);
  if (series.length !== frequencyHz.length) {
    const expected = `as many entries as frequencyHz (${frequencyHz.length})`;
    throw new InputError({ code: 'out-of-range', argument: path, received: series.length, expected });
  }
  const bounds = { min, max: greatestReflection, unit: 'as a ratio of waves' };
  for (const [index, part] of series.entries()) checkRange(part, `${path}[${index}]`, bounds);
}

function checkTexts(texts: readonly string[], argument: string): void {
  if (!Array.isArray(texts)) {
    throw new InputError({ code: 'wrong-type', argument, received: texts, expected: 'a list of texts' });
  }
  for (const [index, text] of texts.entries()) {
    if (typeof text === 'string') continue;
    throw new InputError({
      code: 'wrong-type',
      argument: `${argument}[${index}]`,
      received: text,
      expected: 'a text',
    });
  }
}

function notASeries(received: unknown, argument: string): InputError {
  return new InputError({ code: 'wrong-type', argument, received, expected: 'a Float64Array' });
}
