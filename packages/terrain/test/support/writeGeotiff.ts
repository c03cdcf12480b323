import { deflateSync } from 'node:zlib';
import { lzw } from './lzw.js';

/** What a test file shall be. */
export interface GeotiffRecipe {
  readonly columns: number;
  readonly rows: number;
  /** Heights row by row from the north-west. */
  readonly heights: Int16Array | Uint16Array | Float32Array | Float64Array | Uint8Array;
  readonly littleEndian?: boolean;
  /** Rows of a strip, or the sides of a tile (multiples of 16). */
  readonly block?:
    | { readonly rowsPerStrip: number }
    | { readonly tileColumns: number; readonly tileRows: number };
  readonly compression?: 'none' | 'lzw' | 'deflate';
  /** Differences between neighbours instead of heights; whole numbers only. */
  readonly predictor?: boolean;
  readonly scale?: readonly number[];
  readonly tie?: readonly number[];
  readonly matrix?: readonly number[];
  /** Keys and values that fit into the directory, as [key, value]. */
  readonly geoKeys: readonly (readonly [key: number, value: number])[];
  readonly noData?: string;
  readonly metadata?: string;
  readonly bands?: number;
}

type Values = readonly number[] | string;
type Field = readonly [tag: number, type: 2 | 3 | 4 | 12, values: Values];

const bytesOf = { 2: 1, 3: 2, 4: 4, 12: 8 } as const;
const compressions = { none: 1, lzw: 5, deflate: 8 } as const;

export const degrees4326: GeotiffRecipe['geoKeys'] = [
  [1024, 2],
  [1025, 1],
  [2048, 4326],
];

export function zoneKeys(code: number): GeotiffRecipe['geoKeys'] {
  return [
    [1024, 1],
    [1025, 1],
    [3072, code],
  ];
}

/** A GeoTIFF after TIFF 6.0 and OGC GeoTIFF 1.1, written here so that the reader is not tested against its own writer. */
export function writeGeotiff(recipe: GeotiffRecipe): Uint8Array {
  const little = recipe.littleEndian ?? true;
  const blocks = blocksOf(recipe, little);
  const place = fieldsOf(recipe, blocks, 0);
  const looseStart = 8 + 2 + 12 * place.length + 4;
  const dataStart = looseStart + place.reduce((sum, field) => sum + looseBytes(field), 0);
  const bytes = new Uint8Array(dataStart + blocks.reduce((sum, block) => sum + block.length, 0));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  const fields = fieldsOf(recipe, blocks, dataStart);
  view.setUint16(8, fields.length, little);
  let loose = looseStart;
  fields.forEach((field, index) => {
    const [tag, type, values] = field;
    const entry = 10 + 12 * index;
    view.setUint16(entry, tag, little);
    view.setUint16(entry + 2, type, little);
    view.setUint32(entry + 4, values.length, little);
    const start = looseBytes(field) > 0 ? loose : entry + 8;
    if (start === loose) view.setUint32(entry + 8, loose, little);
    numbersOf(values).forEach((value, place) => {
      const at = start + place * bytesOf[type];
      if (type === 2) view.setUint8(at, value);
      else if (type === 3) view.setUint16(at, value, little);
      else if (type === 4) view.setUint32(at, value, little);
      else view.setFloat64(at, value, little);
    });
    loose += looseBytes(field);
  });
  let at = dataStart;
  for (const block of blocks) {
    bytes.set(block, at);
    at += block.length;
  }
  return bytes;
}

