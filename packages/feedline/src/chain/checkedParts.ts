import { checkFinite, checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type {
  ArrestorPrinciple,
  CatalogueRow,
  Connector,
  FactStatus,
  PartEnd,
  TwoEndedRow,
} from '../catalogue/parts.js';
import type { CableRun, ChainPart } from './ChainPart.js';
import { knownEnd } from './connectorFor.js';
import type { StatedEnd } from './partEnd.js';

/** A part of a chain whose fields were looked at. A port shows its one end to whichever side asks. */
export interface CheckedPart {
  readonly part: ChainPart;
  readonly name: string;
  /** Where it sits, for refusals: `parts[2]`. */
  readonly path: string;
  readonly towardsRadio: StatedEnd;
  readonly towardsAntenna: StatedEnd;
}

/** Longest chain: more parts than any mast holds, and a guard against a list of something else. */
const greatestPartsCount = 100;
const highest = 100e9;

/** The parts with their names and ends; what is no part, or sits where it cannot, is refused. */
export function checkedParts(
  parts: readonly ChainPart[],
  connectors: readonly Connector[],
): readonly CheckedPart[] {
  checkList(parts, 'parts');
  if (parts.length > greatestPartsCount) {
    const expected = `at most ${greatestPartsCount} parts`;
    throw new InputError({ code: 'out-of-range', argument: 'parts', received: parts, expected });
  }
  return parts.map((part, index) => {
    const path = `parts[${index}]`;
    checkObject(part, path);
    checkOneOf(part.kind, `${path}.kind`, ['port', 'cable-run', 'adapter', 'pigtail', 'arrestor', 'filter']);
    if (part.kind === 'port') return checkedPort(part, path, { index, last: parts.length - 1 }, connectors);
    const [towardsRadio, towardsAntenna] = checkedEnds(part.ends, `${path}.ends`, connectors);
    return { part, name: nameOf(part, path), path, towardsRadio, towardsAntenna };
  });
}

function checkedPort(
  part: Extract<ChainPart, { kind: 'port' }>,
  path: string,
  { index, last }: { readonly index: number; readonly last: number },
  connectors: readonly Connector[],
): CheckedPart {
  if (index !== 0 && index !== last) {
    const expected = 'a part with two ends (a port has one, and stands first or last)';
    throw new InputError({ code: 'unknown-option', argument: `${path}.kind`, received: 'port', expected });
  }
  const end = knownEnd(part.end, `${path}.end`, connectors);
  return {
    part,
    name: checkedText(part.name, `${path}.name`),
    path,
    towardsRadio: end,
    towardsAntenna: end,
  };
}

function checkedEnds(
  ends: readonly [PartEnd, PartEnd],
  path: string,
  connectors: readonly Connector[],
): readonly [StatedEnd, StatedEnd] {
  if (!Array.isArray(ends) || ends.length !== 2) {
    const expected = 'a list of two ends, the one towards the radio first';
    throw new InputError({ code: 'wrong-type', argument: path, received: ends, expected });
  }
  return [knownEnd(ends[0], `${path}[0]`, connectors), knownEnd(ends[1], `${path}[1]`, connectors)];
}

function nameOf(part: Exclude<ChainPart, { kind: 'port' }>, path: string): string {
  if (part.kind === 'cable-run') return cableRunName(part, path);
  const designation = checkedRow(part, path);
  if (part.kind === 'pigtail') {
    checkedText(part.cable, `${path}.cable`);
    checkRange(part.lengthM, `${path}.lengthM`, { min: 1e-3, max: 100, unit: 'metres' });
  } else {
    checkTwoEnded(part, path);
  }
  if (part.kind === 'arrestor') {
    checkOneOf<boolean>(part.passesDirectCurrent, `${path}.passesDirectCurrent`, [true, false]);
    checkOneOf<ArrestorPrinciple>(part.principle, `${path}.principle`, ['gas-discharge', 'quarter-wave']);
    if (part.sparkOverV !== undefined) {
      checkRange(part.sparkOverV, `${path}.sparkOverV`, { min: 1, max: 10_000, unit: 'volts' });
    }
  }
  return designation;
}

function cableRunName({ cable, lengthM, temperatureC }: CableRun, path: string): string {
  checkObject(cable, `${path}.cable`);
  checkRange(lengthM, `${path}.lengthM`, { min: 1e-3, max: 1000, unit: 'metres' });
  checkRange(cable.impedanceOhm, `${path}.cable.impedanceOhm`, { min: 1, max: 500, unit: 'ohms' });
  if (temperatureC !== undefined) checkTemperature(temperatureC, `${path}.temperatureC`);
  if (cable.maxTemperatureC !== undefined) {
    checkFinite(cable.maxTemperatureC, `${path}.cable.maxTemperatureC`, 'degrees Celsius');
  }
  return `${lengthM} m of ${checkedRow(cable, `${path}.cable`)}`;
}

/** Temperatures that cable sees, from arctic night to the limit of PTFE. */
export function checkTemperature(temperatureC: unknown, argument: string): number {
  return checkRange(temperatureC, argument, { min: -60, max: 200, unit: 'degrees Celsius' });
}

function checkTwoEnded(row: TwoEndedRow, path: string): void {
  checkRange(row.lossDb, `${path}.lossDb`, { min: 0, max: 60, unit: 'dB (a loss is positive)' });
  checkRange(row.lossUncertaintyDb, `${path}.lossUncertaintyDb`, { min: 0, max: 20, unit: 'dB' });
  const lowest = checkRange(row.lowestFrequencyHz, `${path}.lowestFrequencyHz`, {
    min: 0,
    max: highest,
    unit: 'hertz',
  });
  checkRange(row.highestFrequencyHz, `${path}.highestFrequencyHz`, {
    min: lowest,
    max: highest,
    unit: 'hertz',
  });
}

/** The designation of a row, whose source and status findings repeat. */
function checkedRow(row: CatalogueRow, path: string): string {
  checkedText(row.source, `${path}.source`);
  checkOneOf<FactStatus>(row.status, `${path}.status`, ['read', 'computed', 'memory']);
  return checkedText(row.designation, `${path}.designation`);
}

function checkedText(value: unknown, argument: string): string {
  if (typeof value === 'string' && value.trim() !== '') return value;
  throw new InputError({ code: 'wrong-type', argument, received: value, expected: 'a name' });
}
