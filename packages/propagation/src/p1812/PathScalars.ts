/**
 * What the closed forms need of a path once its profile has been looked at: a sweep along a radial keeps these values running instead.
 * In the units that the Recommendation's constants are made for.
 */
export interface PathScalars {
  readonly frequencyGHz: number;
  readonly distanceKm: number;
  /** Median effective Earth radius (a_e). */
  readonly earthRadiusKm: number;
  /** Antennas above sea level. */
  readonly transmitterM: number;
  readonly receiverM: number;
  /** Horizons; angles are above the horizontal. */
  readonly transmitterHorizonKm: number;
  readonly receiverHorizonKm: number;
  readonly transmitterHorizonMrad: number;
  readonly receiverHorizonMrad: number;
  readonly angularDistanceMrad: number;
  readonly seaShare: number;
  /** Distances over land to the sea; Infinity where there is none. */
  readonly transmitterCoastKm: number;
  readonly receiverCoastKm: number;
  /** τ. */
  readonly inlandInfluence: number;
  /** β0. */
  readonly anomalousTimePercent: number;
  /** Antennas above the smooth surface of the ducting model. */
  readonly ductTransmitterM: number;
  readonly ductReceiverM: number;
  /** Terrain roughness. */
  readonly roughnessM: number;
}
