import type { Random } from './Random.js';

const words = [
  '__proto__',
  'constructor',
  'prototype',
  'polluted',
  'NaN',
  '-Infinity',
  '1e999',
  '-1e-999',
  '0x1f',
  '9007199254740993',
  '1e308',
  '-0',
  '1,5',
  '١٢',
  '=1+1',
  "'",
  '"',
  '""',
  '&lol9;',
  '&#0;',
  '&#x110000;',
  ']]>',
  '<!--',
  '\0',
  '\uFEFF',
  '\uD800',
  '\u2028',
  '\u0085',
  '{',
  '}',
  '[',
  ']',
  '\\u0000',
  '#',
  '!',
  '[End]',
  'null',
  '2024-02-30T00:00:00Z',
  '-271821-04-20T00:00:00Z',
];

/** One numeral, as the grammars write it and as no grammar should. */
export function numeral(random: Random): string {
  const scale = 10 ** random.whole(-3, 9);
  const plain = ((random.ratio() - 0.3) * scale).toPrecision(random.whole(1, 15));
  return random.chance(0.9) ? plain : random.pick([...words, '9'.repeat(random.whole(1, 400)), '']);
}

/** A word of a name or a text cell. */
export function word(random: Random): string {
  return random.chance(0.5)
    ? random.pick(words)
    : String.fromCharCode(...random.several(8, () => random.whole(32, 300)));
}

function repeated(random: Random): string {
  // Each broken row costs an error with its stack: thousands of lines say no more than hundreds.
  const [sign, most] = random.pick([
    ['x', 30_000],
    ['"', 30_000],
    [' ', 30_000],
    ['1', 30_000],
    ['\n', 300],
  ] as const);
  return sign.repeat(random.whole(1, random.chance(0.2) ? most : 300));
}

const textMutations: readonly ((text: string, random: Random) => string)[] = [
  (text, random) => splice(text, random, 1, String.fromCharCode(random.whole(0, 255))),
  (text, random) => splice(text, random, 0, random.pick(words)),
  (text, random) => splice(text, random, random.whole(1, 12), ''),
  (text, random) => text.slice(0, random.whole(0, text.length)),
  (text, random) => text.slice(random.whole(0, text.length)),
  (text, random) => text.replace(/-?\d+\.?\d*/g, (found) => (random.chance(0.05) ? numeral(random) : found)),
  (text, random) => text.replace(/\n/g, () => random.pick(['\n', '\r\n', '\r', '\n\n'])),
  (text) => `\uFEFF${text}`,
  (text) => [...text].join('\0'),
  (text, random) => lineChange(text, random),
  (text, random) => splice(text, random, 0, repeated(random)),
  (text, random) => {
    const [opening, closing] = random.pick([
      ['[', ']'],
      ['{"a":', '}'],
      ['<a>', '</a>'],
      ['"', '"'],
    ] as const);
    const depth = random.whole(1, 5000);
    return splice(text, random, 0, opening.repeat(depth) + (random.chance(0.5) ? closing.repeat(depth) : ''));
  },
  (text, random) => {
    const piece = text.slice(random.whole(0, text.length), random.whole(0, text.length));
    return splice(text, random, 0, piece);
  },
];

/** A text with nothing, one thing or a few things wrong. */
export function mutatedText(text: string, random: Random): string {
  let mutated = text;
  for (let count = random.pick([0, 1, 1, 1, 2, 4]); count > 0; count--) {
    mutated = random.pick(textMutations)(mutated, random);
  }
  return mutated;
}

function splice(text: string, random: Random, deleted: number, inserted: string): string {
  const at = random.whole(0, text.length);
  return text.slice(0, at) + inserted + text.slice(at + deleted);
}

function lineChange(text: string, random: Random): string {
  const lines = text.split('\n');
  const [from, to] = [random.whole(0, lines.length - 1), random.whole(0, lines.length - 1)];
  const moved = lines[from] ?? '';
  if (random.chance(0.3)) lines.splice(from, 1);
  else lines.splice(to, random.chance(0.5) ? 1 : 0, moved);
  return lines.join('\n');
}

/** Bytes with nothing, one thing or a few things wrong. */
export function mutatedBytes(bytes: Uint8Array, random: Random): Uint8Array {
  let mutated = bytes.slice();
  for (let count = random.pick([0, 1, 1, 2, 4, 16]); count > 0; count--) {
    if (mutated.length === 0) break;
    const at = random.whole(0, mutated.length - 1);
    const kind = random.whole(0, 9);
    if (kind === 0) mutated = mutated.slice(0, at);
    else if (kind === 1)
      mutated.copyWithin(at, random.whole(0, mutated.length - 1), random.whole(0, mutated.length));
    else if (kind === 2) mutated.fill(random.pick([0, 0xff, 0x7f, 0x80]), at, at + random.whole(1, 8));
    else if (kind < 6) mutated[at] = (mutated[at] ?? 0) ^ (1 << random.whole(0, 7));
    else mutated[at] = random.whole(0, 255);
  }
  return mutated;
}

