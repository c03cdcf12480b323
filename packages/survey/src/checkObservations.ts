import { checkInteger, checkList, checkObject, checkRange, InputError } from '@finial/units';
import type { Observation } from './Observation.js';
import { type FieldRule, observationFields, type SurveyField } from './observationFields.js';

const lineRule: FieldRule = {
  kind: 'number',
  min: 1,
  max: Number.MAX_SAFE_INTEGER,
  unit: 'lines',
  whole: true,
};

/** Refuses observations that no reader could have made: callers may build them by hand, in plain JavaScript. */
export function checkObservations(observations: readonly Observation[]): readonly Observation[] {
  const rules = Object.entries(observationFields) as [SurveyField, FieldRule][];
  checkList(observations, 'observations').forEach((observation, index) => {
    checkObject(observation, `observations[${index}]`);
    for (const [field, rule] of rules) {
      const value = observation[field];
      const needed = field === 'received' || field === 'latitudeDeg' || field === 'longitudeDeg';
      if (value === undefined && !needed) continue;
      checkField(value, rule, index, field);
    }
    if (observation.line !== undefined) checkField(observation.line, lineRule, index, 'line');
  });
  return observations;
}

function checkField(value: unknown, rule: FieldRule, index: number, field: keyof Observation): void {
  // The name is put together only where it is needed: a walk has thousands of rows.
  if (rule.kind === 'number') {
    const inside = typeof value === 'number' && value >= rule.min && value <= rule.max;
    if (inside && (rule.whole !== true || Number.isInteger(value))) return;
    const argument = `observations[${index}].${field}`;
    if (rule.whole === true) checkInteger(value, argument, rule);
    checkRange(value, argument, rule);
    return;
  }
  const isRight =
    rule.kind === 'yes-no' ? typeof value === 'boolean' : typeof value === 'string' && value !== '';
  if (isRight) return;
  throw new InputError({
    code: 'wrong-type',
    argument: `observations[${index}].${field}`,
    received: value,
    expected: rule.kind === 'yes-no' ? 'true or false' : 'a text that is not empty',
  });
}
