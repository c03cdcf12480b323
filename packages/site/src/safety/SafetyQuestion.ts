import type { ExposureQuestion } from '@finial/radio';

/** Power lines near the mast. */
export interface OverheadLines {
  /** Level distance in metres, 0 to 1000, from the foot of the mast to the nearest overhead line, the drop to the house too. */
  readonly distanceM: number;
  /** Height of mast and antenna in metres, 0.1 to 100, from the foot to the tip, with whatever is carried upright to it. */
  readonly mastHeightM: number;
}

/** How people get up. */
export interface LadderUse {
  /** Height of the edge that the ladder leans on in metres, 0.5 to 20. */
  readonly supportHeightM: number;
  /** Level distance in metres, 0.05 to 20, from the foot of the ladder to below that edge. */
  readonly footDistanceM: number;
  /** How far the ladder reaches over the edge in metres, 0 to 5, where people step off. */
  readonly beyondEdgeM?: number | undefined;
  /** Whether it conducts, as all aluminium does. */
  readonly isConducting?: boolean | undefined;
}

/** What is known of lightning and bonding. */
export interface LightningState {
  /** Whether the building has a lightning protection system. */
  readonly protectionSystem: 'present' | 'absent' | 'unknown';
  /** Whether mast and cable shield are bonded to the earth of the building. */
  readonly isBonded?: boolean | undefined;
  /** Whether a surge arrestor is in the antenna cable. */
  readonly hasArrestor?: boolean | undefined;
  /** Whether a copper data cable leads from the mast into the house. */
  readonly hasCopperData?: boolean | undefined;
}

/** What is known of mains voltage. */
export interface MainsUse {
  /** Whether mains voltage goes outdoors or up to the mast. */
  readonly isOutdoors: boolean;
}

/** What is known of the dangers of a site. What is left out is asked for. */
export interface SafetyQuestion {
  /** The antenna as a source of radio waves, as `exposureDistance` of the radio package takes it. */
  readonly exposure?: ExposureQuestion | undefined;
  /** Overhead lines. */
  readonly overheadLines?: OverheadLines | undefined;
  /** Ladder. */
  readonly ladder?: LadderUse | undefined;
  /** Lightning and bonding. */
  readonly lightning?: LightningState | undefined;
  /** Mains voltage. */
  readonly mains?: MainsUse | undefined;
}
