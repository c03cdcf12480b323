import { checkObject, checkRange, InputError } from '@finial/units';
import { frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/** A path whose one end stands in a wood. */
export interface WoodlandPath {
  /** Frequency in hertz; 105.9e6 to 2.1175e9 where the figures of the wood are left to the table. */
  readonly frequencyHz: number;
  /** Length of the path inside the wood in metres, 0 to 100000. */
  readonly depthM: number;
  /**
   * Loss per metre at the edge in dB, 0.0001 to 20. Give it together with `maximumLossDb`.
   *
   * @defaultValue the measured mixed wood, between its rows
   */
  readonly specificLossDbPerM?: number | undefined;
  /**
   * Loss in dB that deep wood approaches, 0.1 to 200: the wave then comes over the tops. Give it together with `specificLossDbPerM`.
   *
   * @defaultValue the measured mixed wood, between its rows
   */
  readonly maximumLossDb?: number | undefined;
  /**
   * What to do with a frequency outside the measured rows (the nearest row is used then).
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss of a wood, with the two figures that it follows from. */
export interface WoodlandLoss {
  /** Loss in dB that the wood adds. */
  readonly lossDb: number;
  /** Loss per metre at the edge in dB. */
  readonly specificLossDbPerM: number;
  /** Loss in dB that deep wood approaches. */
  readonly maximumLossDb: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

/** One measured frequency of the wood. */
interface MeasuredRow {
  readonly frequencyHz: number;
  readonly specificLossDbPerM: number;
  readonly maximumLossDb: number;
}

/** Mixed wood of conifers and broad-leaved trees (P.833-9, table 1). */
const firstRow: MeasuredRow = { frequencyHz: 105.9e6, specificLossDbPerM: 0.04, maximumLossDb: 9.4 };
const laterRows: readonly MeasuredRow[] = [
  { frequencyHz: 466.475e6, specificLossDbPerM: 0.12, maximumLossDb: 18.0 },
  { frequencyHz: 949e6, specificLossDbPerM: 0.17, maximumLossDb: 26.5 },
  { frequencyHz: 1852.2e6, specificLossDbPerM: 0.3, maximumLossDb: 29.0 },
  { frequencyHz: 2117.5e6, specificLossDbPerM: 0.34, maximumLossDb: 34.1 },
];

/**
 * Loss that a wood adds where one end of a path stands in it: first so much per metre, then less and less, as the wave comes over the
 * tops.
 *
 * The default figures are one measured wood, from a public copy of the table, drawn straight between its rows in the logarithms
 * of both axes (a choice of this package). Woods differ by a factor of two, and by season: broad-leaved trees in leaf lose more
 * (common practice, no source). Not for a single tree, nor for a path that passes over a wood, which is diffraction.
 *
 * @returns the loss and its two figures; the formula is exact, the figures carry two or three digits
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, `missing` where only one figure of a
 * wood is given, or `outside-validity` for a frequency outside the measured rows that is not allowed
 * @source Recommendation ITU-R P.833-10 (09/2021), section 2.1, equation 1; P.833-9 (11/2016), table 1
 * @example A node 100 m inside a wood
 * ```ts
 * import { woodlandLoss } from '@finial/propagation/p833';
 *
 * woodlandLoss({ frequencyHz: 949e6, depthM: 100 }).lossDb; // ≈ 12.55
 * woodlandLoss({ frequencyHz: 949e6, depthM: 2000 }).lossDb; // ≈ 26.5
 * ```
 */
export function woodlandLoss(path: WoodlandPath): WoodlandLoss {
  checkObject(path, 'path');
  const depthM = checkRange(path.depthM, 'depthM', { min: 0, max: 1e5, unit: 'metres' });
  const { specificLossDbPerM, maximumLossDb, warnings } = woodOf(path);
  return {
    // -expm1 keeps the digits of a thin edge, where 1 - exp would lose them.
    lossDb: -maximumLossDb * Math.expm1((-depthM * specificLossDbPerM) / maximumLossDb),
    specificLossDbPerM,
    maximumLossDb,
    warnings,
  };
}

/** The two figures of the wood: as given, or from the measured rows. */
function woodOf(path: WoodlandPath): Omit<WoodlandLoss, 'lossDb'> {
  const { within, warnings } = validityCheck(path.outsideValidity);
  const { specificLossDbPerM, maximumLossDb } = path;
  if (specificLossDbPerM === undefined && maximumLossDb === undefined) {
    const frequencyHz = within(path.frequencyHz, 'frequencyHz', {
      possible: frequencyBounds,
      min: 105.9e6,
      max: 2117.5e6,
    });
    const { specificLossDbPerM, maximumLossDb } = measuredWood(frequencyHz);
    return { specificLossDbPerM, maximumLossDb, warnings };
  }
  checkRange(path.frequencyHz, 'frequencyHz', frequencyBounds);
  if (specificLossDbPerM === undefined || maximumLossDb === undefined) {
    throw new InputError({
      code: 'missing',
      argument: specificLossDbPerM === undefined ? 'specificLossDbPerM' : 'maximumLossDb',
      received: undefined,
      expected: 'both figures of the wood, or neither',
    });
  }
  return {
    specificLossDbPerM: checkRange(specificLossDbPerM, 'specificLossDbPerM', {
      min: 1e-4,
      max: 20,
      unit: 'dB per metre',
    }),
    maximumLossDb: checkRange(maximumLossDb, 'maximumLossDb', { min: 0.1, max: 200, unit: 'dB' }),
    warnings,
  };
}

function measuredWood(frequencyHz: number): MeasuredRow {
  let below = firstRow;
  if (frequencyHz <= below.frequencyHz) return below;
  for (const above of laterRows) {
    if (frequencyHz < above.frequencyHz) {
      const share =
        Math.log(frequencyHz / below.frequencyHz) / Math.log(above.frequencyHz / below.frequencyHz);
      const between = (from: number, to: number) => from * (to / from) ** share;
      return {
        frequencyHz,
        specificLossDbPerM: between(below.specificLossDbPerM, above.specificLossDbPerM),
        maximumLossDb: between(below.maximumLossDb, above.maximumLossDb),
      };
    }
    below = above;
  }
  return below;
}
