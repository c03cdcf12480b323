import { checkInteger, checkObject, checkOneOf } from '@finial/units';
import type { ChannelUse } from '../Transmission.js';

/** How many channels take turns, and as what system. */
export interface CheckedChannelUse {
  readonly system: 'hopping' | 'hybrid' | 'single';
  readonly channelCount: number;
}

const named: Readonly<Record<string, CheckedChannelUse>> = {
  'hopping-64': { system: 'hopping', channelCount: 64 },
  'hybrid-8': { system: 'hybrid', channelCount: 8 },
  single: { system: 'single', channelCount: 1 },
};

/** The use of channels if it is one; nothing where nothing was said. */
export function checkedChannelUse(channelUse: ChannelUse | undefined): CheckedChannelUse | undefined {
  if (channelUse === undefined) return undefined;
  if (typeof channelUse !== 'object' || channelUse === null) {
    return named[checkOneOf(channelUse, 'channelUse', ['hopping-64', 'hybrid-8', 'single'])];
  }
  checkObject(channelUse, 'channelUse');
  const system = checkOneOf(channelUse.system, 'channelUse.system', ['hopping', 'hybrid']);
  const bounds = { min: 2, max: 1000, unit: 'channels' };
  return { system, channelCount: checkInteger(channelUse.channelCount, 'channelUse.channelCount', bounds) };
}
