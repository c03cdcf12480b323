export {
  areaByClass,
  type ClassArea,
  type ClassAreas,
  type ClassedLayer,
  type FigureClass,
} from './areaByClass.js';
export {
  bestDataRate,
  type DataRateLadder,
  type DataRateNeed,
  type DataRateQuestion,
  noDataRate,
} from './bestDataRate.js';
export {
  type CellOfRaster,
  type CellPlace,
  cellAt,
  cellPosition,
  type PlaceInRaster,
} from './cellPosition.js';
export {
  type CandidateSite,
  compareSites,
  type DataRateArea,
  type PointResult,
  type ServedPoint,
  type SiteComparison,
  type SiteResult,
  type SiteTable,
} from './compareSites.js';
export {
  type CoverageMargin,
  coverageMarginDb,
  type ReceiverNoise,
  type ReceptionNeed,
} from './coverageMarginDb.js';
export type { GainPattern } from './GainPattern.js';
export {
  type GridQuestion,
  type LatitudeLongitudeGrid,
  latitudeLongitudeGrid,
} from './latitudeLongitudeGrid.js';
export { type LayerQuestion, type LayerStatistics, layerStatistics } from './layerStatistics.js';
export type { CoverageLayer, RasterFrame } from './RasterFrame.js';
export { type CoverageLink, receivedPowerDbm } from './receivedPowerDbm.js';
export { receptionProbability, type UncertainMargin } from './receptionProbability.js';
