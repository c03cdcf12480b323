import { checkRange } from '@finial/units';
import type { Cable } from '../catalogue/parts.js';
import { cableRow } from './cableRow.js';
import {
  type CableQuestion,
  type ComparedCable,
  checkedRun,
  compareCables,
  comparedCable,
} from './compareCables.js';

/** A run that may lose too much, and what it may lose. */
export interface RunQuestion extends CableQuestion {
  /** The cable in the run: a row of any catalogue, or a designation of the built-in one. */
  readonly cable: Cable | string;
  /** Greatest loss in dB wanted for the whole run with its joints, above 0 to 100. */
  readonly wantedLossDb: number;
}

/** Which of the ways reaches the wanted loss; both may be open. */
export type RunAdvice = 'enough' | 'shorten' | 'step-up' | 'shorten-or-step-up' | 'out-of-reach';

/** Whether a run is good enough, and what would make it so. */
export interface RunImprovement {
  /** Which way is open. */
  readonly advice: RunAdvice;
  /** The same in one sentence with its figures. */
  readonly message: string;
  /** The cable as it is. */
  readonly present: ComparedCable;
  /** What it loses too much, in dB; below zero is room left. */
  readonly excessLossDb: number;
  /** Longest run in metres of this cable that loses no more than wanted; 0 where the joints alone lose more. */
  readonly longestLengthM: number;
  /** What to take off, in metres; 0 where the run is good enough. */
  readonly shortenByM: number;
  /** The thinnest cable that reaches the wanted loss at full length, where one does. */
  readonly thinnestCable?: ComparedCable | undefined;
  /** The cable of least loss at full length, whether it reaches the wanted loss or not. */
  readonly leastLossCable: ComparedCable;
}

const lengthBounds = { min: 1e-3, max: 10_000, unit: 'metres' };
const wantedBounds = { min: 1e-6, max: 100, unit: 'dB' };

/**
 * What to change in a run that loses too much: take metres off, or step up to another cable.
 *
 * Only cables of the same impedance are offered, and the thinnest that does, since it is the easiest to lead and to fasten. The
 * nominal loss decides; whether the present row's uncertainty reaches beyond the wanted loss is said in the message. Metres taken off are taken
 * as possible: whether the radio can come nearer, the house decides (see `gatewayAtAntenna`). Give `cables` to choose among what you can buy and
 * bend: the built-in list holds semi-rigid lines too, and the message names the construction.
 *
 * @returns lengths in metres and losses in dB, as uncertain as the rows
 * @throws {@link InputError} `wrong-type`, `missing`, `unknown-option`, `not-a-finite-number`, `out-of-range`, or `outside-validity` where
 * the row of the present cable does not cover the frequency
 * @source length from the proportion of loss and length of a uniform line; no outside rule
 * @example 15 m of RG-58C/U shall lose no more than 3 dB
 * ```ts
 * import { improveRun } from '@finial/feedline';
 *
 * const better = improveRun({ cable: 'RG-58C/U', lengthM: 15, frequencyHz: 868.1e6, wantedLossDb: 3 });
 * better.advice; // → 'shorten-or-step-up'
 * better.present.lossDb; // ≈ 9.5
 * better.longestLengthM; // ≈ 4.7
 * better.thinnestCable?.designation; // → 'low-loss 7 mm class'
 * ```
 */
export function improveRun(question: RunQuestion): RunImprovement {
  const run = checkedRun(question);
  const lengthM = checkRange(question.lengthM, 'lengthM', lengthBounds);
  const wantedLossDb = checkRange(question.wantedLossDb, 'wantedLossDb', wantedBounds);
  const present = comparedCable(cableRow(question.cable, 'cable'), run);
  const offered = compareCables(question).rows.filter((row) => row.impedanceOhm === present.impedanceOhm);
  const leastLossCable = [present, ...offered].reduce((best, row) => (row.lossDb < best.lossDb ? row : best));
  const thinnestCable = thinnest(offered.filter((row) => row.lossDb <= wantedLossDb));

  const allowedDb = wantedLossDb - (present.lossDb - present.cableLossDb);
  const longestLengthM = Math.max(0, (allowedDb / present.cableLossDb) * lengthM);
  const excessLossDb = present.lossDb - wantedLossDb;
  const shortenByM = excessLossDb <= 0 ? 0 : lengthM - longestLengthM;
  const advice = adviceFor(excessLossDb, longestLengthM > 0, thinnestCable !== undefined);
  const figures = { present, excessLossDb, longestLengthM, shortenByM, thinnestCable, leastLossCable };
  return { advice, message: messageFor(advice, wantedLossDb, figures), ...figures };
}

function thinnest(rows: readonly ComparedCable[]): ComparedCable | undefined {
  // Sorted by loss already: of two equally thin ones the first, which loses less, stays.
  return rows.reduce<ComparedCable | undefined>(
    (best, row) => (best === undefined || row.outerDiameterM < best.outerDiameterM ? row : best),
    undefined,
  );
}

function adviceFor(excessLossDb: number, canShorten: boolean, canStepUp: boolean): RunAdvice {
  if (excessLossDb <= 0) return 'enough';
  if (canShorten) return canStepUp ? 'shorten-or-step-up' : 'shorten';
  return canStepUp ? 'step-up' : 'out-of-reach';
}

function messageFor(
  advice: RunAdvice,
  wantedLossDb: number,
  figures: Omit<RunImprovement, 'advice' | 'message'>,
): string {
  const { present, shortenByM, thinnestCable, leastLossCable } = figures;
  const now = `${present.designation} loses ${dB(present)} of the ${wantedLossDb} dB wanted`;
  // Rounded up, so that whoever follows the sentence ends below the wanted loss.
  const shorter = `shorten it by ${(Math.ceil(shortenByM * 10) / 10).toFixed(1)} m`;
  const thicker =
    thinnestCable === undefined
      ? ''
      : `step up to ${thinnestCable.designation} (${thinnestCable.construction}; ${dB(thinnestCable)})`;
  switch (advice) {
    case 'enough': {
      const sure = present.lossDb + present.lossUncertaintyDb <= wantedLossDb;
      return sure
        ? `${now}: enough.`
        : `${now}: enough on paper, not within its uncertainty; measure this reel.`;
    }
    case 'shorten':
      return `${now}: ${shorter}; no cable of the list reaches it at full length.`;
    case 'step-up':
      return `${now}: ${thicker}; the joints alone use up what a shorter run would save.`;
    case 'shorten-or-step-up':
      return `${now}: ${shorter} or ${thicker}.`;
    default:
      return `${now}: the joints alone lose more, and ${leastLossCable.designation} still loses ${dB(leastLossCable)}.`;
  }
}

function dB({ lossDb, lossUncertaintyDb }: ComparedCable): string {
  return `${lossDb.toFixed(1)} ± ${lossUncertaintyDb.toFixed(1)} dB`;
}