/** Hostile changes of the values in a JSON-like value: keys with a meaning in JavaScript, other types, deep nesting. */
export function mutatedValue(value: unknown, random: Random): unknown {
  if (random.chance(0.04)) return oddValue(random);
  if (Array.isArray(value)) {
    const items: unknown[] = value.map((item) => (random.chance(0.5) ? mutatedValue(item, random) : item));
    if (random.chance(0.05))
      items.splice(random.whole(0, items.length), random.whole(0, 1), oddValue(random));
    if (random.chance(0.05) && items.length > 0) items.push(random.pick(items));
    return items;
  }
  if (typeof value === 'number' && random.chance(0.03)) return oddNumber(random, value);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value)
    .filter(() => !random.chance(0.01))
    .map(([key, item]): [string, unknown] => [
      random.chance(0.01) ? `${key}${word(random)}` : key,
      mutatedValue(item, random),
    ]);
  // `fromEntries` and `JSON.parse` make own keys of what an assignment would take for the prototype.
  if (random.chance(0.02))
    entries.push([random.pick(['__proto__', 'constructor', 'toString', 'x']), { polluted: 1 }]);
  return Object.fromEntries(entries);
}

const oddNumbers = [
  0,
  -0,
  1,
  -1,
  0.5,
  2,
  Number.MIN_VALUE,
  -Number.MIN_VALUE,
  2.2250738585072014e-308,
  Number.EPSILON,
  1e-300,
  1e-30,
  1e-9,
  1e9,
  1e30,
  1e300,
  1e308,
  -1e308,
  Number.MAX_VALUE,
  -Number.MAX_VALUE,
  2 ** 31,
  2 ** 32,
  2 ** 53,
  -(2 ** 31),
  255,
  256,
  65_536,
];

/** A number at an end of its range, at one of the given ones, near a value, or anywhere. */
export function oddNumber(random: Random, near: number, bounds: readonly number[] = []): number {
  const kind = random.whole(0, 9);
  if (kind < 2) return random.pick(oddNumbers);
  if (kind < 5 && bounds.length > 0) {
    const bound = random.pick(bounds);
    return random.pick([
      bound,
      bound * (1 + Number.EPSILON),
      bound * (1 - Number.EPSILON),
      bound / 2,
      bound * 2,
    ]);
  }
  if (kind < 6) return near * (1 + (random.ratio() - 0.5) * 10 ** random.whole(-15, 0));
  if (kind < 8) return near * 10 ** ((random.ratio() - 0.5) * random.pick([1, 4, 20]));
  if (kind < 9) return Math.round(near + random.whole(-5, 5));
  return (random.ratio() - 0.5) * 10 ** random.whole(-20, 20);
}

const oddValues: readonly (() => unknown)[] = [
  () => Number.NaN,
  () => Number.POSITIVE_INFINITY,
  () => Number.NEGATIVE_INFINITY,
  () => undefined,
  () => null,
  () => '',
  () => '5',
  () => 'text',
  () => '__proto__',
  () => 'constructor',
  () => 'toString',
  () => true,
  () => false,
  () => [],
  () => [1],
  () => [Number.NaN],
  () => [[]],
  () => [undefined],
  () => ({}),
  () => ({ length: 3 }),
  () => ({ valueOf: () => 5 }),
  () => JSON.parse('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}}}'),
  () => () => 5,
  () => new Date(Number.NaN),
  () => new Float64Array(2),
  () => Float64Array.of(Number.NaN),
  () => new Uint8Array(3),
  () => new Map(),
  () => new DataView(new ArrayBuffer(2)),
];

/** What JavaScript makes no number of: arithmetic with it throws before any check, if it comes first. */
const beyondArithmetic: readonly (() => unknown)[] = [
  () => 7n,
  () => Symbol('odd'),
  () => Object.create(null),
];

/** A value that throws in arithmetic. */
export function oddestValue(random: Random): unknown {
  return random.pick(beyondArithmetic)();
}

/** A value of any other kind. */
export function oddValue(random: Random): unknown {
  return random.chance(0.3) ? oddNumber(random, 1) : random.pick(oddValues)();
}
