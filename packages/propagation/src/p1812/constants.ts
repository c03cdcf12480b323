import type { DiffractionConstants } from '../p526/diffractionConstants.js';

// The Recommendation rounds these. Its validation results hold only with them, so they are never replaced by the exact values
// that the other models of this package use.

/** Free-space loss at 1 km and 1 GHz in dB; the exact value is 92.45. */
export const freeSpaceConstantDb = 92.4;

/** By how much the Earth looks larger to a ray while anomalous propagation lasts. */
export const anomalousEarthRadiusFactor = 3;

/** The diffraction formulas for gigahertz and kilometres as this Recommendation prints them, brought to hertz and metres. */
export const diffractionConstants: DiffractionConstants = {
  speedOfLightMPerS: 0.2998e9,
  distanceFactor: 21.88e-4,
  heightFactor: 0.9575e-5,
  admittanceFactor: 0.036e4,
  conductivityFactor: 18e9,
  // 17.456 for kilometres: divided by the root of 1000, to the last digit of a double.
  clearanceFactor: 0.552_007_188_358_992_3,
};
