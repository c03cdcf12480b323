/** One scattering parameter over frequency. */
export interface ComplexSeries {
  /** Real part at each frequency. */
  readonly real: Float64Array;
  /** Imaginary part at each frequency. */
  readonly imaginary: Float64Array;
}

/** What an analyser saw at both ends of a cable, filter or adapter: the four scattering parameters at each frequency. */
export interface TwoPortSweep {
  /** Frequencies in hertz, 0 or more, each above the one before. */
  readonly frequencyHz: Float64Array;
  /** Reflection at port 1. */
  readonly s11: ComplexSeries;
  /** From port 1 to port 2. */
  readonly s21: ComplexSeries;
  /** From port 2 to port 1. */
  readonly s12: ComplexSeries;
  /** Reflection at port 2. */
  readonly s22: ComplexSeries;
  /** Resistance in ohms that both ports are stated against, 1e-3 to 1e6. */
  readonly referenceOhm: number;
  /** Comments of the file, in its order. */
  readonly comments: readonly string[];
  /** What the reader had to say. Empty when all is well. */
  readonly warnings: readonly string[];
}
