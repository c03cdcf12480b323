/** A copper conductor of a standard size. */
export interface SupplyWireRow {
  /** What is printed on the reel, and what the functions here take: `24 AWG`, `1.5 mm2`. */
  readonly designation: string;
  /** Cross section in square metres. */
  readonly areaM2: number;
  /** Resistance of one conductor in ohms per metre of copper at 20 degrees C. */
  readonly resistanceOhmPerM: number;
  /**
   * How far a good conductor may differ from it, as a ratio. A standard in square millimetres states the greatest
   * resistance, so that real wire lies below; a gauge states the diameter, so that it may lie on either side.
   */
  readonly uncertaintyRatio: number;
  /** `read` where a document was seen, `memory` where none was. */
  readonly status: 'read' | 'memory';
  /** Document, edition and clause. */
  readonly source: string;
}

const iec60228 = 'IEC 60228:2004, tables 1 to 4, class 5 plain copper, as reprinted (read)';
const iecFromMemory = 'IEC 60228, class 5 plain copper, from memory';
const dinVde0295 = 'DIN VDE 0295, as reprinted (read)';

/**
 * Stranded copper wires in square millimetres, thinnest first, each with the greatest resistance that its standard allows.
 * Tinned wire resists a little more; copper-clad aluminium resists 55 to 60 % more (from memory): measure it and give the
 * figure instead of a designation. Wires by American gauge are computed, so they stand in no table.
 *
 * @source IEC 60228:2004 tables 1 to 4; DIN VDE 0295 for 0.14, 0.25 and 0.34 mm2; `status` says which figure no document confirmed
 */
export const supplyWireTable: readonly SupplyWireRow[] = [
  {
    designation: '0.14 mm2',
    areaM2: 0.14e-6,
    resistanceOhmPerM: 0.134,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: dinVde0295,
  },
  {
    designation: '0.25 mm2',
    areaM2: 0.25e-6,
    resistanceOhmPerM: 0.076,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: dinVde0295,
  },
  {
    designation: '0.34 mm2',
    areaM2: 0.34e-6,
    resistanceOhmPerM: 0.053,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: dinVde0295,
  },
  {
    designation: '0.5 mm2',
    areaM2: 0.5e-6,
    resistanceOhmPerM: 0.039,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: iec60228,
  },
  {
    designation: '0.75 mm2',
    areaM2: 0.75e-6,
    resistanceOhmPerM: 0.026,
    uncertaintyRatio: 0.06,
    status: 'memory',
    source: iecFromMemory,
  },
  {
    designation: '1 mm2',
    areaM2: 1e-6,
    resistanceOhmPerM: 0.0195,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: iec60228,
  },
  {
    designation: '1.5 mm2',
    areaM2: 1.5e-6,
    resistanceOhmPerM: 0.0133,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: iec60228,
  },
  {
    designation: '2.5 mm2',
    areaM2: 2.5e-6,
    resistanceOhmPerM: 0.00798,
    uncertaintyRatio: 0.06,
    status: 'memory',
    source: iecFromMemory,
  },
  {
    designation: '4 mm2',
    areaM2: 4e-6,
    resistanceOhmPerM: 0.00495,
    uncertaintyRatio: 0.06,
    status: 'read',
    source: iec60228,
  },
  {
    designation: '6 mm2',
    areaM2: 6e-6,
    resistanceOhmPerM: 0.0033,
    uncertaintyRatio: 0.06,
    status: 'memory',
    source: iecFromMemory,
  },
];
