import type { Position } from '../Observation.js';
import type { CensoringReport } from './CensoringReport.js';
import type { ThresholdDbm } from './frameThresholds.js';

/** How a path-loss law is fitted. */
export interface FitPathLossOptions {
  /** Where the gateway stands. @defaultValue none: each observation brings its `distanceM` */
  readonly gateway?: Position | undefined;
  /** Frames from nearer than this are left out, in metres, 1 to 1e6: there position errors rule. @defaultValue `50` */
  readonly minimumDistanceM?: number | undefined;
  /** Level that is fitted: the signal's own power, or the RSSI as it stands. @defaultValue `'effective'` */
  readonly signal?: 'effective' | 'rssi' | undefined;
  /**
   * What becomes of missed frames. `false`: left out, least squares. `true`: each says that its level lay below the threshold.
   * `'truncated'`: the log holds no missed frames; each received one says that it lay above. @defaultValue `false`
   */
  readonly censored?: boolean | 'truncated' | undefined;
  /**
   * Level below which a frame is missed, in dBm, -250 to 0: one for all, one per spreading factor (`{ 7: -123, 12: -137 }`), or a function
   * of the observation. @defaultValue the weakest received level of each spreading factor, with a warning
   */
  readonly thresholdDbm?: ThresholdDbm | undefined;
  /**
   * Frames are referred to this power at the node's connector, in dBm, -60 to 60, by their `conductedPowerDbm`, which each must then
   * have. @defaultValue none: all frames are taken as sent at one power
   */
  readonly referencePowerDbm?: number | undefined;
  /** 1, or 2 for a second slope beyond a breakpoint. @defaultValue `1` */
  readonly slopeCount?: 1 | 2 | undefined;
  /** Distance of the breakpoint in metres, 1 to 1e6. @defaultValue the one that makes the likelihood greatest */
  readonly breakpointM?: number | undefined;
  /** True fits a share of frames that is lost at any level, such as to collisions. @defaultValue `false` */
  readonly constantLoss?: boolean | undefined;
  /** Confidence of likelihood-ratio intervals, 0.5 to 0.9999. @defaultValue none: no intervals are made */
  readonly confidence?: number | undefined;
  /** Distances in metres at which the error of leaving missed frames out is told. @defaultValue the farthest used frame's */
  readonly statedDistancesM?: readonly number[] | undefined;
}

/** Frames that a fit left out, by reason; each frame is counted once, under the first reason that holds. */
export interface ExcludedFrames {
  /** Nearer than `minimumDistanceM`, received or not. */
  readonly tooNearFrames: number;
  /** Sent and missed; 0 where the fit uses missed frames. */
  readonly missedFrames: number;
  /** Received, but without RSSI, or without SNR where the signal's power was asked for. */
  readonly noSignalFrames: number;
  /** Received, but below the threshold, of which a truncated fit knows nothing; absent in other fits. */
  readonly belowThresholdFrames?: number | undefined;
}

/**
 * The law level = interceptDbm - exponent · 10 lg(distance / 1 m), and how well it holds. Beyond `censoring.secondSlope.breakpointM`,
 * where there is one, the level goes on falling with `beyondExponent`.
 */
export interface PathLossFit {
  /** Level at 1 m in dBm, by extrapolation. */
  readonly interceptDbm: number;
  /** Path-loss exponent, a plain ratio: 2 in free space. */
  readonly exponent: number;
  /** Standard errors of both, for independent frames. */
  readonly standardErrors: {
    /** Standard error of `interceptDbm` in dB. */
    readonly interceptDb: number;
    /** Standard error of `exponent`, a plain ratio. */
    readonly exponent: number;
    /** Standard error of `shadowingDb` in dB; absent in a fit by least squares. */
    readonly shadowingDb?: number | undefined;
  };
  /** The same when frames of one spot go together; absent unless every used frame names its spot and there are two or more. */
  readonly standardErrorsBySpot?:
    | {
        /** Standard error of `interceptDbm` in dB. */
        readonly interceptDb: number;
        /** Standard error of `exponent`, a plain ratio. */
        readonly exponent: number;
        /** Standard error of `shadowingDb` in dB; absent in a fit by least squares. */
        readonly shadowingDb?: number | undefined;
        /** Spots that the frames came from. */
        readonly spotCount: number;
      }
    | undefined;
  /** Standard deviation of the levels about the law in dB: with n - 2 degrees of freedom by least squares, else of greatest likelihood. */
  readonly shadowingDb: number;
  /** Share of the received levels' variance that a line through them explains (R²), 0 to 1. */
  readonly explainedRatio: number;
  /** Level that was fitted. */
  readonly signal: 'effective' | 'rssi';
  /** Frames that came in. */
  readonly frames: number;
  /** Frames that the law was fitted to. */
  readonly usedFrames: number;
  /** Frames that were left out. */
  readonly excluded: ExcludedFrames;
  /** Least distance of a used frame in metres. */
  readonly nearestDistanceM: number;
  /** Greatest distance of a used frame in metres. */
  readonly farthestDistanceM: number;
  /** What a fit with missed frames says beside the law; absent in a fit by least squares. */
  readonly censoring?: CensoringReport | undefined;
  /** What the fit does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}
