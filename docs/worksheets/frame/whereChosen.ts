import type { Value } from './sheet.js';

/** Asks for a field only while another one holds one of these values. */
export function whereChosen(
  key: string,
  ...wanted: readonly Value[]
): (values: Readonly<Record<string, Value>>) => boolean {
  return (values) => wanted.includes(values[key] as Value);
}
