import { checkedSpreadingFactor } from './spreadingFactor.js';

/**
 * Processing gain of LoRa in dB: what a receiver gains by gathering one symbol from all its chips, 10 lg of 2^SF.
 *
 * This is bandwidth over symbol rate. Some texts divide the bandwidth by the bit rate instead, so that the figure is lower by 10 lg of
 * the bits per symbol (SF12: 25.3 dB instead of 36.1 dB), or lower still with the coding rate. Neither is the distance to the noise at
 * which a receiver works: for that, see {@link requiredSnrDb}.
 *
 * @param spreadingFactor - a whole number from 5 to 12
 * @returns dB, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Definition (ratio of the bandwidths before and after despreading); chips per symbol from SX1276/77/78/79 datasheet rev 7,
 * section 4.1.1, spreading-factor table
 * @example
 * ```ts
 * import { processingGainDb } from '@finial/lora';
 *
 * processingGainDb(7); // ≈ 21.07
 * processingGainDb(12); // ≈ 36.12
 * ```
 */
export function processingGainDb(spreadingFactor: number): number {
  return 10 * checkedSpreadingFactor(spreadingFactor) * Math.log10(2);
}
