/** Where an entry of a JSON text stands, in characters from its beginning. */
export interface JsonSpan {
  readonly start: number;
  readonly end: number;
}

/** What {@link jsonPlaces} found. */
export interface JsonPlaces {
  /** The entries of the list `features` of the outermost object. */
  readonly features: readonly JsonSpan[];
  /** Where the text stops being JSON, and what would have fitted there. */
  readonly fault?: { readonly at: number; readonly expected: string } | undefined;
}

type Awaited =
  | 'a value'
  | 'a value or ]'
  | 'a key in quotes'
  | 'a key in quotes or }'
  | ':'
  | ', or the end'
  | 'nothing more';

/**
 * Walks through a JSON text and notes where things stand, which `JSON.parse` does not tell.
 *
 * `JSON.parse` stays the judge of what is JSON; strings are read more loosely here.
 */
export function jsonPlaces(text: string): JsonPlaces {
  const token =
    /\s*(?:([{}[\],:])|("(?:[^"\\\n\r]|\\.)*")|(-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null))/y;
  const open: string[] = [];
  let features: JsonSpan[] = [];
  let awaited: Awaited = 'a value';
  let key = '';
  let start = 0;
  let inFeatures = false;
  for (;;) {
    const from = token.lastIndex;
    const found = token.exec(text);
    if (found === null) {
      const at = from + (/^\s*/.exec(text.slice(from))?.[0].length ?? 0);
      const done = awaited === 'nothing more' && at === text.length;
      return { features, fault: done ? undefined : { at, expected: awaited } };
    }
    const [mark, quoted] = [found[1] ?? '', found[2]];
    const word = mark === '' ? (quoted ?? found[3] ?? '') : mark;
    const at = token.lastIndex - word.length;
    const next = following(awaited, mark, quoted, open);
    if (next === undefined) return { features, fault: { at, expected: awaited } };
    if (awaited.startsWith('a key') && quoted !== undefined && open.length === 1) key = quoted;
    if (awaited.startsWith('a value') && inFeatures && open.length === 2) start = at;
    if (mark === '{' || mark === '[') {
      open.push(mark);
      if (open.length === 2 && open[0] === '{' && mark === '[' && key === '"features"') {
        inFeatures = true;
        features = [];
      }
    }
    if (mark === '}' || mark === ']') open.pop();
    if (inFeatures && open.length === 1) inFeatures = false;
    awaited = next === ', or the end' && open.length === 0 ? 'nothing more' : next;
    if (inFeatures && open.length === 2 && awaited === ', or the end') {
      features.push({ start, end: token.lastIndex });
    }
  }
}

/** What may come after a token, or `undefined` where the token itself does not fit. */
function following(
  awaited: Awaited,
  mark: string,
  quoted: string | undefined,
  open: readonly string[],
): Awaited | undefined {
  const closes = open.at(-1) === '{' ? '}' : ']';
  switch (awaited) {
    case ':':
      return mark === ':' ? 'a value' : undefined;
    case 'nothing more':
      return undefined;
    case ', or the end':
      if (mark === ',') return closes === '}' ? 'a key in quotes' : 'a value';
      return mark === closes ? ', or the end' : undefined;
    case 'a key in quotes':
    case 'a key in quotes or }':
      if (quoted !== undefined) return ':';
      return mark === '}' && awaited === 'a key in quotes or }' ? ', or the end' : undefined;
    default:
      if (mark === '') return ', or the end';
      if (mark === '{') return 'a key in quotes or }';
      if (mark === '[') return 'a value or ]';
      return mark === ']' && awaited === 'a value or ]' ? ', or the end' : undefined;
  }
}
