import { InputError } from '@finial/units';

/** The words of JSON Schema 2020-12 that a catalogue needs. */
export interface SchemaRule {
  readonly $schema?: string;
  readonly title?: string;
  readonly description?: string;
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, SchemaRule>>;
  readonly type?: 'object' | 'array' | 'string' | 'number' | 'integer' | 'boolean';
  readonly properties?: Readonly<Record<string, SchemaRule>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: false;
  readonly items?: SchemaRule;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
}

/** Named rules that `$ref` points to. */
export type NamedRules = Readonly<Record<string, SchemaRule>>;

/** A copy of the value if it follows the rule; members that are undefined count as left out. */
export function followRule(value: unknown, argument: string, rule: SchemaRule, named: NamedRules): unknown {
  const target = rule.$ref === undefined ? rule : (named[rule.$ref.slice('#/$defs/'.length)] ?? rule);
  switch (target.type) {
    case 'object':
      return followObject(value, argument, target, named);
    case 'array':
      return followList(value, argument, target, named);
    case 'string':
      return followText(value, argument, target);
    case 'number':
    case 'integer':
      return followNumber(value, argument, target);
    default:
      if (typeof value === 'boolean') return value;
      throw refusal(value, argument, 'wrong-type', 'true or false');
  }
}

function followObject(value: unknown, argument: string, rule: SchemaRule, named: NamedRules): object {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw refusal(value, argument, 'wrong-type', 'an object');
  }
  const { properties = {}, required = [] } = rule;
  const within = (key: string) => (argument === '' ? key : `${argument}.${key}`);
  for (const key of Object.keys(value)) {
    if (Object.hasOwn(properties, key)) continue;
    const known = Object.keys(properties).join(', ');
    throw new InputError({
      code: 'unknown-option',
      argument: within(key),
      received: key,
      expected: `one of ${known}`,
    });
  }
  const given = value as Readonly<Record<string, unknown>>;
  const copy: Record<string, unknown> = {};
  for (const [key, inner] of Object.entries(properties)) {
    const member = Object.hasOwn(given, key) ? given[key] : undefined;
    if (member !== undefined) copy[key] = followRule(member, within(key), inner, named);
    else if (required.includes(key)) throw refusal(member, within(key), 'missing', wanted(inner));
  }
  return copy;
}

function followList(
  value: unknown,
  argument: string,
  rule: SchemaRule,
  named: NamedRules,
): readonly unknown[] {
  if (!Array.isArray(value)) throw refusal(value, argument, 'wrong-type', 'a list');
  const { items = {}, minItems = 0, maxItems = Number.POSITIVE_INFINITY } = rule;
  if (value.length < minItems) throw refusal(value, argument, 'missing', `at least ${entries(minItems)}`);
  if (value.length > maxItems) throw refusal(value, argument, 'out-of-range', `at most ${entries(maxItems)}`);
  // Not map(), which leaves the holes of a sparse list unchecked.
  return Array.from(value, (item, place) => followRule(item, `${argument}[${place}]`, items, named));
}

function followText(value: unknown, argument: string, rule: SchemaRule): string {
  if (typeof value !== 'string') throw refusal(value, argument, 'wrong-type', wanted(rule));
  const options = rule.const === undefined ? rule.enum : [rule.const];
  if (options !== undefined && !options.includes(value)) {
    throw refusal(value, argument, 'unknown-option', wanted(rule));
  }
  const { minLength = 0, maxLength = Number.POSITIVE_INFINITY } = rule;
  // JSON Schema counts characters, not the halves that make up a rare one.
  const { length } = [...value];
  if (length < minLength || length > maxLength) {
    throw refusal(value, argument, 'out-of-range', `a text of ${minLength} to ${maxLength} characters`);
  }
  return value;
}

function followNumber(value: unknown, argument: string, rule: SchemaRule): number {
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw refusal(value, argument, 'not-a-finite-number', wanted(rule));
  }
  const {
    minimum = Number.NEGATIVE_INFINITY,
    exclusiveMinimum = Number.NEGATIVE_INFINITY,
    maximum = Number.POSITIVE_INFINITY,
  } = rule;
  const inside = value >= minimum && value > exclusiveMinimum && value <= maximum;
  if (!inside || (rule.type === 'integer' && !Number.isInteger(value))) {
    throw refusal(value, argument, 'out-of-range', wanted(rule));
  }
  return value;
}

/** What a rule asks for, in the words of its own description. */
function wanted(rule: SchemaRule): string {
  const options = rule.const === undefined ? rule.enum : [rule.const];
  if (options !== undefined) return options.map((option) => `'${option}'`).join(' or ');
  const about = rule.description === undefined ? '' : ` (${rule.description})`;
  if (rule.type === 'number' || rule.type === 'integer') {
    const least = rule.minimum ?? `more than ${rule.exclusiveMinimum}`;
    const kind = rule.type === 'integer' ? 'a whole number, ' : '';
    return `${kind}${least} to ${rule.maximum}${about}`;
  }
  const kinds = { object: 'an object', array: 'a list', string: 'a text', boolean: 'true or false' };
  return `${kinds[rule.type ?? 'object']}${about}`;
}

function entries(count: number): string {
  return count === 1 ? 'one entry' : `${count} entries`;
}

function refusal(
  received: unknown,
  argument: string,
  code: 'wrong-type' | 'missing' | 'out-of-range' | 'not-a-finite-number' | 'unknown-option',
  expected: string,
): InputError {
  return new InputError({ code, argument, received, expected });
}
