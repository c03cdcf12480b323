import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { checkObservations } from './checkObservations.js';
import { effectiveSignalPowerDbm } from './effectiveSignalPower.js';
import { checkPosition, groundDistanceKernel } from './groundDistance.js';
import type { Observation, Position } from './Observation.js';
import { straightLine } from './straightLine.js';

/** How a path-loss law is fitted. */
export interface FitPathLossOptions {
  /** Where the gateway stands. @defaultValue none: each observation brings its `distanceM` */
  readonly gateway?: Position | undefined;
  /** Frames from nearer than this are left out, in metres, 1 to 1e6: there position errors rule. @defaultValue `50` */
  readonly minimumDistanceM?: number | undefined;
  /** Level that is fitted: the signal's own power, or the RSSI as it stands. @defaultValue `'effective'` */
  readonly signal?: 'effective' | 'rssi' | undefined;
  /** Missed frames are left out of this fit; only `false` is known. @defaultValue `false` */
  readonly censored?: false | undefined;
}

/** Frames that a fit left out, by reason; each frame is counted once, under the first reason that holds. */
export interface ExcludedFrames {
  /** Nearer than `minimumDistanceM`, received or not. */
  readonly tooNearFrames: number;
  /** Sent and missed. */
  readonly missedFrames: number;
  /** Received, but without RSSI, or without SNR where the signal's power was asked for. */
  readonly noSignalFrames: number;
}

/** The law level = interceptDbm - exponent · 10 lg(distance / 1 m), and how well it holds. */
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
  };
  /** Standard deviation of the levels about the law in dB (n - 2 degrees of freedom). */
  readonly shadowingDb: number;
  /** Share of the levels' variance that distance explains (R²), 0 to 1. */
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
  /** What the fit does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Fits the log-distance law to the levels of a walk: ordinary least squares of the level against 10 lg of the distance.
 *
 * Only received frames have a level. Far out those are the lucky ones, so with missed frames the law comes out flatter and higher
 * than the truth, by 8 to 11 dB at the far end of real rides; the result says how many were missed and warns. Frames of one spot are
 * not independent, so the standard errors are too small where spots have many frames. All frames must go to one gateway, at
 * one transmit power.
 *
 * @param observations - at least three that can be used, at two different distances
 * @returns the law; relative error of its numbers below 1e-9
 * @throws {@link InputError} `wrong-type`, `missing` (no distance, too few frames), `not-a-finite-number`, `out-of-range` or
 * `unknown-option`
 * @source Log-distance law: T. S. Rappaport, Wireless Communications, 2nd edition (2002), section 4.9.1 (from memory); least squares:
 * NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1
 * @example Four frames along a street
 * ```ts
 * import { fitPathLoss } from '@finial/survey';
 *
 * const street = { latitudeDeg: 45.75, longitudeDeg: 4.9, received: true, snrDb: 5 };
 * const law = fitPathLoss([
 *   { ...street, distanceM: 100, rssiDbm: -80 },
 *   { ...street, distanceM: 200, rssiDbm: -92 },
 *   { ...street, distanceM: 400, rssiDbm: -99 },
 *   { ...street, distanceM: 800, rssiDbm: -110 },
 * ]);
 * law.exponent; // ≈ 3.222
 * law.shadowingDb; // ≈ 1.466
 * ```
 */
