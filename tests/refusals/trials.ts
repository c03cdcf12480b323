/** Where a value sits in the arguments of a call: place of the argument, then keys. */
export type Path = readonly (string | number)[];

/** A path as a person writes it; the arguments go by the names of the parameters. */
export function written([place, ...keys]: Path, parameterNames: readonly string[]): string {
  const name = parameterNames[Number(place)] ?? `argument ${Number(place) + 1}`;
  return keys.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : `${text}.${key}`),
    name,
  );
}

/** The name that a refusal must mention: the last word of a path, or the parameter. */
export function mentioned(path: Path, parameterNames: readonly string[]): string {
  const key = path.slice(1).findLast((part) => typeof part === 'string');
  return String(key ?? parameterNames[Number(path[0])] ?? '');
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

/**
 * Every value inside the arguments that a caller could get wrong. Of a long list, only the first and the last entry; of a
 * constant, only itself and nothing inside it.
 */
export function placesIn(value: unknown, path: Path, isConstant: (path: Path) => boolean): readonly Path[] {
  if (path.length > 0 && isConstant(path)) return [path];
  const here = path.length > 0 ? [path] : [];
  const keys = isPlain(value)
    ? Object.keys(value)
    : Array.isArray(value) && path.length === 0
      ? value.keys()
      : Array.isArray(value) || isNumberSeries(value)
        ? new Set([0, value.length - 1].filter((index) => index >= 0))
        : [];
  return [
    ...here,
    ...[...keys].flatMap((key) => placesIn(valueAt(value, [key]), [...path, key], isConstant)),
  ];
}

function isNumberSeries(value: unknown): value is Float64Array {
  return ArrayBuffer.isView(value) && !(value instanceof DataView) && !(value instanceof Uint8Array);
}

/** The value at a path. */
export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, key) => (inner as Record<string | number, unknown>)[key], value);
}

const leftOut = Symbol('left out');

/** The same arguments with another value at a path, frozen, so that a function that writes into its arguments fails. */
export function withValue(value: unknown, [key, ...rest]: Path, replacement: unknown): unknown {
  if (key === undefined) return replacement;
  if (isNumberSeries(value)) {
    const copy = value.slice();
    copy[Number(key)] = replacement as number;
    return copy;
  }
  const inner = withValue(valueAt(value, [key]), rest, replacement);
  if (Array.isArray(value)) return Object.freeze(value.map((item, index) => (index === key ? inner : item)));
  const entries = Object.entries(value as object).map(([name, item]) => [name, name === key ? inner : item]);
  return Object.freeze(Object.fromEntries(entries.filter(([, item]) => item !== leftOut)));
}

/** The same arguments without a key. */
export function without(value: unknown, path: Path): unknown {
  return withValue(value, path, leftOut);
}

/** A copy of plain objects and lists, frozen all through. */
export function frozen(value: unknown): unknown {
  if (Array.isArray(value)) return Object.freeze(value.map(frozen));
  if (!isPlain(value)) return value;
  return Object.freeze(Object.fromEntries(Object.entries(value).map(([key, item]) => [key, frozen(item)])));
}

/** What to put in the place of a value: everything of another kind, and every number that is none. */
export function wrongValuesFor(value: unknown, isInSeries: boolean): readonly unknown[] {
  const notFinite = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  if (typeof value === 'number') return isInSeries ? notFinite : [...notFinite, String(value), null, {}];
  if (typeof value === 'boolean') return [String(value), 1, 0, null];
  if (typeof value === 'string') return [5, null, {}];
  if (typeof value === 'object' && value !== null) return [null, 'text', 5];
  return [];
}

/** Finite numbers at the ends of a double, and the usual traps: each must be refused, or give a result without holes. */
export const extremes: readonly number[] = [
  Number.MAX_VALUE,
  -Number.MAX_VALUE,
  Number.MIN_VALUE,
  -Number.MIN_VALUE,
  0,
  -1,
];

/** A value in one word, for a message. */
export function inAWord(value: unknown): string {
  if (typeof value === 'number' || value === undefined || value === null) return String(value);
  if (typeof value === 'bigint') return `${value}n`;
  return JSON.stringify(value)?.slice(0, 60) ?? typeof value;
}

/** Paths of numbers that are not finite, anywhere in a result. */
export function notFiniteIn(value: unknown, path: string, seen: Set<unknown> = new Set()): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value !== 'object' || value === null || seen.has(value)) return [];
  seen.add(value);
  const entries = value instanceof Map || value instanceof Set ? [...value.entries()] : Object.entries(value);
  return entries.flatMap(([key, item]) => notFiniteIn(item, `${path}.${String(key)}`, seen));
}
