import { checkObject, checkRange, type Finding } from '@finial/units';
import { lineState, type SupplyState } from './lineState.js';
import { longestFor } from './longestRunM.js';
import { raisedSupply } from './raisedSupply.js';
import { type CheckedNeed, checkedNeed, loopOhmPerM, type SupplyReach, wireOf } from './SupplyLine.js';
import { supplyCautions } from './supplyCautions.js';
import type { SupplyWireRow } from './supplyWireTable.js';
import { thinnestFor } from './thinnestWire.js';
import { lineLengthBounds } from './wireResistanceOhm.js';

/** A supply line. */
export interface SupplyLine extends SupplyReach {
  /** Length of the line in metres, one way, 0.01 to 1000; the current flows there and back. */
  readonly lengthM: number;
}

/** What arrives at the gateway. */
export interface SupplyDrop {
  /** Whether every state has the least voltage. */
  readonly works: boolean;
  /** The states in the order given. */
  readonly states: readonly SupplyState[];
  /** Name of the state with the least voltage. */
  readonly worstState: string;
  /** Resistance in ohms of the line there and back, without contacts. */
  readonly lineResistanceOhm: number;
  /** Resistance in ohms of the whole loop, contacts included. */
  readonly loopResistanceOhm: number;
  /** How far the resistance of the wire may differ, as a ratio; the drop differs as much. */
  readonly resistanceUncertaintyRatio: number;
  /** Longest line of this wire in metres on which every state works; 0 where none does. */
  readonly longestLengthM: number;
  /** Designation of the thinnest listed wire that works at this length; not there where none does. */
  readonly thinnestWire?: string | undefined;
  /** Lowest of 12, 24 and 48 V that this wire carries to a converter in the box; not there where the line works or none helps. */
  readonly raisedSupplyV?: number | undefined;
  /** What to change, and what to mind. */
  readonly findings: readonly Finding[];
}

const source = 'circuit law V = Vs - I R; resistances IEC 60228:2004 or ASTM B258';

/**
 * Voltage that arrives at the gateway in each of its states.
 *
 * A linear load draws constant current: V = Vs - I R. A switching regulator draws constant power: with a lower voltage it draws more current,
 * which lowers the voltage again, so that V = (Vs + sqrt(Vs² - 4 R P)) / 2; above P = Vs² / (4 R) no voltage holds. Steady states
 * only: the inrush of a converter and the supply's own current limit are not in it, so state the peak that lasts (boot, transmit).
 *
 * @returns volts, amperes and watts of each state; the drop is as uncertain as `resistanceUncertaintyRatio` says, the arithmetic adds less than 1e-9 V
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source circuit law for constant current and for constant power (own derivation); IEC 60228:2004; ASTM B258
 * @example A 5 V board at the end of 5 m of 1 mm2
 * ```ts
 * import { supplyDrop } from '@finial/site';
 *
 * const line = supplyDrop({
 *   supplyV: 5.1, leastLoadV: 4.75, wire: '1 mm2', lengthM: 5, connectorsOhm: 0,
 *   states: [{ name: 'idle', currentA: 0.6 }, { name: 'boot', currentA: 2.5 }],
 * });
 * line.states[1]?.loadV; // ≈ 4.6125
 * line.works; // → false
 * line.thinnestWire; // → '1.5 mm2'
 * line.raisedSupplyV; // → 12
 * ```
 */
export function supplyDrop(line: SupplyLine): SupplyDrop {
  checkObject(line, 'line');
  const need = checkedNeed(line);
  const wire = wireOf(line);
  const lengthM = checkRange(line.lengthM, 'lengthM', lineLengthBounds);
  const lineResistanceOhm = loopOhmPerM(need, wire) * lengthM;
  const loopResistanceOhm = lineResistanceOhm + need.connectorsOhm;
  const states = need.states.map((load) => lineState(load, loopResistanceOhm, need));
  const worst = states.reduce((least, state) => ((state.loadV ?? 0) < (least.loadV ?? 0) ? state : least));
  const works = states.every((state) => state.works);
  const figures = {
    works,
    states,
    worstState: worst.name,
    lineResistanceOhm,
    loopResistanceOhm,
    resistanceUncertaintyRatio: wire.uncertaintyRatio,
    longestLengthM: longestFor(need, wire),
    thinnestWire: thinnestFor(need, lengthM)?.designation,
    raisedSupplyV: works ? undefined : raisedSupply(need, loopResistanceOhm),
  };
  const drop = works ? tightFindings(worst, wire) : [shortFinding(figures, worst, need)];
  return { ...figures, findings: [...drop, ...unverifiedWire(wire), ...supplyCautions(need.supplyV)] };
}

function shortFinding(
  figures: Pick<SupplyDrop, 'thinnestWire' | 'raisedSupplyV' | 'longestLengthM'>,
  worst: SupplyState,
  { supplyV, leastLoadV }: CheckedNeed,
): Finding {
  const { thinnestWire, raisedSupplyV, longestLengthM } = figures;
  const limit = `${leastLoadV} V`;
  const measured = worst.loadV === undefined ? undefined : `${worst.loadV.toFixed(2)} V`;
  const arrives = measured === undefined ? 'no voltage that holds' : measured;
  const ways = [
    raisedSupplyV !== undefined && `send ${raisedSupplyV} V up and put the converter in the box`,
    thinnestWire !== undefined && `take ${thinnestWire}`,
    longestLengthM > 0 && `shorten the line to ${longestLengthM.toFixed(1)} m`,
    supplyV <= leastLoadV && 'raise the supply: its own voltage is already too low',
  ].filter((way) => way !== false);
  const advice =
    ways.length > 0 ? ways.join(', or ') : 'no listed wire or voltage helps; bring the supply nearer';
  const message = `At ${worst.name} the gateway has ${arrives}, it needs ${limit}: ${advice}.`;
  return { rule: 'supply-drop', severity: 'fix', message, measured, limit, source };
}

/** A line that works only because its wire is a little better than it may be. */
function tightFindings(
  { name, dropV = 0, marginV = 0 }: SupplyState,
  wire: SupplyWireRow,
): readonly Finding[] {
  if (marginV >= dropV * wire.uncertaintyRatio) return [];
  const measured = `${marginV.toFixed(3)} V`;
  const message = `At ${name} only ${measured} are left, less than the uncertainty of the wire: measure the voltage at the gateway under load.`;
  return [{ rule: 'supply-margin', severity: 'note', message, measured, source }];
}

function unverifiedWire(wire: SupplyWireRow): readonly Finding[] {
  if (wire.status === 'read') return [];
  const message = `The resistance of ${wire.designation} is unverified (from memory): measure the line before you rely on a small margin.`;
  return [{ rule: 'wire-unverified', severity: 'note', message, source: wire.source }];
}
