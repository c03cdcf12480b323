/**
 * A text as a cell that no spreadsheet takes for a formula: one that begins with a sign which opens a formula gets an apostrophe
 * before it, which {@link withoutGuard} takes off again. Plain numbers stay numbers.
 */
export function withGuard(text: string): string {
  return opensFormula.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}

/** The text of a cell without the apostrophe that {@link withGuard} or a spreadsheet put before it. */
export function withoutGuard(cell: string): string {
  return guarded.test(cell) ? cell.slice(1) : cell;
}

// Apostrophes before the sign count too: else a text that has one of its own would come back without it. Blanks alone are no text to a reader.
const opensFormula = /^'*(?:[=+\-@]|[\t\r\n]\s*\S)/;
const guarded = /^'+(?:[=+\-@]|[\t\r\n]\s*\S)/;
const plainNumber = /^[+-]?\d+(?:\.\d+)?$/;
