export { InputError, isInputError } from '@finial/units';
export {
  type BulgePoint,
  earthBulgeM,
  type HorizonAntenna,
  type LineOfSightAntennas,
  type Refraction,
  radioHorizonM,
  radioLineOfSightM,
} from './earthCurvature.js';
export {
  type ExposureDistance,
  type ExposureQuestion,
  exposureDistance,
  type GroundReflection,
} from './exposureDistance.js';
export {
  type ExposureLimit,
  type ExposureLimitName,
  type ExposureLimitQuestion,
  exposureLimit,
} from './exposureLimit.js';
export { type FreeSpacePath, freeSpaceLossDb } from './freeSpaceLossDb.js';
export {
  type FresnelClearance,
  type FresnelObstacle,
  type FresnelZonePoint,
  fresnelClearance,
  fresnelRadiusM,
  type PointOnPath,
} from './fresnelZone.js';
export { type FriisPath, friisReceivedPowerDbm } from './friisReceivedPowerDbm.js';
export { impedanceToReflection, type LoadImpedance, type Reflection } from './impedanceToReflection.js';
export {
  type LinkBudget,
  type LinkDirection,
  type LinkEnd,
  type LinkItem,
  type LinkPlan,
  linkBudget,
  type NamedLoss,
} from './linkBudget.js';
export {
  type LossyFeedline,
  reflectionCoefficientToVswr,
  returnLossToMismatchLossDb,
  returnLossToVswr,
  vswrThroughLoss,
  vswrToMismatchLossDb,
  vswrToReflectionCoefficient,
  vswrToReturnLossDb,
} from './mismatch.js';
export {
  type NoiseCascade,
  type NoiseStage,
  type NoiseStageContribution,
  noiseFigureCascade,
} from './noiseFigureCascade.js';
export {
  boltzmannJPerK,
  earthRadiusM,
  noiseReferenceTemperatureK,
  speedOfLightMPerS,
  standardEarthRadiusFactor,
} from './physicalConstants.js';
export {
  type EllipticalPolarisation,
  type Polarisation,
  type PolarisationPair,
  type PolarisationSense,
  polarisationMismatchDb,
} from './polarisationMismatchDb.js';
export { powerDensityWPerM2, type RadiatedField } from './powerDensityWPerM2.js';
export {
  eirpDbm,
  eirpToErpDbm,
  erpDbm,
  erpToEirpDbm,
  maxConductedPowerDbm,
  type RadiatingChain,
  type RadiationLimit,
} from './radiatedPower.js';
export { type ReceivingSystem, type SystemNoise, systemNoise } from './systemNoise.js';
export { type ThermalNoiseSource, thermalNoiseDbm } from './thermalNoiseDbm.js';
export { wavelengthM } from './wavelengthM.js';
