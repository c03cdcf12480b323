import { checkNotNegative, checkObject, checkPositive, checkRange, type InputError } from '@finial/units';
import { refused } from './refused.js';

/** A time with a current. */
export interface CurrentPhase {
  /** What it is, in words; a word for its place unless given. */
  readonly name?: string | undefined;
  /** How long it lasts in seconds, 0 to 1e9. */
  readonly durationSeconds: number;
  /** Current from the supply in amperes, 0 to 100. */
  readonly currentA: number;
}

/** A node that sends a frame. Currents are those of the whole node, seen from its supply. */
export interface NodeCycle {
  /** Time on air of the frame in seconds, above 0 to 3600. */
  readonly timeOnAirSeconds: number;
  /** Current while it transmits in amperes, above 0 to 100. */
  readonly transmitCurrentA: number;
  /** The receive windows as long as they are open: a few symbols where nothing comes, a whole frame where something does. None unless given. */
  readonly receiveWindows?: readonly CurrentPhase[] | undefined;
  /** Whatever else goes with a frame: waking up, measuring, computing. None unless given. */
  readonly otherPhases?: readonly CurrentPhase[] | undefined;
  /** Supply voltage in volts, above 0 to 1000. */
  readonly supplyV: number;
  /** Current of the node asleep in amperes, 0 to 100; to be given with `intervalSeconds`. */
  readonly sleepCurrentA?: number | undefined;
  /** Interval between the starts of frames in seconds, up to 1e9 and not shorter than all phases together; with `sleepCurrentA`. */
  readonly intervalSeconds?: number | undefined;
}

/** One line of a node's account. */
export interface EnergyItem {
  /** What it is, in words. */
  readonly name: string;
  /** How long it lasts in seconds. */
  readonly durationSeconds: number;
  /** Current in amperes. */
  readonly currentA: number;
  /** Charge in coulombs. */
  readonly chargeCoulombs: number;
  /** Energy from the supply in joules. */
  readonly energyJ: number;
}

/** What a frame costs. */
export interface FrameEnergy {
  /** Line by line; the sleep until the next frame comes last, if an interval was given. */
  readonly items: readonly EnergyItem[];
  /** How long the node is awake for a frame in seconds. */
  readonly activeSeconds: number;
  /** Charge of a frame in coulombs, without the sleep. */
  readonly chargeCoulombs: number;
  /** Energy of a frame in joules, without the sleep. */
  readonly energyJ: number;
  /** Mean current in amperes at the interval, sleep included; undefined without an interval. */
  readonly averageCurrentA: number | undefined;
}

const longestSeconds = 1e9;
const currents = { min: 0, max: 100, unit: 'amperes', hints: [{ name: 'milliamperes', ratio: 1e-3 }] };

/**
 * Charge and energy that a node takes from its supply for one frame, phase by phase, and its mean current at an interval.
 *
 * The currents are the caller's: of the whole node, at its supply. `radioCurrents` has those of some radio chips alone; a
 * module with an amplifier, a regulator or a sensor takes more. Constant currents are assumed, without peaks; a switching regulator takes less
 * current from a higher voltage, so state the current where it was measured.
 *
 * @returns the account, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`; `missing`: one of interval and sleep current without
 * the other
 * @source Charge is current times time, energy is charge times voltage
 * @example SF7 with 11 bytes at 29 mA, two receive windows, every ten minutes
 * ```ts
 * import { energyPerFrame } from '@finial/lora';
 *
 * const cost = energyPerFrame({
 *   timeOnAirSeconds: 0.061696, transmitCurrentA: 0.029,
 *   receiveWindows: [{ durationSeconds: 0.03, currentA: 0.0108 }, { durationSeconds: 0.2, currentA: 0.0108 }],
 *   sleepCurrentA: 5e-6, intervalSeconds: 600, supplyV: 3.3,
 * });
 * cost.chargeCoulombs; // ≈ 0.00427318
 * cost.energyJ; // ≈ 0.0141015
 * cost.averageCurrentA; // ≈ 0.00001211954
 * ```
 */
