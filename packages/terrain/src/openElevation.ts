import { checkInteger, checkList, checkObject, checkOneOf, InputError, isInputError } from '@finial/units';
import type { FileCoordinates } from './formats/FileCoordinates.js';
import { readAsciiGrid } from './formats/readAsciiGrid.js';
import { readGeotiff } from './formats/readGeotiff.js';
import { readHgt } from './formats/readHgt.js';
import type { Elevation, ElevationTile } from './parts.js';
import { checkGrid } from './tile/checkElevation.js';
import { fillVoids } from './tile/fillVoids.js';
import { cellHeight } from './tile/tileHeight.js';

/** A file of heights: its name and its bytes, or a `File` as a page gets it from its visitor. */
export type ElevationFile =
  | {
      /** Name of the file; that of an HGT tile says where it lies. */
      readonly name: string;
      /** What is in the file. */
      readonly bytes: Uint8Array | ArrayBuffer;
    }
  | {
      /** Name of the file. */
      readonly name: string;
      /** What is in the file. */
      readonly blob: Blob;
    }
  | File;

/** How {@link openElevation} reads. */
export interface OpenElevationOptions {
  /**
   * What happens to cells without a height. `'refuse-later'` keeps them, and asking for a height there is refused; `'fill'` takes
   * the height of another tile where one covers the place, else closes the hole from its rim.
   *
   * @defaultValue `'refuse-later'`
   */
  readonly voids?: 'refuse-later' | 'fill' | undefined;
  /**
   * What the coordinates are of files that do not say it (ASCII grids; taken for WGS 84 degrees without this option), or say a
   * system that is not known here (a GeoTIFF in another datum, refused without this option). A file that says it itself is
   * taken at its word.
   */
  readonly coordinates?: FileCoordinates | undefined;
  /** Stops the reading; the promise is rejected with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
  /** Told after each file. */
  readonly onProgress?: ((progress: OpenElevationProgress) => void) | undefined;
}

/** How far {@link openElevation} is. */
export interface OpenElevationProgress {
  /** Name of the file just read. */
  readonly step: string;
  /** Share of the files that are read, from 0 to 1. */
  readonly doneRatio: number;
}

// The Earth's ground, its sea floor included, with room to spare: what lies beyond is no height in metres.
const lowestM = -12_000;
const highestM = 9_500;

/**
 * Reads tiles of ground heights: HGT (1201 or 3601 heights a side), GeoTIFF (one band; WGS 84 degrees or UTM) and ASCII grids, each
 * recognised by its first bytes or its name. Heights stay as the files give them, above the sea level of their own datum.
 *
 * Tiles of several formats, spacings and zones go together; where they overlap, the first in the list that has a value holds.
 * A height below -12 000 or above 9 500 metres is refused: a no-data value that the file did not declare, or another unit.
 *
 * @param files - one or more files, the most trusted first
 * @returns tiles as plain data, 2 bytes per cell for whole metres (26 MB for 3601 by 3601), 4 or 8 otherwise
 * @throws {@link InputError} `malformed-file` with the file and, in a text, line and column; `wrong-type`, `missing`, `unknown-option`
 * @source formats: NASA/USGS SRTM user guide (HGT, from memory), OGC 19-008r4 GeoTIFF 1.1, Esri ASCII raster format
 * @example A grid of text
 * ```ts
 * import { openElevation } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 -9999\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * elevation.voidCount; // → 1
 * ```
 */
export async function openElevation(
  files: readonly ElevationFile[],
  options: OpenElevationOptions = {},
): Promise<Elevation> {
  checkList(files, 'files');
  const { voids = 'refuse-later', coordinates, signal, onProgress } = checkObject(options, 'options');
  checkOneOf(voids, 'voids', ['refuse-later', 'fill']);
  checkCoordinates(coordinates);

  const tiles: ElevationTile[] = [];
  for (const [index, file] of files.entries()) {
    signal?.throwIfAborted();
    const { name, bytes } = await contentsOf(file, `files[${index}]`);
    tiles.push(finished(await readTile(name, bytes, coordinates, signal)));
    onProgress?.({ step: name, doneRatio: tiles.length / files.length });
  }
  signal?.throwIfAborted();
  const filled = voids === 'fill' ? tiles.map((tile) => fillVoids(tile, without(tiles, tile))) : [];
  const kept = voids === 'fill' ? filled.map(({ tile }) => tile) : tiles;
  return {
    tiles: kept,
    voidCount: kept.reduce((sum, { voidCount }) => sum + voidCount, 0),
    filledCount: filled.reduce((sum, { filledCount }) => sum + filledCount, 0),
  };
}

