import { checkInteger, checkObject, InputError } from '@finial/units';
import { checkedRegion } from './checkedRegion.js';
import type { ChannelPlan, Region, SecondWindow } from './Region.js';

/** Which channel plan of a region a network uses. */
export interface ChannelPlanChoice {
  /** Regional parameters with several channel plans: `regions.CN470`. */
  readonly region: Region;
  /** Name of the plan: `20 MHz A`, `20 MHz B`, `26 MHz A` or `26 MHz B`. */
  readonly channelPlan: string;
  /** Number of the plan's join channel that the node joined on, from 0; left out for nodes that were activated without joining. */
  readonly joinChannel?: number | undefined;
}

/**
 * The regional parameters on one channel plan: its channels alone, its rule for the first window, and the second window that belongs to the
 * join channel.
 *
 * @returns the region with `channels`, `firstWindow.channel` and `secondWindow` of the plan, and the plan in its name
 * @throws {@link InputError} `unknown-option`: a plan that the region does not have; `out-of-range`, `wrong-type` or `not-a-finite-number`
 * @source RP002 by MAC stack sources, see `citationOf`, group `channels`
 * @example A node that joined on the last join channel of plan 20 MHz A
 * ```ts
 * import { onChannelPlan, regions } from '@finial/lora';
 *
 * const { secondWindow } = onChannelPlan({ region: regions.CN470, channelPlan: '20 MHz A', joinChannel: 7 });
 * secondWindow.frequencyHz; // → 496500000
 * ```
 */
export function onChannelPlan(choice: ChannelPlanChoice): Region {
  checkObject(choice, 'choice');
  const { channelPlans = [], ...region } = checkedRegion(choice.region);
  const plan = channelPlans.find(({ name }) => name === choice.channelPlan);
  if (plan === undefined) {
    const names = channelPlans.map(({ name }) => `'${name}'`).join(' or ');
    throw new InputError({
      code: 'unknown-option',
      argument: 'channelPlan',
      received: choice.channelPlan,
      expected: names === '' ? `none, as ${region.name} has one set of channels` : names,
    });
  }
  return {
    ...region,
    name: `${region.name} ${plan.name}`,
    channels: plan.channels,
    firstWindow: { ...region.firstWindow, channel: plan.firstWindowChannel },
    secondWindow: secondWindowAfter(choice, plan),
  };
}

function secondWindowAfter({ joinChannel }: ChannelPlanChoice, plan: ChannelPlan): SecondWindow {
  if (joinChannel === undefined) return plan.secondWindow;
  const bounds = { min: 0, max: plan.joinChannels.length - 1, unit: 'join channels' };
  const joined = plan.joinChannels[checkInteger(joinChannel, 'joinChannel', bounds)];
  return joined === undefined
    ? plan.secondWindow
    : { ...plan.secondWindow, frequencyHz: joined.secondWindowHz };
}
