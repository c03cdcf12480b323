import {
  angleFactor,
  distanceFactor,
  ductedDiffractionLossDb,
  leastDuctingLossDb,
  leastLineOfSightLossDb,
  timeFactor,
  withTroposcatterDb,
} from './combination.js';
import { type DuctingLoss, ductingLoss } from './ductingLoss.js';
import { focusingDb, slantFreeSpaceLossDb } from './lineOfSightLoss.js';
import type { PathScalars } from './PathScalars.js';
import { troposcatterLossDb } from './troposcatterLoss.js';

/** All losses of a path for half of the locations, with the weights between them. */
export interface MedianLocationLoss {
  readonly freeSpaceDb: number;
  readonly lineOfSightDb: number;
  readonly anomalousLineOfSightDb: number;
  readonly diffractionDb: number;
  readonly medianDiffractionPathDb: number;
  readonly diffractionPathDb: number;
  readonly troposcatterDb: number;
  readonly ducting: DuctingLoss;
  readonly timeFactor: number;
  readonly angleFactor: number;
  readonly distanceFactor: number;
  readonly leastLineOfSightDb: number;
  readonly leastDuctingDb: number;
  readonly ductedDiffractionDb: number;
  readonly withoutTroposcatterDb: number;
  readonly lossDb: number;
}

/**
 * Basic transmission loss not exceeded for a share of the time at half of the locations, once diffraction is known for median and for
 * anomalous conditions. Positional and unchecked; the time is at most 50 %.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, sections 4.2 to 4.5 and 4.9
 */
export function medianLocationLoss(
  path: PathScalars,
  medianDiffractionDb: number,
  anomalousDiffractionDb: number,
  timePercent: number,
  surfaceRefractivity: number,
): MedianLocationLoss {
  const { frequencyGHz, distanceKm, anomalousTimePercent, angularDistanceMrad } = path;
  const freeSpaceDb = slantFreeSpaceLossDb(frequencyGHz, distanceKm, path.transmitterM - path.receiverM);
  const horizonsKm = path.transmitterHorizonKm + path.receiverHorizonKm;
  const lineOfSightDb = freeSpaceDb + focusingDb(timePercent, horizonsKm);
  const anomalousLineOfSightDb = freeSpaceDb + focusingDb(anomalousTimePercent, horizonsKm);
  const timeWeight = timeFactor(timePercent, anomalousTimePercent);
  // At half of the time the approximated deviate leaves 1e-9 of the anomalous loss; the Recommendation says it is the median.
  const diffractionWeight = timePercent === 50 ? 0 : timeWeight;
  const diffractionDb =
    medianDiffractionDb + diffractionWeight * (anomalousDiffractionDb - medianDiffractionDb);
  const medianDiffractionPathDb = freeSpaceDb + medianDiffractionDb;
  const diffractionPathDb = lineOfSightDb + diffractionDb;
  const troposcatterDb = troposcatterLossDb(
    frequencyGHz,
    distanceKm,
    angularDistanceMrad,
    surfaceRefractivity,
    timePercent,
  );
  const ducting = ductingLoss(path, timePercent);
  const leastLineOfSightDb = leastLineOfSightLossDb(
    timePercent,
    anomalousTimePercent,
    timeWeight,
    1 - path.seaShare,
    lineOfSightDb,
    anomalousLineOfSightDb,
    diffractionDb,
    medianDiffractionPathDb,
  );
  const leastDuctingDb = leastDuctingLossDb(ducting.lossDb, lineOfSightDb);
  const distanceWeight = distanceFactor(distanceKm);
  const ductedDiffractionDb = ductedDiffractionLossDb(diffractionPathDb, leastDuctingDb, distanceWeight);
  const angleWeight = angleFactor(angularDistanceMrad);
  // Equation (62).
  const withoutTroposcatterDb =
    ductedDiffractionDb + (leastLineOfSightDb - ductedDiffractionDb) * angleWeight;
  return {
    freeSpaceDb,
    lineOfSightDb,
    anomalousLineOfSightDb,
    diffractionDb,
    medianDiffractionPathDb,
    diffractionPathDb,
    troposcatterDb,
    ducting,
    timeFactor: timeWeight,
    angleFactor: angleWeight,
    distanceFactor: distanceWeight,
    leastLineOfSightDb,
    leastDuctingDb,
    ductedDiffractionDb,
    withoutTroposcatterDb,
    lossDb: withTroposcatterDb(withoutTroposcatterDb, troposcatterDb),
  };
}
