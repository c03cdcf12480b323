export { InputError, isInputError } from '@finial/units';
export { type ClutterClass, type ClutterClassEntry, clutterClasses } from './clutter/clutterClasses.js';
export { clutterHeightM } from './clutter/clutterHeight.js';
export {
  type ClutterProfile,
  clutterProfile,
  type LandCover,
  type LandCoverRaster,
  type PlaceSeries,
} from './clutter/clutterProfile.js';
export { type ElevationBounds, elevationBounds } from './elevationBounds.js';
export { finestStepM } from './finestStepM.js';
export type { FileCoordinates } from './formats/FileCoordinates.js';
export { type Departure, destination } from './geodesic/destination.js';
export { type GeodesicEnds, type GeodesicLine, geodesic } from './geodesic/geodesic.js';
export { heightAtM, sampleHeightsM } from './heightAtM.js';
export { type HeightSampler, heightSampler } from './heightSampler.js';
export type { RayBending } from './horizon/earthRadius.js';
export {
  type HorizonOptions,
  type HorizonProgress,
  horizon,
  type Skyline,
  type SkylinePoint,
} from './horizon/horizon.js';
export {
  type GroundLine,
  type LineOfSight,
  type LineOfSightOptions,
  lineOfSight,
} from './horizon/lineOfSight.js';
export {
  type ElevationFile,
  type OpenElevationOptions,
  type OpenElevationProgress,
  openElevation,
} from './openElevation.js';
export type {
  Elevation,
  ElevationTile,
  GeographicGrid,
  GeoPosition,
  TerrainProfile,
  UtmGrid,
} from './parts.js';
export { type ProfileOptions, profile } from './profile.js';
export { type ReliefOptions, type ShadedRelief, shadedRelief } from './shadedRelief.js';
