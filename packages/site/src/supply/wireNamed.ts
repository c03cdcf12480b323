import { checkRange, InputError } from '@finial/units';
import { type SupplyWireRow, supplyWireTable } from './supplyWireTable.js';

/** A wire whose resistance was measured, or read from its data sheet: also the way to enter copper-clad aluminium. */
export interface MeasuredWire {
  /** Resistance of one conductor in ohms per metre at 20 degrees C, 1e-5 to 10. Half of what an ohmmeter shows for a pair joined at its far end, by its length. */
  readonly resistanceOhmPerM: number;
}

/**
 * A wire as its reel names it (`24 AWG`, a whole gauge from 0 to 40; or a designation of `supplyWireTable` such as `1.5 mm2`), or
 * one that was measured.
 */
export type SupplyWire = string | MeasuredWire;

const copperOhmM = 1.7241e-8;
const ohmPerMBounds = { min: 1e-5, max: 10, unit: 'ohms per metre' };

/** The row of a wire; gauges are computed from their diameter. */
export function wireNamed(wire: SupplyWire, argument: string): SupplyWireRow {
  if (typeof wire === 'object' && wire !== null) return measured(wire, argument);
  if (typeof wire !== 'string') {
    const expected = 'a designation such as 24 AWG or 1.5 mm2, or { resistanceOhmPerM }';
    throw new InputError({ code: 'wrong-type', argument, received: wire, expected });
  }
  const gauge = /^(\d{1,2}) ?AWG$/i.exec(wire.trim())?.[1];
  if (gauge !== undefined && Number(gauge) <= 40) return ofGauge(Number(gauge));
  const wanted = wire
    .trim()
    .replace('²', '2')
    .replace(/\s+/g, ' ')
    .replace(/(\d)mm2$/, '$1 mm2');
  const found = supplyWireTable.find(({ designation }) => designation === wanted);
  if (found !== undefined) return found;
  const names = supplyWireTable.map(({ designation }) => designation).join(', ');
  const expected = `0 to 40 AWG, or one of ${names}, or { resistanceOhmPerM }`;
  throw new InputError({ code: 'unknown-option', argument, received: wire, expected });
}

/** Each gauge is thinner than the one before by the same ratio: 36 AWG is 0.127 mm, 0000 AWG 0.46 inch, 39 steps apart. */
function ofGauge(gauge: number): SupplyWireRow {
  const diameterM = 0.127e-3 * 92 ** ((36 - gauge) / 39);
  const areaM2 = (Math.PI * diameterM ** 2) / 4;
  return {
    designation: `${gauge} AWG`,
    areaM2,
    resistanceOhmPerM: copperOhmM / areaM2,
    uncertaintyRatio: 0.012,
    status: 'read',
    source:
      'ASTM B258 diameters, annealed copper 0.017241 ohm mm2/m; NBS Circular 31 figures as reprinted (read)',
  };
}

function measured(wire: MeasuredWire, argument: string): SupplyWireRow {
  const resistanceOhmPerM = checkRange(
    wire.resistanceOhmPerM,
    `${argument}.resistanceOhmPerM`,
    ohmPerMBounds,
  );
  return {
    designation: `${resistanceOhmPerM} ohm/m`,
    areaM2: copperOhmM / resistanceOhmPerM,
    resistanceOhmPerM,
    uncertaintyRatio: 0,
    status: 'read',
    source: 'own measurement',
  };
}
