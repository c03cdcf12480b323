import { feetToMetres, frequencyHints, milesToMetres, type ScaleHint, wattToDbm } from '@finial/units';
import type { Observation } from './Observation.js';

/** Fields of an {@link Observation} that a table can give. */
export type SurveyField = Exclude<keyof Observation, 'line'>;

/** Fields that hold a number. */
type NumberField = Exclude<SurveyField, 'timeUtc' | 'spot' | 'received'>;

/** What a field's number can be, and the units it may come in. */
export interface NumberFieldRule {
  readonly kind: 'number';
  readonly min: number;
  readonly max: number;
  /** The unit in words, for the message. */
  readonly unit: string;
  readonly whole?: boolean | undefined;
  readonly hints?: readonly ScaleHint[] | undefined;
  /** Other units a column may be in, each with its way to the unit of the field. */
  readonly units?: Readonly<Record<string, (value: number) => number>> | undefined;
}

/** How a field of a table is read. */
export type FieldRule = NumberFieldRule | { readonly kind: 'time' | 'text' | 'yes-no' };

/** The fields that the rows of one kind of table can have. */
export type FieldRules = Readonly<Record<string, FieldRule>>;

const asIs = (value: number): number => value;

const frequencyUnits = {
  Hz: asIs,
  kHz: (value: number): number => value * 1e3,
  MHz: (value: number): number => value * 1e6,
  GHz: (value: number): number => value * 1e9,
};

/** Bounds are wide: they catch a swapped column or a wrong scale, not an unusual radio. */
const numberFields: Readonly<Record<NumberField, NumberFieldRule>> = {
  latitudeDeg: { kind: 'number', min: -90, max: 90, unit: 'degrees' },
  longitudeDeg: { kind: 'number', min: -180, max: 180, unit: 'degrees' },
  counter: { kind: 'number', min: 0, max: 4_294_967_295, unit: 'frames', whole: true },
  spreadingFactor: { kind: 'number', min: 5, max: 12, unit: 'as a spreading factor', whole: true },
  bandwidthHz: {
    kind: 'number',
    min: 7_800,
    max: 1_625_000,
    unit: 'hertz',
    hints: frequencyHints,
    units: frequencyUnits,
  },
  frequencyHz: {
    kind: 'number',
    min: 100e6,
    max: 3e9,
    unit: 'hertz',
    hints: frequencyHints,
    units: frequencyUnits,
  },
  rssiDbm: { kind: 'number', min: -250, max: 20, unit: 'dBm' },
  snrDb: { kind: 'number', min: -60, max: 60, unit: 'dB' },
  conductedPowerDbm: {
    kind: 'number',
    min: -60,
    max: 60,
    unit: 'dBm',
    units: { dBm: asIs, mW: (value: number): number => wattToDbm(value / 1000), W: wattToDbm },
  },
  distanceM: {
    kind: 'number',
    min: 0,
    max: 20_100_000,
    unit: 'metres',
    units: { m: asIs, km: (value: number): number => value * 1000, ft: feetToMetres, mi: milesToMetres },
  },
};

/** Every field, in the order in which a table is written. */
export const observationFields: Readonly<Record<SurveyField, FieldRule>> = {
  timeUtc: { kind: 'time' },
  spot: { kind: 'text' },
  latitudeDeg: numberFields.latitudeDeg,
  longitudeDeg: numberFields.longitudeDeg,
  counter: numberFields.counter,
  spreadingFactor: numberFields.spreadingFactor,
  bandwidthHz: numberFields.bandwidthHz,
  frequencyHz: numberFields.frequencyHz,
  received: { kind: 'yes-no' },
  rssiDbm: numberFields.rssiDbm,
  snrDb: numberFields.snrDb,
  conductedPowerDbm: numberFields.conductedPowerDbm,
  distanceM: numberFields.distanceM,
};
