/** Threshold of the frames of one spreading factor. */
export interface FrameThreshold {
  /** LoRa spreading factor; absent for frames that tell none. */
  readonly spreadingFactor?: number | undefined;
  /** Least threshold of these frames in dBm. */
  readonly lowestThresholdDbm: number;
  /** Greatest threshold of these frames in dBm. */
  readonly highestThresholdDbm: number;
  /** Received among them. */
  readonly receivedFrames: number;
  /** Missed among them. */
  readonly missedFrames: number;
}

/** What leaving the missed frames out would have cost at one distance. */
export interface Optimism {
  /** Distance in metres. */
  readonly distanceM: number;
  /** Mean level of the fitted law there in dBm. */
  readonly levelDbm: number;
  /** Standard error of that mean in dB, for independent frames. */
  readonly levelStandardErrorDb: number;
  /** Level of the line through the received frames alone, in dBm. */
  readonly leastSquaresLevelDbm: number;
  /** By how much that line lies above the law, in dB. */
  readonly optimismDb: number;
}

/** The law if all thresholds lay elsewhere. */
export interface ThresholdShift {
  /** How much higher the thresholds were taken, in dB. */
  readonly shiftDb: number;
  /** Level at 1 m in dBm. */
  readonly interceptDbm: number;
  /** Path-loss exponent. */
  readonly exponent: number;
  /** Standard deviation about the law in dB. */
  readonly shadowingDb: number;
  /** Mean level at the farthest used frame in dBm. */
  readonly farthestLevelDbm: number;
}

/** Likelihood-ratio intervals. An end that the likelihood does not fix is absent. */
export interface LawIntervals {
  /** Confidence of each interval, 0 to 1, for independent frames. */
  readonly confidence: number;
  /** Lower end of the level at 1 m in dBm. */
  readonly lowerInterceptDbm?: number | undefined;
  /** Upper end of the level at 1 m in dBm. */
  readonly upperInterceptDbm?: number | undefined;
  /** Lower end of the exponent. */
  readonly lowerExponent?: number | undefined;
  /** Upper end of the exponent. */
  readonly upperExponent?: number | undefined;
  /** Lower end of the standard deviation about the law in dB. */
  readonly lowerShadowingDb?: number | undefined;
  /** Upper end of the standard deviation about the law in dB. */
  readonly upperShadowingDb?: number | undefined;
}

/** Whether the spread about the law changes with distance: ln(spread) = g0 + g1 lg(distance / 1 km) against one spread for all. */
export interface SpreadTest {
  /** Twice the gain of the log-likelihood. */
  readonly likelihoodRatio: number;
  /** Probability of a gain as large if the spread were the same everywhere (χ² with one degree of freedom). */
  readonly probability: number;
  /** Spread at the nearest used frame in dB. */
  readonly nearestShadowingDb: number;
  /** Spread at the farthest used frame in dB. */
  readonly farthestShadowingDb: number;
}

/** A second slope, against one slope throughout. */
export interface SecondSlope {
  /** Distance in metres from which it holds. */
  readonly breakpointM: number;
  /** True if that distance was found from the frames. */
  readonly isEstimated: boolean;
  /** Exponent beyond. */
  readonly beyondExponent: number;
  /** Standard error of `beyondExponent`, for independent frames and a known breakpoint. */
  readonly beyondExponentErrorRatio: number;
  /** Twice the gain of the log-likelihood over one slope. */
  readonly likelihoodRatio: number;
  /**
   * Probability of a gain as large with one slope only: χ² with one degree of freedom for a given breakpoint, with two for an estimated
   * one, where it is too small by a factor of some units.
   */
  readonly probability: number;
}

/** A share of the frames that is lost at any level: collisions, a busy gateway. */
export interface ConstantLoss {
  /** The share, 0 to 1. */
  readonly lossRatio: number;
  /** Standard error of the share, for independent frames; absent where the share is 0. */
  readonly standardErrorRatio?: number | undefined;
  /** Twice the gain of the log-likelihood over no such loss. */
  readonly likelihoodRatio: number;
  /** Probability of a gain as large without such a loss (half of χ² with one degree of freedom, since the share cannot be negative). */
  readonly probability: number;
}

/** What a fit with missed frames says beside the law. */
export interface CensoringReport {
  /** Missed frames that the law was fitted to; 0 in a truncated fit. */
  readonly missedFrames: number;
  /** Log-likelihood at its maximum (natural logarithm). */
  readonly logLikelihood: number;
  /** Thresholds by spreading factor. */
  readonly thresholds: readonly FrameThreshold[];
  /** True if the thresholds are the weakest received levels, because none were given. */
  readonly isThresholdEstimated: boolean;
  /** What the line through received frames alone gets wrong, at the stated distances. */
  readonly optimism: readonly Optimism[];
  /** The law with thresholds 3 dB lower and 3 dB higher; a fit that finds no maximum is left out. */
  readonly thresholdShifts: readonly ThresholdShift[];
  /** Intervals, where a confidence was given. */
  readonly intervals?: LawIntervals | undefined;
  /** Whether the spread changes with distance; absent where that fit finds no maximum, and in a truncated fit. */
  readonly spreadTest?: SpreadTest | undefined;
  /** The second slope, where two were asked for. */
  readonly secondSlope?: SecondSlope | undefined;
  /** The constant loss, where it was asked for. */
  readonly constantLoss?: ConstantLoss | undefined;
}
