import { checkList, checkObject, InputError } from '@finial/units';
import { type Kriging, meanAt, seePlace, solveKriging, varianceAt } from './kriging.js';
import { checkPlace, checkSamples, type PlanePlace, type PlaneSample } from './PlaneSample.js';
import { checkShadowing, type ShadowingModel } from './ShadowingModel.js';
import { checkTrend, type Trend, trendSeries, trendTerms } from './trend.js';

/** Places to krige, and how. */
export interface KrigeOptions {
  /** How the levels scatter, from `fitShadowing`, `fitVariogram` or the literature. */
  readonly shadowing: ShadowingModel;
  /** Places to find the level of, at least one. */
  readonly targets: readonly PlanePlace[];
  /** What the levels scatter about. @defaultValue `'constant'` */
  readonly trend?: Trend | undefined;
}

/** Levels at places that nobody walked to. */
export interface KrigedLevels {
  /** Mean level at each target, in the unit of the samples (dBm or dB). */
  readonly levelsDb: Float64Array;
  /** Standard deviation of that mean level in dB: of the place, without the scatter of a single frame. */
  readonly standardDeviationsDb: Float64Array;
  /** Standard deviation in dB of a single frame sent from there. */
  readonly frameDeviationsDb: Float64Array;
  /** Coefficients of the trend in dB: the mean; with the log-distance law the level at 1 m and the slope against 10 lg(distance / 1 m). */
  readonly trendCoefficientsDb: Float64Array;
}

/**
 * Best linear estimate of the level at other places from samples at some, with its standard deviation: kriging.
 *
 * Near a sample the estimate follows it, a few decorrelation distances away it goes back to the trend. The model counts as known;
 * that it was fitted to few places itself is in no standard deviation here. At a sample's own place the estimate is of the place
 * and does not repeat the sample, unless the nugget is 0.
 *
 * @param samples - 1 to 2000; more than the terms of the trend
 * @returns levels, relative error below 1e-8 (against R's gstat: 1e-14); the work grows with the cube of the samples
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `unknown-option` or `out-of-range` (also two samples
 * at one place without nugget)
 * @source N. Cressie, Statistics for Spatial Data (1993), section 3.4 (from memory); R package gstat 2.1-0 agrees
 * @example Half-way between two spots
 * ```ts
 * import { krige } from '@finial/survey';
 *
 * const shadowing = { shadowingDb: 7, decorrelationM: 200, nuggetDb: 2 };
 * const samples = [
 *   { eastM: 500, northM: 0, levelDb: -4, frames: 10 },
 *   { eastM: 700, northM: 0, levelDb: 6, frames: 10 },
 * ];
 * const { levelsDb, standardDeviationsDb } = krige(samples, { shadowing, targets: [{ eastM: 600, northM: 0 }] });
 * levelsDb[0]; // ≈ 1
 * standardDeviationsDb[0]; // ≈ 4.824
 * ```
 */
export function krige(samples: readonly PlaneSample[], options: KrigeOptions): KrigedLevels {
  checkSamples(samples, 'samples');
  const { shadowing, targets, trend = 'constant' } = checkObject(options, 'options');
  checkShadowing(shadowing, 'shadowing');
  checkTrend(trend);
  checkList(targets, 'targets').forEach((target, index) => {
    checkPlace(target, `targets[${index}]`);
  });
  const kriging = krigingOf(samples, shadowing, trend);
  const levelsDb = new Float64Array(targets.length);
  const standardDeviationsDb = new Float64Array(targets.length);
  const frameDeviationsDb = new Float64Array(targets.length);
  const white = new Float64Array(samples.length);
  targets.forEach((target, index) => {
    const terms = trendTerms(trend, target, `targets[${index}]`);
    const seen = seePlace(kriging, target.eastM, target.northM, terms, white);
    const varianceDb2 = Math.max(0, varianceAt(kriging, seen));
    levelsDb[index] = meanAt(kriging, seen, terms);
    standardDeviationsDb[index] = Math.sqrt(varianceDb2);
    frameDeviationsDb[index] = Math.sqrt(varianceDb2 + shadowing.nuggetDb ** 2);
  });
  return { levelsDb, standardDeviationsDb, frameDeviationsDb, trendCoefficientsDb: kriging.coefficients };
}

/** Solves checked samples, or says why they cannot be solved. */
export function krigingOf(samples: readonly PlaneSample[], shadowing: ShadowingModel, trend: Trend): Kriging {
  const kriging = solveKriging({
    eastM: Float64Array.from(samples, ({ eastM }) => eastM),
    northM: Float64Array.from(samples, ({ northM }) => northM),
    levelsDb: Float64Array.from(samples, ({ levelDb }) => levelDb),
    noiseDb2: Float64Array.from(samples, ({ frames = 1 }) => shadowing.nuggetDb ** 2 / frames),
    trend: trendSeries(trend, samples, 'samples'),
    model: shadowing,
  });
  if (kriging !== undefined) return kriging;
  throw unsolvable('samples', samples.length);
}

/** Refusal of samples whose equations have no single solution. */
export function unsolvable(argument: string, received: unknown): InputError {
  const expected =
    'samples at different places (or a nugget above 0), enough of them, and at different distances, for the trend';
  return new InputError({ code: 'out-of-range', argument, received, expected });
}
