/** Zone of a profile point, as ITU-R P.1812 classes it: over the sea, over land near a coast, or farther inland. */
export type RadioZone = 'sea' | 'coastal-land' | 'inland';

/** Orientation of the electric field. */
export type LinearPolarisation = 'horizontal' | 'vertical';

/**
 * A path over ground between two antennas, as every model of this package takes it. Point 0 lies under the transmitter, the last point
 * under the receiver.
 */
export interface RadioPath {
  /** Frequency in hertz; each model states its own range. */
  readonly frequencyHz: number;
  /** Distance of each profile point from the transmitter in metres, rising from 0; at least two points. */
  readonly distanceM: Float64Array | readonly number[];
  /** Height of the bare ground at each point in metres above sea level, -500 to 9000. */
  readonly heightM: Float64Array | readonly number[];
  /**
   * Representative height of clutter (houses, trees) at each point in metres, 0 to 200. It is never counted at the two end points.
   *
   * @defaultValue none: bare ground
   */
  readonly clutterHeightM?: Float64Array | readonly number[] | undefined;
  /**
   * Zone of each point.
   *
   * @defaultValue all inland
   */
  readonly zone?: readonly RadioZone[] | undefined;
  /** Height of the transmitting antenna above its ground in metres. */
  readonly transmitterHeightM: number;
  /** Height of the receiving antenna above its ground in metres. */
  readonly receiverHeightM: number;
  /**
   * Orientation of the electric field. A whip that stands upright is vertical.
   *
   * @defaultValue `vertical`
   */
  readonly polarisation?: LinearPolarisation | undefined;
}

/** What a model says of a path. */
export interface PathLoss {
  /** Loss between isotropic antennas in dB. */
  readonly lossDb: number;
  /** The parts that the loss is made of in dB, by name. */
  readonly terms: Readonly<Record<string, number>>;
  /** What a reader should know: left the model's range, an input was assumed. */
  readonly warnings: readonly string[];
}

/** A propagation model with its settings fixed: what dossier, sweep and a user's own model have in common. */
export type PathModel = (path: RadioPath) => PathLoss;
