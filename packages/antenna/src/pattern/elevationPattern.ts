import { checkObject, checkRange } from '@finial/units';
import { type FarField, intensityAt } from '../wires/farField.js';
import { checkedFarField } from '../wires/farFieldGain.js';
import type { WireSolution } from '../wires/WireSolution.js';
import { checkStep, elevationsOf } from './elevationSteps.js';
import { azimuthBounds, gainDbiOfRatio } from './PatternTable.js';

/** Solved wires, and how to tabulate their gain. */
export interface ElevationPatternQuestion {
  /** Solved wires. */
  readonly solution: WireSolution;
  /**
   * Azimuth of the cut in degrees, -360 to 360.
   *
   * @defaultValue none: the mean of the power all around, which is what an antenna meant to be the same all around has
   */
  readonly azimuthDeg?: number | undefined;
  /**
   * Step in degrees, 0.05 to 10, a divisor of 180.
   *
   * @defaultValue 1
   */
  readonly stepDeg?: number | undefined;
}

/** Gain over all elevations. */
export interface ElevationPattern {
  /** Elevations in degrees: from -90 to 90, over a perfect ground from 0. */
  readonly elevationDeg: Float64Array;
  /** Gain at each in dBi, not below -60. */
  readonly gainDbi: Float64Array;
}

/** Azimuths for the mean: as many as leave no ripple of three to eight equal radials in it. */
const azimuthsOfMean = 24;

/**
 * Gain of solved wires over all elevations, in dBi: a {@link PatternTable} that is the same all around.
 *
 * Loss in the wires counts, mismatch at the feed does not. A null is stated as {@link patternFloorDbi}.
 *
 * @returns angles and gains; the error is that of the solution, for the antennas of this package below 0.15 dB outside nulls
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source C. A. Balanis, Antenna Theory, chapter 2 (from memory): gain as 4π times radiation intensity over accepted power
 * @example A half-wave dipole towards the horizon
 * ```ts
 * import { dipole, elevationPattern, gainTowardsDbi } from '@finial/antenna';
 *
 * const { solution } = dipole({ frequencyHz: 868.1e6, elementDiameterM: 0.002 });
 * const pattern = elevationPattern({ solution, stepDeg: 2 });
 * gainTowardsDbi({ pattern, elevationDeg: 0 }); // ≈ 2.1
 * ```
 */
export function elevationPattern(question: ElevationPatternQuestion): ElevationPattern {
  const { solution, azimuthDeg, stepDeg = 1 } = checkObject(question, 'question');
  const field = checkedFarField(solution);
  if (azimuthDeg !== undefined) checkRange(azimuthDeg, 'azimuthDeg', azimuthBounds);
  const all = elevationsOf(checkStep(stepDeg));
  const elevationDeg = solution.ground === 'perfect' ? all.filter((elevation) => elevation >= 0) : all;
  const azimuths =
    azimuthDeg === undefined
      ? Array.from({ length: azimuthsOfMean }, (_, index) => (360 * index) / azimuthsOfMean)
      : [azimuthDeg];
  const gainDbi = elevationDeg.map((elevation) => {
    const ratios = azimuths.map((azimuth) => gainRatio(field, solution.inputPowerW, elevation, azimuth));
    return gainDbiOfRatio(ratios.reduce((sum, ratio) => sum + ratio, 0) / azimuths.length);
  });
  return { elevationDeg, gainDbi };
}

const perDegree = Math.PI / 180;

/** Gain as a plain ratio, unchecked. */
function gainRatio(field: FarField, inputPowerW: number, elevationDeg: number, azimuthDeg: number): number {
  const at = { verticalW: 0, horizontalW: 0 };
  intensityAt(field, elevationDeg * perDegree, azimuthDeg * perDegree, at);
  return (4 * Math.PI * (at.verticalW + at.horizontalW)) / inputPowerW;
}
