import type { FrameCount } from '../deliveryRatio.js';
import { checkSpotCounts, spotSums } from './spotCounts.js';

/** Delivery ratios that differ from spot to spot, as a beta distribution. */
export interface BetaBinomialFit {
  /** Mean delivery ratio over spots: each spot has its say, whatever its frames. */
  readonly meanRatio: number;
  /** Correlation of two frames of one spot, 0 (independent) to 1 (a spot works or does not). */
  readonly correlation: number;
  /**
   * Which model the figures are of. `binomial`: no correlation fits better than any; `all-or-nothing`: each spot delivered all its
   * frames or none, correlation 1; `beta-binomial`: in between.
   */
  readonly model: 'beta-binomial' | 'binomial' | 'all-or-nothing';
  /** Natural logarithm of the likelihood, binomial coefficients included. */
  readonly logLikelihood: number;
  /** Logarithm of the likelihood with independent frames. */
  readonly binomialLogLikelihood: number;
  /** Standard error of ln(mean/(1-mean)); absent where the mean is 0 or 1. */
  readonly meanLogitStandardError?: number | undefined;
  /** Standard error of ln(correlation/(1-correlation)); for `beta-binomial` only. */
  readonly correlationLogitStandardError?: number | undefined;
  /** Frames that one spot is worth at most, however long one stays: 1 over the correlation; absent at correlation 0. */
  readonly mostSpotFrames?: number | undefined;
  /** What the fit does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Fits a beta-binomial model to frames counted at spots: the mean delivery ratio over spots, and how alike frames of one spot are.
 *
 * Maximum likelihood, which takes the correlation a little too small where spots are few. The walked spots are taken as drawn at random
 * from those that the ratio is claimed for; a walk along the good streets knows nothing of the others.
 *
 * @param spots - two or more, such as `deliveryBySpot` gives; each with 1 to 100 000 frames sent
 * @returns mean and correlation within 1e-8 of the greatest likelihood
 * @throws {@link InputError} `wrong-type`, `missing` (fewer than two spots), `not-a-finite-number` or `out-of-range`
 * @source D. A. Williams, Biometrics 31 (1975) 949 (from memory); sums over counts: D. M. Smith, Algorithm AS 189, Applied Statistics 32
 * (1983) 196 (from memory)
 * @example
 * ```ts
 * import { fitBetaBinomial } from '@finial/survey';
 *
 * const counts = [20, 18, 9, 20, 15, 2, 19, 12];
 * const fit = fitBetaBinomial(counts.map((received) => ({ received, sent: 20 })));
 * fit.meanRatio; // ≈ 0.72
 * fit.correlation; // ≈ 0.4
 * ```
 */
export function fitBetaBinomial(spots: readonly FrameCount[]): BetaBinomialFit {
  const { received, sent, spotCount } = spotSums(checkSpotCounts(spots));
  const ratio = received / sent;
  const coefficients = spots.reduce((sum, spot) => sum + logCoefficient(spot), 0);
  const binomialLogLikelihood =
    coefficients + timesLog(received, ratio) + timesLog(sent - received, 1 - ratio);
  const binomial: BetaBinomialFit = {
    meanRatio: ratio,
    correlation: 0,
    model: 'binomial',
    logLikelihood: binomialLogLikelihood,
    binomialLogLikelihood,
    ...(received === 0 || received === sent
      ? {}
      : { meanLogitStandardError: 1 / Math.sqrt(sent * ratio * (1 - ratio)) }),
    warnings: binomialWarnings(received, sent, spotCount),
  };
  if (binomial.warnings.length > 0) return binomial;
  if (spots.every((spot) => spot.received === 0 || spot.received === spot.sent)) {
    return allOrNothing(spots, binomialLogLikelihood);
  }
  const peak = highestPeak(tallies(spots), ratio);
  const logLikelihood = coefficients + (peak?.likelihood ?? -Infinity);
  // A correlation that gains nothing is noise of the search.
  if (peak === undefined || !isHill(peak) || logLikelihood <= binomialLogLikelihood + 1e-9) return binomial;
  const theta = Math.exp(peak.logTheta);
  const correlation = theta / (1 + theta);
  const { meanMean, thetaTheta } = peak.curvature;
  const determinant = determinantOf(peak);
  return {
    meanRatio: 1 / (1 + Math.exp(-peak.logitMean)),
    correlation,
    model: 'beta-binomial',
    logLikelihood,
    binomialLogLikelihood,
    meanLogitStandardError: Math.sqrt(-thetaTheta / determinant),
    correlationLogitStandardError: Math.sqrt(-meanMean / determinant),
    mostSpotFrames: 1 / correlation,
    warnings: [],
  };
}

function binomialWarnings(received: number, sent: number, spotCount: number): readonly string[] {
  if (received === 0 || received === sent) {
    return [
      `${received === 0 ? 'No' : 'Every'} frame came through: how alike frames of one spot are cannot be seen.`,
    ];
  }
  if (sent === spotCount)
    return ['Every spot has one frame: how alike frames of one spot are cannot be seen.'];
  return [];
}

function allOrNothing(spots: readonly FrameCount[], binomialLogLikelihood: number): BetaBinomialFit {
  const good = spots.filter(({ received }) => received > 0).length;
  const meanRatio = good / spots.length;
  return {
    meanRatio,
    correlation: 1,
    model: 'all-or-nothing',
    logLikelihood: timesLog(good, meanRatio) + timesLog(spots.length - good, 1 - meanRatio),
    binomialLogLikelihood,
    meanLogitStandardError: 1 / Math.sqrt(spots.length * meanRatio * (1 - meanRatio)),
    mostSpotFrames: 1,
    warnings: ['Each spot delivered all its frames or none: a spot is worth one frame.'],
  };
}

/** How many spots have more than j frames received, missed and sent, for each j: all that the likelihood depends on. */
interface Tallies {
  readonly received: Float64Array;
  readonly missed: Float64Array;
  readonly sent: Float64Array;
}

function tallies(spots: readonly FrameCount[]): Tallies {
  const most = spots.reduce((largest, { sent }) => Math.max(largest, sent), 0);
  const above = (countOf: (spot: FrameCount) => number): Float64Array => {
    const tally = new Float64Array(most + 1);
    for (const spot of spots) {
      const last = countOf(spot) - 1;
      if (last >= 0) tally[last] = (tally[last] as number) + 1;
    }
    for (let j = most - 1; j >= 0; j -= 1) tally[j] = (tally[j] as number) + (tally[j + 1] as number);
    return tally;
  };
  return {
    received: above(({ received }) => received),
    missed: above(({ received, sent }) => sent - received),
    sent: above(({ sent }) => sent),
  };
}

/** A place in (logit of the mean, ln θ) with θ = ρ/(1-ρ), which is the logit of the correlation. */
interface Place {
  readonly logitMean: number;
  readonly logTheta: number;
}

interface Hill extends Place {
  readonly likelihood: number;
  readonly slope: { readonly mean: number; readonly theta: number };
  readonly curvature: { readonly meanMean: number; readonly meanTheta: number; readonly thetaTheta: number };
}

/**
 * Likelihood (without coefficients), slope and curvature. In μ and θ the beta functions become products of μ + jθ, 1-μ + jθ and
 * 1 + jθ, which stay smooth down to θ = 0, where the differences of log-gammas would cancel.
 */
function hillAt({ received, missed, sent }: Tallies, { logitMean, logTheta }: Place): Hill {
  const mean = 1 / (1 + Math.exp(-logitMean));
  const rest = 1 / (1 + Math.exp(logitMean));
  const theta = Math.exp(logTheta);
  let likelihood = 0;
  let m = 0;
  let t = 0;
  let mm = 0;
  let mt = 0;
  let tt = 0;
  for (let j = 0; j < sent.length; j += 1) {
    const hits = received[j] as number;
    const misses = missed[j] as number;
    const all = sent[j] as number;
    const one = mean + j * theta;
    const other = rest + j * theta;
    const both = 1 + j * theta;
    likelihood += hits * Math.log(one) + misses * Math.log(other) - all * Math.log(both);
    m += hits / one - misses / other;
    t += j * (hits / one + misses / other - all / both);
    const hitsBent = hits / (one * one);
    const missesBent = misses / (other * other);
    mm -= hitsBent + missesBent;
    mt -= j * (hitsBent - missesBent);
    tt -= j * j * (hitsBent + missesBent - all / (both * both));
  }
  const stretch = mean * rest;
  return {
    logitMean,
    logTheta,
    likelihood,
    slope: { mean: m * stretch, theta: t * theta },
    curvature: {
      meanMean: mm * stretch * stretch + m * stretch * (rest - mean),
      meanTheta: mt * stretch * theta,
      thetaTheta: tt * theta * theta + t * theta,
    },
  };
}

/** The best of climbs from a small, a middling and a large correlation; `undefined` where all slide down to none. */
function highestPeak(counts: Tallies, ratio: number): Hill | undefined {
  const logitMean = Math.log(ratio / (1 - ratio));
  const peaks = [-5, -2, 1].map((logTheta) => climbed(counts, { logitMean, logTheta }));
  return peaks.reduce((best, peak) =>
    peak !== undefined && (best === undefined || peak.likelihood > best.likelihood) ? peak : best,
  );
}

function climbed(counts: Tallies, start: Place): Hill | undefined {
  let here = hillAt(counts, start);
  for (let step = 0; step < 100; step += 1) {
    const move = moveFrom(here);
    if (Math.abs(move.mean) + Math.abs(move.theta) < 1e-11) return here;
    // So near the top the likelihood's own digits end before the slope's: Newton's step is taken on trust.
    const isNearTop = isHill(here) && Math.abs(move.mean) + Math.abs(move.theta) < 1e-5;
    let there = here;
    for (let size = 1; size > 1e-12; size /= 2) {
      there = hillAt(counts, {
        logitMean: here.logitMean + size * move.mean,
        logTheta: here.logTheta + size * move.theta,
      });
      if (isNearTop || there.likelihood > here.likelihood) break;
    }
    if (!isNearTop && !(there.likelihood > here.likelihood)) return here;
    here = there;
    if (here.logTheta < -25) return undefined;
  }
  return here;
}

/** Newton's step where the hill is a hill, else uphill; at most one either way. */
function moveFrom(hill: Hill): { readonly mean: number; readonly theta: number } {
  const { slope, curvature } = hill;
  const { meanMean, meanTheta, thetaTheta } = curvature;
  const determinant = determinantOf(hill);
  const byNewton = isHill(hill);
  const mean = byNewton ? (meanTheta * slope.theta - thetaTheta * slope.mean) / determinant : slope.mean;
  const theta = byNewton ? (meanTheta * slope.mean - meanMean * slope.theta) / determinant : slope.theta;
  const longest = Math.max(Math.abs(mean), Math.abs(theta), 1);
  return { mean: mean / longest, theta: theta / longest };
}

function isHill(hill: Hill): boolean {
  return hill.curvature.meanMean < 0 && determinantOf(hill) > 0;
}

function determinantOf({ curvature: { meanMean, meanTheta, thetaTheta } }: Hill): number {
  return meanMean * thetaTheta - meanTheta * meanTheta;
}

function logCoefficient({ received, sent }: FrameCount): number {
  const fewer = Math.min(received, sent - received);
  let sum = 0;
  for (let j = 1; j <= fewer; j += 1) sum += Math.log((sent - fewer + j) / j);
  return sum;
}

function timesLog(count: number, ratio: number): number {
  return count === 0 ? 0 : count * Math.log(ratio);
}
