import { checkObject } from '@finial/units';
import { exactBandwidthHz } from './loraBandwidth.js';
import { isOptimized, type LowDataRateOptimize } from './lowDataRateOptimize.js';
import { processingGainDb } from './processingGainDb.js';
import { checkedSpreadingFactor } from './spreadingFactor.js';

/** What one LoRa symbol depends on. */
export interface SymbolModulation {
  /** Spreading factor, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz, one of {@link loraBandwidthsHz}. */
  readonly bandwidthHz: number;
  /** Low-data-rate optimisation: `auto` unless given, see {@link FrameSettings}. */
  readonly lowDataRateOptimize?: LowDataRateOptimize | undefined;
}

/** One LoRa symbol in figures. */
export interface LoRaSymbol {
  /** Chips of the symbol: 2 to the power of the spreading factor. */
  readonly symbolChips: number;
  /** Chips in a second; as many as the bandwidth has hertz. */
  readonly chipRateHz: number;
  /** Duration of the symbol in seconds. */
  readonly symbolSeconds: number;
  /** Symbols in a second. */
  readonly symbolRateHz: number;
  /** Coded bits that the symbol carries: the spreading factor, less two with optimisation. */
  readonly codedBits: number;
  /** Whether low-data-rate optimisation is on. */
  readonly lowDataRateOptimize: boolean;
  /** Processing gain in dB, see {@link processingGainDb}. */
  readonly processingGainDb: number;
}

/**
 * One LoRa symbol: its chips, duration, rate, bits and processing gain.
 *
 * @returns exact to a rounding
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a field is not what
 * {@link SymbolModulation} says
 * @source SX1276/77/78/79 datasheet rev 7, section 4.1.1 (symbol rate: bandwidth over 2^SF; one chip per second and hertz)
 * @example
 * ```ts
 * import { loraSymbol } from '@finial/lora';
 *
 * const symbol = loraSymbol({ spreadingFactor: 12, bandwidthHz: 125e3 });
 * symbol.symbolChips; // → 4096
 * symbol.symbolSeconds; // ≈ 0.032768
 * symbol.symbolRateHz; // ≈ 30.518
 * symbol.codedBits; // → 10
 * ```
 */
export function loraSymbol(modulation: SymbolModulation): LoRaSymbol {
  checkObject(modulation, 'modulation');
  const spreadingFactor = checkedSpreadingFactor(modulation.spreadingFactor);
  const chipRateHz = exactBandwidthHz(modulation.bandwidthHz);
  const symbolChips = 2 ** spreadingFactor;
  const symbolSeconds = symbolChips / chipRateHz;
  const optimized = isOptimized(modulation.lowDataRateOptimize, spreadingFactor, chipRateHz, symbolSeconds);
  return {
    symbolChips,
    chipRateHz,
    symbolSeconds,
    symbolRateHz: chipRateHz / symbolChips,
    codedBits: optimized ? spreadingFactor - 2 : spreadingFactor,
    lowDataRateOptimize: optimized,
    processingGainDb: processingGainDb(spreadingFactor),
  };
}
