/**
 * The ground along one radial and the receivers that take their obstacles from it. One object is filled again for every radial; only the
 * first `pointCount` and `receiverCount` entries hold. No entry among them is NaN.
 */
export interface RadialGround {
  /** Distance between the points in metres: point k lies at k times this. Point 0 is the gateway. */
  readonly stepM: number;
  /** How many points are known, the gateway among them. */
  pointCount: number;
  /** Distance of each point from the gateway in metres; the same for every radial. */
  readonly distanceM: Float64Array;
  /** Bare ground at each point in metres above sea level. */
  readonly heightM: Float64Array;
  /** Ground plus clutter at each point, in metres; bare at the gateway. */
  readonly obstacleM: Float64Array;
  /** 1 at a point that lies at sea, 0 on land. */
  readonly isSea: Uint8Array;
  /** Latitude of each point in degrees. */
  readonly latitudeDeg: Float64Array;
  /** Longitude of each point in degrees; may pass 180 at the date line. */
  readonly longitudeDeg: Float64Array;
  /** How many receivers there are. */
  receiverCount: number;
  /** Distance of each receiver in metres, above 0 and rising (equal ones may follow each other). Its obstacles are the points nearer than it. */
  readonly receiverDistanceM: Float64Array;
  /** Bare ground at each receiver in metres above sea level. */
  readonly receiverHeightM: Float64Array;
  /** 1 where the receiver is at sea. */
  readonly receiverIsSea: Uint8Array;
  /** The loss of each receiver in dB: where a model writes its answer. */
  readonly lossDb: Float64Array;
}

/** A model that works off one radial after the other, with buffers of its own that it uses again. */
export interface RadialModel {
  /**
   * Writes the loss of every receiver. A receiver at distance D has exactly the profile [point 0, the points nearer than D, the receiver],
   * so receivers at D come before the point at D is taken in.
   */
  lossesAlong(ground: RadialGround): void;
}
