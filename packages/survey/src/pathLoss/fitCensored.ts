import { InputError, normalQuantile } from '@finial/units';
import { findBreakpoint } from './breakpoint.js';
import type {
  CensoringReport,
  ConstantLoss,
  LawIntervals,
  Optimism,
  SecondSlope,
  SpreadTest,
  ThresholdShift,
} from './CensoringReport.js';
import type { FrameLevels } from './FrameLevels.js';
import { climb } from './lawLikelihood.js';
import { normalShareBelow } from './normalTail.js';
import { profileInterval } from './profileInterval.js';
import {
  type LawForm,
  lawModel,
  leastSquaresLine,
  marginDb,
  type SettledLaw,
  safeMarginDb,
  settleLaw,
} from './settleLaw.js';
import { covarianceOf, quadraticForm } from './spotErrors.js';

/** What is asked of a fit with missed frames. */
export interface CensoredQuestion {
  readonly isTruncated: boolean;
  readonly wantsConstantLoss: boolean;
  readonly slopeCount: 1 | 2;
  readonly breakpointM: number | undefined;
  readonly confidence: number | undefined;
  readonly statedDistancesM: readonly number[];
  readonly farthestDistanceM: number;
  readonly nearestDistanceM: number;
}

/** The law, its covariance and what goes into the report. */
export interface CensoredFit {
  readonly law: SettledLaw;
  readonly covariance: readonly Float64Array[];
  readonly report: Omit<CensoringReport, 'missedFrames' | 'thresholds' | 'isThresholdEstimated'>;
  /** Missed frames far over their threshold. */
  readonly unexplainedMisses: number;
}

/** Fits the law to received and missed frames. Needs received frames at two distances that scatter about their line. */
export function fitCensored(frames: FrameLevels, question: CensoredQuestion): CensoredFit {
  const { isTruncated, confidence } = question;
  if (!(leastSquaresLine(frames).residualDeviation > 1e-6)) throw noScatter();
  const { law, form, secondSlope, constantLoss } = chosenLaw(frames, question);
  const covariance = covarianceOf(law.best.information);
  if (covariance === undefined) throw noMaximum(isTruncated);
  return {
    law,
    covariance,
    unexplainedMisses: unexplainedMisses(law),
    report: {
      logLikelihood: law.best.logLikelihood,
      optimism: question.statedDistancesM.map((distanceM) => optimismAt(law, covariance, form, distanceM)),
      thresholdShifts: [-3, 3].flatMap((shiftDb) => shifted(frames, form, shiftDb, question)),
      intervals: confidence === undefined ? undefined : intervalsOf(law, covariance, form, confidence),
      spreadTest: isTruncated ? undefined : spreadTest(law, form, question),
      secondSlope,
      constantLoss,
    },
  };
}

interface ChosenLaw {
  readonly law: SettledLaw;
  readonly form: LawForm;
  readonly secondSlope: SecondSlope | undefined;
  readonly constantLoss: ConstantLoss | undefined;
}

/** One slope first, then a constant loss, then a second slope: each is measured against the law without it. */
function chosenLaw(frames: FrameLevels, question: CensoredQuestion): ChosenLaw {
  const { isTruncated, wantsConstantLoss, slopeCount } = question;
  let form: LawForm = { isTruncated, hasConstantLoss: false };
  let law = settled(settleLaw(frames, form), isTruncated);
  let constantLoss: ConstantLoss | undefined;
  if (wantsConstantLoss) {
    const lossy = lossIncreases(law)
      ? settled(settleLaw(frames, { ...form, hasConstantLoss: true }), isTruncated)
      : undefined;
    constantLoss = constantLossOf(law, lossy);
    if (lossy !== undefined && constantLoss.lossRatio > 0) {
      law = lossy;
      form = { ...form, hasConstantLoss: true };
    }
  }
  if (slopeCount === 1) return { law, form, secondSlope: undefined, constantLoss };
  const bent = bentLaw(frames, form, question.breakpointM);
  const secondSlope = secondSlopeOf(law, bent, question.breakpointM);
  return { law: bent.law, form: { ...form, breakDb: bent.breakDb }, secondSlope, constantLoss };
}

/** Whether the likelihood rises from no constant loss on: otherwise its maximum lies at none. */
function lossIncreases({ model, best }: SettledLaw): boolean {
  const deviation = Math.exp(best.parameters.at(-1) as number);
  let slope = 0;
  for (let i = 0; i < model.frames.received.length; i += 1) {
    const u = -marginDb(model, best.parameters, i) / deviation;
    slope += model.frames.received[i] === 1 ? -1 : normalShareBelow(-u) / normalShareBelow(u);
  }
  return slope > 0;
}

