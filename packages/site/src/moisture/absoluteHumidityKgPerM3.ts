import { celsiusToKelvin } from '@finial/units';
import { type MoistAir, vapourPressure } from './dewPointC.js';

/** Gas constant over the molar mass of water, J/(kg K). */
const vapourConstant = 461.523;

/**
 * Mass of water in a cubic metre of air, in kilograms. Vapour counts as an ideal gas, which errs by less than 0.2 % to 60 degrees C.
 *
 * @returns mass in kilograms per cubic metre, within 0.8 %
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source ideal-gas law with the molar gas constant 8.314462618 and 18.01527 g/mol (CODATA 2018, IAPWS)
 * @example
 * ```ts
 * import { absoluteHumidityKgPerM3 } from '@finial/site';
 *
 * absoluteHumidityKgPerM3({ temperatureC: 20, relativeHumidityPercent: 100, formula: 'iapws' }); // ≈ 0.01729
 * ```
 */
export function absoluteHumidityKgPerM3(air: MoistAir): number {
  return vapourPressure(air, 'air') / (vapourConstant * celsiusToKelvin(air.temperatureC));
}

/** Water in saturated air at a vapour pressure, for sums inside this package. */
export function vapourDensity(vapourPa: number, temperatureC: number): number {
  return vapourPa / (vapourConstant * celsiusToKelvin(temperatureC));
}
