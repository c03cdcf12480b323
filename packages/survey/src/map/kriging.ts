import { cholesky, dot, type LowerFactor, logDeterminant, solveLower, solveUpper } from '../cholesky.js';
import type { ShadowingModel } from './ShadowingModel.js';

/** Samples and what is known of their scatter, as series of one length. */
export interface KrigingInput {
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly levelsDb: Float64Array;
  /** Variance of each sample about the mean of its place, in dB². */
  readonly noiseDb2: Float64Array;
  /** One series for each term of the trend; none where the trend is known to be zero. */
  readonly trend: readonly Float64Array[];
  readonly model: Pick<ShadowingModel, 'shadowingDb' | 'decorrelationM'>;
}

/** The samples solved once, ready for any number of places. Whitened means multiplied by the inverse of the factor. */
export interface Kriging {
  readonly input: KrigingInput;
  readonly factor: LowerFactor;
  /** Whitened terms of the trend. */
  readonly whiteTrend: readonly Float64Array[];
  readonly trendFactor: LowerFactor;
  /** Coefficients of the trend by generalised least squares. */
  readonly coefficients: Float64Array;
  /** Whitened samples less whitened trend. */
  readonly whiteRest: Float64Array;
}

/** A place seen from the samples: enough for its level, its variance, and its covariance with another place. */
export interface SeenPlace {
  /** Whitened covariances with the samples. */
  readonly white: Float64Array;
  /** What the samples leave open of the trend there. */
  readonly openTrend: Float64Array;
}

/**
 * Solves the samples for universal kriging with an exponential covariance; unchecked. Undefined where two samples at one place have no
 * noise, or the terms of the trend cannot be told apart.
 *
 * Source: N. Cressie, Statistics for Spatial Data, section 3.4 (from memory); agrees with R's gstat.
 */
export function solveKriging(input: KrigingInput): Kriging | undefined {
  const size = input.levelsDb.length;
  const factor = cholesky(covarianceMatrix(input), size);
  if (factor === undefined) return undefined;
  const whiteTrend = input.trend.map((term) => solveLower(factor, Float64Array.from(term)));
  const terms = whiteTrend.length;
  const gram = new Float64Array(terms * terms);
  whiteTrend.forEach((a, i) => {
    whiteTrend.forEach((b, j) => {
      gram[i * terms + j] = dot(a, b);
    });
  });
  const trendFactor = cholesky(gram, terms);
  if (trendFactor === undefined) return undefined;
  const whiteRest = solveLower(factor, Float64Array.from(input.levelsDb));
  const coefficients = Float64Array.from(whiteTrend, (term) => dot(term, whiteRest));
  solveUpper(trendFactor, solveLower(trendFactor, coefficients));
  whiteTrend.forEach((term, j) => {
    for (let i = 0; i < size; i += 1)
      whiteRest[i] = (whiteRest[i] as number) - (coefficients[j] as number) * (term[i] as number);
  });
  return { input, factor, whiteTrend, trendFactor, coefficients, whiteRest };
}

function covarianceMatrix({ eastM, northM, noiseDb2, model }: KrigingInput): Float64Array {
  const size = eastM.length;
  const matrix = new Float64Array(size * size);
  const sillDb2 = model.shadowingDb ** 2;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const eastward = (eastM[i] as number) - (eastM[j] as number);
      const northward = (northM[i] as number) - (northM[j] as number);
      matrix[i * size + j] =
        sillDb2 * Math.exp(-Math.sqrt(eastward * eastward + northward * northward) / model.decorrelationM);
    }
    matrix[i * size + i] = sillDb2 + (noiseDb2[i] as number);
  }
  return matrix;
}

/** Sees a place from the samples; `trend` are the terms of the trend there. The series given are written over where that saves time. */
export function seePlace(
  kriging: Kriging,
  eastM: number,
  northM: number,
  trend: Float64Array,
  white: Float64Array = new Float64Array(kriging.factor.size),
): SeenPlace {
  const { input, factor, whiteTrend, trendFactor } = kriging;
  const { shadowingDb, decorrelationM } = input.model;
  const sillDb2 = shadowingDb ** 2;
  for (let i = 0; i < white.length; i += 1) {
    const eastward = (input.eastM[i] as number) - eastM;
    const northward = (input.northM[i] as number) - northM;
    const distanceM = Math.sqrt(eastward * eastward + northward * northward);
    white[i] = sillDb2 * Math.exp(-distanceM / decorrelationM);
  }
  solveLower(factor, white);
  const openTrend = new Float64Array(trend.length);
  for (let j = 0; j < trend.length; j += 1)
    openTrend[j] = (trend[j] as number) - dot(whiteTrend[j] as Float64Array, white);
  return { white, openTrend: solveLower(trendFactor, openTrend) };
}

/** Mean level at a place, without the noise of a frame. */
export function meanAt(kriging: Kriging, { white }: SeenPlace, trend: Float64Array): number {
  return dot(kriging.coefficients, trend) + dot(white, kriging.whiteRest);
}

/** Variance of the mean level at a place in dB², without the noise of a frame; rounding may leave it a hair below zero. */
export function varianceAt(kriging: Kriging, { white, openTrend }: SeenPlace): number {
  return kriging.input.model.shadowingDb ** 2 - dot(white, white) + dot(openTrend, openTrend);
}

/** A sample as the others see it. */
export interface LeftOut {
  readonly levelDb: number;
  /** Variance of the sample, its own noise included, in dB². */
  readonly varianceDb2: number;
}

/**
 * What the other samples say of one of them, without solving again; unchecked. Undefined where the others do not fix the trend.
 *
 * Source: row of the projected inverse: O. Dubrule, Mathematical Geology 15 (1983) 687 (from memory).
 */
export function leaveOneOut(kriging: Kriging, index: number): LeftOut | undefined {
  const { input, factor, whiteTrend, trendFactor, whiteRest } = kriging;
  const unit = new Float64Array(factor.size);
  unit[index] = 1;
  solveLower(factor, unit);
  const open = solveLower(
    trendFactor,
    Float64Array.from(whiteTrend, (term) => dot(term, unit)),
  );
  const whole = dot(unit, unit);
  const precision = whole - dot(open, open);
  if (!(precision > whole * 1e-11)) return undefined;
  return {
    levelDb: (input.levelsDb[index] as number) - dot(unit, whiteRest) / precision,
    varianceDb2: 1 / precision,
  };
}

/** Logarithms of the likelihood of the samples. */
export interface KrigingLikelihood {
  readonly full: number;
  /** Restricted to what does not depend on the trend; without the constant that depends on the terms of the trend alone. */
  readonly restricted: number;
}

/** Likelihood of the samples with the trend at its best; unchecked. */
export function krigingLikelihood({ factor, trendFactor, whiteRest }: Kriging): KrigingLikelihood {
  const size = factor.size;
  const core = logDeterminant(factor) + dot(whiteRest, whiteRest);
  const constant = Math.log(2 * Math.PI);
  return {
    full: -(size * constant + core) / 2,
    restricted: -((size - trendFactor.size) * constant + core + logDeterminant(trendFactor)) / 2,
  };
}