function without(tiles: readonly ElevationTile[], tile: ElevationTile): readonly ElevationTile[] {
  return tiles.filter((other) => other !== tile);
}

function checkCoordinates(coordinates: FileCoordinates | undefined): void {
  if (coordinates === undefined) return;
  checkObject(coordinates, 'coordinates');
  checkOneOf(coordinates.kind, 'coordinates.kind', ['geographic', 'utm']);
  if (coordinates.kind !== 'utm') return;
  checkInteger(coordinates.zone, 'coordinates.zone', { min: 1, max: 60, unit: 'zones' });
  checkOneOf(coordinates.hemisphere, 'coordinates.hemisphere', ['north', 'south']);
}

async function contentsOf(
  file: ElevationFile,
  argument: string,
): Promise<{ name: string; bytes: Uint8Array }> {
  checkObject(file, argument);
  const { name } = file;
  if (typeof name !== 'string' || name === '') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${argument}.name`,
      received: name,
      expected: 'the name of the file',
    });
  }
  const source: unknown =
    'bytes' in file && typeof file.bytes !== 'function' ? file.bytes : 'blob' in file ? file.blob : file;
  if (source instanceof Uint8Array) return { name, bytes: source };
  if (source instanceof ArrayBuffer) return { name, bytes: new Uint8Array(source) };
  if (source instanceof Blob) return { name, bytes: new Uint8Array(await source.arrayBuffer()) };
  throw new InputError({
    code: 'wrong-type',
    argument: `${argument}.bytes`,
    received: source,
    expected: 'a Uint8Array, an ArrayBuffer or a Blob',
  });
}

async function readTile(
  name: string,
  bytes: Uint8Array,
  coordinates: FileCoordinates | undefined,
  signal: AbortSignal | undefined,
): Promise<ElevationTile> {
  const start = String.fromCharCode(...bytes.subarray(0, 64));
  // 'II' or 'MM', then 42, or 43 for files beyond 4 GB.
  if (/^(?:II[*+]\0|MM\0[*+])/.test(start)) return await readGeotiff(name, bytes, coordinates, signal);
  if (start.startsWith('\x1f\x8b') || start.startsWith('PK\x03\x04')) {
    throw unreadable(name, 'a packed file', 'the file inside it: unpack it first');
  }
  if (/\.hgt$/i.test(name)) return readHgt(name, bytes);
  const text = /^(?:\xef\xbb\xbf)?\s*(?:[nxy][a-z]+|cellsize|d[xy])\s/i.test(start)
    ? utf8(name, bytes)
    : undefined;
  if (text !== undefined) return readAsciiGrid(name, text, coordinates);
  throw unreadable(
    name,
    bytes.byteLength === 0 ? 'an empty file' : start.slice(0, 16),
    'an HGT tile, a GeoTIFF or an ASCII grid',
  );
}

function utf8(name: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw unreadable(name, 'bytes that are no text', 'an ASCII grid');
  }
}

function unreadable(file: string, received: string, expected: string): InputError {
  return new InputError({ code: 'malformed-file', argument: 'bytes', received, expected, file });
}

/** The tile with its voids counted, once its place and its heights have been looked through. */
function finished(tile: ElevationTile): ElevationTile {
  try {
    checkGrid(tile, 'tile');
  } catch (error) {
    if (!isInputError(error)) throw error;
    const hint = "; see the option 'coordinates' if it is not in degrees";
    const { argument, received, expected } = error;
    throw new InputError(
      {
        code: 'malformed-file',
        argument,
        received,
        expected: `${expected}${tile.grid.kind === 'geographic' ? hint : ''}`,
        file: tile.name,
      },
      { cause: error },
    );
  }
  let voidCount = 0;
  for (let index = 0; index < tile.heightsM.length; index++) {
    const heightM = cellHeight(tile, 0, index);
    if (Number.isNaN(heightM)) voidCount++;
    else if (heightM < lowestM || heightM > highestM) {
      const row = Math.floor(index / tile.columns) + 1;
      throw new InputError({
        code: 'malformed-file',
        argument: `heightsM (row ${row}, column ${(index % tile.columns) + 1})`,
        received: heightM,
        expected: `${lowestM} to ${highestM} metres, or a no-data value that the file declares`,
        file: tile.name,
      });
    }
  }
  return { ...tile, voidCount };
}
