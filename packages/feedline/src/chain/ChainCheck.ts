import type { Finding } from '@finial/units';
import type { Catalogue } from '../catalogue/parts.js';
import type { AdapterPath } from './adaptersBetween.js';
import type { ChainPart } from './ChainPart.js';
import type { Mating } from './mates.js';

/** Under which conditions a chain is judged. */
export interface ChainConditions {
  /** Frequency in hertz, 1e6 to 100e9. */
  readonly frequencyHz: number;
  /**
   * Temperature in degrees C of all cable that states none of its own, -60 to 200.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
  /**
   * Parts to look names and adapters up in, as `checkCatalogue` lets them through.
   *
   * @defaultValue the built-in catalogue
   */
  readonly catalogue?: Catalogue | undefined;
  /**
   * What to do at a frequency beyond the figures of a cable: refuse, or compute and say so in `warnings`.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
  /** Power in dBm at the connector of the radio, -300 to 300; with the gain of the antenna it gives the radiated power. */
  readonly conductedPowerDbm?: number | undefined;
  /** Gain in dBi of the antenna, -100 to 100; together with the conducted power. */
  readonly antennaGainDbi?: number | undefined;
  /** Noise figure in dB of the receiver alone, 0 to 100; it gives the noise figure with the chain ahead of it. */
  readonly receiverNoiseFigureDb?: number | undefined;
}

/** What one part of a chain loses. */
export interface ChainPartLoss {
  /** The name of a port, or the designation, with the length where it is cable. */
  readonly name: string;
  /** What kind of part it is. */
  readonly kind: ChainPart['kind'];
  /** Loss in dB of the part itself, without the pairs that it forms with its neighbours; 0 for a port. */
  readonly lossDb: number;
  /** Uncertainty in dB of that loss. */
  readonly lossUncertaintyDb: number;
  /** Share of this part in the loss of the chain, as a ratio from 0 to 1; 0 in a chain that loses nothing. */
  readonly shareOfLossRatio: number;
}

/** What two neighbours of a chain make of each other. */
export interface ChainJoint extends Mating {
  /** The two halves: `gateway (SMA jack) and 0.3 m of RG-316/U (SMA plug)`. */
  readonly between: string;
  /** Loss in dB: that of the joined pair, or of the adapters that would mend a joint which does not mate; 0 where none would. */
  readonly lossDb: number;
  /** Uncertainty in dB of that loss. */
  readonly lossUncertaintyDb: number;
  /** Share of this joint in the loss of the chain, as a ratio from 0 to 1. */
  readonly shareOfLossRatio: number;
  /** What would mend a joint which does not mate, where the catalogue has it. */
  readonly adapters?: AdapterPath | undefined;
}

/** What a chain of parts loses, whether it joins, and what is still missing. */
export interface ChainCheck {
  /** Whether every joint mates. */
  readonly joins: boolean;
  /** Loss in dB from the first part to the last. */
  readonly lossDb: number;
  /** Uncertainty in dB of the loss. */
  readonly lossUncertaintyDb: number;
  /** Loss less its uncertainty in dB, and no less than 0: parts without a supply cannot amplify. */
  readonly leastLossDb: number;
  /** Loss and its uncertainty in dB. */
  readonly greatestLossDb: number;
  /** Every part, in the order given. */
  readonly parts: readonly ChainPartLoss[];
  /** Every joint between two neighbours, in the order given. */
  readonly joints: readonly ChainJoint[];
  /** What to mend, and what to know. */
  readonly findings: readonly Finding[];
  /** What the figures leave out, and where they go beyond their sources. */
  readonly warnings: readonly string[];
  /** Equivalent isotropically radiated power in dBm, where power and gain were given. */
  readonly eirpDbm?: number | undefined;
  /** Noise figure in dB at the antenna, for parts at 290 K, where that of the receiver was given. */
  readonly systemNoiseFigureDb?: number | undefined;
}
