import { refused } from './refused.js';

/** Low-data-rate optimisation: by the rule, or forced on (`true`) or off (`false`). Both ends must agree. */
export type LowDataRateOptimize = 'auto' | boolean;

/** What a caller may say. SF5 and SF6 know no optimisation. */
export const optimizationChoices = "'auto', false, or from SF7 up true";

/**
 * What the rule says about checked numbers: symbols strictly longer than 16 ms (no LoRa symbol lasts exactly as long), and SF11 and
 * SF12 at 2.4 GHz however short they are. The bandwidths of 2.4 GHz are multiples of 203125 Hz, and no others are.
 */
export function ruleOptimizes(spreadingFactor: number, bandwidthHz: number, symbolSeconds: number): boolean {
  return (
    symbolSeconds > 0.016 ||
    ((bandwidthHz > 500e3 || bandwidthHz === 406_250 || bandwidthHz === 203_125) && spreadingFactor > 10)
  );
}

/** Whether a checked modulation is sent with the optimisation, from the caller's setting or by the rule. */
export function isOptimized(
  setting: LowDataRateOptimize | undefined,
  spreadingFactor: number,
  bandwidthHz: number,
  symbolSeconds: number,
): boolean {
  if (setting === undefined || setting === 'auto') {
    return ruleOptimizes(spreadingFactor, bandwidthHz, symbolSeconds);
  }
  if (setting === false || (setting === true && spreadingFactor > 6)) return setting;
  throw refused('lowDataRateOptimize', setting, optimizationChoices, 'unknown-option');
}