function constantLossOf(plain: SettledLaw, lossy: SettledLaw | undefined): ConstantLoss {
  const gain = lossy === undefined ? 0 : 2 * (lossy.best.logLikelihood - plain.best.logLikelihood);
  const covariance = lossy === undefined ? undefined : covarianceOf(lossy.best.information);
  if (lossy === undefined || covariance === undefined || gain <= 0) {
    return { lossRatio: 0, standardErrorRatio: undefined, likelihoodRatio: 0, probability: 1 };
  }
  const last = lossy.best.parameters.length - 1;
  const lossRatio = 1 / (1 + Math.exp(-(lossy.best.parameters[last] as number)));
  return {
    lossRatio,
    standardErrorRatio: lossRatio * (1 - lossRatio) * Math.sqrt(entry(covariance, last, last)),
    likelihoodRatio: gain,
    probability: normalShareBelow(-Math.sqrt(gain)),
  };
}

function bentLaw(
  frames: FrameLevels,
  form: LawForm,
  breakpointM: number | undefined,
): { readonly breakDb: number; readonly law: SettledLaw } {
  if (breakpointM === undefined) {
    const found = findBreakpoint(frames, form);
    if (found !== undefined) return found;
  } else {
    const breakDb = 10 * Math.log10(breakpointM);
    const law = hasBothSides(frames, breakDb) ? settleLaw(frames, { ...form, breakDb }) : undefined;
    if (law !== undefined) return { breakDb, law };
  }
  throw new InputError({
    code: 'missing',
    argument: 'observations',
    received: breakpointM,
    expected: 'received frames at two or more distances on either side of the breakpoint',
  });
}

function hasBothSides({ distanceDb, received }: FrameLevels, breakDb: number): boolean {
  const heard = distanceDb.filter((_, i) => received[i] === 1);
  const near = new Set(heard.filter((distance) => distance <= breakDb));
  const far = new Set(heard.filter((distance) => distance > breakDb));
  return near.size >= 2 && far.size >= 2;
}

function secondSlopeOf(
  straight: SettledLaw,
  { breakDb, law }: { readonly breakDb: number; readonly law: SettledLaw },
  breakpointM: number | undefined,
): SecondSlope {
  const covariance = covarianceOf(law.best.information);
  if (covariance === undefined) throw noMaximum(false);
  const gain = Math.max(0, 2 * (law.best.logLikelihood - straight.best.logLikelihood));
  const { parameters } = law.best;
  const sum = parameters.map((_, place) => (place === 1 || place === 2 ? 1 : 0));
  return {
    breakpointM: breakpointM ?? 10 ** (breakDb / 10),
    isEstimated: breakpointM === undefined,
    beyondExponent: (parameters[1] as number) + (parameters[2] as number),
    beyondExponentErrorRatio: Math.sqrt(quadraticForm(covariance, sum)),
    likelihoodRatio: gain,
    probability: breakpointM === undefined ? Math.exp(-gain / 2) : tailOfOne(gain),
  };
}

/** Probability above x of χ² with one degree of freedom. */
function tailOfOne(x: number): number {
  return 2 * normalShareBelow(-Math.sqrt(Math.max(0, x)));
}

/** How the mean level at a distance is made of the parameters. */
function levelRow(form: LawForm, size: number, distanceM: number): Float64Array {
  const distanceDb = 10 * Math.log10(distanceM);
  const row = new Float64Array(size);
  row.set([1, -distanceDb]);
  if (form.breakDb !== undefined) row[2] = -Math.max(0, distanceDb - form.breakDb);
  return row;
}

function levelAt(parameters: Float64Array, form: LawForm, distanceM: number): number {
  return levelRow(form, parameters.length, distanceM).reduce(
    (sum, value, j) => sum + value * (parameters[j] as number),
    0,
  );
}

function optimismAt(
  { model, best }: SettledLaw,
  covariance: readonly Float64Array[],
  form: LawForm,
  distanceM: number,
): Optimism {
  const line = leastSquaresLine(model.frames);
  const levelDbm = levelAt(best.parameters, form, distanceM);
  const leastSquaresLevelDbm = line.intercept + line.slope * 10 * Math.log10(distanceM);
  const row = levelRow(form, best.parameters.length, distanceM);
  return {
    distanceM,
    levelDbm,
    levelStandardErrorDb: Math.sqrt(quadraticForm(covariance, row)),
    leastSquaresLevelDbm,
    optimismDb: leastSquaresLevelDbm - levelDbm,
  };
}

function shifted(
  frames: FrameLevels,
  form: LawForm,
  shiftDb: number,
  { farthestDistanceM }: CensoredQuestion,
): ThresholdShift[] {
  const moved = { ...frames, thresholdDbm: frames.thresholdDbm.map((threshold) => threshold + shiftDb) };
  const law = settleLaw(form.isTruncated ? aboveThreshold(moved) : moved, form);
  if (law === undefined) return [];
  const { parameters } = law.best;
  return [
    {
      shiftDb,
      interceptDbm: parameters[0] as number,
      exponent: parameters[1] as number,
      shadowingDb: Math.exp(parameters[spreadPlace(form)] as number),
      farthestLevelDbm: levelAt(parameters, form, farthestDistanceM),
    },
  ];
}

