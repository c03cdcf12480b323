import { checkObject, checkRange } from '@finial/units';
import type { WireSolution } from './WireSolution.js';

const powerBounds = { min: -1e300, max: 1e300, unit: 'watts' };

/**
 * Power that leaves over the power that should: what the sources deliver less what the wires lose. It is 1 for an exact solution
 * and shows how far the fields and the feed impedance agree: beside it, the resistance at the feed and the gain are as far off.
 *
 * It is the average of the gain over all directions (over ground: half of it, over the upper half), with loss taken out.
 *
 * @returns a ratio; within 0.01 of 1 for wires inside the limits of `solveWires`
 * @throws {@link InputError} `wrong-type` for a solution that is none; `not-a-finite-number` or `out-of-range` for its powers
 * @source energy balance; the check has no source beyond that
 * @example A monopole on a perfect ground
 * ```ts
 * import { averageGainRatio, solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.0803 }, radiusM: 0.001 };
 * const source = { wire: 0, positionRatio: 0 };
 * const solution = solveWires([rod], { frequencyHz: 868.1e6, ground: 'perfect', source });
 * averageGainRatio(solution); // ≈ 1.00
 * ```
 */
export function averageGainRatio(solution: WireSolution): number {
  const { inputPowerW, radiatedPowerW, lossPowerW } = checkObject(solution, 'solution');
  checkRange(inputPowerW, 'solution.inputPowerW', powerBounds);
  checkRange(radiatedPowerW, 'solution.radiatedPowerW', powerBounds);
  checkRange(lossPowerW, 'solution.lossPowerW', { ...powerBounds, max: inputPowerW });
  checkRange(inputPowerW - lossPowerW, 'solution.inputPowerW', {
    min: Math.max(1e-300, radiatedPowerW * 1e-6),
    max: 1e300,
    unit: 'watts above the loss',
  });
  return radiatedPowerW / (inputPowerW - lossPowerW);
}
