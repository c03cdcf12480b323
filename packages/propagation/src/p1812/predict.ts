import { earthRadiusM } from '@finial/radio';
import { frequencyHints } from '@finial/units';
import { type ModelRange, validityCheck } from '../models/validity.js';
import { type DeltaBullingtonParts, deltaBullingtonKernel } from '../p526/deltaBullingtonKernel.js';
import { type CheckedPath, checkPath } from '../path/checkPath.js';
import type { RadioPath } from '../path/RadioPath.js';
import { analysePath, type PathAnalysis } from './analysePath.js';
import { anomalousEarthRadiusFactor, diffractionConstants } from './constants.js';
import { kilowattFieldDbuvPerM } from './fieldStrengthDbuvPerM.js';
import { type LocationTerm, locationTerm } from './locationTerm.js';
import { type MedianLocationLoss, medianLocationLoss } from './medianLocationLoss.js';
import type { Prediction } from './Prediction.js';
import type { CheckedSettings } from './settings.js';

const frequency: ModelRange = { possible: { min: 1e6, max: 1e11, unit: 'hertz' }, min: 30e6, max: 6e9 };
const antenna: ModelRange = { possible: { min: 0.01, max: 1e4, unit: 'metres' }, min: 1, max: 3000 };
const length: ModelRange = { possible: { min: 1, max: 2e7, unit: 'metres' }, min: 250, max: 3e6 };

/** The method, once its settings are known to be good. */
export function predict(path: RadioPath, settings: CheckedSettings): Prediction {
  const checked = checkPath(path, {
    frequencyHz: { ...frequency.possible, hints: frequencyHints },
    antennaHeightM: antenna.possible,
    lengthM: length.possible,
    leastPoints: 5,
  });
  const outside = pathWarnings(checked, settings);
  const analysis = analysePath(checked, settings);
  const median = diffraction(checked, analysis, analysis.medianEarthRadiusM);
  const anomalous = diffraction(checked, analysis, anomalousEarthRadiusFactor * earthRadiusM);
  const losses = medianLocationLoss(
    analysis.scalars,
    median.lossDb,
    anomalous.lossDb,
    settings.timePercent,
    settings.surfaceRefractivity,
  );
  const location = locationTerm(
    {
      frequencyHz: checked.frequencyHz,
      antennaM: checked.receiverHeightM,
      clutterM: path.clutterHeightM?.[checked.distanceM.length - 1] ?? 0,
      atSea: analysis.receiverAtSea,
    },
    settings,
  );
  // Equation (69): no location lies below line of sight.
  const lossDb = Math.max(losses.lineOfSightDb, losses.lossDb + location.lossDb);
  return {
    lossDb,
    fieldStrengthDbuvPerM: kilowattFieldDbuvPerM(analysis.scalars.frequencyGHz, lossDb),
    ...profileValues(checked, analysis),
    ...diffractionValues(median, anomalous),
    ...lossValues(losses),
    ...locationValues(location),
    warnings: [...settings.warnings, ...outside, ...location.warnings],
  };
}

function pathWarnings(path: CheckedPath, { outsideValidity }: CheckedSettings): readonly string[] {
  const { within, warnings } = validityCheck(outsideValidity);
  within(path.frequencyHz, 'path.frequencyHz', frequency);
  within(path.transmitterHeightM, 'path.transmitterHeightM', antenna);
  within(path.receiverHeightM, 'path.receiverHeightM', antenna);
  within(path.lengthM, `path.distanceM[${path.distanceM.length - 1}]`, length);
  return warnings;
}

function diffraction(
  path: CheckedPath,
  { smooth, scalars }: PathAnalysis,
  effectiveEarthRadiusM: number,
): DeltaBullingtonParts {
  return deltaBullingtonKernel(
    path.distanceM,
    path.obstacleHeightM,
    path.transmitterAltitudeM,
    path.receiverAltitudeM,
    path.transmitterAltitudeM - smooth.transmitterM,
    path.receiverAltitudeM - smooth.receiverM,
    effectiveEarthRadiusM,
    path.frequencyHz,
    path.polarisation,
    scalars.seaShare,
    diffractionConstants,
  );
}