function fieldsOf(recipe: GeotiffRecipe, blocks: readonly Uint8Array[], dataStart: number): readonly Field[] {
  const { heights, columns, rows, block = { rowsPerStrip: 3 }, geoKeys } = recipe;
  let next = dataStart;
  const offsets = blocks.map(({ length }) => {
    next += length;
    return next - length;
  });
  const counts = blocks.map(({ length }) => length);
  const isTiled = 'tileColumns' in block;
  const format =
    heights instanceof Int16Array
      ? 2
      : heights instanceof Float32Array || heights instanceof Float64Array
        ? 3
        : 1;
  const bands = recipe.bands ?? 1;
  const fields: Field[] = [
    [256, 3, [columns]],
    [257, 3, [rows]],
    [258, 3, Array.from({ length: bands }, () => heights.BYTES_PER_ELEMENT * 8)],
    [259, 3, [compressions[recipe.compression ?? 'none']]],
    [262, 3, [1]],
    [277, 3, [bands]],
    [284, 3, [1]],
    [317, 3, [recipe.predictor ? 2 : 1]],
    [339, 3, Array.from({ length: bands }, () => format)],
    [34735, 3, [1, 1, 0, geoKeys.length, ...geoKeys.flatMap(([key, value]) => [key, 0, 1, value])]],
  ];
  if (isTiled) {
    fields.push(
      [322, 3, [block.tileColumns]],
      [323, 3, [block.tileRows]],
      [324, 4, offsets],
      [325, 4, counts],
    );
  } else {
    fields.push([273, 4, offsets], [278, 3, [block.rowsPerStrip]], [279, 4, counts]);
  }
  if (recipe.scale) fields.push([33550, 12, recipe.scale]);
  if (recipe.tie) fields.push([33922, 12, recipe.tie]);
  if (recipe.matrix) fields.push([34264, 12, recipe.matrix]);
  if (recipe.metadata) fields.push([42112, 2, `${recipe.metadata}\0`]);
  if (recipe.noData) fields.push([42113, 2, recipe.noData]);
  return fields.sort(([one], [other]) => one - other);
}

function blocksOf(recipe: GeotiffRecipe, little: boolean): readonly Uint8Array[] {
  const { columns, rows, block = { rowsPerStrip: 3 } } = recipe;
  const isTiled = 'tileColumns' in block;
  const width = isTiled ? block.tileColumns : columns;
  const height = isTiled ? block.tileRows : block.rowsPerStrip;
  const blocks: Uint8Array[] = [];
  for (let top = 0; top < rows; top += height) {
    for (let left = 0; left < columns; left += width) {
      // The last strip is short; the last tile is padded.
      const blockRows = isTiled ? height : Math.min(height, rows - top);
      blocks.push(
        packed(blockBytes(recipe, little, { top, left, width, height: blockRows }), recipe.compression),
      );
    }
  }
  return blocks;
}

function blockBytes(
  { heights, columns, rows, predictor, bands = 1 }: GeotiffRecipe,
  little: boolean,
  at: { top: number; left: number; width: number; height: number },
): Uint8Array {
  const size = heights.BYTES_PER_ELEMENT;
  const view = new DataView(new ArrayBuffer(at.width * at.height * size * bands));
  for (let row = 0; row < at.height; row++) {
    let before = 0;
    for (let column = 0; column < at.width; column++) {
      const isInside = at.top + row < rows && at.left + column < columns;
      const height = isInside ? (heights[(at.top + row) * columns + at.left + column] as number) : 0;
      for (let band = 0; band < bands; band++) {
        const offset = ((row * at.width + column) * bands + band) * size;
        if (heights instanceof Float32Array) view.setFloat32(offset, height, little);
        else if (heights instanceof Float64Array) view.setFloat64(offset, height, little);
        else if (heights instanceof Uint8Array) view.setUint8(offset, height);
        else view.setInt16(offset, predictor ? height - before : height, little);
      }
      before = height;
    }
  }
  return new Uint8Array(view.buffer);
}

function packed(bytes: Uint8Array, compression: GeotiffRecipe['compression']): Uint8Array {
  if (compression === 'deflate') return deflateSync(bytes);
  return compression === 'lzw' ? lzw(bytes) : bytes;
}

function numbersOf(values: Values): readonly number[] {
  return typeof values === 'string' ? [...values].map((letter) => letter.charCodeAt(0)) : values;
}

function looseBytes([, type, values]: Field): number {
  const bytes = bytesOf[type] * values.length;
  return bytes > 4 ? bytes + (bytes % 2) : 0;
}