export function fitPathLoss(
  observations: readonly Observation[],
  options: FitPathLossOptions = {},
): PathLossFit {
  const {
    gateway,
    minimumDistanceM = 50,
    signal = 'effective',
    censored = false,
  } = checkObject(options, 'options');
  if (gateway !== undefined) checkPosition(gateway, 'gateway');
  checkRange(minimumDistanceM, 'minimumDistanceM', { min: 1, max: 1e6, unit: 'metres' });
  checkOneOf(signal, 'signal', ['effective', 'rssi']);
  checkOneOf(censored, 'censored', [false]);
  const { excluded, distancesM, levelsDbm } = usableFrames(
    checkObservations(observations),
    gateway,
    minimumDistanceM,
    signal,
  );
  const nearestDistanceM = distancesM.reduce((least, distance) => Math.min(least, distance), Infinity);
  const farthestDistanceM = distancesM.reduce((most, distance) => Math.max(most, distance), 0);
  if (distancesM.length < 3 || farthestDistanceM === nearestDistanceM) {
    throw tooFewFrames(distancesM.length, minimumDistanceM, excluded);
  }
  const line = straightLine(
    Float64Array.from(distancesM, (distance) => 10 * Math.log10(distance)),
    Float64Array.from(levelsDbm),
  );
  return {
    interceptDbm: line.intercept,
    exponent: -line.slope,
    standardErrors: { interceptDb: line.interceptStandardError, exponent: line.slopeStandardError },
    shadowingDb: line.residualDeviation,
    explainedRatio: line.explainedRatio,
    signal,
    frames: observations.length,
    usedFrames: distancesM.length,
    excluded,
    nearestDistanceM,
    farthestDistanceM,
    warnings: warningsOf(excluded, distancesM.length, signal),
  };
}

interface UsableFrames {
  readonly excluded: ExcludedFrames;
  readonly distancesM: readonly number[];
  readonly levelsDbm: readonly number[];
}

function usableFrames(
  observations: readonly Observation[],
  gateway: Position | undefined,
  minimumDistanceM: number,
  signal: 'effective' | 'rssi',
): UsableFrames {
  const excluded = { tooNearFrames: 0, missedFrames: 0, noSignalFrames: 0 };
  const distancesM: number[] = [];
  const levelsDbm: number[] = [];
  observations.forEach((observation, index) => {
    const distanceM = distanceOf(observation, gateway, index);
    const levelDbm = levelOf(observation, signal);
    if (distanceM < minimumDistanceM) excluded.tooNearFrames += 1;
    else if (!observation.received) excluded.missedFrames += 1;
    else if (levelDbm === undefined) excluded.noSignalFrames += 1;
    else {
      distancesM.push(distanceM);
      levelsDbm.push(levelDbm);
    }
  });
  return { excluded, distancesM, levelsDbm };
}

function distanceOf(observation: Observation, gateway: Position | undefined, index: number): number {
  const { latitudeDeg, longitudeDeg, distanceM } = observation;
  if (gateway !== undefined) {
    return groundDistanceKernel(latitudeDeg, longitudeDeg, gateway.latitudeDeg, gateway.longitudeDeg);
  }
  if (distanceM !== undefined) return distanceM;
  throw new InputError({
    code: 'missing',
    argument: `observations[${index}].distanceM`,
    received: undefined,
    expected: 'a distance in metres (or options.gateway)',
  });
}

function levelOf({ rssiDbm, snrDb }: Observation, signal: 'effective' | 'rssi'): number | undefined {
  if (rssiDbm === undefined || signal === 'rssi') return rssiDbm;
  return snrDb === undefined ? undefined : effectiveSignalPowerDbm({ rssiDbm, snrDb });
}

function tooFewFrames(used: number, minimumDistanceM: number, excluded: ExcludedFrames): InputError {
  const { tooNearFrames, missedFrames, noSignalFrames } = excluded;
  return new InputError({
    code: 'missing',
    argument: 'observations',
    received: used,
    expected:
      `at least 3 received frames with a level at 2 or more distances from ${minimumDistanceM} m on ` +
      `(left out: ${missedFrames} missed, ${tooNearFrames} too near, ${noSignalFrames} without level)`,
  });
}

function warningsOf(excluded: ExcludedFrames, used: number, signal: 'effective' | 'rssi'): string[] {
  const warnings: string[] = [];
  if (excluded.missedFrames > 0) {
    warnings.push(
      `${excluded.missedFrames} of ${excluded.missedFrames + excluded.noSignalFrames + used} frames were missed and left out: ` +
        'the fit is optimistic, most of all at the far end.',
    );
  }
  if (signal === 'rssi') {
    warnings.push(
      'RSSI holds signal and noise: on weak frames it stays at the noise floor, which makes the exponent too small.',
    );
  }
  return warnings;
}
