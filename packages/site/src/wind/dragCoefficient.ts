import { checkObject, checkOneOf, checkRange } from '@finial/units';

/**
 * Shape of a part in the wind.
 *
 * - `round`: a thin round part standing free, by the table for open structures
 * - `flat`: a flat or square-edged part, by the same table
 * - `round-by-length`: a round part by its length over its diameter (from memory)
 * - `flat-by-aspect`: a plate or a box by its longer over its shorter side (from memory)
 */
export type DragShape = 'round' | 'flat' | 'round-by-length' | 'flat-by-aspect';

/** A part in the wind. */
export interface DragQuestion {
  /** Its shape. */
  readonly shape: DragShape;
  /** Width across the wind (the diameter of a round part) in metres, 0.001 to 10. */
  readonly widthM: number;
  /** Extent upwards in metres, 0.001 to 100. */
  readonly heightM: number;
  /** Pressure of the wind at the part in pascals, 0.01 to 1e6. */
  readonly pressurePa: number;
}

/** Drag of a part, and where it comes from. */
export interface DragCoefficient {
  /** Force coefficient C<sub>f</sub>, as a ratio of force to pressure times area. */
  readonly dragRatio: number;
  /** Whether the table was read; false for one that rests on memory. */
  readonly isVerified: boolean;
  /** Document and table. */
  readonly source: string;
}

const openTable = 'ASCE 7-16 table 29.4-2, solidity below 0.1, as reprinted in a public calculation';
const chimneyTable = 'ASCE 7, figure for chimneys and tanks (from memory)';
const plateTable = 'TIA-222, table for flat appurtenances (from memory)';

/**
 * Drag coefficient of a part of a mast, by shape. A mast, whip or cable of a few centimetres has 1.2 in any wind; only where diameter times the root of the
 * pressure exceeds 5.3 (metres, pascals), as for a drum, does a smooth round part have less.
 *
 * `round` and `flat` are on the safe side and rest on a table that was read. The tables by length and aspect give less drag to short parts;
 * between their rows the value is linear in the ratio, before the first and after the last row it is that of the row.
 *
 * @returns the coefficient, good to some 20 % for clean parts; clamps, cables and ice spoil any table
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source ASCE 7-16 table 29.4-2 (reprint, read); ASCE 7 chimneys and tanks, TIA-222 appurtenances (both from memory)
 * @example A mast and a box
 * ```ts
 * import { dragCoefficient } from '@finial/site';
 *
 * dragCoefficient({ shape: 'round', widthM: 0.04, heightM: 2, pressurePa: 980 }).dragRatio; // ≈ 1.2
 * dragCoefficient({ shape: 'flat', widthM: 0.2, heightM: 0.15, pressurePa: 980 }).dragRatio; // ≈ 2
 * dragCoefficient({ shape: 'flat-by-aspect', widthM: 0.2, heightM: 0.15, pressurePa: 980 }).dragRatio; // ≈ 1.2
 * ```
 */
export function dragCoefficient(part: DragQuestion): DragCoefficient {
  checkObject(part, 'part');
  const shape = checkOneOf(part.shape, 'shape', ['round', 'flat', 'round-by-length', 'flat-by-aspect']);
  const widthM = checkRange(part.widthM, 'widthM', { min: 0.001, max: 10, unit: 'metres' });
  const heightM = checkRange(part.heightM, 'heightM', { min: 0.001, max: 100, unit: 'metres' });
  const pressurePa = checkRange(part.pressurePa, 'pressurePa', { min: 0.01, max: 1e6, unit: 'pascals' });
  const isFast = widthM * Math.sqrt(pressurePa) > 5.3;
  const slenderness = Math.max(heightM, widthM) / Math.min(heightM, widthM);
  switch (shape) {
    case 'round':
      return { dragRatio: isFast ? 0.8 : 1.2, isVerified: true, source: openTable };
    case 'flat':
      return { dragRatio: 2, isVerified: true, source: openTable };
    case 'round-by-length': {
      const rows = isFast ? [0.5, 0.6, 0.7] : [0.7, 0.8, 1.2];
      const dragRatio = between([1, 7, 25], rows, heightM / widthM);
      return { dragRatio, isVerified: false, source: chimneyTable };
    }
    case 'flat-by-aspect': {
      const dragRatio = between([2.5, 7, 25], [1.2, 1.4, 2], slenderness);
      return { dragRatio, isVerified: false, source: plateTable };
    }
  }
}

function between(ratios: readonly number[], values: readonly number[], ratio: number): number {
  const after = ratios.findIndex((row) => ratio <= row);
  if (after === 0) return values[0] as number;
  if (after === -1) return values.at(-1) as number;
  const [low, high] = [ratios[after - 1] as number, ratios[after] as number];
  const [first, second] = [values[after - 1] as number, values[after] as number];
  return first + ((second - first) * (ratio - low)) / (high - low);
}
