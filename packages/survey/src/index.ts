export { InputError, isInputError } from '@finial/units';
export type { BeaconReading } from './beacon/BeaconReading.js';
export { type BeaconDrift, type BeaconDriftOptions, beaconDrift } from './beacon/beaconDrift.js';
export type { BeaconColumns } from './beacon/beaconFields.js';
export type { BeaconOutage } from './beacon/beaconOutages.js';
export type { DriftAlarm } from './beacon/driftAlarms.js';
export type { ChartDesign, ChartDesigns, ChartPoint } from './beacon/driftCharts.js';
export { type BeaconLog, type ReadBeaconOptions, readBeacon } from './beacon/readBeacon.js';
export type { BeaconReference } from './beacon/referencePeriod.js';
export type { IntervalMethod } from './binomialInterval.js';
export { type Bootstrap, type BootstrapOptions, bootstrapBySpot } from './calibrate/bootstrapBySpot.js';
export {
  type BiasWithin,
  type CalibrateOptions,
  type Calibration,
  calibrate,
  type SpotResidual,
} from './calibrate/calibrate.js';
export {
  type CalibratedLevel,
  type CalibratedQuestion,
  calibratedLevel,
} from './calibrate/calibratedLevel.js';
export {
  type ConformalMargin,
  type ConformalMarginOptions,
  conformalMargin,
} from './calibrate/conformalMargin.js';
export {
  type ConformalQuantile,
  type ConformalQuestion,
  conformalQuantile,
} from './calibrate/conformalQuantile.js';
export type { PredictionScore } from './calibrate/leaveOneSpotOut.js';
export type { PredictedLevelOptions, PredictedPowersDbm } from './calibrate/predictedLevels.js';
export type { ResidualTerm } from './calibrate/residualTerms.js';
export {
  areaFromEdge,
  type DiscArea,
  type DiscCoverage,
  type DiscEdge,
  type DiscLaw,
  edgeFromArea,
} from './delivery/areaFromEdge.js';
export {
  type DeliveryAcrossSpots,
  type DeliveryAcrossSpotsOptions,
  deliveryAcrossSpots,
} from './delivery/deliveryAcrossSpots.js';
export { type ClaimOptions, type DeliveryClaim, deliveryClaim } from './delivery/deliveryClaim.js';
export { type DesignEffect, designEffect, type SpotPlan } from './delivery/designEffect.js';
export {
  type LogNormalFade,
  logNormalMarginDb,
  type MeasuredFade,
  predictionMarginDb,
  rayleighFadeDb,
  type SuzukiFade,
  suzukiFadeDb,
  type ToleratedFade,
  toleranceMarginDb,
} from './delivery/fadeMargin.js';
export { type BetaBinomialFit, fitBetaBinomial } from './delivery/fitBetaBinomial.js';
export { framesToProve, type ReliabilityClaim, type ReliabilityProof } from './delivery/framesToProve.js';
export {
  type GatewayNoise,
  type GatewayNoiseOptions,
  type GatewayNoiseReport,
  gatewayNoise,
} from './delivery/gatewayNoise.js';
export { type Overdispersion, overdispersion } from './delivery/overdispersion.js';
export {
  exponentStandardError,
  type SpotsForMean,
  type SpreadOfSpots,
  spotsForMean,
  type WantedMean,
} from './delivery/spotsForMean.js';
export { type SpotRow, type SpotTableOptions, spotTable } from './delivery/spotTable.js';
export {
  framesForWidth,
  type SurveyQuestion,
  type SurveySize,
  surveySize,
  type WantedWidth,
} from './delivery/surveySize.js';
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
export {
  type OffsetFromGateway,
  type PlaceFromGateway,
  planeOffset,
  planePosition,
} from './map/azimuthalPlane.js';
export { decorrelationM, type ShadowingCorrelation } from './map/decorrelationM.js';
export { empiricalVariogram, type VariogramClass, type VariogramOptions } from './map/empiricalVariogram.js';
export { type FitShadowingOptions, fitShadowing, type ShadowingFit } from './map/fitShadowing.js';
export { fitVariogram, type VariogramFit } from './map/fitVariogram.js';
export { type KrigedLevels, type KrigeOptions, krige } from './map/krige.js';
export {
  type DataRateMap,
  mapReception,
  type ReceptionMap,
  type ReceptionQuestion,
  type RequiredPower,
} from './map/mapReception.js';
export { type NextSpot, type NextSpots, type NextSpotsQuestion, nextSpots } from './map/nextSpots.js';
export type { PlanePlace, PlaneSample } from './map/PlaneSample.js';
export type { MapFrame, PredictedPower } from './map/PredictedPower.js';
export type { ReceptionSpot, SurveyedPrediction } from './map/ReceptionSpot.js';
export type { ShadowingModel } from './map/ShadowingModel.js';
export type { Trend } from './map/trend.js';
export type { Observation, Position } from './Observation.js';
export type {
  CensoringReport,
  ConstantLoss,
  FrameThreshold,
  LawIntervals,
  Optimism,
  SecondSlope,
  SpreadTest,
  ThresholdShift,
} from './pathLoss/CensoringReport.js';
export type { ThresholdDbm } from './pathLoss/frameThresholds.js';
export { type LevelQuestion, type PredictedLevel, predictLevel } from './predictLevel.js';
export {
  type ClockOffset,
  type ClockOffsetOptions,
  estimateClockOffset,
} from './read/estimateClockOffset.js';
export type {
  JoinedFrame,
  JoinedSession,
  JoinedWalk,
  JoinTrackOptions,
  NodeSettings,
  SentFrame,
  SkippedUplink,
  UplinkSkipReason,
} from './read/JoinedWalk.js';
export { joinTrack } from './read/joinTrack.js';
export type { ReadTableOptions } from './read/ReadTableOptions.js';
export type { SkippedRow } from './read/readTable.js';
export { type ReadTrackOptions, readTrack, type Track, type TrackColumns } from './read/readTrack.js';
export {
  type ReadUplinksOptions,
  readUplinks,
  type UplinkColumns,
  type UplinkLog,
} from './read/readUplinks.js';
export type { TrackPoint } from './read/TrackPoint.js';
export type { TextChunks } from './read/textLines.js';
export type { Uplink } from './read/Uplink.js';
export {
  type ReadSurveyOptions,
  type ReadSurveyStreamOptions,
  readSurvey,
  readSurveyStream,
  type Survey,
} from './readSurvey.js';
export type {
  DistanceColumn,
  FrequencyColumn,
  PowerColumn,
  ReceivedColumn,
  SurveyColumn,
  SurveyColumns,
} from './SurveyColumns.js';
export type { CoverageQuestion, WalkedNode } from './statement/CoverageQuestion.js';
export { type CoverageStatement, coverageStatement } from './statement/coverageStatement.js';
export type { ProvedSpot, SpotVerdict } from './statement/provedSpots.js';
export { type SurveyCsvOptions, surveyCsv } from './surveyCsv.js';
