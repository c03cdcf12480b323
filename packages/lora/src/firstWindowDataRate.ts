import { checkInteger, checkObject, checkOneOf, InputError } from '@finial/units';
import { checkedDataRate, checkedRegion } from './checkedRegion.js';
import type { Region } from './Region.js';

/** An uplink whose answer is awaited. */
export interface AnsweredUplink {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Data rate of the uplink. */
  readonly uplinkDataRate: number;
  /** RX1DROffset that the network set, from 0; the plan says how far it goes (5 in EU868, 3 in US915, 7 in AS923). */
  readonly rx1DrOffset: number;
  /**
   * Whether the dwell time of downlinks is limited (DownlinkDwellTime), in plans that know it; false unless given, as nodes start.
   */
  readonly downlinkDwellLimited?: boolean | undefined;
}

/**
 * Data rate of the first receive window (RX1).
 *
 * @returns index of the downlink data rate, exact to the cited table
 * @throws {@link InputError} `out-of-range`: an uplink data rate without a window, or an offset that the plan does not have;
 * `unknown-option`: a limited dwell time in a plan without that setting; `wrong-type` or `not-a-finite-number`
 * @source LoRaWAN regional parameters, RX1 tables of each plan, see `citationOf`
 * @example
 * ```ts
 * import { firstWindowDataRate, regions } from '@finial/lora';
 *
 * firstWindowDataRate({ region: regions.US915, uplinkDataRate: 0, rx1DrOffset: 0 }); // → 10
 * const slowest = { region: regions.AS923_1, uplinkDataRate: 2, rx1DrOffset: 5 };
 * firstWindowDataRate(slowest); // → 0
 * firstWindowDataRate({ ...slowest, downlinkDwellLimited: true }); // → 2
 * ```
 */
export function firstWindowDataRate(uplink: AnsweredUplink): number {
  checkObject(uplink, 'uplink');
  const region = checkedRegion(uplink.region);
  const uplinkDataRate = checkedDataRate(uplink.uplinkDataRate, 'uplinkDataRate');
  const { downlinkDwellLimited = false } = uplink;
  const table = windowTable(region, downlinkDwellLimited);
  const byOffset = table[uplinkDataRate];
  if (byOffset === undefined) {
    const known = Object.keys(table).join(', ');
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

function windowTable(region: Region, dwellLimited: unknown): Readonly<Record<number, readonly number[]>> {
  const { dataRates, dwellDataRates } = region.firstWindow;
  const options = dwellDataRates === undefined ? [false] : [false, true];
  return checkOneOf(dwellLimited, 'downlinkDwellLimited', options)
    ? (dwellDataRates ?? dataRates)
    : dataRates;
}
