import { checkList, checkObject, checkRange } from '@finial/units';
import { maximumGain } from './maximumGain.js';
import { countWithNodes, prepareWires } from './prepareWires.js';
import type { SolveWiresSettings } from './SolveWiresSettings.js';
import { solveWires } from './solveWires.js';
import type { Wire } from './Wire.js';

/** With how many segments to repeat a solution. */
export interface ConvergenceSteps {
  /** Factors on the number of segments of every wire, 0.1 to 10 each; [0.5, 1, 2] when left out. */
  readonly factors?: readonly number[] | undefined;
}

/** One of the solutions, and how far it lies from the last one. */
export interface ConvergenceStep {
  /** Factor on the number of segments. */
  readonly factor: number;
  /** Number of currents that were solved for. */
  readonly unknownsCount: number;
  /** Resistance at the first source, in ohms. */
  readonly resistanceOhm: number;
  /** Reactance at the first source, in ohms. */
  readonly reactanceOhm: number;
  /** Highest gain, in dBi. */
  readonly gainDbi: number;
  /** Resistance less that of the last factor, in ohms. */
  readonly resistanceChangeOhm: number;
  /** Reactance less that of the last factor, in ohms. */
  readonly reactanceChangeOhm: number;
  /** Gain less that of the last factor, in decibels. */
  readonly gainChangeDb: number;
}

/**
 * Solves the same wires with other numbers of segments, and tells how much feed impedance and gain change: what is left over is
 * a measure of the error. Give the finest last. Numbers of segments are rounded, so that a node stays on each source, and a factor
 * that makes segments shorter than the method allows is refused (a thick wire has few to give).
 *
 * @returns one entry per factor, in the order given
 * @throws {@link InputError} `out-of-range` or `not-a-finite-number` for a factor, and whatever `solveWires` refuses
 * @source repetition with finer segments; the usual check of a moment method, without a source
 * @example A dipole of 2 mm wire
 * ```ts
 * import { convergence } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.1607 }, radiusM: 0.001 };
 * const settings = { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } };
 * const steps = convergence([rod], settings, { factors: [0.5, 1, 2] });
 * steps.map(({ unknownsCount }) => unknownsCount); // → [19, 37, 75]
 * steps[1]?.resistanceChangeOhm; // ≈ -0.6
 * ```
 */
export function convergence(
  wires: readonly Wire[],
  settings: SolveWiresSettings,
  steps: ConvergenceSteps = {},
): readonly ConvergenceStep[] {
  const { factors = [0.5, 1, 2] } = checkObject(steps, 'steps');
  for (const [index, factor] of checkList(factors, 'factors').entries()) {
    checkRange(factor, `factors[${index}]`, { min: 0.1, max: 10, unit: 'times the segments' });
  }
  const { wires: counted, sources } = prepareWires(wires, settings);
  const results = factors.map((factor) => {
    const finer = wires.map((wire, index) => ({
      ...wire,
      segments: countWithNodes(
        Math.max(1, Math.round(factor * (counted[index] as (typeof counted)[number]).segments)),
        1,
        sources.filter((source) => source.wire === index),
      ),
    }));
    const solution = solveWires(finer, settings);
    const { resistanceOhm, reactanceOhm } = solution.feed;
    const { unknownsCount } = solution;
    return { factor, unknownsCount, resistanceOhm, reactanceOhm, gainDbi: maximumGain(solution).gainDbi };
  });
  const last = results.at(-1) as (typeof results)[number];
  return results.map((result) => ({
    ...result,
    resistanceChangeOhm: result.resistanceOhm - last.resistanceOhm,
    reactanceChangeOhm: result.reactanceOhm - last.reactanceOhm,
    gainChangeDb: result.gainDbi - last.gainDbi,
  }));
}
