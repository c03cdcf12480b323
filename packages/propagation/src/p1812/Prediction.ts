/**
 * What the method says of a path, with every intermediate value. Symbols of the Recommendation stand in brackets. "Anomalous" values
 * belong to the time in which refractivity falls unusually fast (β0); "smooth" heights to a straight line through the ground.
 */
export interface Prediction {
  /** Basic transmission loss not exceeded for the time and the locations asked for, in dB (L_b). */
  readonly lossDb: number;
  /** Field strength at that loss for 1 kW effective radiated power, in dB over 1 µV/m (E). */
  readonly fieldStrengthDbuvPerM: number;

  /** Length of the path in metres (d). */
  readonly lengthM: number;
  /** Whether bare ground hides one antenna from the other under median refraction. */
  readonly transhorizon: boolean;
  /** Median effective Earth radius in metres (a_e). */
  readonly effectiveEarthRadiusM: number;
  /** Effective Earth radius under anomalous conditions in metres (a_β). */
  readonly anomalousEarthRadiusM: number;
  /** Share of the path over sea, 0 to 1 (ω). */
  readonly seaRatio: number;
  /** Longest stretch over land of any kind in metres (d_tm). */
  readonly longestLandM: number;
  /** Longest stretch over inland in metres (d_lm). */
  readonly longestInlandM: number;
  /** Distance from the transmitter to the coast in metres, `undefined` where there is no sea (d_ct). */
  readonly transmitterCoastDistanceM: number | undefined;
  /** Distance from the receiver to the coast in metres, `undefined` where there is no sea (d_cr). */
  readonly receiverCoastDistanceM: number | undefined;
  /** Share of time in percent with anomalous conditions (β0). */
  readonly anomalousTimePercent: number;

  /** Transmitting antenna above sea level in metres (h_ts). */
  readonly transmitterAltitudeM: number;
  /** Receiving antenna above sea level in metres (h_rs). */
  readonly receiverAltitudeM: number;
  /** Distance from the transmitter to its horizon in metres (d_lt). */
  readonly transmitterHorizonDistanceM: number;
  /** Distance from the receiver to its horizon in metres (d_lr). */
  readonly receiverHorizonDistanceM: number;
  /** Elevation of the transmitter's horizon in radians (θ_t). */
  readonly transmitterHorizonRad: number;
  /** Elevation of the receiver's horizon in radians (θ_r). */
  readonly receiverHorizonRad: number;
  /** Angle between the two horizon rays in radians (θ). */
  readonly angularDistanceRad: number;
  /** Line fitted to the ground, at the transmitter in metres above sea level (h_st before it is bounded). */
  readonly fittedTransmitterGroundM: number;
  /** Line fitted to the ground, at the receiver in metres above sea level (h_sr before it is bounded). */
  readonly fittedReceiverGroundM: number;
  /** Smooth surface for ducting at the transmitter in metres above sea level (h_st). */
  readonly ductTransmitterGroundM: number;
  /** Smooth surface for ducting at the receiver in metres above sea level (h_sr). */
  readonly ductReceiverGroundM: number;
  /** Smooth surface for diffraction at the transmitter in metres above sea level (h_std). */
  readonly diffractionTransmitterGroundM: number;
  /** Smooth surface for diffraction at the receiver in metres above sea level (h_srd). */
  readonly diffractionReceiverGroundM: number;
  /** Transmitting antenna above the smooth surface for diffraction in metres (h'_ts). */
  readonly diffractionTransmitterHeightM: number;
  /** Receiving antenna above the smooth surface for diffraction in metres (h'_rs). */
  readonly diffractionReceiverHeightM: number;
  /** Transmitting antenna above the smooth surface for ducting in metres (h_te). */
  readonly ductTransmitterHeightM: number;
  /** Receiving antenna above the smooth surface for ducting in metres (h_re). */
  readonly ductReceiverHeightM: number;
  /** Roughness: the greatest height of the ground over the smooth surface between the horizons in metres (h_m). */
  readonly roughnessM: number;

