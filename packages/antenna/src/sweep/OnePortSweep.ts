import { checkObject } from '@finial/units';

/**
 * What an analyser saw at one socket: the complex reflection at each frequency. The three series have the same length, and the
 * frequencies rise. A reader of files writes it; by hand, fill the series with equal lengths.
 */
export interface OnePortSweep {
  /** Frequencies in hertz, 0 or more, each above the one before. */
  readonly frequencyHz: Float64Array;
  /** Real part of the reflection coefficient at each frequency. */
  readonly reflectionReal: Float64Array;
  /** Imaginary part of the reflection coefficient at each frequency. */
  readonly reflectionImaginary: Float64Array;
  /** Resistance in ohms that the reflection is stated against, 1e-3 to 1e6; nearly always 50. */
  readonly referenceOhm: number;
  /** Comments of the file, in its order. */
  readonly comments: readonly string[];
  /** What the reader had to say: lines it passed over, readings that cannot be. Empty when all is well. */
  readonly warnings: readonly string[];
}

/**
 * A sweep that tells only how much comes back (VSWR or return loss), not with which phase. It has no resistance, no reactance and
 * no sign that tells too long from too short; only where the match is best.
 */
export interface MagnitudeSweep {
  /** Frequencies in hertz, 0 or more, each above the one before. */
  readonly frequencyHz: Float64Array;
  /** Magnitude of the reflection coefficient at each frequency, 0 or more. */
  readonly reflectionCoefficient: Float64Array;
  /** Resistance in ohms that the reflection is stated against, 1e-3 to 1e6. */
  readonly referenceOhm: number;
  /** Comments of the file, in its order. */
  readonly comments: readonly string[];
  /** What the reader had to say. Empty when all is well. */
  readonly warnings: readonly string[];
}

/**
 * Whether a sweep knows the phase of the reflection, and so the impedance. It looks at which series are there, not into them.
 *
 * @returns true for a {@link OnePortSweep}, false for a {@link MagnitudeSweep}
 * @throws {@link InputError} `wrong-type`: no object
 * @example
 * ```ts
 * import { knowsPhase, parseTouchstone } from '@finial/antenna';
 *
 * knowsPhase(parseTouchstone('# MHz S RI R 50\n868 0.1 -0.2\n')); // → true
 * ```
 */
export function knowsPhase(sweep: OnePortSweep | MagnitudeSweep): sweep is OnePortSweep {
  return 'reflectionReal' in checkObject(sweep, 'sweep');
}
