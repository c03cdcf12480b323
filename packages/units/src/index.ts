export {
  checkFinite,
  checkInteger,
  checkList,
  checkNotNegative,
  checkObject,
  checkOneOf,
  checkPositive,
  checkRange,
  frequencyHints,
  type RangeBounds,
  type ScaleHint,
} from './checks.js';
export {
  celsiusToFahrenheit,
  celsiusToKelvin,
  dbdToDbi,
  dbiToDbd,
  degreesToRadians,
  fahrenheitToCelsius,
  feetToMetres,
  fieldStrengthDbuvPerM,
  kelvinToCelsius,
  metresToFeet,
  metresToMiles,
  milesPerHourToMetresPerSecond,
  milesToMetres,
  radiansToDegrees,
} from './conversions.js';
export {
  amplitudeRatioToDb,
  dbmToWatt,
  dbToAmplitudeRatio,
  dbToRatio,
  ratioToDb,
  sumPowersDbm,
  wattToDbm,
} from './decibels.js';
export type { Finding, Severity } from './Finding.js';
export { InputError, type InputErrorCode, type InputErrorDetail, isInputError } from './InputError.js';
export { normalQuantile } from './normalQuantile.js';
