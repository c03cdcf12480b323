import { checkObject, checkOneOf, InputError } from '@finial/units';
import { checkObservations } from './checkObservations.js';
import {
  checkDeliveryOptions,
  type DeliveryOptions,
  type DeliveryRatio,
  ratioOfCount,
} from './deliveryRatio.js';
import { effectiveSignalPowerDbm } from './effectiveSignalPower.js';
import { checkPosition, groundDistanceKernel } from './groundDistance.js';
import type { Observation, Position } from './Observation.js';

/** How frames are put together by spot. */
export interface DeliveryBySpotOptions extends DeliveryOptions {
  /**
   * What makes a spot: the observation's `spot`, or the very same latitude and longitude.
   * @defaultValue `'spot'`
   */
  readonly by?: 'spot' | 'position' | undefined;
  /** Where the gateway stands, for the distance. @defaultValue the mean of the observations' own `distanceM` */
  readonly gateway?: Position | undefined;
}

/** What was received at one spot. */
export interface SpotDelivery extends DeliveryRatio, Position {
  /** Name of the spot; with `by: 'position'` its latitude and longitude, `45.1,4.9`. */
  readonly spot: string;
  /** Distance over ground to the gateway in metres, where it is known. */
  readonly distanceM?: number | undefined;
  /** Mean of the received frames' RSSI in dBm, averaged as levels; absent where none has one. */
  readonly meanRssiDbm?: number | undefined;
  /** Mean of the received frames' SNR in dB, averaged as levels; absent where none has one. */
  readonly meanSnrDb?: number | undefined;
  /** Mean of the received frames' signal power in dBm, averaged as levels; over frames with both RSSI and SNR. */
  readonly meanEffectiveSignalPowerDbm?: number | undefined;
}

/**
 * Delivery ratio, place and mean levels of each spot of a walk.
 *
 * Levels are averaged as they are, in decibels, because shadowing is about normal there; the mean of the powers in watts would be
 * higher. They are means over received frames: at a spot where frames were missed the true mean lies lower.
 *
 * @param observations - at least one; each with a `spot` unless `by` is `'position'`
 * @returns one entry per spot, in the order in which the spots first occur; the place is the mean of the frames' places
 * @throws {@link InputError} `wrong-type`, `missing` (no observation, no spot), `not-a-finite-number`, `out-of-range` or
 * `unknown-option`
 * @source Intervals as in `deliveryRatio`; averaging levels in decibels is common practice, no source
 * @example
 * ```ts
 * import { deliveryBySpot } from '@finial/survey';
 *
 * const frame = { spot: 'bridge', latitudeDeg: 45.75, longitudeDeg: 4.9 };
 * const spots = deliveryBySpot([
 *   { ...frame, received: true, rssiDbm: -110, snrDb: 0 },
 *   { ...frame, received: false },
 * ]);
 * spots.map(({ spot, ratio }) => [spot, ratio]); // → [['bridge', 0.5]]
 * spots[0]?.meanEffectiveSignalPowerDbm; // ≈ -113.01
 * ```
 */
export function deliveryBySpot(
  observations: readonly Observation[],
  options: DeliveryBySpotOptions = {},
): readonly SpotDelivery[] {
  const { interval, confidence } = checkDeliveryOptions(options);
  const { by = 'spot', gateway } = checkObject(options, 'options');
  checkOneOf(by, 'by', ['spot', 'position']);
  if (gateway !== undefined) checkPosition(gateway, 'gateway');
  const spots = new Map<string, Observation[]>();
  checkObservations(observations).forEach((observation, index) => {
    const name = spotName(observation, by, index);
    const frames = spots.get(name);
    if (frames === undefined) spots.set(name, [observation]);
    else frames.push(observation);
  });
  return [...spots].map(([spot, frames]) => {
    const count = { received: frames.filter(({ received }) => received).length, sent: frames.length };
    const position = meanPosition(frames);
    return {
      spot,
      ...position,
      ...known('distanceM', distanceOf(position, frames, gateway)),
      ...ratioOfCount(count, interval, confidence, []),
      ...meanLevels(frames.filter(({ received }) => received)),
    };
  });
}

export function spotName(observation: Observation, by: 'spot' | 'position', index: number): string {
  if (by === 'position') return `${observation.latitudeDeg},${observation.longitudeDeg}`;
  if (observation.spot !== undefined) return observation.spot;
  throw new InputError({
    code: 'missing',
    argument: `observations[${index}].spot`,
    received: undefined,
    expected: "the name of a spot (or by: 'position')",
  });
}

/** Mean place, taken relative to the first frame so that a spot on the 180th meridian stays in one piece. */
function meanPosition(frames: readonly Observation[]): Position {
  const origin = frames[0]?.longitudeDeg ?? 0;
  const east = mean(frames.map(({ longitudeDeg }) => wrapped(longitudeDeg - origin))) ?? 0;
  return {
    latitudeDeg: mean(frames.map(({ latitudeDeg }) => latitudeDeg)) ?? 0,
    longitudeDeg: wrapped(origin + east),
  };
}

function wrapped(longitudeDeg: number): number {
  if (longitudeDeg > 180) return longitudeDeg - 360;
  return longitudeDeg < -180 ? longitudeDeg + 360 : longitudeDeg;
}

function distanceOf(
  position: Position,
  frames: readonly Observation[],
  gateway: Position | undefined,
): number | undefined {
  if (gateway === undefined) return mean(present(frames.map(({ distanceM }) => distanceM)));
  const { latitudeDeg, longitudeDeg } = gateway;
  return groundDistanceKernel(position.latitudeDeg, position.longitudeDeg, latitudeDeg, longitudeDeg);
}

function meanLevels(
  frames: readonly Observation[],
): Pick<SpotDelivery, 'meanRssiDbm' | 'meanSnrDb' | 'meanEffectiveSignalPowerDbm'> {
  const signal = frames.map(({ rssiDbm, snrDb }) =>
    rssiDbm === undefined || snrDb === undefined ? undefined : effectiveSignalPowerDbm({ rssiDbm, snrDb }),
  );
  return {
    ...known('meanRssiDbm', mean(present(frames.map(({ rssiDbm }) => rssiDbm)))),
    ...known('meanSnrDb', mean(present(frames.map(({ snrDb }) => snrDb)))),
    ...known('meanEffectiveSignalPowerDbm', mean(present(signal))),
  };
}

function known<Name extends string>(name: Name, value: number | undefined): { [Key in Name]?: number } {
  return (value === undefined ? {} : { [name]: value }) as { [Key in Name]?: number };
}

function present(values: readonly (number | undefined)[]): number[] {
  return values.filter((value) => value !== undefined);
}

function mean(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
}
