import type { LinearPolarisation } from '../path/RadioPath.js';
import { type BullingtonEdge, bullingtonKernel } from './bullingtonKernel.js';
import type { DiffractionConstants } from './diffractionConstants.js';
import { type SphericalEarth, sphericalEarth } from './sphericalEarth.js';

/** The three parts of the delta-Bullington method and their sum. */
export interface DeltaBullingtonParts {
  /** Bullington over the real profile. */
  readonly actual: BullingtonEdge;
  /** Bullington over a smooth profile with the same points. */
  readonly smooth: BullingtonEdge;
  readonly spherical: SphericalEarth;
  readonly lossDb: number;
}

/**
 * Delta-Bullington diffraction loss. Positional and unchecked; heights in metres above sea level. Without a point between the ends there
 * is nothing to diffract at, and the loss is 0: spherical Earth alone would count bulge that the profile does not resolve.
 */
export function deltaBullingtonKernel(
  distanceM: Float64Array,
  obstacleHeightM: Float64Array,
  transmitterAltitudeM: number,
  receiverAltitudeM: number,
  /** Antennas above the smooth surface. */
  smoothTransmitterHeightM: number,
  smoothReceiverHeightM: number,
  effectiveEarthRadiusM: number,
  frequencyHz: number,
  polarisation: LinearPolarisation,
  seaRatio: number,
  constants: DiffractionConstants,
): DeltaBullingtonParts {
  const wavelengthM = constants.speedOfLightMPerS / frequencyHz;
  const count = distanceM.length;
  const actual = bullingtonKernel(
    distanceM,
    obstacleHeightM,
    transmitterAltitudeM,
    receiverAltitudeM,
    effectiveEarthRadiusM,
    wavelengthM,
  );
  const smooth = bullingtonKernel(
    distanceM,
    new Float64Array(count),
    smoothTransmitterHeightM,
    smoothReceiverHeightM,
    effectiveEarthRadiusM,
    wavelengthM,
  );
  const spherical = sphericalEarth(
    distanceM[count - 1] as number,
    smoothTransmitterHeightM,
    smoothReceiverHeightM,
    effectiveEarthRadiusM,
    frequencyHz,
    polarisation,
    seaRatio,
    constants,
  );
  const lossDb = count > 2 ? actual.lossDb + Math.max(spherical.lossDb - smooth.lossDb, 0) : 0;
  return { actual, smooth, spherical, lossDb };
}
