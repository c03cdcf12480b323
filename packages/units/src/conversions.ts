import { checkFinite, checkNotNegative, checkObject, checkRange } from './checks.js';

/** Sizes whose conversion cannot overflow a double. */
const anySize = { min: -1e300, max: 1e300 };
const metresPerFoot = 0.3048;
const metresPerMile = 1609.344;
const zeroCelsiusK = 273.15;

/**
 * Metres of a length in international feet.
 *
 * @param lengthFt - up to 1e300 either way
 * @returns metres, exact to a rounding (1 ft is 0.3048 m by definition)
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (international foot)
 * @example
 * ```ts
 * import { feetToMetres } from '@finial/units';
 *
 * feetToMetres(100); // ≈ 30.48
 * ```
 */
export function feetToMetres(lengthFt: number): number {
  return checkRange(lengthFt, 'lengthFt', { ...anySize, unit: 'feet' }) * metresPerFoot;
}

/**
 * International feet of a length in metres.
 *
 * @param lengthM - up to 1e300 either way
 * @returns feet, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (international foot)
 * @example
 * ```ts
 * import { metresToFeet } from '@finial/units';
 *
 * metresToFeet(10); // ≈ 32.808
 * ```
 */
export function metresToFeet(lengthM: number): number {
  return checkRange(lengthM, 'lengthM', { ...anySize, unit: 'metres' }) / metresPerFoot;
}

/**
 * Metres of a distance in international miles.
 *
 * @param distanceMi - up to 1e300 either way
 * @returns metres, exact to a rounding (1 mi is 1609.344 m by definition)
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (mile)
 * @example
 * ```ts
 * import { milesToMetres } from '@finial/units';
 *
 * milesToMetres(2); // ≈ 3218.688
 * ```
 */
export function milesToMetres(distanceMi: number): number {
  return checkRange(distanceMi, 'distanceMi', { ...anySize, unit: 'miles' }) * metresPerMile;
}

/**
 * International miles of a distance in metres.
 *
 * @param distanceM - up to 1e300 either way
 * @returns miles, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (mile)
 * @example
 * ```ts
 * import { metresToMiles } from '@finial/units';
 *
 * metresToMiles(10_000); // ≈ 6.2137
 * ```
 */
export function metresToMiles(distanceM: number): number {
  return checkRange(distanceM, 'distanceM', { ...anySize, unit: 'metres' }) / metresPerMile;
}

/**
 * Thermodynamic temperature in kelvin of a temperature in degrees Celsius.
 *
 * @param temperatureC - -273.15 or more
 * @returns kelvin, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SI Brochure, 9th edition (2019), section 2.3.1 (t/°C = T/K − 273.15)
 * @example
 * ```ts
 * import { celsiusToKelvin } from '@finial/units';
 *
 * celsiusToKelvin(16.85); // ≈ 290
 * ```
 */
export function celsiusToKelvin(temperatureC: number): number {
  return (
    checkRange(temperatureC, 'temperatureC', {
      min: -zeroCelsiusK,
      max: 1e300,
      unit: 'degrees Celsius',
    }) + zeroCelsiusK
  );
}

/**
 * Temperature in degrees Celsius of a thermodynamic temperature in kelvin.
 *
 * @param temperatureK - 0 or more
 * @returns degrees Celsius, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SI Brochure, 9th edition (2019), section 2.3.1 (t/°C = T/K − 273.15)
 * @example
 * ```ts
 * import { kelvinToCelsius } from '@finial/units';
 *
 * kelvinToCelsius(290); // ≈ 16.85
 * ```
 */
export function kelvinToCelsius(temperatureK: number): number {
  return checkNotNegative(temperatureK, 'temperatureK', 'kelvin') - zeroCelsiusK;
}

/**
 * Temperature in degrees Celsius of a temperature in degrees Fahrenheit.
 *
 * @param temperatureF - -459.67 or more
 * @returns degrees Celsius, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (temperature)
 * @example
 * ```ts
 * import { fahrenheitToCelsius } from '@finial/units';
 *
 * fahrenheitToCelsius(104); // ≈ 40
 * ```
 */
export function fahrenheitToCelsius(temperatureF: number): number {
  const bounds = { min: -459.67, max: 1e300, unit: 'degrees Fahrenheit' };
  return (checkRange(temperatureF, 'temperatureF', bounds) - 32) / 1.8;
}

/**
 * Temperature in degrees Fahrenheit of a temperature in degrees Celsius.
 *
 * @param temperatureC - -273.15 or more
 * @returns degrees Fahrenheit, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (temperature)
 * @example
 * ```ts
 * import { celsiusToFahrenheit } from '@finial/units';
 *
 * celsiusToFahrenheit(40); // ≈ 104
 * ```
 */
