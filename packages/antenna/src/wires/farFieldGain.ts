import { checkList, checkObject, checkOneOf, checkRange } from '@finial/units';
import { type FarField, farField, intensityAt, type RadiationIntensity } from './farField.js';
import type { WireSolution } from './WireSolution.js';

/** A direction, as seen from the antenna. */
export interface FarFieldDirection {
  /** Degrees above the horizon, -90 to 90; from 0 over ground. */
  readonly elevationDeg: number;
  /** Degrees from the x axis towards the y axis, -360 to 360. */
  readonly azimuthDeg: number;
}

/** Gain in one direction. A null reads -150 dBi, which is less than the rounding of the currents. */
export interface FarFieldGain {
  /** Gain over an isotropic antenna of the whole wave, in dBi. */
  readonly gainDbi: number;
  /** The part whose electric field lies in the vertical plane of the direction, in dBi. */
  readonly verticalGainDbi: number;
  /** The part whose electric field is horizontal, in dBi. */
  readonly horizontalGainDbi: number;
}

const nullRatio = 1e-15;

/**
 * Gain of solved wires in one direction, over an isotropic antenna that takes up the same power: loss in the wires counts,
 * mismatch at the feed does not.
 *
 * @returns dBi; -150 in a null
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range` for an angle (over ground none below the horizon),
 *   `wrong-type` for a solution that is none
 * @source C. A. Balanis, Antenna Theory, chapter 2 (from memory): gain as 4π times radiation intensity over accepted power
 * @example A half-wave dipole towards the horizon
 * ```ts
 * import { farFieldGainDbi, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.1607 }, radiusM: 0.001 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });
 * farFieldGainDbi(solution, { elevationDeg: 0, azimuthDeg: 0 }); // ≈ 2.1
 * ```
 */
export function farFieldGainDbi(solution: WireSolution, direction: FarFieldDirection): number {
  return farFieldGain(solution, direction).gainDbi;
}

/**
 * Gain of solved wires in one direction, whole and in its two polarisations. The two add as power, not in decibels.
 *
 * @returns dBi; -150 in a null
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range` for an angle (over ground none below the horizon),
 *   `wrong-type` for a solution that is none
 * @source C. A. Balanis, Antenna Theory, chapter 2 (from memory): gain as 4π times radiation intensity over accepted power
 * @example A horizontal dipole, broadside: nothing of its wave is vertical
 * ```ts
 * import { farFieldGain, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0.1607, yM: 0, zM: 0 }, radiusM: 0.001 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });
 * const broadside = farFieldGain(solution, { elevationDeg: 0, azimuthDeg: 90 });
 * broadside.horizontalGainDbi; // ≈ 2.1
 * broadside.verticalGainDbi; // → -150
 * ```
 */
export function farFieldGain(solution: WireSolution, direction: FarFieldDirection): FarFieldGain {
  const field = checkedFarField(solution);
  const { elevationDeg, azimuthDeg } = checkObject(direction, 'direction');
  checkElevation(elevationDeg, field);
  checkRange(azimuthDeg, 'azimuthDeg', { min: -360, max: 360, unit: 'degrees' });
  return gainFrom(field, solution.inputPowerW, elevationDeg, azimuthDeg);
}

/** The far field of a solution that a caller handed back. */
export function checkedFarField(solution: WireSolution): FarField {
  const { wires, wavelengthM, ground, inputPowerW } = checkObject(solution, 'solution');
  checkRange(wavelengthM, 'solution.wavelengthM', { min: 1e-5, max: 1e3, unit: 'metres' });
  checkRange(inputPowerW, 'solution.inputPowerW', { min: 1e-300, max: 1e300, unit: 'watts' });
  checkOneOf(ground, 'solution.ground', ['free-space', 'perfect']);
  for (const [index, wire] of checkList(wires, 'solution.wires').entries()) {
    const name = `solution.wires[${index}]`;
    checkList(checkObject(wire, name).currentsRealA, `${name}.currentsRealA`);
    checkList(wire.currentsImaginaryA, `${name}.currentsImaginaryA`);
  }
  return farField(solution);
}

/** Refuses an elevation below what the far field has. */
export function checkElevation(elevationDeg: number, { images }: FarField): void {
  const min = images === undefined ? -90 : 0;
  checkRange(elevationDeg, 'elevationDeg', { min, max: 90, unit: 'degrees' });
}

const perDegree = Math.PI / 180;

/** The same without checks, for cuts and searches. */
export function gainFrom(
  field: FarField,
  inputPowerW: number,
  elevationDeg: number,
  azimuthDeg: number,
): FarFieldGain {
  const at: RadiationIntensity = { verticalW: 0, horizontalW: 0 };
  intensityAt(field, elevationDeg * perDegree, azimuthDeg * perDegree, at);
  const dbi = (intensityW: number) =>
    10 * Math.log10(Math.max(nullRatio, (4 * Math.PI * intensityW) / inputPowerW));
  return {
    gainDbi: dbi(at.verticalW + at.horizontalW),
    verticalGainDbi: dbi(at.verticalW),
    horizontalGainDbi: dbi(at.horizontalW),
  };
}
