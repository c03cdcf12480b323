import { checkInteger, checkObject, checkRange } from '@finial/units';
import type { ChannelGroup } from './Region.js';
import { frequencyBounds } from './subBandAt.js';

/**
 * Centre frequencies in hertz of a group of channels, in order.
 *
 * @param group - first centre 100 MHz to 3 GHz, step 0 to 1 GHz, up to 1000 channels
 * @returns hertz, exact for the plans' groups
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source LoRaWAN regional parameters: first channel, step and count of each group, see `region.sources.channels`
 * @example The default channels of EU868
 * ```ts
 * import { channelFrequenciesHz, regions } from '@finial/lora';
 *
 * regions.EU868.channels.flatMap((group) => channelFrequenciesHz(group)); // → [868100000, 868300000, 868500000]
 * ```
 */
export function channelFrequenciesHz(group: ChannelGroup): number[] {
  checkObject(group, 'group');
  const firstHz = checkRange(group.firstHz, 'firstHz', frequencyBounds);
  const stepHz = checkRange(group.stepHz, 'stepHz', { min: 0, max: 1e9, unit: 'hertz' });
  const length = checkInteger(group.channelCount, 'channelCount', { min: 0, max: 1000, unit: 'channels' });
  return Array.from({ length }, (_, index) => firstHz + index * stepHz);
}
