import { InputError } from '@finial/units';
import type { FrameLevels } from './FrameLevels.js';
import type { UsedFrame } from './usableFrames.js';

/** Frames as series, referred to one transmit power where one is given. Without thresholds theirs are NaN and must not be read. */
export function frameLevels(
  used: readonly UsedFrame[],
  thresholdsDbm: Float64Array | undefined,
  referencePowerDbm: number | undefined,
): FrameLevels {
  const raise = used.map((frame) => raiseDb(frame, referencePowerDbm));
  return {
    distanceDb: Float64Array.from(used, ({ distanceM }) => 10 * Math.log10(distanceM)),
    levelDbm: Float64Array.from(used, ({ levelDbm = 0 }, i) => levelDbm + (raise[i] as number)),
    thresholdDbm: Float64Array.from(used, (_, i) => (thresholdsDbm?.[i] ?? NaN) + (raise[i] as number)),
    received: Uint8Array.from(used, ({ levelDbm }) => (levelDbm === undefined ? 0 : 1)),
  };
}

function raiseDb({ observation, index }: UsedFrame, referencePowerDbm: number | undefined): number {
  if (referencePowerDbm === undefined) return 0;
  const { conductedPowerDbm } = observation;
  if (conductedPowerDbm !== undefined) return referencePowerDbm - conductedPowerDbm;
  throw new InputError({
    code: 'missing',
    argument: `observations[${index}].conductedPowerDbm`,
    received: undefined,
    expected: 'the power of the frame in dBm, since referencePowerDbm is given',
  });
}

/** The spot of each frame; `undefined` unless each names one. */
export function spotNames(used: readonly UsedFrame[]): readonly string[] | undefined {
  const names = used.flatMap(({ observation: { spot } }) => (spot === undefined ? [] : [spot]));
  return names.length === used.length ? names : undefined;
}

/** Least and greatest distance of the used frames in metres. */
export function distanceRange(used: readonly UsedFrame[]): {
  readonly nearestDistanceM: number;
  readonly farthestDistanceM: number;
} {
  return {
    nearestDistanceM: used.reduce((least, { distanceM }) => Math.min(least, distanceM), Infinity),
    farthestDistanceM: used.reduce((most, { distanceM }) => Math.max(most, distanceM), 0),
  };
}

/** What holds of any fit to RSSI. */
export function signalWarnings(signal: 'effective' | 'rssi'): string[] {
  return signal === 'rssi'
    ? [
        'RSSI holds signal and noise: on weak frames it stays at the noise floor, which makes the exponent too small.',
      ]
    : [];
}
