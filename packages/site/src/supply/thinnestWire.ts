import { checkObject, checkRange } from '@finial/units';
import { longestFor } from './longestRunM.js';
import { type CheckedNeed, checkedNeed, type SupplyNeed } from './SupplyLine.js';
import { type SupplyWireRow, supplyWireTable } from './supplyWireTable.js';
import { lineLengthBounds } from './wireResistanceOhm.js';

/** A supply line whose wire is sought. */
export interface SupplyRoute extends SupplyNeed {
  /** Length of the line in metres, one way, 0.01 to 1000. */
  readonly lengthM: number;
}

/**
 * Thinnest wire of `supplyWireTable` with which every state of the gateway has its least voltage; undefined where none does.
 *
 * Voltage alone is looked at: the fuse at the supply must protect this wire, and strength outdoors may ask for more copper.
 *
 * @returns the row of the wire, or undefined
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source circuit law; IEC 60228:2004 tables 1 to 4
 * @example 10 m at 5 V, and at 24 V
 * ```ts
 * import { thinnestWire } from '@finial/site';
 *
 * const states = [{ name: 'boot', powerW: 6 }];
 * thinnestWire({ lengthM: 10, supplyV: 5.1, leastLoadV: 4.75, states })?.designation; // → '2.5 mm2'
 * thinnestWire({ lengthM: 10, supplyV: 24, leastLoadV: 20, states })?.designation; // → '0.14 mm2'
 * ```
 */
export function thinnestWire(route: SupplyRoute): SupplyWireRow | undefined {
  checkObject(route, 'route');
  return thinnestFor(checkedNeed(route), checkRange(route.lengthM, 'lengthM', lineLengthBounds));
}

/** The same, of checked values. */
export function thinnestFor(need: CheckedNeed, lengthM: number): SupplyWireRow | undefined {
  return supplyWireTable.find((wire) => longestFor(need, wire) >= lengthM);
}
