/**
 * By which mechanism the wave mainly arrives, as the model divides distances: `line-of-sight` nearer than the horizons of a
 * smooth Earth, whether or not a hill stands between, then `diffraction`, then `troposcatter` from where it loses less.
 */
export type PropagationMode = 'line-of-sight' | 'diffraction' | 'troposcatter';

/** Loss by the irregular-terrain model, with what it was calculated from. */
export interface ItmLoss {
  /** Basic transmission loss between isotropic antennas in dB: free space, reference attenuation and variability together. */
  readonly lossDb: number;
  /** Loss of free space in dB, with the rounded constant 32.45 of the model. */
  readonly freeSpaceLossDb: number;
  /** Median attenuation below free space in dB, 0 or more, under reference conditions. */
  readonly referenceAttenuationDb: number;
  /** What climate and the asked percentages add to the reference attenuation, in dB; negative where they take away. */
  readonly variabilityDb: number;
  /** Main mechanism. `line-of-sight` does not say that the ends see each other. */
  readonly mode: PropagationMode;
  /** Length of the path in metres. */
  readonly distanceM: number;
  /** Terrain irregularity in metres: the spread of the middle 80 per cent of the ground heights about their trend. */
  readonly terrainIrregularityM: number;
  /** Effective height of the transmitting antenna in metres. */
  readonly transmitterEffectiveHeightM: number;
  /** Effective height of the receiving antenna in metres. */
  readonly receiverEffectiveHeightM: number;
  /** Distance from the transmitter to its radio horizon in metres. */
  readonly transmitterHorizonDistanceM: number;
  /** Distance from the receiver to its radio horizon in metres. */
  readonly receiverHorizonDistanceM: number;
  /** Elevation of the transmitter's horizon in radians, positive upwards. */
  readonly transmitterHorizonAngleRad: number;
  /** Elevation of the receiver's horizon in radians, positive upwards. */
  readonly receiverHorizonAngleRad: number;
  /** Refractivity at the height of the path in N-units. */
  readonly surfaceRefractivity: number;
  /** Radius of the Earth over which a ray can be drawn straight, in metres. */
  readonly effectiveEarthRadiusM: number;
  /** Where the path comes near or leaves the bounds within which the model was compared with measurements. */
  readonly warnings: readonly string[];
}
