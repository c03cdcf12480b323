export { InputError, isInputError } from '@finial/units';
export type { IntervalMethod } from './binomialInterval.js';
export { type DeliveryBySpotOptions, deliveryBySpot, type SpotDelivery } from './deliveryBySpot.js';
export { type DeliveryOptions, type DeliveryRatio, deliveryRatio, type FrameCount } from './deliveryRatio.js';
export { effectiveSignalPowerDbm, noisePowerDbm, type ReceivedLevel } from './effectiveSignalPower.js';
export {
  type ExcludedFrames,
  type FitPathLossOptions,
  fitPathLoss,
  type PathLossFit,
} from './fitPathLoss.js';
export { groundDistanceM } from './groundDistance.js';
export type { Observation, Position } from './Observation.js';
export { type LevelQuestion, type PredictedLevel, predictLevel } from './predictLevel.js';
export { type ReadSurveyOptions, readSurvey, type SkippedRow, type Survey } from './readSurvey.js';
export type {
  DistanceColumn,
  FrequencyColumn,
  PowerColumn,
  ReceivedColumn,
  SurveyColumn,
  SurveyColumns,
} from './SurveyColumns.js';
export { type SurveyCsvOptions, surveyCsv } from './surveyCsv.js';
