import { checkInteger, checkObject, checkOneOf, checkRange } from '@finial/units';
import type { Observation } from '../Observation.js';
import { type ConformalQuantile, conformalQuantile } from './conformalQuantile.js';
import {
  leftOutWarnings,
  type PredictedLevelOptions,
  type PredictedLevels,
  type PredictedPowersDbm,
  predictedLevels,
} from './predictedLevels.js';
import { seededRandom, shuffled } from './seededRandom.js';

/** How margins are taken from a walk. */
export interface ConformalMarginOptions extends PredictedLevelOptions {
  /** Share of new spots that shall keep to the margins, 0.5 to 0.9999. @defaultValue `0.9` */
  readonly confidence?: number | undefined;
  /** `'lower'`: only a level that is not undercut, for claims of coverage. @defaultValue `'lower'` */
  readonly side?: 'lower' | 'both' | undefined;
  /**
   * Share of the spots from which the offset of the prediction is found, 0 to 0.9; the others give the margins. 0 takes the
   * prediction as it is. @defaultValue `0.3`
   */
  readonly offsetSpotRatio?: number | undefined;
  /** Start of the random choice of those spots, a whole number from 0 to 4294967295. @defaultValue `1` */
  readonly seed?: number | undefined;
}

/** Margins for a prediction: what to take off it before claiming coverage. */
export interface ConformalMargin extends ConformalQuantile {
  /** Predicted minus measured in dB, median over the spots set aside for it, already within the margins; 0 where they give none. */
  readonly offsetDb: number;
  /** Spots from which the offset was found. */
  readonly offsetSpots: number;
  /** Spots whose score has no bound, because half of their frames or more were missed. */
  readonly unboundedSpots: number;
  /** What to take off a prediction for the level that is not undercut, in dB; absent where the walk gives no bound. */
  readonly lowerMarginDb?: number | undefined;
  /** What to add to a prediction for the level that is not exceeded, in dB; with `side: 'both'` only. */
  readonly upperMarginDb?: number | undefined;
  /** Share of new spots that keep to the margins. */
  readonly confidence: number;
  /** The same as a sentence. */
  readonly verdict: string;
  /** What limits the margins, in sentences. */
  readonly warnings: readonly string[];
}

/**
 * Margins by which the levels of new spots stay within a prediction, whatever the distribution of its errors.
 *
 * The level of a spot is the median of its frames, counting missed ones as weakest: a spot with fewer than half of its frames missed has one, any
 * other only a bound, and its score is taken as larger than any margin. So missed frames widen the margins, and with too many
 * there are none. A split of the spots finds the offset from some and the margins from the others, whose scores stay honest.
 *
 * It holds for spots like the walked ones, chosen in the same way in the same area. It says nothing about single frames.
 *
 * @param predictedDbm - a power in dBm, -400 to 100, per observation in their order, or a function that gives it
 * @param observations - frames of one gateway, missed ones included
 * @returns the margins; exact for the split that the seed gives
 * @throws {@link InputError} `wrong-type`, `missing` (no spot, none left for the margins, no level), `not-a-finite-number`, `out-of-range`
 * or `unknown-option`
 * @source As `conformalQuantile`; missed frames as unbounded scores: common practice, no source
 * @example Nine spots, all used for the margins
 * ```ts
 * import { conformalMargin } from '@finial/survey';
 *
 * const observations = [-93, -95, -99, -102, -103, -104, -107, -110, -113].map((rssiDbm, i) => ({
 *   latitudeDeg: 45.75, longitudeDeg: 4.9, received: true, spot: `spot ${i}`, rssiDbm,
 * }));
 * const margin = conformalMargin(() => -100, observations, { signal: 'rssi', offsetSpotRatio: 0 });
 * margin.lowerMarginDb; // → 13
 * margin.verdict; // → 'At least 90 % of new spots reach the prediction less 13.0 dB (9 spots).'
 * ```
 */
