import { earthRadiusM } from '@finial/radio';
import { type SmoothHeights, smoothHeights } from '../p526/smoothHeights.js';
import type { CheckedPath } from '../path/checkPath.js';
import { seaRatio } from '../path/seaRatio.js';
import { anomalousTimePercent, inlandInfluence, medianEarthRadiusM } from './anomalousTime.js';
import { angularDistanceMrad, type Horizons, horizons } from './horizons.js';
import type { PathScalars } from './PathScalars.js';
import { roughnessM } from './roughness.js';
import type { CheckedSettings } from './settings.js';
import { isInland, isLand, longestStretchM, receiverCoastM, transmitterCoastM } from './zones.js';

/** Everything that the profile itself is asked for, and the scalars that the closed forms take. */
export interface PathAnalysis {
  readonly scalars: PathScalars;
  readonly horizons: Horizons;
  readonly smooth: SmoothHeights;
  readonly medianEarthRadiusM: number;
  readonly longestLandM: number;
  readonly longestInlandM: number;
  /** Smooth surface of the ducting model at the two ends, never above the ground there. */
  readonly ductTransmitterGroundM: number;
  readonly ductReceiverGroundM: number;
  readonly receiverAtSea: boolean;
}

/** Looks at the profile: bare ground, median Earth radius. */
export function analysePath(path: CheckedPath, settings: CheckedSettings): PathAnalysis {
  const { distanceM, heightM, transmitterAltitudeM, receiverAltitudeM, lengthM } = path;
  const last = distanceM.length - 1;
  const radiusM = medianEarthRadiusM(earthRadiusM, settings.deltaN);
  const found = horizons(distanceM, heightM, transmitterAltitudeM, receiverAltitudeM, radiusM);
  const smooth = smoothHeights(distanceM, heightM, transmitterAltitudeM, receiverAltitudeM);
  const ductTransmitterGroundM = Math.min(smooth.fittedTransmitterM, heightM[0] as number);
  const ductReceiverGroundM = Math.min(smooth.fittedReceiverM, heightM[last] as number);
  const coasts = analyseZones(path, settings);
  return {
    horizons: found,
    smooth,
    medianEarthRadiusM: radiusM,
    ductTransmitterGroundM,
    ductReceiverGroundM,
    longestLandM: coasts.longestLandM,
    longestInlandM: coasts.longestInlandM,
    receiverAtSea: path.zone?.[last] === 'sea',
    scalars: {
      ...coasts.scalars,
      frequencyGHz: path.frequencyHz / 1e9,
      distanceKm: lengthM / 1000,
      earthRadiusKm: radiusM / 1000,
      transmitterM: transmitterAltitudeM,
      receiverM: receiverAltitudeM,
      transmitterHorizonKm: found.transmitterDistanceM / 1000,
      receiverHorizonKm: found.receiverDistanceM / 1000,
      transmitterHorizonMrad: found.transmitterMrad,
      receiverHorizonMrad: found.receiverMrad,
      angularDistanceMrad: angularDistanceMrad(lengthM, radiusM, found.transmitterMrad, found.receiverMrad),
      ductTransmitterM: transmitterAltitudeM - ductTransmitterGroundM,
      ductReceiverM: receiverAltitudeM - ductReceiverGroundM,
      roughnessM: roughnessM(
        distanceM,
        heightM,
        ductTransmitterGroundM,
        ductReceiverGroundM,
        found.transmitterIndex,
        found.receiverIndex,
      ),
    },
  };
}

type ZoneScalars = Pick<
  PathScalars,
  'seaShare' | 'transmitterCoastKm' | 'receiverCoastKm' | 'inlandInfluence' | 'anomalousTimePercent'
>;

function analyseZones(
  { zone, distanceM, lengthM }: CheckedPath,
  settings: CheckedSettings,
): { readonly longestLandM: number; readonly longestInlandM: number; readonly scalars: ZoneScalars } {
  const longestLandM = zone ? longestStretchM(distanceM, zone, isLand) : lengthM;
  const longestInlandM = zone ? longestStretchM(distanceM, zone, isInland) : lengthM;
  const fromTransmitterM = zone ? transmitterCoastM(distanceM, zone) : Number.POSITIVE_INFINITY;
  const fromReceiverM = zone ? receiverCoastM(distanceM, zone) : Number.POSITIVE_INFINITY;
  const influence = inlandInfluence(longestInlandM / 1000);
  return {
    longestLandM,
    longestInlandM,
    scalars: {
      seaShare: seaRatio(distanceM, zone),
      transmitterCoastKm: (settings.transmitterCoastDistanceM ?? fromTransmitterM) / 1000,
      receiverCoastKm: (settings.receiverCoastDistanceM ?? fromReceiverM) / 1000,
      inlandInfluence: influence,
      anomalousTimePercent: anomalousTimePercent(settings.centreLatitudeDeg, longestLandM / 1000, influence),
    },
  };
}
