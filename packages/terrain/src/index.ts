export { InputError, isInputError } from '@finial/units';
export type { Elevation, ElevationTile, GeographicGrid, GeoPosition, TerrainProfile, UtmGrid } from './parts.js';