export function conformalMargin(
  predictedDbm: PredictedPowersDbm,
  observations: readonly Observation[],
  options: ConformalMarginOptions = {},
): ConformalMargin {
  const {
    confidence = 0.9,
    side = 'lower',
    offsetSpotRatio = 0.3,
    seed = 1,
  } = checkObject(options, 'options');
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.9999, unit: 'as a confidence' });
  checkOneOf(side, 'side', ['lower', 'both']);
  checkRange(offsetSpotRatio, 'offsetSpotRatio', { min: 0, max: 0.9, unit: 'as a share' });
  checkInteger(seed, 'seed', { min: 0, max: 4_294_967_295, unit: 'as a seed' });
  // A missed frame always counts here; where no threshold is known, a level far below any other stands for it.
  const levels = predictedLevels(predictedDbm, observations, {
    ...options,
    thresholdDbm: options.thresholdDbm === undefined ? -400 : options.thresholdDbm,
  });
  const errors = shuffled(framesBySpot(levels), seededRandom(seed)).map((frames) => errorsOf(levels, frames));
  const offsetSpots = Math.floor(errors.length * offsetSpotRatio);
  const median = medianOf(errors.slice(0, offsetSpots).map(({ atWorst }) => atWorst));
  // Any offset gives honest margins; one that the spots set aside do not determine is left out, and the margins are the wider for it.
  const offsetDb = Number.isFinite(median) ? median : 0;
  const tried = errors.slice(offsetSpots);
  // Between the worst and the bound lies the true median: with both sides wanted, the score takes the worse of the two.
  const scoresDb = tried
    .filter(({ atWorst }) => atWorst !== Infinity)
    .map(({ atWorst, atBound }) =>
      side === 'lower'
        ? atWorst - offsetDb
        : Math.max(Math.abs(atWorst - offsetDb), Math.abs(atBound - offsetDb)),
    );
  const unboundedSpots = tried.length - scoresDb.length;
  const quantile = conformalQuantile({ scoresDb, unboundedSpots, confidence });
  const { quantileDb } = quantile;
  const margins = quantileDb === undefined ? {} : { lowerMarginDb: quantileDb + offsetDb };
  return {
    ...quantile,
    offsetDb,
    offsetSpots,
    unboundedSpots,
    ...margins,
    ...(quantileDb === undefined || side === 'lower' ? {} : { upperMarginDb: quantileDb - offsetDb }),
    confidence,
    verdict: verdictOf(quantile, offsetDb, confidence, side),
    warnings: leftOutWarnings(levels),
  };
}

/** Frames of each spot, by number of the spot. */
function framesBySpot({ spots, spotOf }: PredictedLevels): readonly (readonly number[])[] {
  const frames: number[][] = spots.map(() => []);
  spotOf.forEach((spot, i) => {
    frames[spot]?.push(i);
  });
  return frames;
}

/** Median error of a spot with its missed frames as the worst (Infinity where they are half or more), and with them at their bounds. */
function errorsOf(
  { predictedDbm, levelDbm, missed }: PredictedLevels,
  frames: readonly number[],
): { readonly atWorst: number; readonly atBound: number } {
  const errors = frames.map((i) => (predictedDbm[i] as number) - (levelDbm[i] as number));
  const worst = errors.map((error, row) => (missed[frames[row] as number] === 1 ? Infinity : error));
  return { atWorst: medianOf(worst), atBound: medianOf(errors) };
}

/** The middle of the values; NaN of none. */
function medianOf(values: readonly number[]): number {
  const order = [...values].sort((one, other) => one - other);
  const upper = order[Math.floor(order.length / 2)] ?? Number.NaN;
  return order.length % 2 === 1 ? upper : ((order[order.length / 2 - 1] as number) + upper) / 2;
}

function verdictOf(
  { quantileDb, spots, leastSpots }: ConformalQuantile,
  offsetDb: number,
  confidence: number,
  side: 'lower' | 'both',
): string {
  const share = `${Number((confidence * 100).toPrecision(4))} %`;
  if (quantileDb === undefined) {
    return `No margin can be given at ${share}: ${spots} spots, at least ${leastSpots} are needed, and of most frames heard.`;
  }
  const lower = quantileDb + offsetDb;
  const bound = `the prediction ${lower < 0 ? 'plus' : 'less'} ${Math.abs(lower).toFixed(1)} dB`;
  if (side === 'lower') return `At least ${share} of new spots reach ${bound} (${spots} spots).`;
  const upper = quantileDb - offsetDb;
  const top = `the prediction ${upper < 0 ? 'less' : 'plus'} ${Math.abs(upper).toFixed(1)} dB`;
  return `At least ${share} of new spots lie between ${bound} and ${top} (${spots} spots).`;
}
