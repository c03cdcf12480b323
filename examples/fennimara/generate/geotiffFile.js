// @ts-check
// The least GeoTIFF that says everything: one band of 16-bit signed heights, uncompressed (compressors differ between
// versions, and this file must come out the same everywhere), in strips, little-endian.

/**
 * @typedef {object} HeightGrid
 * @property {Int16Array} heights metres, row by row from the north-west
 * @property {number} columns
 * @property {number} rows
 * @property {number} cellArcSeconds
 * @property {{ latitudeDeg: number, longitudeDeg: number }} northWestCorner outer corner of the first cell
 * @property {number} noDataM height that means 'nothing known here'
 * @property {string} description
 */

/** A TIFF field. @typedef {{ tag: number, type: FieldType, values: readonly number[] | string }} Field */
/** @typedef {keyof typeof fieldTypes} FieldType */

// TIFF 6.0, section 2: the number of each field type and the bytes of one value.
const fieldTypes = {
  ascii: { code: 2, bytes: 1 },
  short: { code: 3, bytes: 2 },
  long: { code: 4, bytes: 4 },
  double: { code: 12, bytes: 8 },
};

const rowsPerStrip = 64;
const headerBytes = 8;

/**
 * @param {HeightGrid} grid
 * @returns {Uint8Array}
 */
export function encodeGeotiff(grid) {
  const stripBytes = strips(grid).map((rows) => rows * grid.columns * 2);
  const listed = fields(grid, stripBytes, 0);
  const directoryBytes = 2 + 12 * listed.length + 4;
  const looseStart = headerBytes + directoryBytes;
  const pixelStart = looseStart + listed.reduce((sum, field) => sum + looseBytes(field), 0);

  const view = new DataView(new ArrayBuffer(pixelStart + grid.heights.length * 2));
  view.setUint16(0, 0x4949, true); // 'II': little-endian
  view.setUint16(2, 42, true);
  view.setUint32(4, headerBytes, true);
  writeDirectory(view, fields(grid, stripBytes, pixelStart), looseStart);
  grid.heights.forEach((heightM, index) => {
    view.setInt16(pixelStart + 2 * index, heightM, true);
  });
  return new Uint8Array(view.buffer);
}

/**
 * @param {HeightGrid} grid
 * @returns {number[]} rows of each strip
 */
function strips({ rows }) {
  const counts = [];
  for (let row = 0; row < rows; row += rowsPerStrip) counts.push(Math.min(rowsPerStrip, rows - row));
  return counts;
}

/**
 * The directory's fields in ascending order of their tags, as TIFF asks.
 *
 * @param {HeightGrid} grid
 * @param {readonly number[]} stripBytes
 * @param {number} pixelStart
 * @returns {Field[]}
 */
function fields(grid, stripBytes, pixelStart) {
  const cellDeg = grid.cellArcSeconds / 3600;
  const { latitudeDeg, longitudeDeg } = grid.northWestCorner;
  let next = pixelStart;
  const stripOffsets = stripBytes.map((bytes) => {
    next += bytes;
    return next - bytes;
  });
  const citation = 'WGS 84|';
  return [
    { tag: 256, type: 'short', values: [grid.columns] }, // ImageWidth
    { tag: 257, type: 'short', values: [grid.rows] }, // ImageLength
    { tag: 258, type: 'short', values: [16] }, // BitsPerSample
    { tag: 259, type: 'short', values: [1] }, // Compression: none
    { tag: 262, type: 'short', values: [1] }, // PhotometricInterpretation: black is the lowest
    { tag: 270, type: 'ascii', values: `${grid.description}\0` }, // ImageDescription
    { tag: 273, type: 'long', values: stripOffsets }, // StripOffsets
    { tag: 277, type: 'short', values: [1] }, // SamplesPerPixel
    { tag: 278, type: 'short', values: [rowsPerStrip] }, // RowsPerStrip
    { tag: 279, type: 'long', values: stripBytes }, // StripByteCounts
    { tag: 284, type: 'short', values: [1] }, // PlanarConfiguration: chunky
    { tag: 339, type: 'short', values: [2] }, // SampleFormat: signed integers
    { tag: 33550, type: 'double', values: [cellDeg, cellDeg, 0] }, // ModelPixelScale
    { tag: 33922, type: 'double', values: [0, 0, 0, longitudeDeg, latitudeDeg, 0] }, // ModelTiepoint
    { tag: 34735, type: 'short', values: geoKeys(citation) }, // GeoKeyDirectory
    { tag: 34737, type: 'ascii', values: `${citation}\0` }, // GeoAsciiParams
    { tag: 42113, type: 'ascii', values: `${grid.noDataM}\0` }, // the no-data value, a common private tag
  ];
}

/**
 * OGC GeoTIFF 1.1, clause 7: a header of four numbers, then four numbers a key.
 *
 * @param {string} citation
 */
function geoKeys(citation) {
  const keys = [
    [1024, 0, 1, 2], // GTModelType: geographic, latitude and longitude
    [1025, 0, 1, 1], // GTRasterType: a pixel is an area
    [2048, 0, 1, 4326], // GeodeticCRS: EPSG:4326
    [2049, 34737, citation.length, 0], // GeodeticCitation
    [2054, 0, 1, 9102], // GeogAngularUnits: degree
  ];
  return [1, 1, 0, keys.length, ...keys.flat()];
}

/**
 * @param {DataView} view
 * @param {readonly Field[]} listed
 * @param {number} looseStart where values that do not fit into their directory entry go
 */
function writeDirectory(view, listed, looseStart) {
  view.setUint16(headerBytes, listed.length, true);
  let entry = headerBytes + 2;
  let loose = looseStart;
  for (const field of listed) {
    const { code } = fieldTypes[field.type];
    view.setUint16(entry, field.tag, true);
    view.setUint16(entry + 2, code, true);
    view.setUint32(entry + 4, field.values.length, true);
    if (looseBytes(field) > 0) {
      view.setUint32(entry + 8, loose, true);
      writeValues(view, loose, field);
      loose += looseBytes(field);
    } else {
      writeValues(view, entry + 8, field);
    }
    entry += 12;
  }
  view.setUint32(entry, 0, true); // no further directory
}

/**
 * @param {Field} field
 * @returns {number} bytes outside the directory, rounded up to even as TIFF asks; 0 when four bytes suffice
 */
function looseBytes({ type, values }) {
  const bytes = fieldTypes[type].bytes * values.length;
  return bytes > 4 ? bytes + (bytes % 2) : 0;
}

/**
 * @param {DataView} view
 * @param {number} start
 * @param {Field} field
 */
function writeValues(view, start, { type, values }) {
  const numbers = typeof values === 'string' ? [...values].map((letter) => letter.charCodeAt(0)) : values;
  numbers.forEach((value, index) => {
    const at = start + index * fieldTypes[type].bytes;
    if (type === 'ascii') view.setUint8(at, value);
    else if (type === 'short') view.setUint16(at, value, true);
    else if (type === 'long') view.setUint32(at, value, true);
    else view.setFloat64(at, value, true);
  });
}
