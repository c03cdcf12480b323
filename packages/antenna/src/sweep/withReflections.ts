import { InputError } from '@finial/units';
import { type Complex, isFiniteComplex, magnitudeOf } from './complex.js';
import type { OnePortSweep } from './OnePortSweep.js';

/** The sweep with each reflection changed; refuses a change that leaves no reflection behind. */
export function withReflections(
  sweep: OnePortSweep,
  change: (reflection: Complex, frequencyHz: number) => Complex,
): OnePortSweep {
  const reflectionReal = new Float64Array(sweep.frequencyHz.length);
  const reflectionImaginary = new Float64Array(sweep.frequencyHz.length);
  for (const [index, frequencyHz] of sweep.frequencyHz.entries()) {
    const before = {
      real: sweep.reflectionReal[index] as number,
      imaginary: sweep.reflectionImaginary[index] as number,
    };
    const after = change(before, frequencyHz);
    if (!isFiniteComplex(after) || magnitudeOf(after) > 1e6) {
      const argument = `sweep.reflectionReal[${index}]`;
      const expected = 'a reflection that can be seen through this cable';
      throw new InputError({ code: 'out-of-range', argument, received: before.real, expected });
    }
    reflectionReal[index] = after.real;
    reflectionImaginary[index] = after.imaginary;
  }
  return { ...sweep, reflectionReal, reflectionImaginary };
}
