import { bisect } from './bisect.js';
import type { OnePortSweep } from './OnePortSweep.js';
import { reflectionImaginaryAt, sweepPointAt } from './SweepPoint.js';

/** A frequency at which the reactance passes through zero. */
export interface ReactanceZero {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** From capacitive to inductive (`rising`: the resonance of a whip or dipole) or back (`falling`: an antiresonance, or a lead). */
  readonly direction: 'rising' | 'falling';
  /** Resistance in ohms there. Left out at an open end. */
  readonly resistanceOhm?: number | undefined;
}

/** Every zero of the reactance. The imaginary part of the reflection has the sign of the reactance and, unlike it, no poles. */
export function reactanceZeros(sweep: OnePortSweep): readonly ReactanceZero[] {
  const { frequencyHz, reflectionImaginary } = sweep;
  const zeros: ReactanceZero[] = [];
  let before: number | undefined;
  for (const [index, part] of reflectionImaginary.entries()) {
    if (part === 0) continue;
    if (before !== undefined && Math.sign(part) !== Math.sign(reflectionImaginary[before] as number)) {
      const [low, high] = [frequencyHz[before] as number, frequencyHz[index] as number];
      const at = index - before > 1 ? middlePoint(frequencyHz, before, index) : crossing(sweep, low, high);
      const { resistanceOhm } = sweepPointAt(sweep, at);
      zeros.push({ frequencyHz: at, direction: part > 0 ? 'rising' : 'falling', resistanceOhm });
    }
    before = index;
  }
  return zeros;
}

function crossing(sweep: OnePortSweep, low: number, high: number): number {
  return bisect((frequencyHz) => reflectionImaginaryAt(sweep, frequencyHz), low, high);
}

/** Points that are exactly zero lie between the two: the middle one is the zero. */
function middlePoint(frequencyHz: Float64Array, before: number, index: number): number {
  return frequencyHz[(before + index) >> 1] as number;
}
