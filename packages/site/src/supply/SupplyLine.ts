import { checkFinite, checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { SupplyWireRow } from './supplyWireTable.js';
import { type SupplyWire, wireNamed } from './wireNamed.js';
import { copperWarmth, wireTemperatureBounds } from './wireResistanceOhm.js';

/** What the gateway draws in one state. State either the current or the power, never both. */
export interface LoadState {
  /** What it does then: `idle`, `transmit`, `boot`. The list needs the peaks: averages hide the brown-out. */
  readonly name: string;
  /** Current in amperes that it draws whatever its voltage is (a linear regulator), 1e-6 to 100. */
  readonly currentA?: number | undefined;
  /** Power in watts that it draws whatever its voltage is (a switching regulator), 1e-6 to 1000. */
  readonly powerW?: number | undefined;
}

/** A supply, its load, and what joins them, without the wire and its length. */
export interface SupplyNeed {
  /** Voltage in volts at the supply's own terminals under load, 1 to 400. */
  readonly supplyV: number;
  /** Least voltage in volts at which the gateway works, 1 to 400; boards fed with 5 V flag less than about 4.63 to 4.75 V. */
  readonly leastLoadV: number;
  /** What the gateway draws in each of its states, at least one. */
  readonly states: readonly LoadState[];
  /**
   * How many conductors carry the current side by side in each direction: 2 where both wires of a data pair do, 4 where two pairs do.
   *
   * @defaultValue 1
   */
  readonly conductorsCount?: 1 | 2 | 4 | undefined;
  /**
   * Resistance in ohms of all contacts of the loop together, 0 to 10. A plug and its socket add 0.02 to 0.06 (common practice, no source).
   *
   * @defaultValue 0.04
   */
  readonly connectorsOhm?: number | undefined;
  /**
   * Temperature of the copper in degrees C, -60 to 200.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
}

/** A supply line without its length. */
export interface SupplyReach extends SupplyNeed {
  /** The wire: `24 AWG`, `1.5 mm2`, or a measured one. */
  readonly wire: SupplyWire;
}

/** A checked load: one of the two is a number. */
export interface CheckedLoad {
  readonly name: string;
  readonly currentA: number | undefined;
  readonly powerW: number | undefined;
}

/** What a supply line is after its checks. */
export interface CheckedNeed {
  readonly supplyV: number;
  readonly leastLoadV: number;
  readonly states: readonly CheckedLoad[];
  readonly connectorsOhm: number;
  /** Both directions, conductors side by side and warmth: times ohms per metre of one conductor, times metres of line. */
  readonly loopFactor: number;
}

const voltBounds = { min: 1, max: 400, unit: 'volts' };
const currentBounds = { min: 1e-6, max: 100, unit: 'amperes' };
const powerBounds = { min: 1e-6, max: 1000, unit: 'watts' };

/** Checks everything but wire and length. */
export function checkedNeed(need: SupplyNeed): CheckedNeed {
  const { conductorsCount = 1, connectorsOhm = 0.04, temperatureC = 20 } = need;
  const conductors = checkOneOf(conductorsCount, 'conductorsCount', [1, 2, 4]);
  const warmth = copperWarmth(checkRange(temperatureC, 'temperatureC', wireTemperatureBounds));
  return {
    supplyV: checkRange(need.supplyV, 'supplyV', voltBounds),
    leastLoadV: checkRange(need.leastLoadV, 'leastLoadV', voltBounds),
    states: checkList(need.states, 'states').map(checkedState),
    connectorsOhm: checkRange(connectorsOhm, 'connectorsOhm', { min: 0, max: 10, unit: 'ohms' }),
    loopFactor: (2 / conductors) * warmth,
  };
}

/** Ohms of the loop for each metre of line. */
export function loopOhmPerM(need: CheckedNeed, wire: SupplyWireRow): number {
  return need.loopFactor * wire.resistanceOhmPerM;
}

/** The row of the wire of a line. */
export function wireOf(reach: SupplyReach): SupplyWireRow {
  return wireNamed(reach.wire, 'wire');
}

function checkedState(state: LoadState, index: number): CheckedLoad {
  const place = `states[${index}]`;
  checkObject(state, place);
  const { name, currentA, powerW } = state;
  if (typeof name !== 'string' || name.trim() === '') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${place}.name`,
      received: name,
      expected: 'a name',
    });
  }
  if (currentA === undefined && powerW === undefined) {
    const argument = `${place}.currentA or powerW`;
    throw new InputError({ code: 'missing', argument, received: undefined, expected: 'one of the two' });
  }
  if (currentA !== undefined && powerW !== undefined) {
    checkFinite(currentA, `${place}.currentA`, 'amperes');
    checkFinite(powerW, `${place}.powerW`, 'watts');
    const argument = `${place}.currentA and powerW`;
    throw new InputError({
      code: 'out-of-range',
      argument,
      received: powerW,
      expected: 'only one of the two',
    });
  }
  return {
    name,
    currentA: currentA === undefined ? undefined : checkRange(currentA, `${place}.currentA`, currentBounds),
    powerW: powerW === undefined ? undefined : checkRange(powerW, `${place}.powerW`, powerBounds),
  };
}
