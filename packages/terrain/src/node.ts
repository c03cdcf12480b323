import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { checkList, InputError } from '@finial/units';
import { type OpenElevationOptions, openElevation } from './openElevation.js';
import type { Elevation } from './parts.js';

export { InputError, isInputError } from '@finial/units';

/**
 * Reads tiles of ground heights from files on disk: {@link openElevation} for Node.
 *
 * @param paths - paths of the files, the most trusted first
 * @returns as {@link openElevation}
 * @throws {@link InputError} `missing` where a file cannot be read; else as {@link openElevation}
 * @source as {@link openElevation}
 * @example
 * ```ts
 * import { openElevationFiles } from '@finial/terrain/node';
 *
 * const elevation = await openElevationFiles(['examples/fennimara/elevation.tif']);
 * elevation.tiles[0]?.columns; // → 520
 * ```
 */
export async function openElevationFiles(
  paths: readonly string[],
  options: OpenElevationOptions = {},
): Promise<Elevation> {
  checkList(paths, 'paths');
  const files = paths.map((path, index) => {
    if (typeof path === 'string' && path !== '') return { path, name: basename(path) };
    throw new InputError({
      code: 'wrong-type',
      argument: `paths[${index}]`,
      received: path,
      expected: 'the path of a file',
    });
  });
  return await openElevation(
    await Promise.all(files.map(async ({ path, name }) => ({ name, bytes: await bytesOf(path) }))),
    options,
  );
}

async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new InputError(
      { code: 'missing', argument: 'paths', received: path, expected: 'a file that can be read' },
      { cause: error },
    );
  }
}
