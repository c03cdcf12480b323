/** A place on the ground, WGS 84. */
export interface GeoPosition {
  /** Degrees north of the equator, -90 to 90. */
  readonly latitudeDeg: number;
  /** Degrees east of Greenwich, -180 to 180. */
  readonly longitudeDeg: number;
}

/** Where the cells of a tile in degrees lie. Rows run south from the first, columns east. */
export interface GeographicGrid {
  /** Rows and columns in degrees. */
  readonly kind: 'geographic';
  /** Latitude of the centre of the first (northernmost) row in degrees. */
  readonly northDeg: number;
  /** Longitude of the centre of the first (westernmost) column in degrees. */
  readonly westDeg: number;
  /** Degrees from one row to the next, above 0. */
  readonly rowStepDeg: number;
  /** Degrees from one column to the next, above 0. */
  readonly columnStepDeg: number;
}

/** Where the cells of a tile in a zone of the Universal Transverse Mercator grid lie. Rows run south, columns east. */
export interface UtmGrid {
  /** Rows and columns in metres of a zone. */
  readonly kind: 'utm';
  /** UTM zone, 1 to 60. */
  readonly zone: number;
  /** Hemisphere of the zone: southern northings count from 10 000 km at the equator. */
  readonly hemisphere: 'north' | 'south';
  /** Northing of the centre of the first (northernmost) row in metres. */
  readonly northM: number;
  /** Easting of the centre of the first (westernmost) column in metres. */
  readonly westM: number;
  /** Metres from one row to the next, above 0. */
  readonly rowStepM: number;
  /** Metres from one column to the next, above 0. */
  readonly columnStepM: number;
}

/** A raster of ground heights. */
export interface ElevationTile {
  /** Name of the file it came from. */
  readonly name: string;
  /** Count of columns, 2 or more. */
  readonly columns: number;
  /** Count of rows, 2 or more. */
  readonly rows: number;
  /** Heights in metres above sea level, row by row from the north-west corner. */
  readonly heightsM: Int16Array | Float32Array | Float64Array;
  /** The value that marks a void, where the tile has one; NaN always marks a void. */
  readonly voidValue?: number | undefined;
  /** How many cells are void. */
  readonly voidCount: number;
  /** Where the cells lie. */
  readonly grid: GeographicGrid | UtmGrid;
}

/** Ground heights from one or several tiles; where tiles overlap, the first that has a value holds. */
export interface Elevation {
  /** The tiles, the most trusted first. */
  readonly tiles: readonly ElevationTile[];
  /** How many cells of all tiles are void. */
  readonly voidCount: number;
  /** How many voids were filled on request. */
  readonly filledCount: number;
}

/** The ground between two places. */
export interface TerrainProfile {
  /** Where the path starts. */
  readonly from: GeoPosition;
  /** Where the path ends. */
  readonly to: GeoPosition;
  /** Distance of each point from the first in metres, from 0 to the length of the geodesic, evenly spaced. */
  readonly distanceM: Float64Array;
  /** Height of each point in metres above sea level. */
  readonly heightM: Float64Array;
  /** Latitude of each point in degrees. */
  readonly latitudesDeg: Float64Array;
  /** Longitude of each point in degrees, -180 to 180. */
  readonly longitudesDeg: Float64Array;
  /** Azimuth of the path at its start in degrees clockwise from north, 0 to below 360. */
  readonly azimuthDeg: number;
  /** Distance between neighbouring points in metres. */
  readonly stepM: number;
}
