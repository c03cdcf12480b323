import {
  bandFilters,
  type ChainPart,
  cableNamed,
  commonAdapters,
  commonPigtails,
  partEnd,
  surgeArrestors,
} from '@finial/feedline';
import { InputError } from '@finial/units';
import { type CableValues, type Slot, slots } from './CableValues.js';

/** Lists of ready-made parts, and the names under which the package exports them. */
export const readyMadeLists = {
  adapter: { name: 'commonAdapters', rows: commonAdapters },
  pigtail: { name: 'commonPigtails', rows: commonPigtails },
  arrestor: { name: 'surgeArrestors', rows: surgeArrestors },
  filter: { name: 'bandFilters', rows: bandFilters },
} as const;

/** The places that hold something: those before the first empty one. */
export function takenSlots(values: CableValues): readonly Slot[] {
  const end = slots.findIndex((slot) => values[`part${slot}`] === 'none');
  return end < 0 ? slots : slots.slice(0, end);
}

/** The run from gateway to antenna as the package takes it. */
export function chainOf(values: CableValues): readonly ChainPart[] {
  return [
    { kind: 'port', name: 'gateway', end: partEnd(values.gatewayEnd) },
    ...takenSlots(values).map((slot) => partOf(values, slot)),
    { kind: 'port', name: 'antenna', end: partEnd(values.antennaEnd) },
  ];
}

function partOf(values: CableValues, slot: Slot): ChainPart {
  const kind = values[`part${slot}`];
  if (kind === 'cable' || kind === 'none') {
    return {
      kind: 'cable-run',
      cable: cableNamed(values[`cable${slot}`]),
      lengthM: values[`length${slot}M`],
      ends: [partEnd(values[`from${slot}`]), partEnd(values[`to${slot}`])],
    };
  }
  const wanted = values[`${kind}${slot}`];
  const row = readyMadeLists[kind].rows.find(({ designation }) => designation === wanted);
  if (row === undefined) {
    const expected = 'a part of the built-in catalogue';
    throw new InputError({ code: 'unknown-option', argument: `${kind}${slot}`, received: wanted, expected });
  }
  const [first, second] = row.ends;
  return values[`turned${slot}`] ? { ...row, ends: [second, first] } : row;
}
