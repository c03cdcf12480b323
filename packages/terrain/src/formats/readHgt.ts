import { InputError } from '@finial/units';
import type { ElevationTile } from '../parts.js';

// Rows and columns of the two spacings in use: three and one arc-seconds, with both edges.
const sides = [1201, 3601];
const voidValue = -32768;

/**
 * Reads a tile of big-endian 16-bit heights: one degree square, 1201 or 3601 rows and columns, the outermost on the whole degree.
 * Nothing in the file says where it lies; the name does: N41W038.hgt has its south-west corner at 41° N, 38° W.
 *
 * @source NASA/USGS SRTM topography user guide, section on the height files: layout, spacing, void value and file names (from memory)
 */
export function readHgt(name: string, bytes: Uint8Array): ElevationTile {
  const { southDeg, westDeg } = cornerOf(name);
  const side = sides.find((count) => count * count * 2 === bytes.byteLength);
  if (side === undefined) {
    throw new InputError({
      code: 'malformed-file',
      argument: 'bytes',
      received: bytes.byteLength,
      expected: `${sides.map((count) => `${count * count * 2} bytes (${count} by ${count} heights)`).join(' or ')}`,
      file: name,
    });
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const heightsM = new Int16Array(side * side);
  for (let index = 0; index < heightsM.length; index++) heightsM[index] = view.getInt16(2 * index);
  const stepDeg = 1 / (side - 1);
  const grid = {
    kind: 'geographic',
    northDeg: southDeg + 1,
    westDeg,
    rowStepDeg: stepDeg,
    columnStepDeg: stepDeg,
  } as const;
  return { name, columns: side, rows: side, heightsM, voidValue, voidCount: 0, grid };
}

/** The south-west corner that a name states; words between the corner and the ending are left alone. */
function cornerOf(name: string): { readonly southDeg: number; readonly westDeg: number } {
  const found = /(?:^|[\\/])([NS])(\d\d)([EW])(\d{3})(?:\.\w+)*\.hgt$/i.exec(name);
  const [, northOrSouth = '', latitude, eastOrWest = '', longitude] = found ?? [];
  const southDeg = Number(latitude) * (northOrSouth.toUpperCase() === 'S' ? -1 : 1);
  const westDeg = Number(longitude) * (eastOrWest.toUpperCase() === 'W' ? -1 : 1);
  if (southDeg >= -90 && southDeg <= 89 && westDeg >= -180 && westDeg <= 179) {
    return { southDeg: southDeg + 0, westDeg: westDeg + 0 }; // + 0: S00 is no negative zero
  }
  throw new InputError({
    code: 'malformed-file',
    argument: 'name',
    received: name,
    expected: 'a name with the south-west corner, such as N41W038.hgt',
    file: name,
  });
}
