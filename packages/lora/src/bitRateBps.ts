import { checkObject } from '@finial/units';
import { checkedCodingRate } from './codingRate.js';
import { exactBandwidthHz } from './loraBandwidth.js';
import { isOptimized, type LowDataRateOptimize } from './lowDataRateOptimize.js';
import { checkedSpreadingFactor } from './spreadingFactor.js';

/** A LoRa modulation. */
export interface LoRaModulation {
  /** Spreading factor, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz, one of {@link loraBandwidthsHz}. */
  readonly bandwidthHz: number;
  /** Denominator of the coding rate, 5 (4/5) to 8 (4/8). */
  readonly codingRate: number;
  /** Low-data-rate optimisation: `auto` (on for symbols over 16 ms) unless given. */
  readonly lowDataRateOptimize?: LowDataRateOptimize | undefined;
}

/**
 * Rate of the payload bits inside a LoRa frame, in bits per second.
 *
 * Preamble, header and padding of the last block are not in it: use {@link timeOnAir} for durations. The indicative rates that the
 * regional parameters print are this figure rounded, except that they count the optimisation for SF11 and SF12 at 500 kHz,
 * where it is off.
 *
 * @returns bits per second, relative error below 1e-15
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`
 * @source SX1276/77/78/79 datasheet rev 7, section 4.1.1; with optimisation SF - 2 bits per symbol, from the time-on-air formula
 * @example
 * ```ts
 * import { bitRateBps } from '@finial/lora';
 *
 * bitRateBps({ spreadingFactor: 7, bandwidthHz: 125e3, codingRate: 5 }); // ≈ 5468.75
 * ```
 */
export function bitRateBps(modulation: LoRaModulation): number {
  checkObject(modulation, 'modulation');
  const spreadingFactor = checkedSpreadingFactor(modulation.spreadingFactor);
  const bandwidthHz = exactBandwidthHz(modulation.bandwidthHz);
  const codingRate = checkedCodingRate(modulation.codingRate);
  const symbolSeconds = 2 ** spreadingFactor / bandwidthHz;
  const optimized = isOptimized(modulation.lowDataRateOptimize, spreadingFactor, bandwidthHz, symbolSeconds);
  const bitsPerSymbol = optimized ? spreadingFactor - 2 : spreadingFactor;
  return (bitsPerSymbol * 4) / (codingRate * symbolSeconds);
}
