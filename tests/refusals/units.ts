import type { Calls, Exempt } from './Call.js';

export const calls: Calls = {
  normalQuantile: [0.9],
  amplitudeRatioToDb: [2],
  celsiusToFahrenheit: [20],
  celsiusToKelvin: [20],
  dbdToDbi: [3],
  dbiToDbd: [5.15],
  dbmToWatt: [14],
  dbToAmplitudeRatio: [6],
  dbToRatio: [3],
  degreesToRadians: [180],
  fahrenheitToCelsius: [68],
  feetToMetres: [30],
  fieldStrengthDbuvPerM: [{ eirpDbm: -1.25, distanceM: 3 }],
  kelvinToCelsius: [290],
  metresToFeet: [10],
  metresToMiles: [1500],
  milesPerHourToMetresPerSecond: [60],
  milesToMetres: [2],
  radiansToDegrees: [Math.PI],
  ratioToDb: [2],
  sumPowersDbm: [[-100, -97, -103]],
  wattToDbm: [0.025],
};

const guard = 'a guard itself: its bounds are written into code, and its own tests refuse the values';

export const exempt: Exempt = { checkInteger: guard, checkOneOf: guard, checkRange: guard };