  /** Weight of anomalous conditions for the time, 0 to 1 (F_i). */
  readonly timeFactor: number;
  /** Weight of line of sight for the angle, 0 to 1 (F_j). */
  readonly angleFactor: number;
  /** Weight of diffraction over ducting for the distance, 0 to 1 (F_k). */
  readonly distanceFactor: number;

  /** Loss in free space in dB, with the rounded constant of the method (L_bfs). */
  readonly freeSpaceLossDb: number;
  /** Loss in line of sight for the time asked for in dB (L_b0p). */
  readonly lineOfSightLossDb: number;
  /** Loss in line of sight for the anomalous time in dB (L_b0β). */
  readonly anomalousLineOfSightLossDb: number;
  /** Bullington diffraction over the real profile in dB, median. */
  readonly actualBullingtonLossDb: number;
  /** Bullington diffraction over the smooth profile in dB, median. */
  readonly smoothBullingtonLossDb: number;
  /** Diffraction over spherical Earth in dB, median. */
  readonly sphericalEarthLossDb: number;
  /** Bullington diffraction over the real profile in dB, anomalous. */
  readonly anomalousActualBullingtonLossDb: number;
  /** Bullington diffraction over the smooth profile in dB, anomalous. */
  readonly anomalousSmoothBullingtonLossDb: number;
  /** Diffraction over spherical Earth in dB, anomalous. */
  readonly anomalousSphericalEarthLossDb: number;
  /** Diffraction loss in dB, median (L_d50). */
  readonly medianDiffractionLossDb: number;
  /** Diffraction loss in dB, anomalous (L_dβ). */
  readonly anomalousDiffractionLossDb: number;
  /** Diffraction loss in dB for the time asked for (L_dp). */
  readonly diffractionLossDb: number;
  /** Loss of the path by diffraction in dB, median (L_bd50). */
  readonly medianDiffractionPathLossDb: number;
  /** Loss of the path by diffraction in dB for the time asked for (L_bd). */
  readonly diffractionPathLossDb: number;
  /** Loss of the path by troposcatter in dB (L_bs). */
  readonly troposcatterLossDb: number;

  /** Loss by horizons that stand near before the antennas in dB, both ends (A_st + A_sr). */
  readonly ductShieldingLossDb: number;
  /** What nearness of the sea changes in dB, at most 0, both ends (A_ct + A_cr). */
  readonly ductSeaLossDb: number;
  /** Coupling to the duct in dB, with the two before (A_f). */
  readonly ductCouplingLossDb: number;
  /** Loss by the angle that the duct bends through in dB (γ_d θ'). */
  readonly ductAngleLossDb: number;
  /** By how much the geometry shortens the time of ducts, 0 to 1 (μ2). */
  readonly ductGeometryFactor: number;
  /** By how much rough ground shortens the time of ducts, 0 to 1 (μ3). */
  readonly ductRoughnessFactor: number;
  /** Share of time in percent with ducts on this path (β). */
  readonly ductTimePercent: number;
  /** Loss by the time asked for in dB (A_p). */
  readonly ductTimeLossDb: number;
  /** Loss of the path by ducting and layer reflection in dB (L_ba). */
  readonly ductingLossDb: number;

  /** Notional least loss of line of sight and diffraction over sea in dB (L_minb0p). */
  readonly leastLineOfSightLossDb: number;
  /** Notional least loss of ducting and line of sight in dB (L_minbap). */
  readonly leastDuctingLossDb: number;
  /** Notional loss of diffraction and ducting in dB (L_bda). */
  readonly ductedDiffractionLossDb: number;
  /** Loss without troposcatter in dB (L_bam). */
  readonly lossWithoutTroposcatterDb: number;
  /** Loss for the time asked for at half of the locations in dB (L_bc). */
  readonly medianLocationLossDb: number;
  /** Standard deviation over locations outdoors in dB (σ_L). */
  readonly locationSigmaDb: number;
  /** Median loss into the building in dB, 0 outdoors. */
  readonly buildingLossDb: number;
  /** Standard deviation of the loss into the building in dB, 0 outdoors. */
  readonly buildingSigmaDb: number;
  /** What building and locations add to the median in dB (L_loc). */
  readonly locationLossDb: number;

  /** What was allowed outside the range of the method, or rests on an unconfirmed formula. */
  readonly warnings: readonly string[];
}
