import { electricalSize, type FarField } from './farField.js';
import { checkedFarField, gainFrom } from './farFieldGain.js';
import type { WireSolution } from './WireSolution.js';

/** The strongest direction of an antenna. */
export interface MaximumGain {
  /** Gain there over an isotropic antenna, in dBi. */
  readonly gainDbi: number;
  /** Degrees above the horizon, -90 to 90. */
  readonly elevationDeg: number;
  /** Degrees from the x axis towards the y axis, 0 to 360. */
  readonly azimuthDeg: number;
}

/**
 * The direction of highest gain. Of directions that are equally good, the one nearest the horizon is given, then the one nearest
 * to azimuth 0; so a dipole that stands upright gives elevation 0 and azimuth 0.
 *
 * @returns gain within 0.001 dB, angles within 0.1° unless the pattern is flat there
 * @throws {@link InputError} `wrong-type` or another code for a solution that is none
 * @source a search over a grid finer than the lobes, then ever smaller steps
 * @example A rod of 5/8 of a wave over a perfect ground
 * ```ts
 * import { maximumGain, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.2158 }, radiusM: 0.001 };
 * const source = { wire: 0, positionRatio: 0 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, ground: 'perfect', source });
 * maximumGain(solution).gainDbi; // ≈ 7.9
 * maximumGain(solution).elevationDeg; // → 0
 * ```
 */
export function maximumGain(solution: WireSolution): MaximumGain {
  const field = checkedFarField(solution);
  const gainAt = (elevationDeg: number, azimuthDeg: number): MaximumGain => ({
    gainDbi: gainFrom(field, solution.inputPowerW, elevationDeg, azimuthDeg).gainDbi,
    elevationDeg,
    azimuthDeg,
  });
  const stepDeg = gridStepDeg(field);
  const lowestDeg = field.images === undefined ? -90 : 0;
  let best = gainAt(0, 0);
  // From the horizon outwards, so that the first of equals is the one to give.
  for (let away = 0; away <= 90; away += stepDeg) {
    for (const elevationDeg of away === 0 || lowestDeg === 0 ? [away] : [away, -away]) {
      for (let azimuthDeg = 0; azimuthDeg < 360; azimuthDeg += stepDeg) {
        best = better(best, gainAt(elevationDeg, azimuthDeg));
      }
    }
  }
  return climbed(best, stepDeg, lowestDeg, gainAt);
}

/** Lobes of an antenna of this size are wider than 180°/size; a whole part of 90° and at most 5°. */
function gridStepDeg(field: FarField): number {
  return 90 / Math.max(18, Math.ceil(2 * electricalSize(field).radius));
}

const sameDb = 1e-6;

function better(best: MaximumGain, next: MaximumGain): MaximumGain {
  return next.gainDbi > best.gainDbi + sameDb ? next : best;
}

/** Goes up from a point of the grid in ever smaller steps. */
function climbed(
  start: MaximumGain,
  stepDeg: number,
  lowestDeg: number,
  gainAt: (elevationDeg: number, azimuthDeg: number) => MaximumGain,
): MaximumGain {
  let best = start;
  for (let step = stepDeg / 2; step > 0.01; ) {
    const { elevationDeg, azimuthDeg } = best;
    const up = gainAt(Math.min(90, elevationDeg + step), azimuthDeg);
    const down = gainAt(Math.max(lowestDeg, elevationDeg - step), azimuthDeg);
    const left = gainAt(elevationDeg, (azimuthDeg + step) % 360);
    const right = gainAt(elevationDeg, (azimuthDeg - step + 360) % 360);
    const next = [up, down, left, right].reduce(better, best);
    if (next === best) step /= 2;
    best = next;
  }
  return best;
}
