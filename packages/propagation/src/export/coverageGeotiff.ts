import { InputError } from '@finial/units';
import { type GeotiffWriterMetadata, writeArrayBuffer } from 'geotiff';
import { type GridQuestion, latitudeLongitudeGrid } from '../raster/latitudeLongitudeGrid.js';

/** A view to write into a file, and what the file shall say about it. */
export interface GeotiffQuestion extends GridQuestion {
  /**
   * What the figures are and in which unit: `margin in dB at SF10`. At most 200 printable ASCII characters.
   *
   * @defaultValue none
   */
  readonly description?: string | undefined;
}

// Values of the keys, OGC GeoTIFF 1.1, clause 7.
const modelGeographic = 2;
const pixelIsArea = 1;
const wgs84 = 4326;

/**
 * A view as the bytes of a GeoTIFF: one band of 32-bit floating-point numbers in degrees of WGS 84 (EPSG 4326), uncompressed, NaN for no data
 * and said so in the file.
 *
 * Each pixel has the figure of the cell under its centre; see `latitudeLongitudeGrid` of the package, which also throws. A raster of 20 km at
 * 30 m gives 7 MB.
 *
 * @returns the bytes of the file; pixels are placed with an error below a hundredth of a cell
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `unknown-option` or `out-of-range`
 * @source OGC 19-008r4, GeoTIFF standard 1.1; NaN as no data in the private tag 42113, as general-purpose tools read it
 * @example
 * ```ts
 * import { coverageGeotiff } from '@finial/propagation/export';
 *
 * const lossDb = new Float32Array(21 * 21).fill(120);
 * const raster = {
 *   kind: 'coverage' as const, columns: 21, rows: 21, cellM: 100, radiusM: 1000,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb,
 * };
 * const bytes = coverageGeotiff({ raster, figures: lossDb, description: 'basic transmission loss in dB' });
 * new DataView(bytes.buffer).getUint16(2); // → 42
 * ```
 */
export function coverageGeotiff(question: GeotiffQuestion): Uint8Array<ArrayBuffer> {
  const grid = latitudeLongitudeGrid(question);
  const { columns, rows, northDeg, westDeg, rowStepDeg, columnStepDeg } = grid;
  const metadata: GeotiffWriterMetadata & { ImageDescription?: string } = {
    height: rows,
    width: columns,
    ModelPixelScale: [columnStepDeg, rowStepDeg, 0],
    // Pixels are areas, and the tie point is the outer corner of the first.
    ModelTiepoint: [0, 0, 0, westDeg - columnStepDeg / 2, northDeg + rowStepDeg / 2, 0],
    GTModelTypeGeoKey: modelGeographic,
    GTRasterTypeGeoKey: pixelIsArea,
    GeographicTypeGeoKey: wgs84,
    GeogCitationGeoKey: 'WGS 84',
    GDAL_NODATA: 'nan',
    ...described(question.description),
  };
  return new Uint8Array(writeArrayBuffer(grid.figures, metadata));
}

function described(description: string | undefined): { ImageDescription?: string } {
  if (description === undefined) return {};
  // The tag holds ASCII only, and the writer keeps a fixed room for all tags.
  if (typeof description === 'string' && /^[ -~]{1,200}$/.test(description))
    return { ImageDescription: description };
  throw new InputError({
    code: typeof description === 'string' ? 'out-of-range' : 'wrong-type',
    argument: 'description',
    received: description,
    expected: '1 to 200 printable ASCII characters',
  });
}
