import { cholesky, choleskySolve, zeros } from './choleskySolve.js';
import type { FrameLevels } from './FrameLevels.js';
import { inverseMills, logNormalTail } from './normalTail.js';

/**
 * The law in its general form. Its parameters stand in this order: one coefficient per column of the mean, one per column of the
 * logarithm of the deviation, and the logit of the constant loss where there is one.
 */
export interface LawModel {
  readonly frames: FrameLevels;
  /** Columns of the mean level. */
  readonly mean: readonly Float64Array[];
  /** Columns of ln(deviation); the first is of ones. */
  readonly logDeviation: readonly Float64Array[];
  /** A share of the frames is lost whatever their level. */
  readonly hasConstantLoss: boolean;
  /** Missed frames are not in the list, and a received one is there because it lay above its threshold. */
  readonly isTruncated: boolean;
}

/** Log-likelihood at some parameters with its derivatives. */
export interface LawLikelihood {
  readonly parameters: Float64Array;
  readonly logLikelihood: number;
  readonly gradient: Float64Array;
  /** Minus the second derivatives. */
  readonly information: readonly Float64Array[];
}

/** One frame's part of the log-likelihood, and its derivatives by mean, ln(deviation) and logit of the constant loss. */
interface FrameTerm {
  log: number;
  mean: number;
  spread: number;
  loss: number;
  meanMean: number;
  meanSpread: number;
  spreadSpread: number;
  meanLoss: number;
  spreadLoss: number;
  lossLoss: number;
}

/**
 * Log-likelihood of the law with gradient and observed information; unchecked. `onScore` is handed each frame's own gradient, in a
 * buffer that the next frame overwrites.
 *
 * Source: density and tail of the normal distribution as in `fitPathLoss`; derivatives by hand, tested against differences.
 */
export function lawLikelihood(
  model: LawModel,
  parameters: Float64Array,
  onScore?: (index: number, score: Float64Array) => void,
): LawLikelihood {
  const { frames, mean, logDeviation, hasConstantLoss } = model;
  const size = parameters.length;
  const score = new Float64Array(size);
  const levers = new Float64Array(size);
  const gradient = new Float64Array(size);
  const information = zeros(size);
  const term = noTerm();
  const spreadFrom = mean.length;
  const columns = [...mean, ...logDeviation];
  const kinds = Array.from({ length: size }, (_, j) => {
    if (j < spreadFrom) return ofMean;
    return j < columns.length ? ofSpread : ofLoss;
  });
  const lossAt = mean.length + logDeviation.length;
  const constantLoss = hasConstantLoss ? 1 / (1 + Math.exp(-(parameters[lossAt] as number))) : 0;
  let logLikelihood = 0;
  for (let i = 0; i < frames.levelDbm.length; i += 1) {
    frameTerm(
      term,
      model,
      i,
      combined(mean, parameters, 0, i),
      Math.exp(combined(logDeviation, parameters, spreadFrom, i)),
      constantLoss,
    );
    logLikelihood += term.log;
    for (let j = 0; j < size; j += 1) levers[j] = columns[j]?.[i] ?? 1;
    for (let j = 0; j < size; j += 1) {
      const kind = kinds[j] as number;
      const lever = levers[j] as number;
      score[j] = lever * slopeOf(term, kind);
      gradient[j] = (gradient[j] as number) + (score[j] as number);
      const row = information[j] as Float64Array;
      for (let k = 0; k <= j; k += 1) {
        row[k] = (row[k] as number) - lever * (levers[k] as number) * bendOf(term, kind, kinds[k] as number);
      }
    }
    onScore?.(i, score);
  }
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k < j; k += 1) {
      (information[k] as Float64Array)[j] = (information[j] as Float64Array)[k] as number;
    }
  }
  return { parameters, logLikelihood, gradient, information };
}

/** The three things that a frame's likelihood depends on. */
const ofMean = 0;
const ofSpread = 1;
const ofLoss = 2;

function slopeOf(term: FrameTerm, kind: number): number {
  if (kind === ofMean) return term.mean;
  return kind === ofSpread ? term.spread : term.loss;
}

function bendOf(term: FrameTerm, one: number, other: number): number {
  switch (one * 3 + other) {
    case 0:
      return term.meanMean;
    case 1:
    case 3:
      return term.meanSpread;
    case 4:
      return term.spreadSpread;
    case 2:
    case 6:
      return term.meanLoss;
    case 5:
    case 7:
      return term.spreadLoss;
    default:
      return term.lossLoss;
  }
}

function combined(
  columns: readonly Float64Array[],
  parameters: Float64Array,
  from: number,
  i: number,
): number {
  let sum = 0;
  for (let j = 0; j < columns.length; j += 1) {
    sum += (parameters[from + j] as number) * ((columns[j] as Float64Array)[i] as number);
  }
  return sum;
}

function noTerm(): FrameTerm {
  return {
    log: 0,
    mean: 0,
    spread: 0,
    loss: 0,
    meanMean: 0,
    meanSpread: 0,
    spreadSpread: 0,
    meanLoss: 0,
    spreadLoss: 0,
    lossLoss: 0,
  };
}

