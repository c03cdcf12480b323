import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Text of a published validation set that lies beside the repository, or `undefined` where it is not there. */
export function sharedReference(name: string): string | undefined {
  const path = fileURLToPath(new URL(`../../../../shared/reference/propagation/${name}`, import.meta.url));
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

/** Rows of a simple table with a head line and commas, by the columns that are asked for. */
export function tableRows<Column extends string>(
  text: string,
  columns: readonly Column[],
): readonly Readonly<Record<Column, string>>[] {
  const [head = '', ...lines] = text.trim().split(/\r?\n/);
  const places = columns.map((column) => [column, head.split(',').indexOf(column)] as const);
  for (const [column, place] of places) if (place < 0) throw new Error(`no column ${column} in ${head}`);
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(places.map(([column, place]) => [column, cells[place] ?? ''])) as Record<
      Column,
      string
    >;
  });
}
