/** A length and where the antenna resonated with it. */
export interface LengthAndResonance {
  readonly elementLengthM: number;
  readonly resonanceHz: number;
}

/** How surely a length and a frequency were read. */
export interface ReadingErrors {
  readonly measuringErrorRatio: number;
  readonly lengthErrorM: number;
}

/** The slope of ln frequency over ln length, and its standard error. */
export interface MeasuredSlope {
  readonly exponent: number;
  readonly standardErrorRatio: number;
}

/**
 * The slope learnt from earlier cuts: a straight line through all of them, in logarithms; nothing from one cut. Its error is what the
 * errors of the readings make of it, or what the scatter about the line says, whichever is larger.
 */
export function measuredSlope(
  cuts: readonly LengthAndResonance[],
  errors: ReadingErrors,
): MeasuredSlope | undefined {
  const count = cuts.length;
  const x = cuts.map(({ elementLengthM }) => Math.log(elementLengthM));
  const y = cuts.map(({ resonanceHz }) => Math.log(resonanceHz));
  const [meanX, meanY] = [mean(x), mean(y)];
  const spreadX = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  if (count < 2 || spreadX < 1e-18) return undefined;
  const exponent =
    x.reduce((sum, value, index) => sum + (value - meanX) * ((y[index] as number) - meanY), 0) / spreadX;
  const squares = x.reduce(
    (sum, value, index) => sum + ((y[index] as number) - meanY - exponent * (value - meanX)) ** 2,
    0,
  );
  const lengthErrorRatio =
    errors.lengthErrorM / Math.min(...cuts.map(({ elementLengthM }) => elementLengthM));
  const stated = errors.measuringErrorRatio ** 2 + (exponent * lengthErrorRatio) ** 2;
  const seen = count > 2 ? squares / (count - 2) : 0;
  return { exponent, standardErrorRatio: Math.sqrt(Math.max(stated, seen) / spreadX) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
