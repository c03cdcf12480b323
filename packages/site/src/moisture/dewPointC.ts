import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { magnus, magnusPressurePa } from './magnusPressurePa.js';
import { saturationPressurePa } from './saturationPressurePa.js';

/** Air and how damp it is. */
export interface MoistAir {
  /** Temperature in degrees C, -45 to 60; for `iapws` 0.01 to 60. */
  readonly temperatureC: number;
  /** Relative humidity over water in per cent, 1 to 100. */
  readonly relativeHumidityPercent: number;
  /**
   * Which curve of saturation: `magnus`, as weather services do, or `iapws`, exact for water and not for dew points below 0.01 degrees C.
   *
   * @defaultValue `magnus`
   */
  readonly formula?: 'magnus' | 'iapws' | undefined;
}

/**
 * Temperature in degrees C at which air begins to drop its water: any surface colder than this grows wet.
 *
 * Below 0 degrees C it is the dew point over water; frost forms up to 5 K sooner at -45.
 *
 * @returns dew point within 0.05 K of each other's formula; an error of 3 % in the humidity matters more (0.5 K)
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range` or `outside-validity` (`iapws` below 0.01 degrees C, `magnus` below -45)
 * @source WMO-No. 8, annex 4.B (Magnus); Wagner and Pruss 1993 (IAPWS)
 * @example A humid evening
 * ```ts
 * import { dewPointC } from '@finial/site';
 *
 * dewPointC({ temperatureC: 25, relativeHumidityPercent: 60 }); // ≈ 16.69
 * dewPointC({ temperatureC: 25, relativeHumidityPercent: 60, formula: 'iapws' }); // ≈ 16.70
 * ```
 */
export function dewPointC(air: MoistAir): number {
  const vapourPa = vapourPressure(air, 'air');
  if ((air.formula ?? 'magnus') === 'magnus') {
    const logarithm = Math.log(vapourPa / magnus.pressurePa);
    return refuseBelow(-45, (magnus.offsetC * logarithm) / (magnus.slope - logarithm), air);
  }
  if (vapourPa < saturationPressurePa(0.01)) return refuseBelow(0.01, Number.NEGATIVE_INFINITY, air);
  let low = 0.01;
  let high = air.temperatureC;
  for (let round = 0; round < 60; round += 1) {
    const middle = (low + high) / 2;
    if (saturationPressurePa(middle) < vapourPa) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Pressure of the vapour in air, in pascals. */
export function vapourPressure(air: MoistAir, argument: string): number {
  const { temperatureC, relativeHumidityPercent, formula = 'magnus' } = checkObject(air, argument);
  checkOneOf(formula, `${argument}.formula`, ['magnus', 'iapws']);
  const min = formula === 'magnus' ? -45 : 0.01;
  checkRange(temperatureC, `${argument}.temperatureC`, { min, max: 60, unit: 'degrees Celsius' });
  checkRange(relativeHumidityPercent, `${argument}.relativeHumidityPercent`, {
    min: 1,
    max: 100,
    unit: 'per cent',
  });
  const full = formula === 'magnus' ? magnusPressurePa(temperatureC) : saturationPressurePa(temperatureC);
  return (full * relativeHumidityPercent) / 100;
}

function refuseBelow(leastC: number, dewC: number, air: MoistAir): number {
  if (dewC >= leastC) return dewC;
  const expected = `air whose dew point is ${leastC} degrees Celsius or above`;
  throw new InputError({
    code: 'outside-validity',
    argument: 'air.relativeHumidityPercent',
    received: air.relativeHumidityPercent,
    expected,
  });
}
