import type { GroundImpedance } from './groundImpedance.js';

/** One end of a path as the model sees it, all in metres and radians. */
export interface Terminal {
  /** Height of the antenna above its ground. */
  readonly heightM: number;
  /** Height above the reflecting or diffracting ground around it. */
  readonly effectiveHeightM: number;
  readonly horizonDistanceM: number;
  readonly horizonAngleRad: number;
}

/** All that the reference attenuation depends on. */
export interface Scene {
  readonly transmitter: Terminal;
  readonly receiver: Terminal;
  readonly distanceM: number;
  /** The formulas of the model are written in megahertz. */
  readonly megahertz: number;
  readonly impedance: GroundImpedance;
  readonly surfaceRefractivity: number;
  readonly effectiveEarthRadiusM: number;
  readonly terrainIrregularityM: number;
  /** Whether the ground between the ends is known: then low antennas weigh less in the choice of mechanism. */
  readonly knowsProfile: boolean;
}

/** Distance at which both horizons meet on a smooth Earth. */
export function smoothSightM({ transmitter, receiver, effectiveEarthRadiusM }: Scene): number {
  return (
    smoothHorizonM(transmitter.effectiveHeightM, effectiveEarthRadiusM) +
    smoothHorizonM(receiver.effectiveHeightM, effectiveEarthRadiusM)
  );
}

/** Distance at which both horizons of the actual ground meet. */
export function actualSightM({ transmitter, receiver }: Scene): number {
  return transmitter.horizonDistanceM + receiver.horizonDistanceM;
}

/** Angle at the centre of the Earth that the line-of-sight region takes up. */
export function sightAngleRad(scene: Scene): number {
  const { transmitter, receiver, effectiveEarthRadiusM } = scene;
  return Math.min(
    -(transmitter.horizonAngleRad + receiver.horizonAngleRad),
    actualSightM(scene) / effectiveEarthRadiusM,
  );
}

/** Distance to the horizon over a smooth Earth. */
export function smoothHorizonM(effectiveHeightM: number, effectiveEarthRadiusM: number): number {
  return Math.sqrt(2 * effectiveHeightM * effectiveEarthRadiusM);
}

/** Wave number, by the model's own rounded constant. */
export function waveNumberPerM(megahertz: number): number {
  return megahertz / 47.7;
}
