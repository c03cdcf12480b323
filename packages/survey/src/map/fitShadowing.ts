import { checkInteger, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { krigingLikelihood, solveKriging } from './kriging.js';
import { checkSamples, type PlaneSample } from './PlaneSample.js';
import type { ShadowingModel } from './ShadowingModel.js';
import { leastBySimplex } from './simplex.js';
import { checkTrend, type Trend, trendSeries } from './trend.js';

/** How a model of shadowing is fitted. */
export interface FitShadowingOptions {
  /** Restricted likelihood, which allows for the trend being fitted too, or the full one. @defaultValue `'restricted'` */
  readonly likelihood?: 'restricted' | 'full' | undefined;
  /** What the levels scatter about. @defaultValue `'constant'` */
  readonly trend?: Trend | undefined;
  /** Decorrelation distance in metres, 0.1 to 1e6, where it is known from elsewhere. @defaultValue none: it is fitted */
  readonly decorrelationM?: number | undefined;
}

/** A model of shadowing, fitted by its likelihood. */
export interface ShadowingFit extends ShadowingModel {
  /** Natural logarithm of the likelihood (restricted or full, as asked). The restricted one leaves out a constant of the trend. */
  readonly logLikelihood: number;
  /** Samples that came in. */
  readonly sampleCount: number;
  /** What the fit does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Fits shadowing, decorrelation distance and nugget to samples by the greatest likelihood of a Gaussian field.
 *
 * It uses every pair and needs no classes, so it does better than a variogram on few spots; still, one walk seldom fixes the
 * distance. The distance is looked for between a third of the least and three times the greatest distance of two samples. Samples must
 * have levels: missed spots cannot enter here, and where many were missed the shadowing comes out too small.
 *
 * @param samples - 8 to 500: each step of the search costs the cube of their number
 * @returns the model; its logarithm of the likelihood within 1e-8 of the greatest, parameters within 1e-5 relative where the samples fix them
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `unknown-option` or `out-of-range` (also where all levels
 * are alike, or near places no more alike than far ones)
 * @source K. V. Mardia, R. J. Marshall, Biometrika 71 (1984) 135; H. D. Patterson, R. Thompson, Biometrika 58 (1971) 545 (from memory)
 * @example
 * ```ts
 * import { fitShadowing } from '@finial/survey';
 *
 * const levelsDb = [-6, -5, -1, 3, 4, 8, 6, 2, -3, -4, 1, 5];
 * const samples = levelsDb.map((levelDb, index) => ({ eastM: 100 * index, northM: 40 * (index % 3), levelDb }));
 * const fit = fitShadowing(samples, { decorrelationM: 300 });
 * fit.shadowingDb; // ≈ 4.993
 * ```
 */
export function fitShadowing(
  samples: readonly PlaneSample[],
  options: FitShadowingOptions = {},
): ShadowingFit {
  checkSamples(samples, 'samples');
  const {
    likelihood = 'restricted',
    trend = 'constant',
    decorrelationM: known,
  } = checkObject(options, 'options');
  checkOneOf(likelihood, 'likelihood', ['restricted', 'full']);
  checkTrend(trend);
  if (known !== undefined) {
    checkRange(known, 'decorrelationM', { min: 0.1, max: 1e6, unit: 'metres' });
  }
  if (samples.length < 8) {
    const expected = 'at least 8 samples';
    throw new InputError({ code: 'missing', argument: 'samples', received: samples.length, expected });
  }
  checkInteger(samples.length, 'samples.length', { min: 8, max: 500, unit: 'samples' });
  const { leastM, mostM } = distancesBetween(samples);
  const bounds = known === undefined ? [leastM / 3, mostM * 3] : [known, known];
  const [shortestM, longestM] = [Math.max(bounds[0] as number, 0.1), Math.min(bounds[1] as number, 1e6)];
  const spreadDb = spreadOf(samples);
  const logLikelihoodOf = likelihoodOf(samples, trend, likelihood);
  const model = greatest(logLikelihoodOf, spreadDb, shortestM, longestM);
  const logLikelihood = logLikelihoodOf(model);
  if (!Number.isFinite(logLikelihood) || model.shadowingDb < 0.01) {
    const expected = 'near places more alike than far ones, by a shadowing of 0.01 dB or more';
    throw new InputError({ code: 'out-of-range', argument: 'samples', received: samples.length, expected });
  }
  return {
    ...model,
    logLikelihood,
    sampleCount: samples.length,
    warnings: warningsOf(model.decorrelationM, known, mostM, samples.length),
  };
}

function likelihoodOf(
  samples: readonly PlaneSample[],
  trend: Trend,
  likelihood: 'restricted' | 'full',
): (model: ShadowingModel) => number {
  const eastM = Float64Array.from(samples, (sample) => sample.eastM);
  const northM = Float64Array.from(samples, (sample) => sample.northM);
  const levelsDb = Float64Array.from(samples, ({ levelDb }) => levelDb);
  const terms = trendSeries(trend, samples, 'samples');
  return (model) => {
    const noiseDb2 = Float64Array.from(samples, ({ frames = 1 }) => model.nuggetDb ** 2 / frames);
    const kriging = solveKriging({ eastM, northM, levelsDb, noiseDb2, trend: terms, model });
    return kriging === undefined ? -Infinity : krigingLikelihood(kriging)[likelihood];
  };
}

/** Best model of several starts; bounds of the distance are kept by folding the search back at them. */
function greatest(
  logLikelihoodOf: (model: ShadowingModel) => number,
  spreadDb: number,
  shortestM: number,
  longestM: number,
): ShadowingModel {
  const widthLog = Math.log(longestM / shortestM);
  const modelAt = ([shadowing, nugget, place]: readonly number[]): ShadowingModel => ({
    shadowingDb: Math.abs(shadowing as number) * spreadDb,
    nuggetDb: Math.abs(nugget as number) * spreadDb,
    // A sine reaches both ends and never leaves them.
    decorrelationM: shortestM * Math.exp(widthLog * (0.5 + 0.5 * Math.sin(place as number))),
  });
  const cost = (x: readonly number[]) => {
    const model = modelAt(x);
    const isInside = model.shadowingDb <= 100 && model.nuggetDb <= 100;
    return isInside ? -logLikelihoodOf(model) : Infinity;
  };
  const found = (widthLog > 0 ? [-0.8, 0, 0.8] : [0]).map((place) =>
    leastBySimplex(cost, [0.9, 0.4, place], 0.3),
  );
  const [first, ...others] = found as [readonly number[], ...(readonly number[])[]];
  return modelAt(others.reduce((best, x) => (cost(x) < cost(best) ? x : best), first));
}

function spreadOf(samples: readonly PlaneSample[]): number {
  const mean = samples.reduce((sum, { levelDb }) => sum + levelDb, 0) / samples.length;
  const squares = samples.reduce((sum, { levelDb }) => sum + (levelDb - mean) ** 2, 0);
  return Math.max(Math.sqrt(squares / samples.length), 1e-6);
}

function distancesBetween(samples: readonly PlaneSample[]): {
  readonly leastM: number;
  readonly mostM: number;
} {
  let [leastM, mostM] = [Infinity, 0];
  samples.forEach((a, index) => {
    for (const b of samples.slice(index + 1)) {
      const distanceM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
      if (distanceM > 0) leastM = Math.min(leastM, distanceM);
      mostM = Math.max(mostM, distanceM);
    }
  });
  if (mostM > 0) return { leastM, mostM };
  const expected = 'samples at two or more places';
  throw new InputError({ code: 'missing', argument: 'samples', received: samples.length, expected });
}

function warningsOf(
  decorrelationM: number,
  known: number | undefined,
  mostM: number,
  count: number,
): string[] {
  const warnings: string[] = [];
  if (known === undefined && (decorrelationM > mostM / 3 || count < 30)) {
    warnings.push(
      `${count} samples within ${Math.round(mostM)} m hardly fix the decorrelation distance: compare with a figure from elsewhere.`,
    );
  }
  return warnings;
}
