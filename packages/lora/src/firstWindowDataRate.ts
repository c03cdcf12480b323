import { checkInteger, checkObject, InputError } from '@finial/units';
import { checkedDataRate, checkedRegion } from './checkedRegion.js';
import type { Region } from './Region.js';

/** An uplink whose answer is awaited. */
export interface AnsweredUplink {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Data rate of the uplink. */
  readonly uplinkDataRate: number;
  /** RX1DROffset that the network set, from 0; the plan says how far it goes (5 in EU868, 3 in US915). */
  readonly rx1DrOffset: number;
}

/**
 * Data rate of the first receive window (RX1).
 *
 * @returns index of the downlink data rate, exact to the cited table
 * @throws {@link InputError} `out-of-range`: an uplink data rate without a window, or an offset that the plan does not have;
 * `wrong-type` or `not-a-finite-number`
 * @source LoRaWAN regional parameters, RX1 tables of each plan, see `region.sources.firstWindow`
 * @example
 * ```ts
 * import { firstWindowDataRate, regions } from '@finial/lora';
 *
 * firstWindowDataRate({ region: regions.US915, uplinkDataRate: 0, rx1DrOffset: 0 }); // → 10
 * ```
 */
export function firstWindowDataRate(uplink: AnsweredUplink): number {
  checkObject(uplink, 'uplink');
  const region = checkedRegion(uplink.region);
  const uplinkDataRate = checkedDataRate(uplink.uplinkDataRate, 'uplinkDataRate');
  const byOffset = region.firstWindow.dataRates[uplinkDataRate];
  if (byOffset === undefined) {
    const known = Object.keys(region.firstWindow.dataRates).join(', ');
    throw new InputError({
      code: 'out-of-range',
      argument: 'uplinkDataRate',
      received: uplinkDataRate,
      expected: `an uplink data rate of ${region.name} (${known})`,
    });
  }
  const bounds = { min: 0, max: byOffset.length - 1, unit: 'data-rate steps' };
  return byOffset[checkInteger(uplink.rx1DrOffset, 'rx1DrOffset', bounds)] as number;
}
