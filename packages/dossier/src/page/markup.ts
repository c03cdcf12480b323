/** Text that is already safe to stand in the page. Only {@link markup} and {@link join} make it. */
export interface Markup {
  /** The HTML or SVG text. */
  readonly markupText: string;
}

type Part = string | number | Markup | readonly Markup[] | null | undefined;

/**
 * A template tag that escapes everything put into it, except other pieces of markup. All pages and pictures are built
 * through it, so that no text of a plan or a log can become a tag, an attribute or a script.
 */
export function markup(fixed: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  const text = fixed.reduce((sofar, piece, index) => sofar + safe(parts[index - 1]) + piece);
  return { markupText: text };
}

/** Several pieces of markup, one after the other. */
export function join(pieces: readonly Markup[], between = '\n'): Markup {
  return { markupText: pieces.map(({ markupText }) => markupText).join(between) };
}

function safe(part: Part): string {
  if (part === null || part === undefined) return '';
  if (typeof part === 'number') return String(part);
  if (typeof part === 'string') return escaped(part);
  return 'markupText' in part ? part.markupText : join(part).markupText;
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Escapes what HTML reads as markup; control signs and those that turn the direction of text are replaced. */
function escaped(text: string): string {
  return text
    .replace(/[&<>"']/g, (sign) => entities[sign] ?? '')
    .replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, (sign) => (/[\n\t]/.test(sign) ? sign : '\ufffd'));
}
