import type { Finding } from '@finial/units';
import type { Terminal } from './Terminal.js';

const usualColumns = 80;
/** Narrower, a wrapped text is a column of single words. */
const fewestColumns = 40;

/** Characters in a line of the terminal. */
export function columnsOf({ columns = usualColumns }: Terminal): number {
  return Math.max(fewestColumns, columns);
}

/** Lines of a text that are no longer than the terminal is wide; the first begins with the prefix, the others under its end. */
export function wrapped(text: string, terminal: Terminal, prefix = ''): readonly string[] {
  // A prefix may be long, such as the path of a folder: the text beside it still needs room.
  const room = Math.max(fewestColumns / 2, columnsOf(terminal) - prefix.length);
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= room)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map((line, index) => (index === 0 ? prefix : ' '.repeat(prefix.length)) + line);
}

/** Findings one below the other, each with its weight before it. */
export function findingLines(findings: readonly Finding[], terminal: Terminal): readonly string[] {
  return findings.flatMap(({ severity, message }) => wrapped(message, terminal, `  ${severity.padEnd(6)}`));
}

/** Rows with their cells one below the other; a cell that begins with a digit or a sign stands at the right of its column. */
export function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  return rows.map((row) =>
    `  ${row.map((cell, column) => aligned(cell, widths[column] as number)).join('  ')}`.trimEnd(),
  );
}

function aligned(cell: string, width: number): string {
  return /^[-+]?\d[\d.]*( [^\d\s]+)?$/.test(cell) ? cell.padStart(width) : cell.padEnd(width);
}

/** Names with what belongs to each, wrapped beside the longest name. */
export function facts(
  rows: readonly (readonly [name: string, text: string])[],
  terminal: Terminal,
): readonly string[] {
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.flatMap(([name, text]) => wrapped(text, terminal, `  ${name.padEnd(width)}  `));
}

/** The files that were written, and where. */
export function writtenLines(
  folder: string,
  names: readonly string[],
  terminal: Terminal,
): readonly string[] {
  return wrapped(names.join(', '), terminal, `Written to ${folder}: `);
}

/** Writes lines to standard output. */
export function writeLines(terminal: Terminal, lines: readonly string[]): void {
  terminal.out(`${lines.join('\n')}\n`);
}

/** Writes plain data as one line of JSON. */
export function writeJson(terminal: Terminal, data: unknown): void {
  terminal.out(`${JSON.stringify(data)}\n`);
}
