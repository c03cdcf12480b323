import {
  checkInteger,
  checkList,
  checkObject,
  checkOneOf,
  checkRange,
  InputError,
  normalQuantile,
} from '@finial/units';
import { normalShareBelow } from '../pathLoss/normalTail.js';
import { seededRandom } from './seededRandom.js';

/** How spots are drawn again. */
export interface BootstrapOptions {
  /** Confidence of the interval, 0.5 to 0.999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
  /**
   * Ends of the interval: corrected for bias and skewness (BCa), or plain quantiles.
   * @defaultValue `'corrected'`
   */
  readonly interval?: 'corrected' | 'percentile' | undefined;
  /** Random draws, 100 to 1e6; as many spots as give no more different draws than that are gone through completely. @defaultValue `10_000` */
  readonly drawCount?: number | undefined;
  /** Start of the random draws, a whole number from 0 to 4294967295. @defaultValue `1` */
  readonly seed?: number | undefined;
}

/** How an estimate would vary over walks with other spots. */
export interface Bootstrap {
  /** The estimate from the spots as walked, in its own unit like all estimates here. */
  readonly estimate: number;
  /** Mean of the estimate over the draws. */
  readonly meanEstimate: number;
  /** Standard deviation of the estimate over the draws. */
  readonly standardErrorOfEstimate: number;
  /** Lower end of the interval. */
  readonly lowerEstimate: number;
  /** Upper end of the interval. */
  readonly upperEstimate: number;
  /** Confidence of the interval. */
  readonly confidence: number;
  /** True if all possible draws were gone through, false if they were taken at random. */
  readonly isExact: boolean;
  /** Different draws gone through, or random draws taken. */
  readonly drawCount: number;
  /** Spots. */
  readonly spots: number;
  /** Correction for bias as a normal deviate: 0 where half of the draws lie below the estimate. */
  readonly biasCorrectionZ: number;
  /** Correction for skewness (acceleration), from leaving out one spot at a time. */
  readonly accelerationFactor: number;
  /** What limits the interval, in sentences. */
  readonly warnings: readonly string[];
}

/**
 * How sure an estimate from a walk is, by drawing its spots again with replacement.
 *
 * Spots are drawn, not frames: frames of one spot share their shadowing, and drawing them singly would make the interval far too
 * narrow. With few spots all draws are gone through, so that no seed matters. Below about ten spots the interval is too narrow all the same:
 * the spots that were not walked cannot be drawn.
 *
 * @param spots - at least two, of any kind: what `estimateOfSpots` takes
 * @param estimateOfSpots - any figure, from -1e100 to 1e100, of a list of spots that does not depend on their order; also of a list in which spots repeat or lack
 * @returns the estimate with its interval; exact where `isExact`, else with the error of random draws, about
 * standardErrorOfEstimate / √drawCount in the mean
 * @throws {@link InputError} `wrong-type`, `missing` (fewer than two spots), `not-a-finite-number` (also an estimate that is none),
 * `out-of-range` or `unknown-option`
 * @source B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993), chapters 6 and 14 (from memory)
 * @example Delivery ratio of five spots
 * ```ts
 * import { bootstrapBySpot } from '@finial/survey';
 *
 * const spots = [[18, 20], [9, 20], [20, 21], [14, 22], [5, 19]] as const;
 * const sum = (list: readonly number[]) => list.reduce((total, value) => total + value, 0);
 * const ratio = bootstrapBySpot(
 *   spots,
 *   (drawn) => sum(drawn.map(([received]) => received)) / sum(drawn.map(([, sent]) => sent)),
 *   { interval: 'percentile' },
 * );
 * ratio.standardErrorOfEstimate; // ≈ 0.1148
 * [ratio.lowerEstimate, ratio.upperEstimate]; // → [0.42, 90 / 104]
 * ```
 */
