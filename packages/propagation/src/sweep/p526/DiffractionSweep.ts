import type { DiffractionConstants } from '../../p526/diffractionConstants.js';
import type { LinearPolarisation } from '../../path/RadioPath.js';
import type { RadialGround } from '../radial/RadialGround.js';
import { BullingtonSweep } from './BullingtonSweep.js';
import { SmoothBullingtonSweep } from './SmoothBullingtonSweep.js';
import type { SmoothSurfaceSweep } from './SmoothSurfaceSweep.js';
import { SphericalEarthSweep } from './SphericalEarthSweep.js';

/** What stays the same for all receivers of a sweep. */
export interface DiffractionScene {
  readonly effectiveEarthRadiusM: number;
  readonly frequencyHz: number;
  readonly polarisation: LinearPolarisation;
  readonly constants: DiffractionConstants;
  /** Most points and receivers of a radial. */
  readonly pointCapacity: number;
  readonly receiverCapacity: number;
}

/**
 * Delta-Bullington diffraction for every receiver of a radial under one effective Earth radius, equal to the point-to-point method on each
 * receiver's own profile. A receiver without a point before it has no diffraction.
 */
export class DiffractionSweep {
  private readonly bullington: BullingtonSweep;
  private readonly spherical: SphericalEarthSweep;
  private readonly smooth: SmoothBullingtonSweep;
  private readonly deltaDb: Float64Array;
  /** Points between the gateway and each receiver. */
  private readonly pointsBefore: Int32Array;

  constructor(scene: DiffractionScene) {
    const { effectiveEarthRadiusM, frequencyHz, constants, pointCapacity, receiverCapacity } = scene;
    const wavelengthM = constants.speedOfLightMPerS / frequencyHz;
    this.bullington = new BullingtonSweep(pointCapacity, effectiveEarthRadiusM, wavelengthM);
    this.spherical = new SphericalEarthSweep(
      receiverCapacity,
      effectiveEarthRadiusM,
      frequencyHz,
      scene.polarisation,
      constants,
    );
    this.smooth = new SmoothBullingtonSweep(receiverCapacity, effectiveEarthRadiusM, wavelengthM);
    this.deltaDb = new Float64Array(receiverCapacity);
    this.pointsBefore = new Int32Array(receiverCapacity);
  }

  /** Writes the loss beyond free space in dB of each receiver of a radial whose smooth surface and shares of sea are known. */
  lossesAlong(
    ground: RadialGround,
    transmitterAltitudeM: number,
    receiverHeightM: number,
    surface: SmoothSurfaceSweep,
    seaRatio: Float64Array,
    lossDb: Float64Array,
  ): void {
    const { deltaDb, pointsBefore } = this;
    const { receiverCount, receiverDistanceM } = ground;
    countPointsBefore(ground, pointsBefore);
    const { transmitterM, receiverM } = surface;
    this.bullington.lossesAlong(ground, transmitterAltitudeM, receiverHeightM, lossDb);
    this.spherical.losses(receiverCount, receiverDistanceM, transmitterM, receiverM, seaRatio, deltaDb);
    this.smooth.reduce(ground, transmitterM, receiverM, pointsBefore, deltaDb);
    // Both parts are 0 where no point lies before the receiver.
    for (let receiver = 0; receiver < receiverCount; receiver += 1) {
      lossDb[receiver] = (lossDb[receiver] as number) + (deltaDb[receiver] as number);
    }
  }
}

function countPointsBefore(ground: RadialGround, pointsBefore: Int32Array): void {
  const { pointCount, distanceM, receiverCount, receiverDistanceM } = ground;
  let next = 1;
  for (let receiver = 0; receiver < receiverCount; receiver += 1) {
    const lengthM = receiverDistanceM[receiver] as number;
    while (next < pointCount && (distanceM[next] as number) < lengthM) next += 1;
    pointsBefore[receiver] = next - 1;
  }
}
