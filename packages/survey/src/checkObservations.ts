import { checkInteger, checkList, checkObject, checkRange, InputError } from '@finial/units';
import type { Observation } from './Observation.js';
import { type FieldRule, type FieldRules, observationFields } from './observationFields.js';

const lineRule: FieldRule = {
  kind: 'number',
  min: 1,
  max: Number.MAX_SAFE_INTEGER,
  unit: 'lines',
  whole: true,
};

const neededOfObservation: readonly string[] = ['received', 'latitudeDeg', 'longitudeDeg'];

/** Refuses observations that no reader could have made: callers may build them by hand, in plain JavaScript. */
export function checkObservations(observations: readonly Observation[]): readonly Observation[] {
  return checkRecords(observations, 'observations', observationFields, neededOfObservation);
}

/** Refuses a list whose entries break the rules of their fields, or lack a field that they need. */
export function checkRecords<Item extends object>(
  list: readonly Item[],
  argument: string,
  fields: FieldRules,
  needed: readonly string[],
): readonly Item[] {
  const rules = Object.entries({ ...fields, line: lineRule });
  checkList(list, argument).forEach((item, index) => {
    const record = checkObject(item, `${argument}[${index}]`) as Readonly<Record<string, unknown>>;
    for (const [field, rule] of rules) {
      const value = record[field];
      if (value === undefined && !needed.includes(field)) continue;
      // The name is put together only where it is needed: a walk has thousands of rows.
      if (!obeys(value, rule)) refuse(value, rule, `${argument}[${index}].${field}`);
    }
  });
  return list;
}

function obeys(value: unknown, rule: FieldRule): boolean {
  if (rule.kind === 'number') {
    const inside = typeof value === 'number' && value >= rule.min && value <= rule.max;
    return inside && (rule.whole !== true || Number.isInteger(value));
  }
  return rule.kind === 'yes-no' ? typeof value === 'boolean' : typeof value === 'string' && value !== '';
}

function refuse(value: unknown, rule: FieldRule, argument: string): void {
  if (rule.kind === 'number') {
    if (rule.whole === true) checkInteger(value, argument, rule);
    checkRange(value, argument, rule);
    return;
  }
  throw new InputError({
    code: 'wrong-type',
    argument,
    received: value,
    expected: rule.kind === 'yes-no' ? 'true or false' : 'a text that is not empty',
  });
}
