import type { Adapter, Arrestor, Cable, Filter, PartEnd, Pigtail } from '../catalogue/parts.js';

/** Where a run begins or ends: the connector of the radio, of the antenna, or of a box wall. */
export interface Port {
  /** Tells this kind of part from the others. */
  readonly kind: 'port';
  /** What a person calls it: `gateway`, `antenna`. */
  readonly name: string;
  /** The half of a connector pair that it offers. */
  readonly end: PartEnd;
}

/** A length of cable with a connector on each end. The first end looks towards the radio. */
export interface CableRun {
  /** Tells this kind of part from the others. */
  readonly kind: 'cable-run';
  /** The cable by the metre. */
  readonly cable: Cable;
  /** Length in metres, above 0 to 1000. */
  readonly lengthM: number;
  /** The connectors mounted on it. */
  readonly ends: readonly [PartEnd, PartEnd];
  /**
   * Temperature in degrees C of the conductor, -60 to 200: a black jacket on a hot roof lies far above the air.
   *
   * @defaultValue the temperature of the whole chain
   */
  readonly temperatureC?: number | undefined;
}

/** One part of a chain, in the order from the radio to the antenna. The first end of a part looks towards the radio. */
export type ChainPart = Port | CableRun | Adapter | Pigtail | Arrestor | Filter;
