export { InputError, isInputError } from '@finial/units';
export { locationSigmaDb, type PredictionSquare } from './certainty/locationSigmaDb.js';
export {
  marginProbability,
  type PredictedMargin,
  type PredictionSpread,
  requiredMarginDb,
  type WantedCertainty,
} from './certainty/marginProbability.js';
export { type ModelError, modelErrors } from './certainty/modelErrors.js';
export * as hata from './hata/index.js';
export * as itm from './itm/index.js';
export { type ModelDescription, models } from './models/models.js';
export type { OutsideValidity } from './models/validity.js';
export * as p525 from './p525/index.js';
export * as p526 from './p526/index.js';
export * as p833 from './p833/index.js';
export * as p1411 from './p1411/index.js';
export * as p1812 from './p1812/index.js';
export * as p2108 from './p2108/index.js';
export * as p2109 from './p2109/index.js';
export type {
  LinearPolarisation,
  PathLoss,
  PathModel,
  RadioPath,
  RadioZone,
} from './path/RadioPath.js';
export * from './raster/index.js';
export { mergeSectors } from './sweep/mergeSectors.js';
export { runSectorJob, type SweptSector } from './sweep/runSectorJob.js';
export type {
  CoverageRaster,
  SectorResult,
  SweepJob,
  SweepQuestion,
  SweptDiffraction,
  SweptFreeSpace,
  SweptGateway,
  SweptHata,
  SweptModel,
  SweptPrediction,
  UserModelQuestion,
} from './sweep/SweepJob.js';
export { sectorJobs } from './sweep/sectorJobs.js';
export { type CoverageOptions, type CoverageProgress, sweepCoverage } from './sweep/sweepCoverage.js';
export * as twoRay from './tworay/index.js';
