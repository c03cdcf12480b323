import { checkObject, checkRange, InputError } from '@finial/units';
import { checkElevation, checkedFarField, gainFrom } from './farFieldGain.js';
import type { WireSolution } from './WireSolution.js';

/** Gain along a cut, angle by angle. A null reads -150 dBi. */
export interface GainCut {
  /** The angle that runs, in degrees. */
  readonly anglesDeg: readonly number[];
  /** Gain of the whole wave over an isotropic antenna, in dBi. */
  readonly gainsDbi: readonly number[];
  /** The part whose electric field lies in the vertical plane of the direction, in dBi. */
  readonly verticalGainsDbi: readonly number[];
  /** The part whose electric field is horizontal, in dBi. */
  readonly horizontalGainsDbi: readonly number[];
}

/** A cut that stands upright. */
export interface ElevationCut {
  /** Azimuth of the half plane in degrees from the x axis towards the y axis, -360 to 360. */
  readonly azimuthDeg: number;
  /** Degrees from point to point, 0.01 to 90, a whole part of 90; 1 when left out. */
  readonly stepDeg?: number | undefined;
}

/** A cut all around. */
export interface AzimuthCut {
  /** Elevation of the cut in degrees above the horizon, -90 to 90; from 0 over ground. */
  readonly elevationDeg: number;
  /** Degrees from point to point, 0.01 to 90, a whole part of 90; 1 when left out. */
  readonly stepDeg?: number | undefined;
}

const azimuthBounds = { min: -360, max: 360, unit: 'degrees' };

/**
 * Gain of solved wires from straight down (over ground: from the horizon) to straight up, at one azimuth.
 *
 * @returns gains in dBi at the elevations -90 or 0 to 90; -150 in a null
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range` for an angle or a step, `wrong-type` for a solution that is none
 * @source C. A. Balanis, Antenna Theory, chapter 2 (from memory): gain as 4π times radiation intensity over accepted power
 * @example A half-wave dipole at every 45°
 * ```ts
 * import { elevationCut, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.1607 }, radiusM: 0.001 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });
 * const cut = elevationCut(solution, { azimuthDeg: 0, stepDeg: 45 });
 * cut.anglesDeg; // → [-90, -45, 0, 45, 90]
 * cut.gainsDbi.map((gainDbi) => Math.round(gainDbi)); // → [-150, -2, 2, -2, -150]
 * ```
 */
export function elevationCut(solution: WireSolution, cut: ElevationCut): GainCut {
  const field = checkedFarField(solution);
  const { azimuthDeg, stepDeg = 1 } = checkObject(cut, 'cut');
  checkRange(azimuthDeg, 'azimuthDeg', azimuthBounds);
  const quarter = stepsPerQuarter(stepDeg);
  const first = field.images === undefined ? -quarter : 0;
  const anglesDeg = Array.from(
    { length: quarter - first + 1 },
    (_, index) => (90 * (first + index)) / quarter,
  );
  return cutThrough(anglesDeg, (elevationDeg) =>
    gainFrom(field, solution.inputPowerW, elevationDeg, azimuthDeg),
  );
}

/**
 * Gain of solved wires all around, at one elevation.
 *
 * @returns gains in dBi at the azimuths from 0 to just under 360; -150 in a null
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range` for an angle or a step, `wrong-type` for a solution that is none
 * @source C. A. Balanis, Antenna Theory, chapter 2 (from memory): gain as 4π times radiation intensity over accepted power
 * @example A dipole that lies along the x axis has two nulls
 * ```ts
 * import { azimuthCut, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0.1607, yM: 0, zM: 0 }, radiusM: 0.001 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });
 * const cut = azimuthCut(solution, { elevationDeg: 0, stepDeg: 90 });
 * cut.gainsDbi.map((gainDbi) => Math.round(gainDbi)); // → [-150, 2, -150, 2]
 * ```
 */
export function azimuthCut(solution: WireSolution, cut: AzimuthCut): GainCut {
  const field = checkedFarField(solution);
  const { elevationDeg, stepDeg = 1 } = checkObject(cut, 'cut');
  checkElevation(elevationDeg, field);
  const quarter = stepsPerQuarter(stepDeg);
  const anglesDeg = Array.from({ length: 4 * quarter }, (_, index) => (90 * index) / quarter);
  return cutThrough(anglesDeg, (azimuthDeg) =>
    gainFrom(field, solution.inputPowerW, elevationDeg, azimuthDeg),
  );
}

function stepsPerQuarter(stepDeg: number): number {
  checkRange(stepDeg, 'stepDeg', { min: 0.01, max: 90, unit: 'degrees' });
  const steps = Math.round(90 / stepDeg);
  if (Math.abs(steps * stepDeg - 90) <= 1e-6) return steps;
  const expected = 'a whole part of 90 degrees';
  throw new InputError({ code: 'out-of-range', argument: 'stepDeg', received: stepDeg, expected });
}

function cutThrough(
  anglesDeg: readonly number[],
  gainAt: (angleDeg: number) => ReturnType<typeof gainFrom>,
): GainCut {
  const gains = anglesDeg.map(gainAt);
  return {
    anglesDeg,
    gainsDbi: gains.map(({ gainDbi }) => gainDbi),
    verticalGainsDbi: gains.map(({ verticalGainDbi }) => verticalGainDbi),
    horizontalGainsDbi: gains.map(({ horizontalGainDbi }) => horizontalGainDbi),
  };
}
