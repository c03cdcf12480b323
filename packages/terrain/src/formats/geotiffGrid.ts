import { InputError } from '@finial/units';
import type { GeoTIFFImage } from 'geotiff';
import type { ElevationTile } from '../parts.js';
import { type CellLayout, type FileCoordinates, gridOf } from './FileCoordinates.js';

// Values of the keys, OGC GeoTIFF 1.1, clause 7 and annex B.
const projected = 1;
const geographic = 2;
const rasterPixelIsPoint = 2;
const wgs84 = 4326;
const degree = 9102;
const metre = 9001;

/**
 * Where the cells of a GeoTIFF lie. A system that is neither WGS 84 degrees nor a WGS 84 zone is refused unless the caller says
 * what to take it for: datums differ by up to hundreds of metres.
 */
export function geotiffGrid(
  image: GeoTIFFImage,
  fallback: FileCoordinates | undefined,
): ElevationTile['grid'] {
  const coordinates = statedCoordinates(image) ?? fallback;
  if (coordinates === undefined) {
    throw malformed(
      'coordinate system',
      codeOf(image),
      "EPSG 4326, 32601 to 32660 or 32701 to 32760, or the option 'coordinates' that says what to take it for",
    );
  }
  return gridOf(coordinates, layoutOf(image));
}

function statedCoordinates(image: GeoTIFFImage): FileCoordinates | undefined {
  const keys = image.getGeoKeys() ?? {};
  const model: unknown = keys.GTModelTypeGeoKey;
  if (model === geographic && keys.GeographicTypeGeoKey === wgs84) {
    const unit: unknown = keys.GeogAngularUnitsGeoKey ?? degree;
    if (unit !== degree) throw malformed('GeogAngularUnitsGeoKey', unit, `${degree} (degrees)`);
    return { kind: 'geographic' };
  }
  const code = Number(keys.ProjectedCSTypeGeoKey);
  const zone = code % 100;
  const hundred = Math.floor(code / 100);
  if (model !== projected || zone < 1 || zone > 60 || (hundred !== 326 && hundred !== 327)) return undefined;
  const unit: unknown = keys.ProjLinearUnitsGeoKey ?? metre;
  if (unit !== metre) throw malformed('ProjLinearUnitsGeoKey', unit, `${metre} (metres)`);
  return { kind: 'utm', zone, hemisphere: hundred === 326 ? 'north' : 'south' };
}

function codeOf(image: GeoTIFFImage): unknown {
  const keys = image.getGeoKeys();
  return keys?.ProjectedCSTypeGeoKey ?? keys?.GeographicTypeGeoKey;
}

/** The centre of the north-western cell and the steps. */
function layoutOf(image: GeoTIFFImage): CellLayout {
  const { x, y, columnStep, rowStep } = placement(image);
  if (!(columnStep > 0 && rowStep > 0)) {
    throw malformed(
      'ModelPixelScale',
      `${columnStep}, ${rowStep}`,
      'rows from north to south, columns from west to east',
    );
  }
  // Where a pixel is an area, its coordinates are those of its outer corner; where it is a point, those of its centre.
  const half = image.getGeoKeys()?.GTRasterTypeGeoKey === rasterPixelIsPoint ? 0 : 0.5;
  return { north: y - half * rowStep, west: x + half * columnStep, rowStep, columnStep };
}

/** Coordinates of the raster's own origin, and the steps, from the two ways in which a file states them. */
function placement(image: GeoTIFFImage): { x: number; y: number; columnStep: number; rowStep: number } {
  const directory = image.fileDirectory;
  const scale = numbersOf(directory.getValue('ModelPixelScale'));
  const tie = numbersOf(directory.getValue('ModelTiepoint'));
  const matrix = numbersOf(directory.getValue('ModelTransformation'));
  if (matrix.length === 16) {
    const [columnStep = 0, skewX, , x = 0, skewY, negativeRowStep = 0, , y = 0] = matrix;
    if (skewX !== 0 || skewY !== 0)
      throw malformed('ModelTransformation', `${skewX}, ${skewY}`, 'a raster that is not rotated');
    return { x, y, columnStep, rowStep: -negativeRowStep };
  }
  if (scale.length < 2 || tie.length !== 6) {
    throw malformed('ModelTiepoint', tie.length / 6, 'one tie point and a pixel scale, or a transformation');
  }
  const [columnStep = 0, rowStep = 0] = scale;
  const [column = 0, row = 0, , x = 0, y = 0] = tie;
  return { x: x - column * columnStep, y: y + row * rowStep, columnStep, rowStep };
}

function numbersOf(value: ArrayLike<number> | undefined): readonly number[] {
  return value === undefined ? [] : Array.from(value);
}

function malformed(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'malformed-file', argument, received, expected });
}
