import type { Sealing } from '../catalogue/parts.js';

/** How a joint in the open is kept dry. */
export type JointSeal = 'mastic-and-tape' | 'adhesive-shrink-sleeve' | 'own-gasket' | 'nothing';

/** One joint in the open, or an unused connector. */
export interface OutdoorJoint {
  /** What a person calls it: `antenna`, `arrestor, lower side`. */
  readonly name: string;
  /** How a joined pair of its series keeps water out by itself; the connector rows say it. */
  readonly sealing: Sealing;
  /** What was put around it. */
  readonly seal: JointSeal;
  /**
   * Whether nothing is joined there and no cap is on.
   *
   * @defaultValue false
   */
  readonly isOpen?: boolean | undefined;
}

/** Where an arrestor sits: where the line enters the building, or elsewhere. */
export type ArrestorPlace = 'building-entry' | 'antenna' | 'radio';

/** The surge arrestor of a line. */
export interface OutdoorArrestor {
  /** Where it sits in the line. */
  readonly place: ArrestorPlace;
  /** Whether its body is bonded to the earth of the building. */
  readonly isBonded: boolean;
  /** Length in metres of the bonding conductor where known, 0 to 100. */
  readonly bondLengthM?: number | undefined;
}

/** A feedline in the open, as built or as planned. What is left out is asked about, not assumed. */
export interface OutdoorRun {
  /** Every joint in the open; an empty list where there is none. */
  readonly joints: readonly OutdoorJoint[];
  /** Whether the cable hangs lower than each entry just before it, so that water drips off. */
  readonly hasDripLoops?: boolean | undefined;
  /** Whether the jacket withstands sunlight; the cable rows say it where known. */
  readonly isSunlightResistant?: boolean | undefined;
  /** Whether the cable lies in the sun. */
  readonly isInTheSun?: boolean | undefined;
  /** Greatest distance in metres between two ties, 0.01 to 1000. */
  readonly tieSpacingM?: number | undefined;
  /** Tightest bend as built: its radius in metres, 0.001 to 100. */
  readonly tightestBendRadiusM?: number | undefined;
  /** Least bend radius of the cable in metres, 0.001 to 5; the cable rows state it. */
  readonly leastBendRadiusM?: number | undefined;
  /** The arrestor; `none` where there is none. */
  readonly arrestor?: OutdoorArrestor | 'none' | undefined;
  /** Whether mast and cable screen are bonded to the earth of the building. */
  readonly isMastBonded?: boolean | undefined;
}
