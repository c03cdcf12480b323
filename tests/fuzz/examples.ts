import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../support/workspace.js';

const read = new Map<string, Buffer>();

/** The bytes of a file of the worked example. */
export function exampleBytes(name: string): Uint8Array {
  const bytes = read.get(name) ?? readFileSync(join(root, 'examples', 'fennimara', name));
  read.set(name, bytes);
  return bytes;
}

/** The text of a file of the worked example. */
export function exampleText(name: string): string {
  return new TextDecoder().decode(exampleBytes(name));
}
