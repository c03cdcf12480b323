import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * Writes several files into a folder so that each is there whole or not at all: all contents first go to files beside their
 * targets, and only when every one is written are they renamed. On a fault the unfinished ones are removed.
 */
export async function writeAll(
  folder: string,
  contents: Readonly<Record<string, string | Uint8Array>>,
): Promise<void> {
  await mkdir(folder, { recursive: true });
  const moves = Object.entries(contents).map(([name, content]) => ({
    content,
    target: join(folder, name),
    unfinished: join(folder, `.${name}.${process.pid}.unfinished`),
  }));
  try {
    for (const { unfinished, content } of moves) await writeFile(unfinished, content);
    for (const { unfinished, target } of moves) await rename(unfinished, target);
  } finally {
    await Promise.all(moves.map(({ unfinished }) => rm(unfinished, { force: true })));
  }
}
