import { checkInteger, checkObject, checkRange, InputError } from '@finial/units';
import type { Observation } from '../Observation.js';
import type { FrameThreshold } from './CensoringReport.js';
import type { UsedFrame } from './usableFrames.js';

/** Level below which a frame is missed: one for all, one per spreading factor, or told frame by frame. */
export type ThresholdDbm = number | Readonly<Record<number, number>> | ((observation: Observation) => number);

const levels = { min: -250, max: 0, unit: 'dBm' };

/** Refuses what is no threshold; the answers of a function are checked when they come. */
export function checkThreshold(thresholdDbm: ThresholdDbm | undefined): void {
  if (thresholdDbm === undefined || typeof thresholdDbm === 'function') return;
  if (typeof thresholdDbm !== 'object') {
    checkRange(thresholdDbm, 'thresholdDbm', levels);
    return;
  }
  for (const [factor, level] of Object.entries(checkObject(thresholdDbm, 'thresholdDbm'))) {
    checkInteger(Number(factor), 'spreading factor in thresholdDbm', { min: 5, max: 12, unit: 'steps' });
    checkRange(level, `thresholdDbm[${factor}]`, levels);
  }
}

/** The threshold of each used frame, at the power at which it was sent. */
export function frameThresholds(
  used: readonly UsedFrame[],
  thresholdDbm: ThresholdDbm | undefined,
): Float64Array {
  if (typeof thresholdDbm === 'number') return new Float64Array(used.length).fill(thresholdDbm);
  const weakest = thresholdDbm === undefined ? weakestLevels(used) : undefined;
  return Float64Array.from(used, ({ observation, index }) => {
    if (typeof thresholdDbm === 'function') {
      return checkRange(thresholdDbm(observation), `thresholdDbm of observations[${index}]`, levels);
    }
    const { spreadingFactor } = observation;
    const level =
      weakest === undefined ? thresholdDbm?.[spreadingFactor ?? NaN] : weakest.get(spreadingFactor);
    if (level !== undefined) return level;
    throw noThreshold(spreadingFactor, index, thresholdDbm === undefined);
  });
}

/** Weakest received level of each spreading factor: the estimate that makes the truncated likelihood greatest. */
function weakestLevels(used: readonly UsedFrame[]): Map<number | undefined, number> {
  const weakest = new Map<number | undefined, number>();
  for (const { observation, levelDbm } of used) {
    if (levelDbm === undefined) continue;
    const { spreadingFactor } = observation;
    weakest.set(spreadingFactor, Math.min(levelDbm, weakest.get(spreadingFactor) ?? Infinity));
  }
  return weakest;
}

function noThreshold(spreadingFactor: number | undefined, index: number, isEstimated: boolean): InputError {
  if (!isEstimated && spreadingFactor === undefined) {
    return new InputError({
      code: 'missing',
      argument: `observations[${index}].spreadingFactor`,
      received: undefined,
      expected: 'a spreading factor, by which thresholdDbm tells the threshold',
    });
  }
  const which = spreadingFactor === undefined ? 'no spreading factor' : `spreading factor ${spreadingFactor}`;
  return new InputError({
    code: 'missing',
    argument: 'thresholdDbm',
    received: undefined,
    expected: `a threshold for frames of ${which}${isEstimated ? ', of which none was received' : ''}`,
  });
}

/** One row per spreading factor, in rising order. */
export function thresholdTable(used: readonly UsedFrame[], thresholdsDbm: Float64Array): FrameThreshold[] {
  const rows = new Map<number | undefined, FrameThreshold>();
  used.forEach(({ observation: { spreadingFactor }, levelDbm }, i) => {
    const threshold = thresholdsDbm[i] as number;
    const row = rows.get(spreadingFactor);
    rows.set(spreadingFactor, {
      spreadingFactor,
      lowestThresholdDbm: Math.min(threshold, row?.lowestThresholdDbm ?? Infinity),
      highestThresholdDbm: Math.max(threshold, row?.highestThresholdDbm ?? -Infinity),
      receivedFrames: (row?.receivedFrames ?? 0) + (levelDbm === undefined ? 0 : 1),
      missedFrames: (row?.missedFrames ?? 0) + (levelDbm === undefined ? 1 : 0),
    });
  });
  return [...rows.values()].sort((one, other) => (one.spreadingFactor ?? 0) - (other.spreadingFactor ?? 0));
}
