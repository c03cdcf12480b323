import type { Point, WireGround } from './Wire.js';

/** What a source sees. */
export interface WireFeed {
  /** Place of the wire in the list, from 0. */
  readonly wire: number;
  /** Where along the wire: 0 its start, 1 its end. */
  readonly positionRatio: number;
  /** Resistance in ohms: real part of voltage over current. */
  readonly resistanceOhm: number;
  /** Reactance in ohms; positive is inductive, which on a rod below one wavelength means too long. */
  readonly reactanceOhm: number;
  /** Real part of the peak current through the source, in amperes. */
  readonly currentRealA: number;
  /** Imaginary part of the peak current through the source, in amperes. */
  readonly currentImaginaryA: number;
  /** Power that the source delivers, in watts; negative where it takes power up from other sources. */
  readonly powerW: number;
}

/**
 * A wire as it was calculated: an end that is joined to nothing lies half a radius further out than given, which stands for the
 * charge on its flat face.
 */
export interface SolvedWire {
  /** Where the wire begins. */
  readonly start: Point;
  /** Where the wire ends. */
  readonly end: Point;
  /** Radius in metres. */
  readonly radiusM: number;
  /** Into how many equal pieces the wire was cut. */
  readonly segments: number;
  /** Real part of the peak current in amperes at each node, from start to end, positive towards the end. */
  readonly currentsRealA: readonly number[];
  /** Imaginary part of the peak current in amperes at each node. */
  readonly currentsImaginaryA: readonly number[];
}

/**
 * The currents on a set of wires and what follows from them. Plain numbers and lists only: it can be written as JSON, sent to
 * a worker and read back, and the functions that take a solution work on it as before.
 */
export interface WireSolution {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Wavelength in metres. */
  readonly wavelengthM: number;
  /** What lies below the wires. */
  readonly ground: WireGround;
  /** Number of currents that were solved for. */
  readonly unknownsCount: number;
  /** The first source. */
  readonly feed: WireFeed;
  /** Every source, in the order given. */
  readonly feeds: readonly WireFeed[];
  /** The wires with their currents, in the order given. */
  readonly wires: readonly SolvedWire[];
  /** Power from all sources in watts (voltages are peak values). */
  readonly inputPowerW: number;
  /** Power that leaves, in watts, summed over the far field and not taken from the input: see `averageGainRatio`. */
  readonly radiatedPowerW: number;
  /** Power lost to the resistance of the wires, in watts; 0 for a perfect conductor. */
  readonly lossPowerW: number;
  /** Radiated power over radiated and lost power, 0 to 1. */
  readonly efficiencyRatio: number;
  /** Limits of the method that were passed with `outsideValidity: 'allow'`, in words; else empty. */
  readonly warnings: readonly string[];
}
