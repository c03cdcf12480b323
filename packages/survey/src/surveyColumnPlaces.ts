import { checkObject, checkOneOf, InputError } from '@finial/units';
import { observationFields, type SurveyField } from './observationFields.js';
import type { SurveyColumns } from './SurveyColumns.js';
import type { SurveyTable } from './SurveyTable.js';

/** Where a field stands in the rows of one table, and what its cells need. */
export interface ColumnPlace {
  readonly field: SurveyField;
  /** Index into the cells. */
  readonly index: number;
  /** Name of the column, for messages. */
  readonly name: string;
  /** Turns a number of the column's unit into the field's; absent where the units agree. */
  readonly convert?: ((value: number) => number) | undefined;
  readonly inverted: boolean;
}

interface Wanted {
  readonly column: string;
  readonly convert: ((value: number) => number) | undefined;
  readonly inverted: boolean;
}

const fieldNames: readonly SurveyField[] = /* @__PURE__ */ Object.keys(observationFields) as SurveyField[];

/** Refuses a mapping that names no field, no column or no unit of that field: before any file is looked at. */
export function wantedColumns(columns: SurveyColumns): ReadonlyMap<SurveyField, Wanted> {
  checkObject(columns, 'columns');
  const wanted = new Map<SurveyField, Wanted>();
  for (const [key, value] of Object.entries(columns)) {
    if (value === undefined) continue;
    const field = fieldNames.find((name) => name === key);
    if (field === undefined) {
      const expected = `one of ${fieldNames.join(', ')}`;
      throw new InputError({ code: 'unknown-option', argument: 'columns', received: key, expected });
    }
    wanted.set(field, wantedColumn(field, value));
  }
  return wanted;
}

function wantedColumn(field: SurveyField, value: unknown): Wanted {
  const argument = `columns.${field}`;
  if (typeof value === 'string') return { column: value, convert: undefined, inverted: false };
  const detail: Record<string, unknown> = { ...checkObject(value as object, argument) };
  const { column, unit, inverted = false, ...others } = detail;
  for (const key of Object.keys(others)) {
    throw new InputError({
      code: 'unknown-option',
      argument,
      received: key,
      expected: "'column', 'unit' or 'inverted'",
    });
  }
  if (typeof column !== 'string') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${argument}.column`,
      received: column,
      expected: 'the name of a column',
    });
  }
  const mayInvert = observationFields[field].kind === 'yes-no';
  const inversion = checkOneOf(inverted, `${argument}.inverted`, mayInvert ? [true, false] : [false]);
  return { column, convert: conversion(field, unit, argument), inverted: inversion };
}

function conversion(
  field: SurveyField,
  unit: unknown,
  argument: string,
): ((value: number) => number) | undefined {
  if (unit === undefined) return undefined;
  const rule = observationFields[field];
  const units = (rule.kind === 'number' ? rule.units : undefined) ?? {};
  const known = Object.keys(units);
  if (known.length === 0) {
    throw new InputError({
      code: 'unknown-option',
      argument: `${argument}.unit`,
      received: unit,
      expected: 'no unit: the field comes in one only',
    });
  }
  return units[checkOneOf(unit, `${argument}.unit`, known)];
}

/** Finds the wanted columns in a table, and the rest of the fields under their own names. */
export function columnPlaces(
  table: SurveyTable,
  wanted: ReadonlyMap<SurveyField, Wanted>,
  file: string,
): ReadonlyMap<SurveyField, ColumnPlace> {
  const places = new Map<SurveyField, ColumnPlace>();
  for (const field of fieldNames) {
    const place = columnPlace(table, field, wanted.get(field), file);
    if (place !== undefined) places.set(field, place);
  }
  return places;
}

function columnPlace(
  table: SurveyTable,
  field: SurveyField,
  wanted: Wanted | undefined,
  file: string,
): ColumnPlace | undefined {
  const ofGeometry = ['longitudeDeg', 'latitudeDeg'].indexOf(field);
  if (table.positionFirst && ofGeometry !== -1) {
    if (wanted === undefined) return { field, index: ofGeometry, name: 'geometry', inverted: false };
    throw new InputError({
      code: 'unknown-option',
      argument: `columns.${field}`,
      received: wanted.column,
      expected: 'nothing, since the geometry of GeoJSON holds the position',
    });
  }
  const propertiesFrom = table.positionFirst ? 2 : 0;
  if (wanted !== undefined) {
    const index = table.header.indexOf(wanted.column.trim(), propertiesFrom);
    if (index === -1) throw missingColumn(table, field, wanted.column, file);
    return { field, index, name: wanted.column, convert: wanted.convert, inverted: wanted.inverted };
  }
  const names = [field, inUnderscores(field)];
  const found = table.header
    .map((name, index) => ({ field, index, name, inverted: false }))
    .filter(({ name, index }) => index >= propertiesFrom && names.includes(name));
  if (new Set(found.map(({ name }) => name)).size > 1) {
    throw new InputError({
      code: 'malformed-file',
      argument: field,
      received: found.map(({ name }) => name).join(', '),
      expected: `one ${table.columnWord}, or a choice in columns.${field}`,
      file,
      line: table.headerLine,
    });
  }
  return found[0];
}

/** The refusal for a column that is not there: it names those that are. */
export function missingColumn(
  table: SurveyTable,
  field: SurveyField,
  column: string,
  file: string,
): InputError {
  const there = table.header.slice(table.positionFirst ? 2 : 0).map((name) => `"${name}"`);
  return new InputError({
    code: 'malformed-file',
    argument: field,
    received: undefined,
    expected: `a ${table.columnWord} "${column}"; there are ${there.length === 0 ? 'none' : there.join(', ')}`,
    file,
    line: table.headerLine,
  });
}

function inUnderscores(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