export function energyPerFrame(cycle: NodeCycle): FrameEnergy {
  checkObject(cycle, 'cycle');
  const supplyV = checkRange(checkPositive(cycle.supplyV, 'supplyV', 'volts'), 'supplyV', {
    min: 0,
    max: 1000,
    unit: 'volts',
  });
  const awake = awakePhases(cycle).map((phase) => itemOf(phase, supplyV));
  const activeSeconds = sumOf(awake, 'durationSeconds');
  const sleep = sleepPhase(cycle, activeSeconds);
  const chargeCoulombs = sumOf(awake, 'chargeCoulombs');
  const asleep = sleep === undefined ? [] : [itemOf(sleep, supplyV)];
  return {
    items: [...awake, ...asleep],
    activeSeconds,
    chargeCoulombs,
    energyJ: chargeCoulombs * supplyV,
    averageCurrentA:
      cycle.intervalSeconds === undefined
        ? undefined
        : (chargeCoulombs + sumOf(asleep, 'chargeCoulombs')) / cycle.intervalSeconds,
  };
}

type NamedPhase = Required<CurrentPhase> & { readonly name: string };

function awakePhases(cycle: NodeCycle): readonly NamedPhase[] {
  checkPositive(cycle.timeOnAirSeconds, 'timeOnAirSeconds', 'seconds');
  const longestFrame = { min: 0, max: 3600, unit: 'seconds' };
  checkPositive(cycle.transmitCurrentA, 'transmitCurrentA', 'amperes');
  const transmit = {
    name: 'transmit',
    durationSeconds: checkRange(cycle.timeOnAirSeconds, 'timeOnAirSeconds', longestFrame),
    currentA: checkRange(cycle.transmitCurrentA, 'transmitCurrentA', currents),
  };
  return [
    transmit,
    ...checkedPhases(cycle.receiveWindows, 'receiveWindows', 'receive window'),
    ...checkedPhases(cycle.otherPhases, 'otherPhases', 'other'),
  ];
}

function checkedPhases(
  phases: readonly CurrentPhase[] | undefined,
  argument: string,
  called: string,
): NamedPhase[] {
  if (phases === undefined) return [];
  if (!Array.isArray(phases)) throw refused(argument, phases, 'a list', 'wrong-type');
  return Array.from(phases, (phase: CurrentPhase, index) => {
    const path = `${argument}[${index}]`;
    checkObject(phase, path);
    const { name = `${called} ${index + 1}` } = phase;
    if (typeof name !== 'string') throw refused(`${path}.name`, name, 'words', 'wrong-type');
    const duration = { min: 0, max: longestSeconds, unit: 'seconds' };
    return {
      name,
      durationSeconds: checkRange(phase.durationSeconds, `${path}.durationSeconds`, duration),
      currentA: checkRange(phase.currentA, `${path}.currentA`, currents),
    };
  });
}

function sleepPhase(
  { intervalSeconds, sleepCurrentA }: NodeCycle,
  activeSeconds: number,
): NamedPhase | undefined {
  if (intervalSeconds === undefined && sleepCurrentA === undefined) return undefined;
  if (intervalSeconds === undefined) throw missing('intervalSeconds', 'sleepCurrentA');
  if (sleepCurrentA === undefined) throw missing('sleepCurrentA', 'intervalSeconds');
  checkNotNegative(sleepCurrentA, 'sleepCurrentA', 'amperes');
  const currentA = checkRange(sleepCurrentA, 'sleepCurrentA', currents);
  const bounds = { min: activeSeconds, max: longestSeconds, unit: 'seconds (all phases must fit)' };
  const durationSeconds = checkRange(intervalSeconds, 'intervalSeconds', bounds) - activeSeconds;
  return { name: 'sleep', durationSeconds, currentA };
}

function itemOf({ name, durationSeconds, currentA }: NamedPhase, supplyV: number): EnergyItem {
  const chargeCoulombs = durationSeconds * currentA;
  return { name, durationSeconds, currentA, chargeCoulombs, energyJ: chargeCoulombs * supplyV };
}

function sumOf(items: readonly EnergyItem[], member: 'durationSeconds' | 'chargeCoulombs'): number {
  return items.reduce((sum, item) => sum + item[member], 0);
}

function missing(argument: string, given: string): InputError {
  return refused(argument, undefined, `the ${argument} that belongs to ${given}`, 'missing');
}
