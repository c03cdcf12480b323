import type { CheckedLoad, CheckedNeed } from './SupplyLine.js';

/** What one state of the load makes of a line. */
export interface SupplyState {
  /** Name of the state, as given. */
  readonly name: string;
  /** Whether any voltage at the load carries it through this resistance; without it the figures below are not there. */
  readonly holds: boolean;
  /** Whether the load has at least its least voltage. */
  readonly works: boolean;
  /** Voltage in volts at the load. */
  readonly loadV?: number | undefined;
  /** Voltage in volts lost on wire and contacts. */
  readonly dropV?: number | undefined;
  /** Voltage in volts above the least one; negative where it browns out. */
  readonly marginV?: number | undefined;
  /** Current in amperes. */
  readonly currentA?: number | undefined;
  /** Power in watts that heats wire and contacts. */
  readonly wirePowerW?: number | undefined;
}

/** Solves one state at a loop resistance. */
export function lineState(load: CheckedLoad, loopOhm: number, need: CheckedNeed): SupplyState {
  const { supplyV, leastLoadV } = need;
  const loadV =
    load.powerW === undefined
      ? supplyV - Number(load.currentA) * loopOhm
      : constantPowerV(load.powerW, loopOhm, supplyV);
  if (loadV === undefined || loadV <= 0) return { name: load.name, holds: false, works: false };
  const currentA = load.powerW === undefined ? Number(load.currentA) : load.powerW / loadV;
  return {
    name: load.name,
    holds: true,
    works: loadV >= leastLoadV,
    loadV,
    dropV: currentA * loopOhm,
    marginV: loadV - leastLoadV,
    currentA,
    wirePowerW: currentA ** 2 * loopOhm,
  };
}

/** The upper root of V² - Vs V + R P = 0; a supply that comes up while the load waits settles there. None where the line is too thin. */
function constantPowerV(powerW: number, loopOhm: number, supplyV: number): number | undefined {
  const discriminant = supplyV ** 2 - 4 * loopOhm * powerW;
  return discriminant < 0 ? undefined : (supplyV + Math.sqrt(discriminant)) / 2;
}

/**
 * Greatest loop resistance in ohms at which a state works; negative where no line does. With constant power the voltage cannot be held
 * below half of the supply's: there more current only warms the line.
 */
export function greatestLoopOhm(load: CheckedLoad, { supplyV, leastLoadV }: CheckedNeed): number {
  if (load.powerW === undefined) return (supplyV - leastLoadV) / Number(load.currentA);
  const loadV = Math.max(leastLoadV, supplyV / 2);
  return (loadV * (supplyV - loadV)) / load.powerW;
}
