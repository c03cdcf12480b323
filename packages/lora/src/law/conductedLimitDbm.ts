import { checkObject, checkRange } from '@finial/units';
import { usRules } from './usRules.js';

/** A conducted limit and the antenna behind it. */
export interface AntennaBackOff {
  /** Highest conducted power in dBm with an antenna of 6 dBi or less, -200 to 200. */
  readonly baseConductedPowerDbm: number;
  /** Gain of the antenna in dBi, -200 to 200. */
  readonly antennaGainDbi: number;
}

// Wide: they catch a slip, and a difference that no double holds.
const levels = { min: -200, max: 200 };

/**
 * Highest conducted power in dBm with an antenna of more gain: one decibel less for each decibel above 6 dBi, on 902 to 928 MHz.
 *
 * Feedline loss earns nothing: the text does not say that it may offset gain, and this is the safe reading. The relaxations
 * for fixed links belong to 2.4 and 5.8 GHz.
 *
 * @returns dBm at the transmitter's port, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source 47 CFR 15.247(b)(4), eCFR of 2026-10-01
 * @example A collinear of 8 dBi
 * ```ts
 * import { conductedLimitDbm } from '@finial/lora';
 *
 * conductedLimitDbm({ baseConductedPowerDbm: 30, antennaGainDbi: 8 }); // → 28
 * ```
 */
export function conductedLimitDbm(backOff: AntennaBackOff): number {
  checkObject(backOff, 'backOff');
  const baseDbm = checkRange(backOff.baseConductedPowerDbm, 'baseConductedPowerDbm', {
    ...levels,
    unit: 'dBm',
  });
  const gainDbi = checkRange(backOff.antennaGainDbi, 'antennaGainDbi', { ...levels, unit: 'dBi' });
  return baseDbm - Math.max(0, gainDbi - usRules.freeAntennaGainDbi);
}
