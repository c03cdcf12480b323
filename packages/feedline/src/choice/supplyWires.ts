/** Copper wire for a supply, by the resistance that its standard allows it. */
export interface SupplyWire {
  /** Cross section and class: `1.5 mm2, class 5`. */
  readonly designation: string;
  /** Greatest resistance of one conductor in ohms per metre at 20 degrees C. */
  readonly resistanceOhmPerM: number;
  /** Document, edition and clause. */
  readonly source: string;
}

const iec60228 = 'IEC 60228:2004, tables 1 to 4, as reprinted (read)';
const dinVde0295 = 'DIN VDE 0295, as reprinted (read)';

/**
 * Copper wires that volunteers meet, thinnest first. Class 5 is flexible plain copper. Tinned wire and copper-clad aluminium
 * resist more: measure those.
 *
 * @source IEC 60228:2004 tables 1 to 4; DIN VDE 0295 for 0.14, 0.25 and 0.34 mm2
 */
export const supplyWires: readonly SupplyWire[] = [
  { designation: '0.14 mm2', resistanceOhmPerM: 0.134, source: dinVde0295 },
  { designation: '0.25 mm2', resistanceOhmPerM: 0.076, source: dinVde0295 },
  { designation: '0.34 mm2', resistanceOhmPerM: 0.053, source: dinVde0295 },
  { designation: '0.5 mm2, class 5', resistanceOhmPerM: 0.039, source: iec60228 },
  { designation: '1 mm2, class 5', resistanceOhmPerM: 0.0195, source: iec60228 },
  { designation: '1.5 mm2, class 5', resistanceOhmPerM: 0.0133, source: iec60228 },
  { designation: '4 mm2, class 5', resistanceOhmPerM: 0.00495, source: iec60228 },
];
