import { openElevation } from '@finial/terrain';
import { degrees4326, writeGeotiff, zoneKeys } from '../../packages/terrain/test/support/writeGeotiff.js';
import { mutatedBytes, mutatedText, numeral } from './mutations.js';
import type { Random } from './Random.js';
import type { Target } from './Target.js';

function geotiff(random: Random): Uint8Array {
  const [columns, rows] = [random.whole(2, 24), random.whole(2, 24)];
  const kinds = [Int16Array, Uint16Array, Float32Array, Float64Array, Uint8Array];
  const heights = new (random.pick(kinds))(columns * rows);
  for (let index = 0; index < heights.length; index++) heights[index] = random.whole(0, 200);
  const bytes = writeGeotiff({
    columns,
    rows,
    heights,
    littleEndian: random.chance(0.7),
    block: random.pick([{ rowsPerStrip: random.whole(1, rows) }, { tileColumns: 16, tileRows: 16 }]),
    compression: random.pick(['none', 'lzw', 'lzw', 'deflate']),
    predictor: random.chance(0.2),
    scale: [0.1, 0.1, 0],
    tie: [0, 0, 0, 7, 50, 0],
    geoKeys: random.pick([degrees4326, zoneKeys(32633)]),
    ...(random.chance(0.3) && { noData: random.pick(['-9999', 'nan', '1e999', 'x\0']) }),
  });
  return random.chance(0.5) ? mutatedBytes(bytes, random) : mutatedTags(bytes, random);
}

/** One or two entries of the directory with another tag, type, count or value. */
function mutatedTags(bytes: Uint8Array, random: Random): Uint8Array {
  const little = bytes[0] === 0x49;
  const view = new DataView(bytes.buffer);
  const entries = view.getUint16(8, little);
  for (let count = random.whole(1, 2); count > 0; count--) {
    const entry = 10 + 12 * random.whole(0, entries - 1);
    const wild = random.pick([
      0,
      1,
      2,
      0xffff,
      0x10000,
      0x7fffffff,
      0xffffffff,
      random.whole(0, bytes.length),
      random.whole(0, 300),
    ]);
    const kind = random.whole(0, 5);
    if (kind === 0) view.setUint16(entry, random.whole(254, 340), little);
    else if (kind === 1) view.setUint16(entry + 2, random.whole(0, 20), little);
    else if (kind === 2) view.setUint32(entry + 4, wild, little);
    else if (kind === 3) view.setUint16(entry + 8, wild & 0xffff, little);
    else view.setUint32(entry + 8, wild, little);
  }
  return bytes;
}

function asciiGrid(random: Random): Uint8Array {
  const [columns, rows] = [random.whole(1, 5), random.whole(1, 5)];
  const lines = [
    `ncols ${random.chance(0.9) ? columns : numeral(random)}`,
    `nrows ${random.chance(0.9) ? rows : numeral(random)}`,
    `${random.pick(['xllcenter', 'xllcorner'])} ${random.chance(0.9) ? 7 : numeral(random)}`,
    `${random.pick(['yllcenter', 'yllcorner'])} ${random.chance(0.9) ? 50 : numeral(random)}`,
    random.pick(['cellsize 0.5', 'dx 0.5\ndy 0.25', `cellsize ${numeral(random)}`]),
    ...(random.chance(0.5) ? [`NODATA_value ${random.pick(['-9999', 'nan', numeral(random)])}`] : []),
  ];
  if (random.chance(0.1))
    lines.splice(random.whole(0, lines.length), 0, random.pick(['__proto__ 5', 'constructor 1', 'ncols 2']));
  for (let row = 0; row < rows; row++) {
    lines.push(
      Array.from({ length: columns }, () =>
        random.chance(0.95) ? random.whole(0, 99) : numeral(random),
      ).join(' '),
    );
  }
  return new TextEncoder().encode(mutatedText(lines.join('\n'), random));
}

/** A tile of the right size now and then, which is large; else of a size that no tile has. */
function hgt(random: Random): Uint8Array {
  const right = random.chance(0.002);
  const bytes = new Uint8Array(right ? 1201 * 1201 * 2 : random.whole(0, 5000));
  for (let count = 0; count < 20 && bytes.length > 0; count++)
    bytes[random.whole(0, bytes.length - 1)] = random.whole(0, 255);
  return bytes;
}

const hgtNames = [
  'N41W038.hgt',
  'S00E000.hgt',
  'N90E000.hgt',
  'N41W181.hgt',
  'x.hgt',
  'N4１W038.hgt',
  'a/N41W038.SRTM.hgt',
];

function options(random: Random): Record<string, unknown> {
  return {
    voids: random.pick(['fill', 'refuse-later']),
    coordinates: random.pick([
      undefined,
      undefined,
      { kind: 'geographic' },
      { kind: 'utm', zone: 33, hemisphere: 'south' },
    ]),
  };
}

function heights(name: string, make: (random: Random) => Uint8Array, names: readonly string[]): Target {
  return {
    name,
    hasNoData: true,
    args: (random) => [[{ name: random.pick(names), bytes: make(random) }], options(random)],
    call: openElevation,
  };
}

export const heightTargets: readonly Target[] = [
  heights('bytes.openElevation GeoTIFF', geotiff, ['a.tif']),
  heights('bytes.openElevation ASCII grid', asciiGrid, ['a.asc', 'N41W038.hgt']),
  heights('bytes.openElevation HGT', hgt, hgtNames),
];
