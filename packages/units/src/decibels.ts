import { checkList, checkPositive, checkRange } from './checks.js';

/** Levels whose ratio fits a double with room to spare. */
const decibelRange = { min: -3000, max: 3000 };

/**
 * Power in watts of a level in dBm (decibels over one milliwatt).
 *
 * @param powerDbm - -3000 to 3000, so that the watts fit a double
 * @returns watts, relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a power quantity: 10 lg of the ratio), reference 1 mW by the name dBm
 * @example
 * ```ts
 * import { dbmToWatt } from '@finial/units';
 *
 * dbmToWatt(14); // ≈ 0.02512
 * ```
 */
export function dbmToWatt(powerDbm: number): number {
  return 10 ** ((checkRange(powerDbm, 'powerDbm', { ...decibelRange, unit: 'dBm' }) - 30) / 10);
}

/**
 * Level in dBm of a power in watts.
 *
 * @param powerW - more than 0
 * @returns dBm, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a power quantity: 10 lg of the ratio), reference 1 mW by the name dBm
 * @example
 * ```ts
 * import { wattToDbm } from '@finial/units';
 *
 * wattToDbm(0.025); // ≈ 13.979
 * ```
 */
export function wattToDbm(powerW: number): number {
  return 10 * Math.log10(checkPositive(powerW, 'powerW', 'watts')) + 30;
}

/**
 * Power ratio of a difference in decibels.
 *
 * @param differenceDb - -3000 to 3000, so that the ratio fits a double
 * @returns ratio of two powers, relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a power quantity: 10 lg of the ratio)
 * @example
 * ```ts
 * import { dbToRatio } from '@finial/units';
 *
 * dbToRatio(3); // ≈ 1.995
 * ```
 */
export function dbToRatio(differenceDb: number): number {
  return 10 ** (checkRange(differenceDb, 'differenceDb', { ...decibelRange, unit: 'dB' }) / 10);
}

/**
 * Difference in decibels of a power ratio.
 *
 * @param ratio - ratio of two powers, more than 0
 * @returns dB, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a power quantity: 10 lg of the ratio)
 * @example
 * ```ts
 * import { ratioToDb } from '@finial/units';
 *
 * ratioToDb(2); // ≈ 3.0103
 * ```
 */
export function ratioToDb(ratio: number): number {
  return 10 * Math.log10(checkPositive(ratio, 'ratio', 'as a power ratio'));
}

/**
 * Ratio of two field quantities (voltages, field strengths) of a difference in decibels.
 *
 * @param differenceDb - -3000 to 3000, so that the ratio fits a double
 * @returns ratio of two amplitudes, relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a field quantity: 20 lg of the ratio)
 * @example
 * ```ts
 * import { dbToAmplitudeRatio } from '@finial/units';
 *
 * dbToAmplitudeRatio(-10); // ≈ 0.3162
 * ```
 */
export function dbToAmplitudeRatio(differenceDb: number): number {
  return 10 ** (checkRange(differenceDb, 'differenceDb', { ...decibelRange, unit: 'dB' }) / 20);
}

/**
 * Difference in decibels of a ratio of two field quantities.
 *
 * @param ratio - ratio of two amplitudes, more than 0
 * @returns dB, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (level of a field quantity: 20 lg of the ratio)
 * @example
 * ```ts
 * import { amplitudeRatioToDb } from '@finial/units';
 *
 * amplitudeRatioToDb(2); // ≈ 6.0206
 * ```
 */
export function amplitudeRatioToDb(ratio: number): number {
  return 20 * Math.log10(checkPositive(ratio, 'ratio', 'as an amplitude ratio'));
}

/**
 * Level in dBm of the sum of several powers that are not coherent with each other.
 *
 * Powers add in watts, not in decibels: two equal signals give 3.01 dB more. The sum is taken relative to the strongest
 * level, so that very weak levels neither underflow nor disturb it.
 *
 * @param powersDbm - one level or more, each from -3000 to 3000
 * @returns dBm, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `missing` (no level), `not-a-finite-number` or `out-of-range`
 * @source ISO 80000-3:2006 (levels are logarithms of ratios; the quantities add)
 * @example Two interferers of the same strength
 * ```ts
 * import { sumPowersDbm } from '@finial/units';
 *
 * sumPowersDbm([-100, -100]); // ≈ -96.99
 * ```
 */
export function sumPowersDbm(powersDbm: readonly number[]): number {
  checkList(powersDbm, 'powersDbm');
  // Not forEach, which passes over the holes of a sparse list.
  for (const [index, power] of powersDbm.entries()) {
    checkRange(power, `powersDbm[${index}]`, { ...decibelRange, unit: 'dBm' });
  }
  const strongest = powersDbm.reduce((most, power) => Math.max(most, power));
  const relative = powersDbm.reduce((sum, power) => sum + 10 ** ((power - strongest) / 10), 0);
  return strongest + 10 * Math.log10(relative);
}
