import { vswrToMismatchLossDb } from '@finial/radio';
import { amplitudeRatioToDb, checkList, checkObject, checkRange, isInputError } from '@finial/units';
import { cableLoss } from '../cable/cableLoss.js';
import { coaxialCables } from '../catalogue/coaxialCables.js';
import type { Cable, FactStatus } from '../catalogue/parts.js';
import { cableRow } from './cableRow.js';

/** A run for which a cable is sought. */
export interface CableQuestion {
  /** Length in metres, 0 to 10 000; for `improveRun` 0.001 or more. */
  readonly lengthM: number;
  /** Frequency in hertz, 1e6 to 100e9. */
  readonly frequencyHz: number;
  /**
   * Temperature of the conductor in degrees C, -60 to 200: a black jacket on a hot roof lies far above the air.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
  /**
   * The cables to compare: rows of any catalogue, or designations of the built-in one.
   *
   * @defaultValue every cable of the built-in catalogue
   */
  readonly cables?: readonly (Cable | string)[] | undefined;
  /**
   * Loss in dB of the connector pairs at both ends together, 0 to 20; it is the same for every cable.
   *
   * @defaultValue 0
   */
  readonly jointsLossDb?: number | undefined;
  /**
   * Impedance in ohms of radio and antenna, above 0 to 500. A cable of another impedance loses by reflection besides.
   *
   * @defaultValue 50
   */
  readonly systemImpedanceOhm?: number | undefined;
  /**
   * How fast the signal falls with distance on this path, 1 to 10: 2 in free space, 3 to 4 among houses.
   *
   * @defaultValue 2
   */
  readonly pathLossExponent?: number | undefined;
  /**
   * Whether rows count whose published points lie elsewhere: `refuse` leaves them out and says so, `allow` extends their law and warns.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** What one cable would lose in the run. */
export interface ComparedCable {
  /** Name of the row. */
  readonly designation: string;
  /** What it is made of: a semi-rigid line is no cable to lead through a house. */
  readonly construction: string;
  /** Loss in dB of the whole run: cable, joints, and the mean of the mismatch. */
  readonly lossDb: number;
  /** Uncertainty of it in dB: spread of the make, and what the length makes of a mismatch. */
  readonly lossUncertaintyDb: number;
  /** The part of the loss in dB that the cable itself takes. */
  readonly cableLossDb: number;
  /** The part in dB that its other impedance takes, averaged over lengths within half a wave; 0 where the impedances agree. */
  readonly mismatchLossDb: number;
  /** Share of the range that is left, 0 to 1, against a run without loss. */
  readonly rangeRatio: number;
  /** Outer diameter in metres. */
  readonly outerDiameterM: number;
  /** Least bend radius in metres. */
  readonly bendRadiusM: number;
  /** Impedance in ohms. */
  readonly impedanceOhm: number;
  /** How the figures of the row were obtained. */
  readonly status: FactStatus;
  /** Where they come from. */
  readonly source: string;
  /** Where the figures go beyond their source, and what another impedance does. */
  readonly warnings: readonly string[];
}

/** A cable that could not be compared. */
export interface CableLeftOut {
  /** Name of the row. */
  readonly designation: string;
  /** What its row does not cover. */
  readonly reason: string;
}

/** Cables for a run, the least loss first. */
export interface CableComparison {
  /** Cables that the question can be answered for. */
  readonly rows: readonly ComparedCable[];
  /** Cables whose published points do not cover the question. */
  readonly leftOut: readonly CableLeftOut[];
}

const jointsLossBounds = { min: 0, max: 20, unit: 'dB' };
const exponentBounds = { min: 1, max: 10, unit: 'as path-loss exponent' };

/**
 * What each cable would lose in one run, the least loss first, and how much of the range that leaves.
 *
 * Range falls by the factor 10^(-loss / (10 n)), n being the path-loss exponent: the path itself, not the cable, decides n. A cable of another
 * impedance reflects at both ends. The two reflections add or cancel with the length, which nobody cuts to a part of a wave: their mean over all
 * lengths is in the loss (exactly twice the loss of one joint), their spread in the uncertainty.
 *
 * @returns decibels and ratios, as uncertain as each row says; the arithmetic adds less than 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `missing`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source loss of two reflections: closed form of the wave between two discontinuities, mean of ln|1 - z| over a circle (Jensen's formula)
 * @example Ten metres at 868.1 MHz
 * ```ts
 * import { compareCables } from '@finial/feedline';
 *
 * const cables = ['RG-58C/U', 'low-loss 10 mm class'];
 * const { rows } = compareCables({ lengthM: 10, frequencyHz: 868.1e6, cables });
 * rows.map(({ designation }) => designation); // → ['low-loss 10 mm class', 'RG-58C/U']
 * rows[1]?.lossDb; // ≈ 6.3
 * rows[1]?.rangeRatio; // ≈ 0.48
 * ```
 */
export function compareCables(question: CableQuestion): CableComparison {
  const run = checkedRun(question);
  const rows: ComparedCable[] = [];
  const leftOut: CableLeftOut[] = [];
  for (const cable of cablesOf(question.cables)) {
    try {
      rows.push(comparedCable(cable, run));
    } catch (error) {
      // Only the validity of a row is a matter of that row; any other refusal is one of the question.
      if (!isInputError(error) || error.code !== 'outside-validity') throw error;
      leftOut.push({ designation: cable.designation, reason: error.message });
    }
  }
  rows.sort((a, b) => a.lossDb - b.lossDb);
  return { rows, leftOut };
}

/** The question with its defaults filled in. */
export function checkedRun(question: CableQuestion): CheckedRun {
  checkObject(question, 'question');
  const { jointsLossDb = 0, pathLossExponent = 2, systemImpedanceOhm = 50 } = question;
  return {
    ...question,
    jointsLossDb: checkRange(jointsLossDb, 'jointsLossDb', jointsLossBounds),
    pathLossExponent: checkRange(pathLossExponent, 'pathLossExponent', exponentBounds),
    systemImpedanceOhm: checkRange(systemImpedanceOhm, 'systemImpedanceOhm', impedanceBounds),
  };
}

const impedanceBounds = { min: 1, max: 500, unit: 'ohms' };

function cablesOf(cables: CableQuestion['cables']): readonly Cable[] {
  if (cables === undefined) return coaxialCables;
  return checkList(cables, 'cables').map((cable, place) => cableRow(cable, `cables[${place}]`));
}

/** What {@link comparedCable} takes. */
export type CheckedRun = CableQuestion & {
  readonly jointsLossDb: number;
  readonly pathLossExponent: number;
  readonly systemImpedanceOhm: number;
};

/** One cable in the run; refuses where its row does not cover the question. */
export function comparedCable(cable: Cable, run: CheckedRun): ComparedCable {
  const { lengthM, frequencyHz, temperatureC, outsideValidity } = run;
  const matched = cableLoss({ cable, lengthM, frequencyHz, temperatureC, outsideValidity });
  const { mismatchLossDb, mismatchSpreadDb } = mismatchOf(cable, run.systemImpedanceOhm, matched.lossDb);
  const lossDb = matched.lossDb + mismatchLossDb + run.jointsLossDb;
  const isMatched = mismatchLossDb === 0;
  const mismatched = `its ${cable.impedanceOhm} ohms between ${run.systemImpedanceOhm} ohms cost ${mismatchLossDb.toFixed(2)} dB, up to ${mismatchSpreadDb.toFixed(2)} dB more or less with the length`;
  return {
    designation: cable.designation,
    construction: cable.construction,
    lossDb,
    lossUncertaintyDb: Math.hypot(matched.lossUncertaintyDb, mismatchSpreadDb),
    cableLossDb: matched.lossDb,
    mismatchLossDb,
    rangeRatio: remainingRatio(lossDb / run.pathLossExponent),
    outerDiameterM: cable.outerDiameterM,
    bendRadiusM: cable.bendRadiusM,
    impedanceOhm: cable.impedanceOhm,
    status: cable.status,
    source: cable.source,
    warnings: isMatched ? matched.warnings : [...matched.warnings, mismatched],
  };
}

/** What a loss leaves of a power. Kilometres of thin cable leave less than any number holds: 0, where `dbToRatio` would refuse. */
function remainingRatio(lossDb: number): number {
  return 10 ** (-lossDb / 10);
}

/** Two equal reflections, one at each end; the wave between them is weakened by the cable on its way there and back. */
function mismatchOf(
  { impedanceOhm }: Cable,
  systemImpedanceOhm: number,
  cableLossDb: number,
): { readonly mismatchLossDb: number; readonly mismatchSpreadDb: number } {
  const lineOhm = checkRange(impedanceOhm, 'cable.impedanceOhm', impedanceBounds);
  const vswr = Math.max(lineOhm / systemImpedanceOhm, systemImpedanceOhm / lineOhm);
  const reflection = (vswr - 1) / (vswr + 1);
  const returning = reflection ** 2 * remainingRatio(cableLossDb);
  return {
    mismatchLossDb: 2 * vswrToMismatchLossDb(vswr),
    // The wider of the two sides: where the reflections cancel, -20 log(1 - z) saves more than 20 log(1 + z) costs where they add.
    mismatchSpreadDb: -amplitudeRatioToDb(1 - returning),
  };
}
