import type { OnePortSweep } from '../src/index.js';

/** A sweep from a reflection that is known at each frequency. */
export function sweepOf(
  frequencyHz: readonly number[],
  reflection: (hertz: number, index: number) => readonly [real: number, imaginary: number],
): OnePortSweep {
  const parts = frequencyHz.map(reflection);
  return {
    frequencyHz: Float64Array.from(frequencyHz),
    reflectionReal: Float64Array.from(parts, ([real]) => real),
    reflectionImaginary: Float64Array.from(parts, ([, imaginary]) => imaginary),
    referenceOhm: 50,
    comments: [],
    warnings: [],
  };
}

/** Frequencies from one to another, both included. */
export function grid(startHz: number, stopHz: number, points: number): number[] {
  return Array.from({ length: points }, (_, index) => startHz + ((stopHz - startHz) * index) / (points - 1));
}

/** A series resonant circuit, as a textbook has it: R, and an L and C that resonate at a frequency with a Q. */
export interface SeriesCircuit {
  readonly resistanceOhm: number;
  readonly resonanceHz: number;
  readonly quality: number;
}

/** Impedance of a series circuit: R + jRQ(f/f0 − f0/f). */
export function seriesReactanceOhm(
  { resistanceOhm, resonanceHz, quality }: SeriesCircuit,
  hertz: number,
): number {
  return resistanceOhm * quality * (hertz / resonanceHz - resonanceHz / hertz);
}

/** Reflection of R + jX on 50 Ω. */
export function reflectionOf(resistanceOhm: number, reactanceOhm: number): readonly [number, number] {
  const size = (resistanceOhm + 50) ** 2 + reactanceOhm ** 2;
  return [(resistanceOhm ** 2 - 2500 + reactanceOhm ** 2) / size, (100 * reactanceOhm) / size];
}

/** The refusal of a call, as far as it says where and why. */
export function refusal(call: () => unknown): {
  readonly code: string;
  readonly argument: string;
  readonly line: number | undefined;
  readonly column: number | undefined;
  readonly message: string;
} {
  try {
    call();
  } catch (error) {
    return error as ReturnType<typeof refusal>;
  }
  throw new Error('the call was not refused');
}
