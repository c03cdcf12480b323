import type { Field, Value } from './sheet.js';

/** Values out of the part of an address after the question mark; what is not there or cannot be read keeps its default. */
export function valuesOf(
  search: string,
  fields: readonly Field[],
  defaults: Readonly<Record<string, Value>>,
): Record<string, Value> {
  const stated = new URLSearchParams(search);
  const values = { ...defaults };
  for (const field of fields) {
    const text = stated.get(field.key);
    if (text === null) continue;
    const value = readValue(field, text);
    if (value !== undefined) values[field.key] = value;
  }
  return values;
}

function readValue(field: Field, text: string): Value | undefined {
  switch (field.kind) {
    case 'number': {
      const value = Number(text);
      return text.trim() === '' || !Number.isFinite(value) ? undefined : value;
    }
    case 'choice':
      return field.choices.some(({ value }) => value === text) ? text : undefined;
    case 'check':
      return text === '1' ? true : text === '0' ? false : undefined;
    case 'file':
      return undefined;
  }
}

/** The part of an address that brings values back; those that stand at their defaults are left out. */
export function searchOf(
  values: Readonly<Record<string, Value>>,
  defaults: Readonly<Record<string, Value>>,
): string {
  const changed = Object.entries(values).filter(([key, value]) => value !== defaults[key]);
  if (changed.length === 0) return '';
  const written = changed.map(([key, value]): [string, string] => [
    key,
    typeof value === 'boolean' ? (value ? '1' : '0') : String(value),
  ]);
  return `?${new URLSearchParams(written)}`;
}
