import { InputError, isInputError } from '@finial/units';
import type { GeoTIFFImage, Pool } from 'geotiff';
import type { ElevationTile } from '../parts.js';
import { mostCells } from '../tile/checkElevation.js';
import { blockPool } from './blockPool.js';
import type { FileCoordinates } from './FileCoordinates.js';
import { geotiffGrid } from './geotiffGrid.js';

// The most that the schemes reach: LZW writes some 3800 bytes for a code of 12 bits, deflate 1032 for a byte.
const mostCellsPerByte = 2600;

/**
 * Reads the first image of a GeoTIFF: one band of heights, in strips or tiles, uncompressed or compressed without loss. Reduced
 * copies behind it (overviews) are left alone.
 *
 * @source OGC 19-008r4, GeoTIFF standard 1.1; the no-data value is the private tag 42113, text, as general-purpose tools write it
 */
export async function readGeotiff(
  name: string,
  bytes: Uint8Array,
  coordinates: FileCoordinates | undefined,
  signal: AbortSignal | undefined,
): Promise<ElevationTile> {
  try {
    // Loaded when the first such file comes: who reads other formats does not pay for it.
    const geotiff = await import('geotiff');
    const tiff = await geotiff.fromArrayBuffer(wholeBuffer(bytes));
    const image = await tiff.getImage(0);
    checkSize(image, bytes.byteLength);
    return await readImage(name, image, coordinates, { pool: blockPool(geotiff), ...(signal && { signal }) });
  } catch (error) {
    signal?.throwIfAborted();
    if (isInputError(error)) throw error.at({ file: name });
    throw new InputError(
      {
        code: 'malformed-file',
        argument: 'bytes',
        received: error instanceof Error ? error.message : String(error),
        expected: 'a whole GeoTIFF',
        file: name,
      },
      { cause: error },
    );
  }
}

async function readImage(
  name: string,
  image: GeoTIFFImage,
  coordinates: FileCoordinates | undefined,
  reading: { readonly pool: Pool; readonly signal?: AbortSignal },
): Promise<ElevationTile> {
  const columns = image.getWidth();
  const rows = image.getHeight();
  require(image.getSamplesPerPixel() ===
    1, 'SamplesPerPixel', image.getSamplesPerPixel(), 'one band, of heights');
  await checkPlainHeights(image);
  await checkByteOrder(image);
  const grid = geotiffGrid(image, coordinates);
  await checkBlocks(image);
  const [band] = await image.readRasters({ interleave: false, ...reading });
  require(band !== undefined &&
    band.length === columns * rows, 'pixels', band?.length, `${columns * rows} heights`);
  const heightsM = asHeights(band);
  const voidValue = voidValueOf(image, heightsM);
  return { name, columns, rows, heightsM, voidValue, voidCount: 0, grid };
}

/** Memory for all cells is asked for before the first is read: a short file must not claim many. */
function checkSize(image: GeoTIFFImage, fileBytes: number): void {
  const [columns, rows] = [image.getWidth(), image.getHeight()];
  const cells = columns * rows;
  const most = Math.min(mostCells, mostCellsPerByte * fileBytes);
  const expected = `at least 2 by 2 and, in a file of ${fileBytes} bytes, at most ${most} cells`;
  require(Math.min(columns, rows) >= 2 && cells <= most, 'ImageWidth', cells, expected);
}

/** Heights in another unit or scale would read as metres and pass unseen. */
async function checkPlainHeights(image: GeoTIFFImage): Promise<void> {
  const verticalUnit: unknown = image.getGeoKeys()?.VerticalUnitsGeoKey;
  require(verticalUnit === undefined ||
    verticalUnit === 9001, 'VerticalUnitsGeoKey', verticalUnit, '9001 (heights in metres)');
  const directory = image.fileDirectory;
  const metadata: unknown = directory.hasTag('GDAL_METADATA')
    ? await directory.loadValue('GDAL_METADATA')
    : '';
  for (const [, role = '', value] of String(metadata).matchAll(/role="(scale|offset)"[^>]*>([^<]*)</g)) {
    require(Number(value) ===
      (role === 'scale' ? 1 : 0), role, value, 'heights in metres as they stand, without scale and offset');
  }
}

/** The decoder adds up differences in the byte order of little-endian machines: of another order it would give wrong heights. */
async function checkByteOrder(image: GeoTIFFImage): Promise<void> {
  const predictor: unknown = await image.fileDirectory.loadValue('Predictor');
  const isPlain = predictor === undefined || predictor === 1 || image.getBitsPerSample() === 8;
  require(isPlain || image.littleEndian, 'Predictor', predictor, '1 (no predictor) in a big-endian file');
}

/** A block that is missing or empty would read as ground at height 0. */
async function checkBlocks(image: GeoTIFFImage): Promise<void> {
  const across = Math.ceil(image.getWidth() / image.getTileWidth());
  const down = Math.ceil(image.getHeight() / image.getTileHeight());
  for (const tag of image.isTiled
    ? (['TileOffsets', 'TileByteCounts'] as const)
    : (['StripOffsets', 'StripByteCounts'] as const)) {
    const value: unknown = image.fileDirectory.hasTag(tag) ? await image.fileDirectory.loadValue(tag) : [];
    // One value stands there as itself, or as a list of one.
    const count = typeof value === 'number' ? 1 : (value as ArrayLike<number>).length;
    require(count >= across * down, tag, count, `${across * down} blocks of heights`);
  }
}

function asHeights(band: ArrayLike<number>): ElevationTile['heightsM'] {
  if (band instanceof Int16Array || band instanceof Float32Array || band instanceof Float64Array) return band;
  if (band instanceof Uint8Array || band instanceof Int8Array) return Int16Array.from(band);
  if (band instanceof Uint16Array) return Float32Array.from(band); // exact: 16 bits fit into a 24-bit mantissa
  if (band instanceof Int32Array || band instanceof Uint32Array) return Float64Array.from(band);
  throw refusal('SampleFormat', undefined, 'whole or floating-point numbers of 8 to 64 bits');
}

function voidValueOf(image: GeoTIFFImage, heightsM: ElevationTile['heightsM']): number | undefined {
  if (!image.fileDirectory.hasTag('GDAL_NODATA')) return undefined;
  // Text that ends in a zero byte, or in none: the last character must not be cut off blindly.
  const text = String(image.fileDirectory.getValue('GDAL_NODATA')).split('\0', 1)[0]?.trim() ?? '';
  if (text === '' || /^[-+]?nan$/i.test(text)) return undefined; // NaN marks a void in any case
  const value = Number(text);
  require(Number.isFinite(value), 'GDAL_NODATA', text, 'a number');
  // The text may carry more digits than the cells: -3.4028234663852886e+38.
  return heightsM instanceof Float32Array ? Math.fround(value) : value;
}

function wholeBuffer(bytes: Uint8Array): ArrayBuffer {
  const { buffer, byteOffset, byteLength } = bytes;
  const isWhole = buffer instanceof ArrayBuffer && byteOffset === 0 && byteLength === buffer.byteLength;
  // Not `slice`: that of Node's own byte type copies nothing, and the file would be read from the start of what it lies in.
  return isWhole ? buffer : new Uint8Array(bytes).buffer;
}

function require(holds: boolean, argument: string, received: unknown, expected: string): asserts holds {
  if (!holds) throw refusal(argument, received, expected);
}

function refusal(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'malformed-file', argument, received, expected });
}
