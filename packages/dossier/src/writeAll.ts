import { mkdir, rename, rm, rmdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { InputError } from '@finial/units';

/**
 * Writes several files into a folder so that each is there whole or not at all: all contents first go to files beside their
 * targets, and only when every one is written are they renamed. On a fault, and when the signal is aborted before the renaming, the
 * unfinished ones are removed, with the folder if it was made for them.
 */
export async function writeAll(
  folder: string,
  contents: Readonly<Record<string, string | Uint8Array>>,
  signal?: AbortSignal | undefined,
): Promise<void> {
  signal?.throwIfAborted();
  const made = await orRefused(folder, () => mkdir(folder, { recursive: true }));
  const moves = Object.entries(contents).map(([name, content]) => ({
    content,
    target: join(folder, name),
    unfinished: join(folder, `.${name}.${process.pid}.unfinished`),
  }));
  try {
    for (const { unfinished, content } of moves) {
      await orRefused(folder, () => writeFile(unfinished, content, { signal }));
    }
    signal?.throwIfAborted();
    for (const { unfinished, target } of moves) await orRefused(target, () => rename(unfinished, target));
  } catch (error) {
    await Promise.all(moves.map(({ unfinished }) => rm(unfinished, { force: true })));
    if (made !== undefined) await removeEmpty(folder, made);
    throw signal?.aborted ? signal.reason : error;
  }
}

/** A disk that refuses is bad input: the person has named a place that cannot be written to. */
async function orRefused<Result>(path: string, work: () => Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    const { code, name } = error as NodeJS.ErrnoException;
    if (code === undefined || name === 'AbortError') throw error;
    const expected = `a place that can be written to (${code})`;
    throw new InputError({ code: 'missing', argument: '--out', received: path, expected }, { cause: error });
  }
}

/** Removes a folder and those above it down from the one that was made first, as long as nothing else is in them. */
async function removeEmpty(folder: string, made: string): Promise<void> {
  try {
    for (let each = folder; each.length >= made.length; each = dirname(each)) await rmdir(each);
  } catch {
    // Somebody else has put a file there meanwhile: it stays.
  }
}