function frameTerm(
  term: FrameTerm,
  { frames, isTruncated }: LawModel,
  i: number,
  mean: number,
  deviation: number,
  constantLoss: number,
): void {
  const u = ((frames.thresholdDbm[i] as number) - mean) / deviation;
  term.meanLoss = 0;
  term.spreadLoss = 0;
  if (frames.received[i] === 1) {
    const z = ((frames.levelDbm[i] as number) - mean) / deviation;
    term.log = -(z * z) / 2 - Math.log(deviation) - Math.log(2 * Math.PI) / 2 + Math.log1p(-constantLoss);
    term.mean = z / deviation;
    term.spread = z * z - 1;
    term.meanMean = -1 / (deviation * deviation);
    term.meanSpread = (-2 * z) / deviation;
    term.spreadSpread = -2 * z * z;
    term.loss = -constantLoss;
    term.lossLoss = -constantLoss * (1 - constantLoss);
    if (isTruncated) {
      term.log -= logNormalTail(-u);
      const slope = inverseMills(-u);
      addTail(term, u, slope, slope * (slope - u), deviation);
    }
    return;
  }
  clearTail(term);
  const logShare = logNormalTail(u);
  if (constantLoss === 0) {
    term.log = logShare;
    const slope = inverseMills(u);
    addTail(term, u, slope, -slope * (u + slope), deviation);
    return;
  }
  const belowThreshold = (1 - constantLoss) * Math.exp(logShare);
  const missed = constantLoss + belowThreshold;
  const byLoss = constantLoss / missed;
  const slope = (belowThreshold / missed) * inverseMills(u);
  term.log = Math.log(missed);
  addTail(term, u, slope, -slope * (u + slope), deviation);
  term.loss = byLoss - constantLoss;
  term.lossLoss =
    byLoss * (1 - constantLoss) - byLoss * byLoss * (1 - missed) - constantLoss * (1 - constantLoss);
  term.meanLoss = (byLoss * slope) / deviation;
  term.spreadLoss = byLoss * slope * u;
}

function clearTail(term: FrameTerm): void {
  term.mean = 0;
  term.spread = 0;
  term.meanMean = 0;
  term.meanSpread = 0;
  term.spreadSpread = 0;
  term.loss = 0;
  term.lossLoss = 0;
}

/** Adds a function of u = (threshold - mean)/deviation, given its first and second derivative. */
function addTail(term: FrameTerm, u: number, slope: number, bend: number, deviation: number): void {
  term.mean -= slope / deviation;
  term.spread -= slope * u;
  term.meanMean += bend / (deviation * deviation);
  term.meanSpread += (bend * u + slope) / deviation;
  term.spreadSpread += bend * u * u + slope * u;
}

/**
 * Climbs to a maximum by Newton steps, damped wherever the likelihood is not concave or a step overshoots; `undefined` if it finds none.
 * The parameter at place `held` stays as it is.
 *
 * Source: K. Levenberg, Quarterly of Applied Mathematics 2 (1944) 164 (from memory), for the damping.
 */
export function climb(model: LawModel, start: ArrayLike<number>, held?: number): LawLikelihood | undefined {
  let here = lawLikelihood(model, Float64Array.from(start));
  let damping = 0;
  for (let step = 0; step < 200; step += 1) {
    const move = dampedStep(here, damping, held);
    if (move !== undefined) {
      const gain = move.reduce((sum, value, j) => sum + value * (here.gradient[j] as number), 0);
      const there = lawLikelihood(
        model,
        here.parameters.map((value, j) => value + (move[j] as number)),
      );
      if (damping === 0 && gain < 1e-16 * (1 + Math.abs(here.logLikelihood))) {
        return there.logLikelihood >= here.logLikelihood ? there : here;
      }
      if (there.logLikelihood > here.logLikelihood) {
        here = there;
        damping = damping < 1e-6 ? 0 : damping / 10;
        continue;
      }
      if (gain < 1e-11) return here;
    }
    damping = damping === 0 ? 1e-4 : damping * 4;
    if (!(damping < 1e12)) return undefined;
  }
  return undefined;
}

function dampedStep(
  { gradient, information }: LawLikelihood,
  damping: number,
  held: number | undefined,
): Float64Array | undefined {
  const free = Array.from(gradient.keys()).filter((j) => j !== held);
  const damped = free.map((j) => {
    const row = information[j] as Float64Array;
    const diagonal = row[j] as number;
    const extra = damping * (Math.abs(diagonal) + 1e-6);
    return Float64Array.from(free, (k) => (row[k] as number) + (k === j ? extra : 0));
  });
  const lower = cholesky(damped);
  if (lower === undefined) return undefined;
  const step = choleskySolve(
    lower,
    Float64Array.from(free, (j) => gradient[j] as number),
  );
  const move = new Float64Array(gradient.length);
  free.forEach((j, place) => {
    move[j] = step[place] as number;
  });
  return move;
}
