import { checkObject, checkOneOf, InputError } from '@finial/units';
import type { FieldRule, FieldRules } from './observationFields.js';
import type { SurveyTable } from './SurveyTable.js';

/** Where a field stands in the rows of one table, and what its cells need. */
export interface ColumnPlace {
  readonly field: string;
  /** How the cells are read. */
  readonly rule: FieldRule;
  /** Index into the cells. */
  readonly index: number;
  /** Name of the column, for messages. */
  readonly name: string;
  /** Turns a number of the column's unit into the field's; absent where the units agree. */
  readonly convert?: ((value: number) => number) | undefined;
  readonly inverted: boolean;
  /** False where nothing says that the rows have such a column at all: records of NDJSON come without a header. */
  readonly inHeader: boolean;
}

/** A column that the caller asks for by name. */
export interface WantedColumn {
  readonly column: string;
  readonly convert: ((value: number) => number) | undefined;
  readonly inverted: boolean;
}

/** Refuses a mapping that names no field, no column or no unit of that field: before any file is looked at. */
export function wantedColumns(columns: object, rules: FieldRules): ReadonlyMap<string, WantedColumn> {
  checkObject(columns, 'columns');
  const fieldNames = Object.keys(rules);
  const wanted = new Map<string, WantedColumn>();
  for (const [key, value] of Object.entries(columns)) {
    if (value === undefined) continue;
    const rule = Object.hasOwn(rules, key) ? rules[key] : undefined;
    if (rule === undefined) {
      const expected = `one of ${fieldNames.join(', ')}`;
      throw new InputError({ code: 'unknown-option', argument: 'columns', received: key, expected });
    }
    wanted.set(key, wantedColumn(key, rule, value));
  }
  return wanted;
}

function wantedColumn(field: string, rule: FieldRule, value: unknown): WantedColumn {
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
  const mayInvert = rule.kind === 'yes-no';
  const inversion = checkOneOf(inverted, `${argument}.inverted`, mayInvert ? [true, false] : [false]);
  return { column, convert: conversion(rule, unit, argument), inverted: inversion };
}

function conversion(
  rule: FieldRule,
  unit: unknown,
  argument: string,
): ((value: number) => number) | undefined {
  if (unit === undefined) return undefined;
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
  wanted: ReadonlyMap<string, WantedColumn>,
  rules: FieldRules,
  file: string,
): ReadonlyMap<string, ColumnPlace> {
  const places = new Map<string, ColumnPlace>();
  for (const [field, rule] of Object.entries(rules)) {
    const place = columnPlace(table, { field, rule }, wanted.get(field), file);
    if (place !== undefined) places.set(field, place);
  }
  return places;
}

function columnPlace(
  table: SurveyTable,
  { field, rule }: Pick<ColumnPlace, 'field' | 'rule'>,
  wanted: WantedColumn | undefined,
  file: string,
): ColumnPlace | undefined {
  const ofGeometry = ['longitudeDeg', 'latitudeDeg'].indexOf(field);
  if (table.positionFirst && ofGeometry !== -1) {
    if (wanted === undefined)
      return { field, rule, index: ofGeometry, name: 'geometry', inverted: false, inHeader: true };
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
    const { column: name, convert, inverted } = wanted;
    return { field, rule, index, name, convert, inverted, inHeader: true };
  }
  const names = [field, inUnderscores(field)];
  const found = table.header
    .map((name, index) => ({ field, rule, index, name, inverted: false, inHeader: true }))
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
export function missingColumn(table: SurveyTable, field: string, column: string, file: string): InputError {
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

/** `rssi_dbm` of `rssiDbm`. */
export function inUnderscores(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}
