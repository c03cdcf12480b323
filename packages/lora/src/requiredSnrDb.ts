import { checkedSpreadingFactor } from './spreadingFactor.js';

/**
 * Signal-to-noise ratio in dB, in the bandwidth of the signal, that a LoRa demodulator needs. Negative: the signal may lie below the noise.
 *
 * It is the datasheets' round figure for a steady signal alone on its channel (2.5 dB per spreading factor). Fading, interference and
 * a frequency offset need more.
 *
 * @param spreadingFactor - a whole number from 5 to 12
 * @returns dB, exact to the datasheets' table
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SX1276/77/78/79 datasheet rev 7, section 4.1.1 and SX1261/2 datasheet rev 1.2, section 6.1.1, spreading-factor tables
 * (SF7 to SF12 as quoted by others; SF5 and SF6 from memory)
 * @example
 * ```ts
 * import { requiredSnrDb } from '@finial/lora';
 *
 * requiredSnrDb(12); // → -20
 * ```
 */
export function requiredSnrDb(spreadingFactor: number): number {
  return 10 - 2.5 * checkedSpreadingFactor(spreadingFactor);
}
