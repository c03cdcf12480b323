import { checkObject, checkRange } from '@finial/units';
import { type SupplyWire, wireNamed } from './wireNamed.js';

/** One conductor of a supply line. */
export interface WireRun {
  /** The wire: `24 AWG`, `1.5 mm2`, or a measured one. */
  readonly wire: SupplyWire;
  /** Length of this conductor in metres, 0.01 to 1000; there and back is twice the length of the line. */
  readonly lengthM: number;
  /**
   * Temperature of the copper in degrees C, -60 to 200. A dark cable in the sun reaches 60 to 70 (common practice, no source).
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
}

export const lineLengthBounds = { min: 0.01, max: 1000, unit: 'metres' };
export const wireTemperatureBounds = { min: -60, max: 200, unit: 'degrees Celsius' };
/** Annealed copper at 20 degrees C: 1/254.5, rounded. */
const copperPerKelvin = 0.00393;

/** How much warmer copper resists more than at 20 degrees C. */
export function copperWarmth(temperatureC: number): number {
  return 1 + copperPerKelvin * (temperatureC - 20);
}

/**
 * Resistance of one copper conductor to direct current, in ohms.
 *
 * Sizes in square millimetres give the greatest resistance that the standard allows (real wire is up to 6 % lower); gauges are
 * computed from the diameter (published tables differ by up to 1.2 %). It is not true for copper-clad aluminium, nor for thin
 * reels that do not hold their size: measure those.
 *
 * @returns resistance in ohms; 6 % (mm2) or 1.2 % (AWG) uncertain, and the temperature law holds within 0.3 % from -40 to 100 degrees C
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source ASTM B258 (gauges); IEC 60228:2004 tables 1 to 4; copper 0.393 % per kelvin at 20 degrees C, NBS Circular 31
 * @example One conductor of a 100 m data cable, cool and hot
 * ```ts
 * import { wireResistanceOhm } from '@finial/site';
 *
 * wireResistanceOhm({ wire: '24 AWG', lengthM: 100 }); // ≈ 8.42
 * wireResistanceOhm({ wire: '24 AWG', lengthM: 100, temperatureC: 60 }); // ≈ 9.75
 * ```
 */
export function wireResistanceOhm(run: WireRun): number {
  checkObject(run, 'run');
  const { temperatureC = 20 } = run;
  const { resistanceOhmPerM } = wireNamed(run.wire, 'wire');
  const lengthM = checkRange(run.lengthM, 'lengthM', lineLengthBounds);
  return (
    resistanceOhmPerM *
    lengthM *
    copperWarmth(checkRange(temperatureC, 'temperatureC', wireTemperatureBounds))
  );
}
