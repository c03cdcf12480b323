import { straightLine } from '../straightLine.js';
import { censoredLine } from './censoredLine.js';
import { type FrameLevels, levelsOrThresholds } from './FrameLevels.js';
import { climb, type LawLikelihood, type LawModel } from './lawLikelihood.js';

/** Which form of the law is fitted. */
export interface LawForm {
  readonly isTruncated: boolean;
  readonly hasConstantLoss: boolean;
  /** 10 lg of the distance where a second slope begins; absent for one slope. */
  readonly breakDb?: number | undefined;
}

/** A law at the maximum of its likelihood: parameters are intercept, exponent, further slope where there is one, ln(deviation), logit. */
export interface SettledLaw {
  readonly model: LawModel;
  readonly best: LawLikelihood;
}

/** Fits one form of the law to frames; `undefined` where the likelihood has no maximum that can be found. */
export function settleLaw(frames: FrameLevels, form: LawForm): SettledLaw | undefined {
  const model = lawModel(frames, form);
  const line = leastSquaresLine(frames);
  const start = {
    coefficients: [line.intercept, -line.slope, ...(form.breakDb === undefined ? [] : [0])],
    deviation: line.residualDeviation,
  };
  if (form.isTruncated) return climbed(model, [...start.coefficients, Math.log(start.deviation)]);
  const values = levelsOrThresholds(frames);
  const plain = censoredLine({ columns: model.mean, values, seen: frames.received }, start);
  const parameters = [...plain.coefficients, Math.log(plain.deviation)];
  return climbed(
    model,
    form.hasConstantLoss ? [...parameters, firstLossLogit(frames, model, parameters)] : parameters,
  );
}

/** The series that a form of the law is made of. */
export function lawModel(frames: FrameLevels, form: LawForm): LawModel {
  const { distanceDb } = frames;
  const ones = new Float64Array(distanceDb.length).fill(1);
  const mean = [ones, distanceDb.map((distance) => -distance)];
  const { breakDb } = form;
  if (breakDb !== undefined) mean.push(distanceDb.map((distance) => -Math.max(0, distance - breakDb)));
  return {
    frames,
    mean,
    logDeviation: [ones],
    hasConstantLoss: form.hasConstantLoss,
    isTruncated: form.isTruncated,
  };
}

/** Ordinary least squares of the received frames' levels. */
export function leastSquaresLine({
  distanceDb,
  levelDbm,
  received,
}: FrameLevels): ReturnType<typeof straightLine> {
  const isReceived = (_: number, i: number): boolean => received[i] === 1;
  return straightLine(distanceDb.filter(isReceived), levelDbm.filter(isReceived));
}

/** How far the mean level lies above the threshold of a frame, in dB. */
export function marginDb({ frames, mean }: LawModel, parameters: ArrayLike<number>, i: number): number {
  const level = mean.reduce((sum, column, j) => sum + (parameters[j] as number) * (column[i] as number), 0);
  return level - (frames.thresholdDbm[i] as number);
}

/** Over this margin a miss is hardly a matter of level. */
export const safeMarginDb = 15;

/** Where the search for the constant loss begins: the share of frames missed far over the threshold. */
function firstLossLogit(frames: FrameLevels, model: LawModel, parameters: readonly number[]): number {
  let safe = 0;
  let missed = 0;
  for (let i = 0; i < frames.received.length; i += 1) {
    if (marginDb(model, parameters, i) <= safeMarginDb) continue;
    safe += 1;
    missed += 1 - (frames.received[i] as number);
  }
  const share = (missed + 0.5) / (safe + 10);
  return Math.log(share / (1 - share));
}

function climbed(model: LawModel, start: readonly number[]): SettledLaw | undefined {
  const best = climb(model, start);
  return best === undefined ? undefined : { model, best };
}
