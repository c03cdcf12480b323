import type { FrameCount } from '../deliveryRatio.js';
import { logNormalTail } from '../pathLoss/normalTail.js';
import { chiSquareTail } from './chiSquareTail.js';
import { checkSpotCounts, type SpotSums, spotSums } from './spotCounts.js';

/** How much more spots differ than throws of one coin would. */
export interface Overdispersion {
  /** Spots that came in. */
  readonly spotCount: number;
  /** Frames received at all spots. */
  readonly received: number;
  /** Frames sent at all spots. */
  readonly sent: number;
  /** Received over sent, all spots pooled. */
  readonly pooledRatio: number;
  /** Standard error of the pooled ratio if all frames were independent. */
  readonly binomialStandardErrorRatio: number;
  /** Standard error of the pooled ratio from the differences between spots: cluster-robust, linearised, with m/(m-1). */
  readonly clusterStandardErrorRatio: number;
  /** Spots less one. */
  readonly degreesOfFreedom: number;
  /**
   * Variance of the pooled ratio over that of independent frames. Below 1 by chance only. Absent, as all fields below, where every
   * frame or none came through.
   */
  readonly designEffectRatio?: number | undefined;
  /** Independent frames that would know as much: sent over the design effect. */
  readonly effectiveFrames?: number | undefined;
  /** Pearson's X². */
  readonly pearsonChiSquare?: number | undefined;
  /** X² over its degrees of freedom; about 1 for independent frames. */
  readonly dispersionRatio?: number | undefined;
  /** Chance of so large an X² with independent frames. Rough where spots have few frames. */
  readonly pearsonProbability?: number | undefined;
  /** Tarone's Z: standard normal for independent frames, large where spots differ. Absent where every spot has one frame. */
  readonly taroneZ?: number | undefined;
  /** Chance of so large a Z with independent frames (one-sided). */
  readonly taroneProbability?: number | undefined;
  /** Correlation of frames of one spot by analysis of variance; may be negative. Absent where every spot has one frame. */
  readonly varianceCorrelation?: number | undefined;
  /** What the figures do not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Whether spots differ by more than chance, and how much less the frames of a walk know than their number says.
 *
 * Frames of one spot share its shadowing. Tarone's Z and Pearson's X² test for that; the design effect says what it costs. With fewer
 * than about ten spots the design effect itself is known to a factor of two only.
 *
 * @param spots - two or more, such as `deliveryBySpot` gives; each with 1 to 100 000 frames sent
 * @returns the figures, relative error below 1e-10
 * @throws {@link InputError} `wrong-type`, `missing` (fewer than two spots), `not-a-finite-number` or `out-of-range`
 * @source R. E. Tarone, Biometrika 66 (1979) 585 (from memory); linearised variance of a ratio: W. G. Cochran, Sampling Techniques, 3rd
 * edition (1977), section 6 (from memory); analysis of variance estimate: M. S. Ridout, C. G. B. Demétrio and D. Firth, Biometrics 55
 * (1999) 137 (from memory)
 * @example Two good spots and a bad one
 * ```ts
 * import { overdispersion } from '@finial/survey';
 *
 * const spots = [{ received: 20, sent: 20 }, { received: 18, sent: 20 }, { received: 4, sent: 20 }];
 * const found = overdispersion(spots);
 * found.designEffectRatio; // ≈ 18.1
 * found.effectiveFrames; // ≈ 3.32
 * ```
 */
export function overdispersion(spots: readonly FrameCount[]): Overdispersion {
  const sums = spotSums(checkSpotCounts(spots));
  const { spotCount, received, sent } = sums;
  const ratio = received / sent;
  const binomialVariance = (ratio * (1 - ratio)) / sent;
  let squares = 0;
  for (const spot of spots) squares += (spot.received - spot.sent * ratio) ** 2;
  const clusterVariance = ((spotCount / (spotCount - 1)) * squares) / (sent * sent);
  const designEffectRatio = clusterVariance / binomialVariance;
  return {
    spotCount,
    received,
    sent,
    pooledRatio: ratio,
    binomialStandardErrorRatio: Math.sqrt(binomialVariance),
    clusterStandardErrorRatio: Math.sqrt(clusterVariance),
    degreesOfFreedom: spotCount - 1,
    ...(received === 0 || received === sent
      ? {
          warnings: [
            `${received === 0 ? 'No' : 'Every'} frame came through: how spots differ cannot be seen.`,
          ],
        }
      : {
          ...designFigures(designEffectRatio, sent),
          ...pearsonFigures(spots, ratio),
          ...(sent === spotCount ? {} : correlationFigures(spots, sums)),
          warnings: warningsOf(sums),
        }),
  };
}

function designFigures(
  designEffectRatio: number,
  sent: number,
): Pick<Overdispersion, 'designEffectRatio' | 'effectiveFrames'> {
  // Spots that agree to the last frame have a design effect of 0: no number of frames is equal to that.
  if (designEffectRatio === 0) return { designEffectRatio };
  return { designEffectRatio, effectiveFrames: sent / designEffectRatio };
}

function pearsonFigures(
  spots: readonly FrameCount[],
  ratio: number,
): Pick<Overdispersion, 'pearsonChiSquare' | 'dispersionRatio' | 'pearsonProbability'> {
  let pearsonChiSquare = 0;
  for (const { received, sent } of spots) {
    pearsonChiSquare += (received - sent * ratio) ** 2 / (sent * ratio * (1 - ratio));
  }
  const degreesOfFreedom = spots.length - 1;
  return {
    pearsonChiSquare,
    dispersionRatio: pearsonChiSquare / degreesOfFreedom,
    pearsonProbability: chiSquareTail(pearsonChiSquare, degreesOfFreedom),
  };
}

function correlationFigures(
  spots: readonly FrameCount[],
  { spotCount, sent: frames, received: hits, weightedSpotFrames }: SpotSums,
): Pick<Overdispersion, 'taroneZ' | 'taroneProbability' | 'varianceCorrelation'> {
  const ratio = hits / frames;
  let squares = 0;
  let pairs = 0;
  let between = 0;
  let within = 0;
  for (const { received, sent } of spots) {
    squares += (received - sent * ratio) ** 2;
    pairs += sent * (sent - 1);
    between += (received - sent * ratio) ** 2 / sent;
    within += (received * (sent - received)) / sent;
  }
  const taroneZ = (squares / (ratio * (1 - ratio)) - frames) / Math.sqrt(2 * pairs);
  const meanBetween = between / (spotCount - 1);
  const meanWithin = within / (frames - spotCount);
  const usualFrames = (frames - weightedSpotFrames) / (spotCount - 1);
  const total = meanBetween + (usualFrames - 1) * meanWithin;
  return {
    taroneZ,
    taroneProbability: Math.exp(logNormalTail(-taroneZ)),
    ...(total > 0 ? { varianceCorrelation: (meanBetween - meanWithin) / total } : {}),
  };
}

function warningsOf({ spotCount }: SpotSums): readonly string[] {
  if (spotCount >= 10) return [];
  return [
    `${spotCount} spots say little about how spots differ: the design effect may be off by a factor of two.`,
  ];
}
