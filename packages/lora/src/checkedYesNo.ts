import { refused } from './refused.js';

/** The value if it is a boolean: `1` and `'true'` are how JavaScript callers get it wrong. */
export function checkedYesNo(value: unknown, argument: string): boolean {
  if (value === true || value === false) return value;
  throw refused(argument, value, 'true or false', 'wrong-type');
}
