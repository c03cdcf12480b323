import { InputError } from './InputError.js';

/** A scale that people slip into, and its factor to the wanted unit. */
export interface ScaleHint {
  /** Name of the scale as a person says it: `megahertz`. */
  readonly name: string;
  /** What one unit of that scale is in the wanted unit, as a plain ratio. */
  readonly ratio: number;
}

/** Bounds of {@link checkRange}; both belong to the range. */
export interface RangeBounds {
  /** Least accepted value, in the unit of the argument. */
  readonly min: number;
  /** Greatest accepted value, in the unit of the argument. */
  readonly max: number;
  /** The unit in words, for the message: `hertz`. */
  readonly unit: string;
  /** Scales to suggest when the number would fit in one of them. */
  readonly hints?: readonly ScaleHint[] | undefined;
}

/**
 * Returns the value if it is a finite number.
 *
 * @param unit - the unit in words, for the message
 * @throws {@link InputError} `not-a-finite-number`
 * @example
 * ```ts
 * import { checkFinite } from '@finial/units';
 *
 * checkFinite(-3, 'gainDbi', 'dBi'); // → -3
 * ```
 */
export function checkFinite(value: unknown, argument: string, unit: string): number {
  if (isFiniteNumber(value)) return value;
  throw refusal(value, argument, `a finite number of ${unit}`);
}

/**
 * Returns the value if it is a finite number above zero.
 *
 * @param unit - the unit in words, for the message
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @example
 * ```ts
 * import { checkPositive } from '@finial/units';
 *
 * checkPositive(868.1e6, 'frequencyHz', 'hertz'); // → 868100000
 * ```
 */
export function checkPositive(value: unknown, argument: string, unit: string): number {
  if (isFiniteNumber(value) && value > 0) return value;
  throw refusal(value, argument, `more than 0 ${unit}`);
}

/**
 * Returns the value if it is a finite number, zero or above.
 *
 * @param unit - the unit in words, for the message
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @example
 * ```ts
 * import { checkNotNegative } from '@finial/units';
 *
 * checkNotNegative(0, 'lossDb', 'dB'); // → 0
 * ```
 */
export function checkNotNegative(value: unknown, argument: string, unit: string): number {
  if (isFiniteNumber(value) && value >= 0) return value;
  throw refusal(value, argument, `0 ${unit} or more`);
}

/**
 * Returns the value if it lies between two bounds, both included. When it would fit in another scale, the refusal asks
 * whether that scale was meant.
 *
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @example A frequency typed in megahertz
 * ```ts
 * import { checkRange, frequencyHints } from '@finial/units';
 *
 * const band = { min: 100e6, max: 3e9, unit: 'hertz', hints: frequencyHints };
 * checkRange(868.1e6, 'frequencyHz', band); // → 868100000
 * try {
 *   checkRange(868.1, 'frequencyHz', band);
 * } catch (error) {
 *   String(error).includes('megahertz?'); // → true
 * }
 * ```
 */
export function checkRange(value: unknown, argument: string, bounds: RangeBounds): number {
  const { min, max, unit, hints = [] } = bounds;
  if (isFiniteNumber(value) && value >= min && value <= max) return value;
  const scale = isFiniteNumber(value)
    ? hints.find(({ ratio }) => value * ratio >= min && value * ratio <= max)
    : undefined;
  const hint = scale === undefined ? '' : ` (${scale.name}?)`;
  throw refusal(value, argument, `${min} to ${max} ${unit}${hint}`);
}

/** Scales in which frequencies are often written, for {@link checkRange}. */
export const frequencyHints: readonly ScaleHint[] = [
  { name: 'kilohertz', ratio: 1e3 },
  { name: 'megahertz', ratio: 1e6 },
  { name: 'gigahertz', ratio: 1e9 },
];

/**
 * Returns the value if it is a whole number between two bounds, both included.
 *
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @example
 * ```ts
 * import { checkInteger } from '@finial/units';
 *
 * checkInteger(51, 'payloadBytes', { min: 0, max: 255, unit: 'bytes' }); // → 51
 * ```
 */
export function checkInteger(value: unknown, argument: string, bounds: RangeBounds): number {
  const { min, max, unit } = bounds;
  if (Number.isInteger(value)) {
    const whole = value as number;
    if (whole >= min && whole <= max) return whole;
  }
  throw refusal(value, argument, `a whole number of ${unit} from ${min} to ${max}`);
}

/**
 * Returns the value if it is one of the listed options.
 *
 * @throws {@link InputError} `unknown-option`
 * @example
 * ```ts
 * import { checkOneOf } from '@finial/units';
 *
 * checkOneOf('explicit', 'header', ['explicit', 'implicit']); // → 'explicit'
 * ```
 */
export function checkOneOf<const Option extends string | number | boolean>(
  value: unknown,
  argument: string,
  options: readonly Option[],
): Option {
  const found = options.find((option) => option === value);
  if (found !== undefined) return found;
  const listed = options.map((option) => (typeof option === 'string' ? `'${option}'` : String(option)));
  throw new InputError({ code: 'unknown-option', argument, received: value, expected: listed.join(' or ') });
}

/**
 * Returns the value if it is an object that is not a list: the guard for an options argument that a JavaScript caller left out.
 *
 * @throws {@link InputError} `wrong-type`
 * @example
 * ```ts
 * import { checkObject } from '@finial/units';
 *
 * checkObject({ distanceM: 5 }, 'path'); // → { distanceM: 5 }
 * ```
 */
export function checkObject<Value extends object>(value: Value, argument: string): Value {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value;
  throw new InputError({ code: 'wrong-type', argument, received: value, expected: 'an object' });
}

/**
 * Returns the value if it is a list (array) with at least one entry.
 *
 * @throws {@link InputError} `wrong-type` when it is no list, `missing` when it is empty
 * @example
 * ```ts
 * import { checkList } from '@finial/units';
 *
 * checkList([1, 2], 'powersDbm'); // → [1, 2]
 * ```
 */
export function checkList<Item>(value: readonly Item[], argument: string): readonly Item[] {
  if (!Array.isArray(value)) {
    throw new InputError({ code: 'wrong-type', argument, received: value, expected: 'a list' });
  }
  if (value.length === 0) {
    throw new InputError({ code: 'missing', argument, received: value, expected: 'at least one entry' });
  }
  return value;
}

function isFiniteNumber(value: unknown): value is number {
  return Number.isFinite(value);
}

/** Only a refusal needs its words: they are put together after a check has failed. */
function refusal(value: unknown, argument: string, expected: string): InputError {
  const code = isFiniteNumber(value) ? 'out-of-range' : 'not-a-finite-number';
  return new InputError({ code, argument, received: value, expected });
}
