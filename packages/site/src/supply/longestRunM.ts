import { checkObject } from '@finial/units';
import { greatestLoopOhm } from './lineState.js';
import { type CheckedNeed, checkedNeed, loopOhmPerM, type SupplyReach, wireOf } from './SupplyLine.js';
import type { SupplyWireRow } from './supplyWireTable.js';

/**
 * Longest line, in metres one way, on which every state of the gateway still has its least voltage.
 *
 * It is 0 where contacts alone take too much, or where the supply's own voltage lies below the least one: then no length works.
 * No margin is in it; at this length the worst state has exactly the least voltage (or, with constant power and a low least
 * voltage, half of the supply's, below which no regulator can be fed).
 *
 * @returns length in metres, 0 or more, as uncertain as the resistance of the wire
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source circuit law, V = Vs - I R (own derivation); resistances as `wireResistanceOhm`
 * @example 5.1 V up a thin pair
 * ```ts
 * import { longestRunM } from '@finial/site';
 *
 * const states = [{ name: 'boot', currentA: 1.2 }];
 * longestRunM({ wire: '24 AWG', supplyV: 5.1, leastLoadV: 4.75, connectorsOhm: 0, states }); // ≈ 1.73
 * ```
 */
export function longestRunM(reach: SupplyReach): number {
  checkObject(reach, 'reach');
  return longestFor(checkedNeed(reach), wireOf(reach));
}

/** The same, of checked values. */
export function longestFor(need: CheckedNeed, wire: SupplyWireRow): number {
  const loopOhm = Math.min(...need.states.map((load) => greatestLoopOhm(load, need))) - need.connectorsOhm;
  return loopOhm <= 0 ? 0 : loopOhm / loopOhmPerM(need, wire);
}
