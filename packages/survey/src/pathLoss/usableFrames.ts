import { InputError } from '@finial/units';
import { effectiveSignalPowerDbm } from '../effectiveSignalPower.js';
import { groundDistanceKernel } from '../groundDistance.js';
import type { Observation, Position } from '../Observation.js';

/** Which frames of a walk a fit may use. */
export interface FrameChoice {
  readonly gateway: Position | undefined;
  readonly minimumDistanceM: number;
  readonly signal: 'effective' | 'rssi';
  /** Missed frames are used too. */
  readonly withMissed: boolean;
}

/** A frame that the fit uses. */
export interface UsedFrame {
  readonly observation: Observation;
  /** Place in the caller's list. */
  readonly index: number;
  readonly distanceM: number;
  /** Absent where the frame was missed. */
  readonly levelDbm?: number | undefined;
}

/** Sorts frames into used and left out, each under the first reason that holds. */
export function usableFrames(
  observations: readonly Observation[],
  { gateway, minimumDistanceM, signal, withMissed }: FrameChoice,
): {
  readonly used: readonly UsedFrame[];
  readonly excluded: { tooNearFrames: number; missedFrames: number; noSignalFrames: number };
} {
  const excluded = { tooNearFrames: 0, missedFrames: 0, noSignalFrames: 0 };
  const used: UsedFrame[] = [];
  observations.forEach((observation, index) => {
    const distanceM = distanceOf(observation, gateway, index);
    const levelDbm = levelOf(observation, signal);
    if (distanceM < minimumDistanceM) excluded.tooNearFrames += 1;
    else if (!observation.received) {
      if (withMissed) used.push({ observation, index, distanceM });
      else excluded.missedFrames += 1;
    } else if (levelDbm === undefined) excluded.noSignalFrames += 1;
    else used.push({ observation, index, distanceM, levelDbm });
  });
  return { used, excluded };
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
