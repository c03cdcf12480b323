/** Where a row's figures come from: read in the named document, computed from other rows, or recalled and not read again. */
export type FactStatus = 'read' | 'computed' | 'memory';

/** What every row of a catalogue states about itself. */
export interface CatalogueRow {
  /** Name by an open designation (`RG-58C/U`, `10 mm class, foam`), unique among the rows of its kind. */
  readonly designation: string;
  /** Document, edition and clause the figures come from, or who recalls them. */
  readonly source: string;
  /** How the figures were obtained. Figures from memory never forbid anything: they are reported as unverified. */
  readonly status: FactStatus;
  /** What else a builder should know about this row. */
  readonly note?: string | undefined;
}

/** Which contact a connector carries: SMA, TNC and N parts exist with exchanged contacts ('reverse polarity'). */
export type Polarity = 'normal' | 'reverse';

/**
 * Whether the coupling is the inner-threaded, moving half (`plug`) or the fixed outer-threaded half (`jack`). Gender names the body here: in
 * reverse polarity the plug carries the socket.
 */
export type Gender = 'plug' | 'jack';

/** One end of a part: the half of a connector pair that it offers. */
export interface PartEnd {
  /** Series as the connector rows name it: `N`, `SMA`, `TNC`. */
  readonly series: string;
  /** Plug or jack, by the body. */
  readonly gender: Gender;
  /**
   * Polarity of the contacts.
   *
   * @defaultValue `normal`
   */
  readonly polarity?: Polarity | undefined;
  /**
   * Characteristic impedance in ohms, 1 to 500.
   *
   * @defaultValue 50
   */
  readonly impedanceOhm?: number | undefined;
}

/** Attenuation of a cable at one frequency. */
export interface AttenuationPoint {
  /** Frequency in hertz, above 0 to 100e9. */
  readonly frequencyHz: number;
  /** Attenuation in dB per metre at 20 degrees C, above 0. */
  readonly attenuationDbPerM: number;
}

/** Greatest mean power of a cable at one frequency. */
export interface PowerPoint {
  /** Frequency in hertz, above 0 to 100e9. */
  readonly frequencyHz: number;
  /** Greatest mean power in watts, above 0, at 40 degrees C in still air. */
  readonly powerW: number;
}

/** A coaxial cable, by the metre. */
export interface Cable extends CatalogueRow {
  /** Says that the row is a cable. */
  readonly kind: 'cable';
  /** What decides its loss besides its name: `stranded tinned centre, one braid`. */
  readonly construction: string;
  /** Characteristic impedance in ohms, above 0 to 500. */
  readonly impedanceOhm: number;
  /** Speed of a wave on it over the speed of light, above 0 to 1. */
  readonly velocityFactor: number;
  /** Insulation between the conductors: `solid PE`, `foam PE`, `solid PTFE`. */
  readonly dielectric: string;
  /** Outer diameter in metres, above 0 to 0.2. */
  readonly outerDiameterM: number;
  /** Least bend radius in metres when bent once, above 0 to 5. */
  readonly bendRadiusM: number;
  /** Published attenuation at 20 degrees C; frequencies rise; at least one point. */
  readonly attenuation: readonly AttenuationPoint[];
  /** Spread of the attenuation between makes and constructions of this name, as a ratio of the value (0.1 is ten per cent), 0 to 1. */
  readonly attenuationUncertaintyRatio: number;
  /** Greatest attenuation its specification allows, where known. */
  readonly specificationMaxima?: readonly AttenuationPoint[] | undefined;
  /** Greatest mean power where known; frequencies rise. */
  readonly powerLimits?: readonly PowerPoint[] | undefined;
  /** Greatest temperature in degrees C of its insulation where known, 0 to 400. */
  readonly maxTemperatureC?: number | undefined;
  /** Whether its jacket withstands sunlight, where known. */
  readonly sunlightResistant?: boolean | undefined;
}

/** How two halves of a connector join. */
export type Coupling = 'threaded' | 'bayonet' | 'snap-on';

/** How a joined pair of connectors keeps water out: by its own gasket, against splashes only, or not at all. */
export type Sealing = 'gasket' | 'splash' | 'none';