/** Truncation knows nothing of levels below the threshold. */
function aboveThreshold(frames: FrameLevels): FrameLevels {
  const isAbove = (_: number, i: number): boolean =>
    (frames.levelDbm[i] as number) >= (frames.thresholdDbm[i] as number);
  return {
    distanceDb: frames.distanceDb.filter(isAbove),
    levelDbm: frames.levelDbm.filter(isAbove),
    thresholdDbm: frames.thresholdDbm.filter(isAbove),
    received: frames.received.filter(isAbove),
  };
}

/** Where ln(deviation) stands among the parameters. */
export function spreadPlace(form: Pick<LawForm, 'breakDb'>): number {
  return form.breakDb === undefined ? 2 : 3;
}

function intervalsOf(
  law: SettledLaw,
  covariance: readonly Float64Array[],
  form: LawForm,
  confidence: number,
): LawIntervals {
  const z = -normalQuantile((1 - confidence) / 2);
  const ends = (place: number): readonly [number | undefined, number | undefined] =>
    profileInterval(law, place, Math.sqrt(entry(covariance, place, place)), z);
  const [lowerInterceptDbm, upperInterceptDbm] = ends(0);
  const [lowerExponent, upperExponent] = ends(1);
  const [lowerLog, upperLog] = ends(spreadPlace(form));
  return {
    confidence,
    lowerInterceptDbm,
    upperInterceptDbm,
    lowerExponent,
    upperExponent,
    lowerShadowingDb: lowerLog === undefined ? undefined : Math.exp(lowerLog),
    upperShadowingDb: upperLog === undefined ? undefined : Math.exp(upperLog),
  };
}

function spreadTest(
  { model, best }: SettledLaw,
  form: LawForm,
  { nearestDistanceM, farthestDistanceM }: CensoredQuestion,
): SpreadTest | undefined {
  // lg(distance / 1 km) from 10 lg(distance / 1 m).
  const kilometres = model.frames.distanceDb.map((distance) => distance / 10 - 3);
  const place = spreadPlace(form);
  const start = [...best.parameters.slice(0, place + 1), 0, ...best.parameters.slice(place + 1)];
  const free = climb({ ...model, logDeviation: [...model.logDeviation, kilometres] }, start);
  if (free === undefined) return undefined;
  const likelihoodRatio = Math.max(0, 2 * (free.logLikelihood - best.logLikelihood));
  const spreadAt = (distanceM: number): number =>
    Math.exp(
      (free.parameters[place] as number) +
        (free.parameters[place + 1] as number) * (Math.log10(distanceM) - 3),
    );
  return {
    likelihoodRatio,
    probability: tailOfOne(likelihoodRatio),
    nearestShadowingDb: spreadAt(nearestDistanceM),
    farthestShadowingDb: spreadAt(farthestDistanceM),
  };
}

function unexplainedMisses({ model, best }: SettledLaw): number {
  return model.frames.received.reduce(
    (sum, received, i) =>
      received === 0 && marginDb(model, best.parameters, i) > safeMarginDb ? sum + 1 : sum,
    0,
  );
}

/** The likelihood of a least-squares line, for the errors by spot of a fit without missed frames. */
export function leastSquaresModel(frames: FrameLevels): {
  readonly model: SettledLaw['model'];
  readonly parameters: Float64Array;
} {
  const line = leastSquaresLine(frames);
  const count = frames.received.length;
  const deviation = line.residualDeviation * Math.sqrt((count - 2) / count);
  return {
    model: lawModel(frames, { isTruncated: false, hasConstantLoss: false }),
    parameters: Float64Array.of(line.intercept, -line.slope, Math.log(deviation)),
  };
}

function settled(law: SettledLaw | undefined, isTruncated: boolean): SettledLaw {
  if (law === undefined) throw noMaximum(isTruncated);
  return law;
}

function noScatter(): InputError {
  return new InputError({
    code: 'missing',
    argument: 'observations',
    received: 0,
    expected:
      'received levels that scatter about their line: without scatter a missed frame cannot be weighed',
  });
}

function noMaximum(isTruncated: boolean): InputError {
  return new InputError({
    code: 'missing',
    argument: 'observations',
    received: undefined,
    expected: isTruncated
      ? 'frames whose levels fix a truncated law: these fit ever better with an ever greater spread; log the missed frames'
      : 'frames whose levels fix a law',
  });
}

function entry(matrix: readonly Float64Array[], row: number, column: number): number {
  return (matrix[row] as Float64Array)[column] as number;
}
