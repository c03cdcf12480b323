import { InputError } from '@finial/units';
import type { JoinTrackOptions, SkippedUplink, UplinkSkipReason } from './JoinedWalk.js';
import type { TimedUplink } from './timeline.js';

/** The uplinks of one node at one gateway. */
export function chosenUplinks(
  timed: readonly TimedUplink[],
  { device, gatewayName, dataRate }: JoinTrackOptions,
  skipped: SkippedUplink[],
): readonly TimedUplink[] {
  const ofDataRate = keep(timed, 'dataRate', dataRate, 'other-data-rate', skipped);
  const ofDevice = keep(ofDataRate, 'device', device, 'other-device', skipped);
  const chosen = keep(ofDevice, 'gateway', gatewayName, 'other-gateway', skipped);
  refuseSeveral(chosen, 'device', 'device');
  refuseSeveral(chosen, 'gateway', 'gatewayName');
  if (chosen.length > 0) return chosen;
  const expected = 'at least one uplink of the chosen device, gateway and data rate';
  throw new InputError({ code: 'missing', argument: 'uplinks', received: [], expected });
}

function keep(
  timed: readonly TimedUplink[],
  field: 'dataRate' | 'device' | 'gateway',
  wanted: string | undefined,
  reason: UplinkSkipReason,
  skipped: SkippedUplink[],
): readonly TimedUplink[] {
  if (wanted === undefined) return timed;
  return timed.filter((one) => {
    const isWanted = one.uplink[field] === wanted;
    if (!isWanted) skipped.push(skip(one, reason));
    return isWanted;
  });
}

function refuseSeveral(
  timed: readonly TimedUplink[],
  field: 'device' | 'gateway',
  argument: 'device' | 'gatewayName',
): void {
  const names = [...new Set(timed.map(({ uplink }) => uplink[field] ?? '(none)'))];
  if (names.length < 2) return;
  const expected = `a choice, since the uplinks are of ${names.slice(0, 5).join(', ')}`;
  throw new InputError({ code: 'missing', argument, received: undefined, expected });
}

/** The entry of an uplink that is left out. */
export function skip({ index, uplink: { line } }: TimedUplink, reason: UplinkSkipReason): SkippedUplink {
  return { index, ...(line === undefined ? {} : { line }), reason };
}
