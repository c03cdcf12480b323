import type { WireGround, WireSource } from './Wire.js';

/** How to solve a set of wires. */
export interface SolveWiresSettings {
  /** Frequency in hertz, 1e6 to 3e12; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /** The source, or several that drive together. */
  readonly source: WireSource | readonly WireSource[];
  /** What lies below the wires; `'free-space'` when left out. */
  readonly ground?: WireGround | undefined;
  /**
   * Conductivity of the metal in siemens per metre, 1 to 1e12: copper 5.8e7, aluminium 3.5e7, stainless steel about 1.4e6 (common
   * practice, no source). The metal must not be magnetic. Left out: a perfect conductor.
   */
  readonly conductivitySPerM?: number | undefined;
  /** Whether to go on where a wire is too thick, or its segments too long or too short, for the method; `'refuse'` when left out. */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}
