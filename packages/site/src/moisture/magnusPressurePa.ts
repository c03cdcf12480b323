import { checkRange } from '@finial/units';

/** Constants of the Magnus form: pascals, none, degrees C. */
export const magnus = { pressurePa: 611.2, slope: 17.62, offsetC: 243.12 };

/**
 * Pressure of water vapour in balance with liquid water by the Magnus form of the weather services, in pascals. Below 0 degrees C that is water
 * cooled without freezing, as dew points are stated.
 *
 * @param temperatureC - temperature in degrees C, -45 to 60
 * @returns pressure within 0.6 % of {@link saturationPressurePa} from 0 to 60
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source WMO-No. 8, Guide to Instruments and Methods of Observation, annex 4.B
 * @example
 * ```ts
 * import { magnusPressurePa } from '@finial/site';
 *
 * magnusPressurePa(20); // ≈ 2332.6
 * ```
 */
export function magnusPressurePa(temperatureC: number): number {
  checkRange(temperatureC, 'temperatureC', { min: -45, max: 60, unit: 'degrees Celsius' });
  return magnus.pressurePa * Math.exp((magnus.slope * temperatureC) / (magnus.offsetC + temperatureC));
}
