/** A straight line y = intercept + slope · x by least squares. */
export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptStandardError: number;
  readonly slopeStandardError: number;
  /** Standard deviation of the residuals with n - 2 degrees of freedom. */
  readonly residualDeviation: number;
  /** Share of the variance of y that the line explains (R²). */
  readonly explainedRatio: number;
}

/**
 * Ordinary least squares through at least three points with at least two different x; unchecked.
 *
 * Sums are of differences from the means: the one-pass form with sums of squares loses half the digits.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 4.1.4.1; proved against the certified values of NIST StRD 'Norris'.
 */
export function straightLine(x: Float64Array, y: Float64Array): StraightLine {
  const n = x.length;
  const meanX = mean(x);
  const meanY = mean(y);
  let sumXx = 0;
  let sumXy = 0;
  let sumYy = 0;
  for (let i = 0; i < n; i += 1) {
    const dx = (x[i] as number) - meanX;
    const dy = (y[i] as number) - meanY;
    sumXx += dx * dx;
    sumXy += dx * dy;
    sumYy += dy * dy;
  }
  const slope = sumXy / sumXx;
  let sumResiduals = 0;
  for (let i = 0; i < n; i += 1) {
    const residual = (y[i] as number) - meanY - slope * ((x[i] as number) - meanX);
    sumResiduals += residual * residual;
  }
  const residualDeviation = Math.sqrt(sumResiduals / (n - 2));
  return {
    intercept: meanY - slope * meanX,
    slope,
    interceptStandardError: residualDeviation * Math.sqrt(1 / n + (meanX * meanX) / sumXx),
    slopeStandardError: residualDeviation / Math.sqrt(sumXx),
    residualDeviation,
    // All levels equal: the flat line explains all there is.
    explainedRatio: sumYy === 0 ? 1 : 1 - sumResiduals / sumYy,
  };
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
