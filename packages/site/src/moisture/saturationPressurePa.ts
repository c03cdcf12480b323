import { celsiusToKelvin, checkRange } from '@finial/units';

const criticalK = 647.096;
const criticalPa = 22.064e6;

/**
 * Pressure of water vapour in balance with liquid water, in pascals.
 *
 * Pure water without air: moist air holds about 0.4 % more at sea level, which is left out. Below 0.01 degrees C use {@link magnusPressurePa}.
 *
 * @param temperatureC - temperature in degrees C, 0.01 to 373.9
 * @returns pressure within 0.03 %
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source W. Wagner and A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783; IAPWS SR1-86(1992), equation 1; coefficients from memory, checked at 20 to 100 degrees C
 * @example
 * ```ts
 * import { saturationPressurePa } from '@finial/site';
 *
 * saturationPressurePa(20); // ≈ 2339.2
 * ```
 */
export function saturationPressurePa(temperatureC: number): number {
  checkRange(temperatureC, 'temperatureC', { min: 0.01, max: 373.9, unit: 'degrees Celsius' });
  const temperature = celsiusToKelvin(temperatureC);
  const t = 1 - temperature / criticalK;
  const series =
    -7.85951783 * t +
    1.84408259 * t ** 1.5 -
    11.7866497 * t ** 3 +
    22.6807411 * t ** 3.5 -
    15.9618719 * t ** 4 +
    1.80122502 * t ** 7.5;
  return criticalPa * Math.exp((criticalK / temperature) * series);
}
