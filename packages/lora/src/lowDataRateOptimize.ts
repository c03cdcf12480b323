import { InputError } from '@finial/units';

/** Low-data-rate optimisation: by the rule, or forced on (`true`) or off (`false`). Both ends must agree. */
export type LowDataRateOptimize = 'auto' | boolean;

/** Symbols strictly longer than this are sent with low-data-rate optimisation; no LoRa symbol lasts exactly as long. */
const longestPlainSymbolSeconds = 0.016;

/** Whether a frame is sent with the optimisation, from the caller's setting and the symbol time. */
export function isOptimized(
  setting: LowDataRateOptimize | undefined,
  spreadingFactor: number,
  symbolSeconds: number,
): boolean {
  if (setting === undefined || setting === 'auto') return symbolSeconds > longestPlainSymbolSeconds;
  if (setting === false || (setting === true && spreadingFactor >= 7)) return setting;
  throw new InputError({
    code: 'unknown-option',
    argument: 'lowDataRateOptimize',
    received: setting,
    expected:
      setting === true
        ? "'auto' or false at SF5 and SF6, which know no optimisation"
        : "'auto', true or false",
  });
}
