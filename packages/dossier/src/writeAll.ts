import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * Writes several files into a folder so that each is there whole or not at all: all texts first go to files beside their
 * targets, and only when every one is written are they renamed. On a fault the unfinished ones are removed.
 */
export async function writeAll(folder: string, texts: Readonly<Record<string, string>>): Promise<void> {
  await mkdir(folder, { recursive: true });
  const moves = Object.entries(texts).map(([name, text]) => ({
    text,
    target: join(folder, name),
    unfinished: join(folder, `.${name}.${process.pid}.unfinished`),
  }));
  try {
    for (const { unfinished, text } of moves) await writeFile(unfinished, text);
    for (const { unfinished, target } of moves) await rename(unfinished, target);
  } finally {
    await Promise.all(moves.map(({ unfinished }) => rm(unfinished, { force: true })));
  }
}