export function celsiusToFahrenheit(temperatureC: number): number {
  const bounds = { min: -zeroCelsiusK, max: 1e300, unit: 'degrees Celsius' };
  return checkRange(temperatureC, 'temperatureC', bounds) * 1.8 + 32;
}

/**
 * Radians of an angle in degrees.
 *
 * @param angleDeg - up to 1e300 either way; not wrapped
 * @returns radians, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SI Brochure, 9th edition (2019), table 8 (1° = π/180 rad)
 * @example
 * ```ts
 * import { degreesToRadians } from '@finial/units';
 *
 * degreesToRadians(180); // ≈ 3.14159
 * ```
 */
export function degreesToRadians(angleDeg: number): number {
  return checkRange(angleDeg, 'angleDeg', { ...anySize, unit: 'degrees' }) * (Math.PI / 180);
}

/**
 * Degrees of an angle in radians.
 *
 * @param angleRad - up to 1e300 either way; not wrapped
 * @returns degrees, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source SI Brochure, 9th edition (2019), table 8 (1° = π/180 rad)
 * @example
 * ```ts
 * import { radiansToDegrees } from '@finial/units';
 *
 * radiansToDegrees(Math.PI / 2); // ≈ 90
 * ```
 */
export function radiansToDegrees(angleRad: number): number {
  return checkRange(angleRad, 'angleRad', { ...anySize, unit: 'radians' }) * (180 / Math.PI);
}

/**
 * Metres per second of a speed in miles per hour.
 *
 * @param speedMph - 0 or more
 * @returns metres per second, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source NIST Special Publication 811, 2008 edition, appendix B.8 (mile per hour, 0.44704)
 * @example
 * ```ts
 * import { milesPerHourToMetresPerSecond } from '@finial/units';
 *
 * milesPerHourToMetresPerSecond(90); // ≈ 40.2336
 * ```
 */
export function milesPerHourToMetresPerSecond(speedMph: number): number {
  return checkNotNegative(speedMph, 'speedMph', 'miles per hour') * 0.44704;
}

/**
 * Gain over an isotropic antenna of a gain over a half-wave dipole.
 *
 * @param gainDbd - any finite gain
 * @returns dBi: the gain plus 2.15 dB, the rounded figure that regulations use (10 lg 1.64 is 2.148)
 * @throws {@link InputError} `not-a-finite-number`
 * @source Recommendation ITU-R BS.561-2, section 1 (e.i.r.p. and e.r.p. differ by 2.15 dB)
 * @example
 * ```ts
 * import { dbdToDbi } from '@finial/units';
 *
 * dbdToDbi(3); // ≈ 5.15
 * ```
 */
export function dbdToDbi(gainDbd: number): number {
  return checkFinite(gainDbd, 'gainDbd', 'dBd') + 2.15;
}

/**
 * Gain over a half-wave dipole of a gain over an isotropic antenna.
 *
 * @param gainDbi - any finite gain
 * @returns dBd: the gain less 2.15 dB
 * @throws {@link InputError} `not-a-finite-number`
 * @source Recommendation ITU-R BS.561-2, section 1 (e.i.r.p. and e.r.p. differ by 2.15 dB)
 * @example
 * ```ts
 * import { dbiToDbd } from '@finial/units';
 *
 * dbiToDbd(2.15); // ≈ 0
 * ```
 */
export function dbiToDbd(gainDbi: number): number {
  return checkFinite(gainDbi, 'gainDbi', 'dBi') - 2.15;
}

/**
 * Field strength in dB over one microvolt per metre that an isotropic radiator makes in free space.
 *
 * Regulations state some limits as field strength at a distance; this is the way there.
 *
 * @returns dBµV/m, error below 1e-10 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Free-space field E = √(30 P)/d; ANSI C63.10-2013 clause 11.12.2.2 (e) states E = EIRP − 20 lg d + 104.77 (from memory)
 * @example The unlicensed 50 mV/m at 3 m of 47 CFR 15.249
 * ```ts
 * import { fieldStrengthDbuvPerM } from '@finial/units';
 *
 * fieldStrengthDbuvPerM({ eirpDbm: -1.25, distanceM: 3 }); // ≈ 94
 * ```
 */
export function fieldStrengthDbuvPerM(source: {
  /** Equivalent isotropically radiated power in dBm. */
  readonly eirpDbm: number;
  /** Distance in metres, 0.001 to 1e9. */
  readonly distanceM: number;
}): number {
  checkObject(source, 'source');
  const eirpDbm = checkFinite(source.eirpDbm, 'eirpDbm', 'dBm');
  const distanceM = checkRange(source.distanceM, 'distanceM', { min: 1e-3, max: 1e9, unit: 'metres' });
  return eirpDbm - 30 + 10 * Math.log10(30) - 20 * Math.log10(distanceM) + 120;
}