export function bootstrapBySpot<Spot>(
  spots: readonly Spot[],
  estimateOfSpots: (spots: readonly Spot[]) => number,
  options: BootstrapOptions = {},
): Bootstrap {
  const {
    confidence = 0.95,
    interval = 'corrected',
    drawCount = 10_000,
    seed = 1,
  } = checkObject(options, 'options');
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.999, unit: 'as a confidence' });
  checkOneOf(interval, 'interval', ['corrected', 'percentile']);
  checkInteger(drawCount, 'drawCount', { min: 100, max: 1e6, unit: 'draws' });
  checkInteger(seed, 'seed', { min: 0, max: 4_294_967_295, unit: 'as a seed' });
  checkSpots(spots, estimateOfSpots);
  const figure = (drawn: readonly Spot[]): number =>
    checkRange(estimateOfSpots(drawn), 'estimateOfSpots(spots)', {
      // Larger ones have squares and cubes that no double holds.
      min: -1e100,
      max: 1e100,
      unit: 'its unit',
    });
  const estimate = figure(spots);
  const isExact = differentDraws(spots.length) <= drawCount;
  const draws = isExact ? allDraws(spots, figure) : randomDraws(spots, figure, drawCount, seed);
  draws.sort((one, other) => one.estimate - other.estimate);
  const mean = draws.reduce((sum, draw) => sum + draw.share * draw.estimate, 0);
  const variance = draws.reduce((sum, draw) => sum + draw.share * (draw.estimate - mean) ** 2, 0);
  const biasCorrectionZ = biasCorrection(draws, estimate);
  const accelerationFactor = acceleration(
    spots.map((_, left) => figure(spots.filter((__, i) => i !== left))),
  );
  const at = (z: number): number => {
    if (interval === 'percentile') return quantileOf(draws, normalShareBelow(z));
    const shifted = biasCorrectionZ + z;
    return quantileOf(
      draws,
      normalShareBelow(biasCorrectionZ + shifted / (1 - accelerationFactor * shifted)),
    );
  };
  const z = -normalQuantile((1 - confidence) / 2);
  return {
    estimate,
    meanEstimate: mean,
    standardErrorOfEstimate: Math.sqrt(variance),
    lowerEstimate: at(-z),
    upperEstimate: at(z),
    confidence,
    isExact,
    drawCount: draws.length,
    spots: spots.length,
    biasCorrectionZ,
    accelerationFactor,
    warnings:
      spots.length < 10
        ? [`${spots.length} spots are few to draw from: the interval is rather too narrow.`]
        : [],
  };
}

interface Draw {
  readonly estimate: number;
  /** Probability of the draw. */
  readonly share: number;
}

function checkSpots(spots: readonly unknown[], estimateOfSpots: unknown): void {
  if (checkList(spots, 'spots').length < 2) {
    throw new InputError({
      code: 'missing',
      argument: 'spots',
      received: spots.length,
      expected: 'at least two spots',
    });
  }
  if (typeof estimateOfSpots === 'function') return;
  throw new InputError({
    code: 'wrong-type',
    argument: 'estimateOfSpots',
    received: estimateOfSpots,
    expected: 'a function of a list of spots',
  });
}

/** Draws of n from n with replacement that differ in more than order: (2n - 1)! / (n! (n - 1)!). */
function differentDraws(n: number): number {
  let count = 1;
  for (let i = 1; i < n; i += 1) count = (count * (n + i)) / i;
  return count;
}

/** Every draw once, with the probability n! / ∏ cᵢ! / nⁿ of the counts cᵢ with which the spots occur in it. */
function allDraws<Spot>(spots: readonly Spot[], figure: (drawn: readonly Spot[]) => number): Draw[] {
  const n = spots.length;
  const draws: Draw[] = [];
  const draw = (from: number, drawn: readonly Spot[], share: number): void => {
    const wanted = n - drawn.length;
    if (from === n) {
      if (wanted === 0) draws.push({ estimate: figure(drawn), share });
      return;
    }
    let next = drawn;
    let nextShare = share;
    for (let times = 0; times <= wanted; times += 1) {
      draw(from + 1, next, nextShare);
      next = [...next, spots[from] as Spot];
      // One of the draws that are still open, each spot with chance 1/n, over the order among equals.
      nextShare = (nextShare * (wanted - times)) / ((times + 1) * n);
    }
  };
  draw(0, [], 1);
  return draws;
}

function randomDraws<Spot>(
  spots: readonly Spot[],
  figure: (drawn: readonly Spot[]) => number,
  drawCount: number,
  seed: number,
): Draw[] {
  const random = seededRandom(seed);
  return Array.from({ length: drawCount }, () => ({
    estimate: figure(spots.map(() => spots[Math.floor(random() * spots.length)] as Spot)),
    share: 1 / drawCount,
  }));
}

/** Normal deviate of the share of draws below the estimate; draws that equal it, up to rounding, count as half below. */
function biasCorrection(draws: readonly Draw[], estimate: number): number {
  const rounding = 1e-12 * Math.abs(estimate);
  const below = draws.reduce((sum, draw) => {
    if (Math.abs(draw.estimate - estimate) <= rounding) return sum + draw.share / 2;
    return draw.estimate < estimate ? sum + draw.share : sum;
  }, 0);
  // Where all draws lie on one side the deviate has no bound: the nearest that so many draws could show.
  const least = 0.5 / (draws.length + 1);
  return normalQuantile(Math.min(1 - least, Math.max(least, below)));
}

function acceleration(jackknife: readonly number[]): number {
  const mean = jackknife.reduce((sum, value) => sum + value, 0) / jackknife.length;
  const squares = jackknife.reduce((sum, value) => sum + (mean - value) ** 2, 0);
  const cubes = jackknife.reduce((sum, value) => sum + (mean - value) ** 3, 0);
  const scale = squares ** 1.5;
  return scale > 0 ? cubes / (6 * scale) : 0;
}

/** The least estimate that at least a share `probability` of the draws does not exceed. */
function quantileOf(draws: readonly Draw[], probability: number): number {
  let below = 0;
  for (const { estimate, share } of draws) {
    below += share;
    if (below >= probability - 1e-12) return estimate;
  }
  return draws[draws.length - 1]?.estimate ?? 0;
}
