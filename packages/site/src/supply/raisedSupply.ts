import { lineState } from './lineState.js';
import type { CheckedLoad, CheckedNeed } from './SupplyLine.js';

/** Voltages in which supplies and converters are sold. */
const commonVolts: readonly number[] = [12, 24, 48];
/** What a small step-down converter passes on, and how far its input may sag (common practice, no source). */
const converterEfficiency = 0.85;
const leastShare = 0.9;

/** Lowest common voltage above the present one that the same line carries to a converter at the load. */
export function raisedSupply(need: CheckedNeed, loopOhm: number): number | undefined {
  return commonVolts.find((supplyV) => {
    if (supplyV <= need.supplyV) return false;
    const raised = { ...need, supplyV, leastLoadV: leastShare * supplyV };
    return need.states.every((load) => lineState(behindConverter(load, need), loopOhm, raised).works);
  });
}

/** What a load draws through a converter: at its present supply voltage, which is on the safe side. */
function behindConverter(load: CheckedLoad, { supplyV, leastLoadV }: CheckedNeed): CheckedLoad {
  const loadW = load.powerW ?? Number(load.currentA) * Math.max(supplyV, leastLoadV);
  return { name: load.name, currentA: undefined, powerW: loadW / converterEfficiency };
}