/** A connector series at one impedance: what a joined pair of it loses and withstands. */
export interface Connector extends CatalogueRow {
  /** Says that the row is a connector series. */
  readonly kind: 'connector';
  /** Series as part ends name it: `N`. The same series may have one row for each impedance. */
  readonly series: string;
  /** Characteristic impedance in ohms, above 0 to 500. */
  readonly impedanceOhm: number;
  /** The interface standard, or that there is none. */
  readonly standard: string;
  /** How its halves join. */
  readonly coupling: Coupling;
  /** Thread or size of the coupling: `5/8-24`. Two series with one thread join by force, which breaks them. */
  readonly thread?: string | undefined;
  /** Whether parts of this series exist with exchanged contacts. */
  readonly reversePolarityExists: boolean;
  /** Highest frequency in hertz for which the series is meant, above 0 to 100e9. */
  readonly highestFrequencyHz: number;
  /** Loss of a joined pair in dB at 1 GHz, 0 to 3; it grows with the square root of frequency. */
  readonly pairLossAtOneGigahertzDb: number;
  /** Least loss of a joined pair in dB that published figures give, at about 1 GHz, 0 to 3. */
  readonly leastPairLossDb: number;
  /** Greatest loss of a joined pair in dB that published figures give, at about 1 GHz, 0 to 3. */
  readonly greatestPairLossDb: number;
  /** How often a pair may be joined, where known. */
  readonly matingCycles?: number | undefined;
  /** Least coupling torque in newton metres, where known, 0 to 100. */
  readonly leastTorqueNm?: number | undefined;
  /** Greatest coupling torque in newton metres, where known, 0 to 100. */
  readonly greatestTorqueNm?: number | undefined;
  /** How a joined pair keeps water out. */
  readonly sealing: Sealing;
  /** How the trade seals it outdoors. */
  readonly sealingPractice: string;
}

/** A ready-made part of two ends with a loss of its own. */
export interface TwoEndedRow extends CatalogueRow {
  /** Its two ends; the order has no meaning unless the part says so. */
  readonly ends: readonly [PartEnd, PartEnd];
  /** Insertion loss in dB in its band, without the pairs it forms with its neighbours, 0 to 60. */
  readonly lossDb: number;
  /** Uncertainty of the loss in dB, 0 to 20. */
  readonly lossUncertaintyDb: number;
  /** Lowest frequency in hertz it is meant for, 0 to 100e9. */
  readonly lowestFrequencyHz: number;
  /** Highest frequency in hertz it is meant for, above the lowest, to 100e9. */
  readonly highestFrequencyHz: number;
}

/** A rigid adapter between two connectors. */
export interface Adapter extends TwoEndedRow {
  /** Says that the row is an adapter. */
  readonly kind: 'adapter';
}

/** A short ready-made cable between two connectors. */
export interface Pigtail extends CatalogueRow {
  /** Says that the row is a pigtail. */
  readonly kind: 'pigtail';
  /** Designation of its cable. */
  readonly cable: string;
  /** Length in metres, above 0 to 100. */
  readonly lengthM: number;
  /** Its two ends; the order has no meaning. */
  readonly ends: readonly [PartEnd, PartEnd];
}

/** How an arrestor leads a surge away: a gas tube that fires, or a quarter-wave stub to earth. */
export type ArrestorPrinciple = 'gas-discharge' | 'quarter-wave';

/** A surge arrestor for a coaxial line. */
export interface Arrestor extends TwoEndedRow {
  /** Says that the row is an arrestor. */
  readonly kind: 'arrestor';
  /** How it leads a surge away. */
  readonly principle: ArrestorPrinciple;
  /** Whether direct current (a supply over the coax) passes through. */
  readonly passesDirectCurrent: boolean;
  /** Direct voltage in volts at which a gas tube fires, where it has one, above 0 to 10000. */
  readonly sparkOverV?: number | undefined;
}

/** A filter in the line. Its loss is that of the pass band. */
export interface Filter extends TwoEndedRow {
  /** Says that the row is a filter. */
  readonly kind: 'filter';
}

/** Parts that a chain may be built from: plain data, to be stored as JSON and shared. */
export interface Catalogue {
  /** Cables by the metre. */
  readonly cables: readonly Cable[];
  /** Connector series, one row for each impedance. */
  readonly connectors: readonly Connector[];
  /** Rigid adapters. */
  readonly adapters: readonly Adapter[];
  /** Short ready-made cables. */
  readonly pigtails: readonly Pigtail[];
  /** Surge arrestors. */
  readonly arrestors: readonly Arrestor[];
  /** Band filters. */
  readonly filters: readonly Filter[];
}
