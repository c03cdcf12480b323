import { checkInteger, checkObject, checkRange } from '@finial/units';
import { checkStep, elevationsOf } from './elevationSteps.js';
import { halfWaveFactor } from './halfWaveDipoleGainDbi.js';
import { elevationBounds, gainDbiOfRatio } from './PatternTable.js';

/** Half-wave elements one above the other, driven with equal currents. */
export interface CollinearArray {
  /** Elements, a whole number, 1 to 32. */
  readonly elements: number;
  /**
   * Distance between the centres of neighbouring elements in wavelengths, 0.5 (they touch) to 2. Beyond about 0.9 a second strong lobe
   * rises.
   */
  readonly spacingWavelengths: number;
  /**
   * Angle in degrees by which the beam is steered below the horizon by phasing, -45 to 45; positive is down.
   *
   * @defaultValue 0
   */
  readonly downtiltDeg?: number | undefined;
}

/** A collinear array, and where to look. */
export interface CollinearDirection extends CollinearArray {
  /** Elevation in degrees above the horizon, -90 to 90. */
  readonly elevationDeg: number;
}

/** A collinear array, and how finely to tabulate it. */
export interface CollinearTable extends CollinearArray {
  /**
   * Step of the table in degrees, 0.05 to 10, a divisor of 180.
   *
   * @defaultValue 0.5
   */
  readonly stepDeg?: number | undefined;
}

/** Gain of a collinear array over all elevations. */
export interface CollinearPattern {
  /** Elevations in degrees from -90 to 90. */
  readonly elevationDeg: Float64Array;
  /** Gain at each in dBi, not below -60. */
  readonly gainDbi: Float64Array;
  /** Directivity in the steered direction divided by the mean over the sphere, in dBi: what an array without loss gains there. */
  readonly steeredGainDbi: number;
}

/**
 * Gain of a collinear array of half-wave elements with equal currents in one direction, in dBi.
 *
 * The coupling between the elements is in it, since the power is integrated over the sphere; losses are not: a long array of coaxial
 * sections loses a decibel or more in its own cable, and its currents are not equal (common practice, no source). Tilt by phasing sends
 * the beam down on all sides; a leaning mast lowers it on one side and lifts it on the other.
 *
 * @returns gain in dBi, not below -60; within 0.1 dB of the moment-method values for two and four elements at their maximum
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Balanis, Antenna Theory, N-element linear array with uniform amplitude and spacing, pattern multiplication (from memory)
 * @example Four elements: at the horizon, and at a node 20° below it
 * ```ts
 * import { collinearGainDbi } from '@finial/antenna';
 *
 * const array = { elements: 4, spacingWavelengths: 0.75 };
 * collinearGainDbi({ ...array, elevationDeg: 0 }); // ≈ 7.9
 * collinearGainDbi({ ...array, elevationDeg: -20 }); // ≈ -23.8
 * ```
 */
export function collinearGainDbi(direction: CollinearDirection): number {
  checkObject(direction, 'direction');
  const array = checkArray(direction);
  const elevationDeg = checkRange(direction.elevationDeg, 'elevationDeg', elevationBounds);
  return gainDbiOfRatio(arrayPower(array, sineOf(elevationDeg)) / meanPower(array));
}

/**
 * Gain of a collinear array of half-wave elements with equal currents, over all elevations, in dBi.
 *
 * The same as {@link collinearGainDbi}, for all directions at once.
 *
 * @returns a {@link PatternTable} that is the same all around, each gain with the error of {@link collinearGainDbi}
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Balanis, Antenna Theory, N-element linear array with uniform amplitude and spacing, pattern multiplication (from memory)
 * @example Eight elements, tilted 2° down
 * ```ts
 * import { collinearPattern } from '@finial/antenna';
 *
 * const pattern = collinearPattern({ elements: 8, spacingWavelengths: 0.8, downtiltDeg: 2 });
 * pattern.steeredGainDbi; // ≈ 11.1
 * pattern.elevationDeg.length; // → 361
 * ```
 */
export function collinearPattern(table: CollinearTable): CollinearPattern {
  checkObject(table, 'table');
  const array = checkArray(table);
  const { stepDeg = 0.5 } = table;
  const elevationDeg = elevationsOf(checkStep(stepDeg));
  const mean = meanPower(array);
  const gainDbi = elevationDeg.map((elevation) =>
    gainDbiOfRatio(arrayPower(array, sineOf(elevation)) / mean),
  );
  return {
    elevationDeg,
    gainDbi,
    steeredGainDbi: gainDbiOfRatio(arrayPower(array, array.steeredSine) / mean),
  };
}

interface Steered {
  readonly elements: number;
  readonly spacingWavelengths: number;
  readonly steeredSine: number;
}

function checkArray({ elements, spacingWavelengths, downtiltDeg = 0 }: CollinearArray): Steered {
  checkInteger(elements, 'elements', { min: 1, max: 32, unit: 'elements' });
  const spacing = { min: 0.5, max: 2, unit: 'wavelengths between centres' };
  checkRange(spacingWavelengths, 'spacingWavelengths', spacing);
  checkRange(downtiltDeg, 'downtiltDeg', { min: -45, max: 45, unit: 'degrees below the horizon' });
  return { elements, spacingWavelengths, steeredSine: -sineOf(downtiltDeg) };
}

/** Power towards an elevation, over that of one element at its horizon times the square of the count. */
function arrayPower({ elements, spacingWavelengths, steeredSine }: Steered, sine: number): number {
  const half = Math.PI * spacingWavelengths * (sine - steeredSine);
  const below = elements * Math.sin(half);
  // At every lobe of full strength numerator and denominator vanish together.
  const array = Math.abs(below) < 1e-9 ? 1 : (Math.sin(elements * half) / below) ** 2;
  return array * halfWaveFactor(sine);
}

/** Mean over the sphere by Simpson's rule over the sine of the elevation, in which equal steps are equal areas. */
function meanPower(array: Steered): number {
  // Enough steps that each lobe of the longest array is crossed in about twenty.
  const steps = 2 * Math.ceil(50 + 20 * array.elements * array.spacingWavelengths);
  let sum = 0;
  for (let index = 1; index < steps; index++) {
    sum += (index % 2 === 0 ? 2 : 4) * arrayPower(array, -1 + (2 * index) / steps);
  }
  // Both ends lie on the axis, where the element radiates nothing.
  return sum / (3 * steps);
}

function sineOf(angleDeg: number): number {
  return Math.sin((angleDeg * Math.PI) / 180);
}