function profileValues(
  { lengthM, transmitterAltitudeM, receiverAltitudeM }: CheckedPath,
  { scalars, horizons, smooth, ...analysis }: PathAnalysis,
) {
  return {
    lengthM,
    transhorizon: horizons.transhorizon,
    effectiveEarthRadiusM: analysis.medianEarthRadiusM,
    anomalousEarthRadiusM: anomalousEarthRadiusFactor * earthRadiusM,
    seaRatio: scalars.seaShare,
    longestLandM: analysis.longestLandM,
    longestInlandM: analysis.longestInlandM,
    transmitterCoastDistanceM: metresIfAny(scalars.transmitterCoastKm),
    receiverCoastDistanceM: metresIfAny(scalars.receiverCoastKm),
    anomalousTimePercent: scalars.anomalousTimePercent,
    transmitterAltitudeM,
    receiverAltitudeM,
    transmitterHorizonDistanceM: horizons.transmitterDistanceM,
    receiverHorizonDistanceM: horizons.receiverDistanceM,
    transmitterHorizonRad: horizons.transmitterMrad / 1000,
    receiverHorizonRad: horizons.receiverMrad / 1000,
    angularDistanceRad: scalars.angularDistanceMrad / 1000,
    fittedTransmitterGroundM: smooth.fittedTransmitterM,
    fittedReceiverGroundM: smooth.fittedReceiverM,
    ductTransmitterGroundM: analysis.ductTransmitterGroundM,
    ductReceiverGroundM: analysis.ductReceiverGroundM,
    diffractionTransmitterGroundM: smooth.transmitterM,
    diffractionReceiverGroundM: smooth.receiverM,
    diffractionTransmitterHeightM: transmitterAltitudeM - smooth.transmitterM,
    diffractionReceiverHeightM: receiverAltitudeM - smooth.receiverM,
    ductTransmitterHeightM: scalars.ductTransmitterM,
    ductReceiverHeightM: scalars.ductReceiverM,
    roughnessM: scalars.roughnessM,
  };
}

function metresIfAny(distanceKm: number): number | undefined {
  return distanceKm === Number.POSITIVE_INFINITY ? undefined : distanceKm * 1000;
}

function diffractionValues(median: DeltaBullingtonParts, anomalous: DeltaBullingtonParts) {
  return {
    actualBullingtonLossDb: median.actual.lossDb,
    smoothBullingtonLossDb: median.smooth.lossDb,
    sphericalEarthLossDb: median.spherical.lossDb,
    anomalousActualBullingtonLossDb: anomalous.actual.lossDb,
    anomalousSmoothBullingtonLossDb: anomalous.smooth.lossDb,
    anomalousSphericalEarthLossDb: anomalous.spherical.lossDb,
    medianDiffractionLossDb: median.lossDb,
    anomalousDiffractionLossDb: anomalous.lossDb,
  };
}

function lossValues({ ducting, ...losses }: MedianLocationLoss) {
  return {
    timeFactor: losses.timeFactor,
    angleFactor: losses.angleFactor,
    distanceFactor: losses.distanceFactor,
    freeSpaceLossDb: losses.freeSpaceDb,
    lineOfSightLossDb: losses.lineOfSightDb,
    anomalousLineOfSightLossDb: losses.anomalousLineOfSightDb,
    diffractionLossDb: losses.diffractionDb,
    medianDiffractionPathLossDb: losses.medianDiffractionPathDb,
    diffractionPathLossDb: losses.diffractionPathDb,
    troposcatterLossDb: losses.troposcatterDb,
    ductShieldingLossDb: ducting.shieldingDb,
    ductSeaLossDb: ducting.seaDb,
    ductCouplingLossDb: ducting.couplingDb,
    ductAngleLossDb: ducting.angleDb,
    ductGeometryFactor: ducting.geometryFactor,
    ductRoughnessFactor: ducting.roughnessFactor,
    ductTimePercent: ducting.ductPercent,
    ductTimeLossDb: ducting.timeDb,
    ductingLossDb: ducting.lossDb,
    leastLineOfSightLossDb: losses.leastLineOfSightDb,
    leastDuctingLossDb: losses.leastDuctingDb,
    ductedDiffractionLossDb: losses.ductedDiffractionDb,
    lossWithoutTroposcatterDb: losses.withoutTroposcatterDb,
    medianLocationLossDb: losses.lossDb,
  };
}

function locationValues(location: LocationTerm) {
  return {
    locationSigmaDb: location.sigmaDb,
    buildingLossDb: location.buildingLossDb,
    buildingSigmaDb: location.buildingSigmaDb,
    locationLossDb: location.lossDb,
  };
}
