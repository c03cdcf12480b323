/** A point in metres; z counts upward, and a perfect ground lies at z = 0. */
export interface Point {
  /** Metres along the first horizontal axis, from which azimuth counts; -1e6 to 1e6. */
  readonly xM: number;
  /** Metres along the second horizontal axis, at 90° of azimuth; -1e6 to 1e6. */
  readonly yM: number;
  /** Height in metres; -1e6 to 1e6, not below 0 over ground. */
  readonly zM: number;
}

/** A straight round wire. Wires whose ends lie within a thousandth of a radius of each other are joined there. */
export interface Wire {
  /** Where the wire begins; currents count positive from here. */
  readonly start: Point;
  /** Where the wire ends. */
  readonly end: Point;
  /** Radius in metres (half the diameter), from a ten-millionth to a thirtieth of a wavelength. */
  readonly radiusM: number;
  /**
   * Into how many pieces the wire is cut for the calculation, 1 to 1000. Left out: about 40 per half wave, fewer where the
   * wire is thick, and so many that a node falls on a source.
   */
  readonly segments?: number | undefined;
}

/** A voltage across a gap in a wire, as wide as the wire is thick. */
export interface WireSource {
  /** Place of the wire in the list, from 0. */
  readonly wire: number;
  /**
   * Where along the wire: 0 its start, 0.5 its middle, 1 its end. At an end that is joined to other wires or to ground, the gap
   * is in this wire just before the joint.
   */
  readonly positionRatio: number;
  /** Peak voltage in volts, above 0 to 1e6; 1 when left out. It drives current from start towards end. */
  readonly voltageV?: number | undefined;
  /** Phase of the voltage in degrees, -360 to 360; 0 when left out. */
  readonly phaseDeg?: number | undefined;
}

/** What lies below the wires: nothing, or an endless perfect conductor at z = 0, which may touch their ends. */
export type WireGround = 'free-space' | 'perfect';
