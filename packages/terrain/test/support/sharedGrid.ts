import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Text of a grid that lies beside the repository, or `undefined` where it is not there. */
export function sharedGrid(name: string): string | undefined {
  const path = fileURLToPath(new URL(`../../../../../shared/data/dem/${name}`, import.meta.url));
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}
