import { inverseMills, logNormalTail } from '../pathLoss/normalTail.js';

/** Rows of a regression of levels, some of which are only known to lie below a bound. */
export interface CensoredRows {
  /** The regressors; the first is usually all ones. */
  readonly columns: readonly Float64Array[];
  /** Level of each row, or its upper bound where `missed` is 1. */
  readonly y: Float64Array;
  /** 1 where the level is only bounded. */
  readonly missed: Uint8Array;
  /** Weight of each row. */
  readonly weights: Float64Array;
  /** Number of the spot that a row belongs to, from 0. */
  readonly spots: Int32Array;
}

/** Coefficients that make the rows likeliest. */
export interface CensoredFit {
  readonly coefficients: readonly number[];
  /** Standard deviation of the rows about the fit (divisor: sum of weights). */
  readonly sigma: number;
  /** Covariance of the coefficients, robust against rows of one spot that vary together. */
  readonly covariance: readonly (readonly number[])[];
}

/**
 * Weighted regression with normal errors and left-censored rows, by maximum likelihood; unchecked. Without censored rows it is weighted
 * least squares.
 *
 * Undefined where the rows with a level do not determine the coefficients, or lie on the fit exactly while others are bounded:
 * the likelihood has no maximum then. The covariance is the sandwich of scores summed by spot, times g/(g - 1) for g spots; with
 * weights 1/n by spot and one constant regressor it is the squared standard error of the mean of the spot means.
 *
 * Source: J. Tobin, Econometrica 26 (1958) 24; R. J. Olsen, Econometrica 46 (1978) 1211 (from memory): concave in coefficients/σ
 * and 1/σ, so that Newton's steps lead to the only maximum.
 */
export function censoredRegression(rows: CensoredRows): CensoredFit | undefined {
  const start = leastSquares(rows);
  if (start === undefined || !rows.missed.includes(1)) return start;
  if (start.sigma < 1e-6) return undefined;
  const size = rows.columns.length;
  const sums = sumsBySpot(rows);
  let parameters = [...start.coefficients.map((value) => value / start.sigma), 1 / start.sigma];
  let here = slopesAt(rows, sums, parameters);
  for (let round = 0; round < 200; round += 1) {
    const inverse = inverseOf(here.information);
    if (inverse === undefined) return undefined;
    const step = product(inverse, here.gradient);
    const gain = step.reduce((sum, value, i) => sum + value * (here.gradient[i] as number), 0);
    let share = 1;
    let next = moved(parameters, step, share);
    let there = slopesAt(rows, sums, next);
    while (!(there.logLikelihood >= here.logLikelihood - 1e-12 * Math.abs(here.logLikelihood))) {
      share /= 2;
      if (share < 1e-12) return undefined;
      next = moved(parameters, step, share);
      there = slopesAt(rows, sums, next);
    }
    parameters = next;
    here = there;
    // The gain is twice what the step can still add to the log-likelihood.
    if (gain < 1e-18 * (1 + Math.abs(here.logLikelihood))) break;
  }
  const inverse = inverseOf(here.information);
  if (inverse === undefined) return undefined;
  const scale = parameters[size] as number;
  const coefficients = parameters.slice(0, size).map((value) => value / scale);
  const jacobian = coefficients.map((value, i) => [
    ...coefficients.map((_, j) => (i === j ? 1 / scale : 0)),
    -value / scale,
  ]);
  const covariance = sandwich(multiply(jacobian, inverse), here.spotScores);
  return { coefficients, sigma: 1 / scale, covariance };
}

interface Slopes {
  readonly logLikelihood: number;
  readonly gradient: readonly number[];
  readonly information: readonly (readonly number[])[];
  readonly spotScores: readonly (readonly number[])[];
}

/** What one spot's frames with a level say: all of it is in their sums of squares and products. */
interface SpotSums {
  /** Sum of the weights. */
  weight: number;
  /** Sums of weight · vᵢ · vⱼ over v = (-x, y). */
  readonly products: number[][];
  /** Rows that are only bounded. */
  readonly missed: number[];
}

function sumsBySpot({ columns, y, missed, weights, spots }: CensoredRows): readonly SpotSums[] {
  const size = columns.length;
  const found = new Map<number, SpotSums>();
  for (let i = 0; i < y.length; i += 1) {
    const spot = spots[i] as number;
    let sums = found.get(spot);
    if (sums === undefined) {
      sums = { weight: 0, products: zeros(size + 1), missed: [] };
      found.set(spot, sums);
    }
    if (missed[i] === 1) {
      sums.missed.push(i);
      continue;
    }
    sums.weight += weights[i] as number;
    addProducts(
      sums.products,
      [...columns.map((column) => -(column[i] as number)), y[i] as number],
      weights[i] as number,
    );
  }
  return [...found.values()];
}

/** Log-likelihood and its derivatives in (coefficients/σ, 1/σ): each row counts through u = y/σ - x·coefficients/σ. */
function slopesAt(rows: CensoredRows, sums: readonly SpotSums[], parameters: readonly number[]): Slopes {
  const { columns, y, weights } = rows;
  const size = columns.length;
  const scale = parameters[size] as number;
  const information = zeros(size + 1);
  const direction = new Array<number>(size + 1).fill(0);
  const spotScores: number[][] = [];
  let logLikelihood = scale > 0 ? 0 : -Infinity;
  for (const spot of scale > 0 ? sums : []) {
    const pull = product(spot.products, parameters);
    const squares = pull.reduce((sum, value, j) => sum + value * (parameters[j] as number), 0);
    logLikelihood += spot.weight * Math.log(scale) - squares / 2;
    const score = pull.map((value, j) => (j === size ? spot.weight / scale : 0) - value);
    information.forEach((line, j) => {
      for (let k = 0; k <= size; k += 1)
        line[k] = (line[k] as number) + ((spot.products[j] as number[])[k] as number);
    });
    const last = information[size] as number[];
    last[size] = (last[size] as number) + spot.weight / (scale * scale);
    for (const i of spot.missed) {
      for (let j = 0; j < size; j += 1) direction[j] = -((columns[j] as Float64Array)[i] as number);
      direction[size] = y[i] as number;
      let u = 0;
      for (let j = 0; j <= size; j += 1) u += (direction[j] as number) * (parameters[j] as number);
      const mills = inverseMills(u);
      const weight = weights[i] as number;
      logLikelihood += weight * logNormalTail(u);
      for (let j = 0; j <= size; j += 1) {
        score[j] = (score[j] as number) + weight * mills * (direction[j] as number);
      }
      addProducts(information, direction, weight * mills * (u + mills));
    }
    spotScores.push(score);
  }
  return { logLikelihood, gradient: columnSums(spotScores, size + 1), information, spotScores };
}

function zeros(size: number): number[][] {
  return Array.from({ length: size }, () => new Array<number>(size).fill(0));
}

/** Adds weight · v vᵀ. */
function addProducts(matrix: readonly number[][], vector: readonly number[], weight: number): void {
  for (let j = 0; j < vector.length; j += 1) {
    const line = matrix[j] as number[];
    for (let k = 0; k < vector.length; k += 1) {
      line[k] = (line[k] as number) + weight * (vector[j] as number) * (vector[k] as number);
    }
  }
}

/** Weighted least squares over the rows that have a level. */
function leastSquares(rows: CensoredRows): CensoredFit | undefined {
  const { columns, y, missed, weights, spots } = rows;
  const size = columns.length;
  const normal = zeros(size);
  const right = new Array<number>(size).fill(0);
  let total = 0;
  const known = [...y.keys()].filter((i) => missed[i] !== 1);
  for (const i of known) {
    const weight = weights[i] as number;
    total += weight;
    columns.forEach((column, j) => {
      const weighted = weight * (column[i] as number);
      right[j] = (right[j] as number) + weighted * (y[i] as number);
      const line = normal[j] as number[];
      columns.forEach((other, k) => {
        line[k] = (line[k] as number) + weighted * (other[i] as number);
      });
    });
  }
  const inverse = inverseOf(normal);
  if (inverse === undefined) return undefined;
  const coefficients = product(inverse, right);
  const scores = new Map<number, number[]>();
  let squares = 0;
  for (const i of known) {
    const weight = weights[i] as number;
    const fitted = columns.reduce(
      (sum, column, j) => sum + (column[i] as number) * (coefficients[j] as number),
      0,
    );
    const residual = (y[i] as number) - fitted;
    squares += weight * residual * residual;
    const score = scoreOf(scores, spots[i] as number, size);
    columns.forEach((column, j) => {
      score[j] = (score[j] as number) + weight * residual * (column[i] as number);
    });
  }
  return {
    coefficients,
    sigma: Math.sqrt(squares / total),
    covariance: sandwich(inverse, [...scores.values()]),
  };
}

function scoreOf(scores: Map<number, number[]>, spot: number, size: number): number[] {
  const found = scores.get(spot);
  if (found !== undefined) return found;
  const fresh = new Array<number>(size).fill(0);
  scores.set(spot, fresh);
  return fresh;
}

/** bread · (sum of score scoreᵀ) · breadᵀ · g/(g - 1); all zero for a single spot, which says nothing about its like. */
function sandwich(bread: readonly (readonly number[])[], scores: readonly (readonly number[])[]): number[][] {
  const count = scores.length;
  const influences = scores.map((score) => product(bread, score));
  return bread.map((_, i) =>
    bread.map((__, j) => {
      const sum = influences.reduce((total, one) => total + (one[i] as number) * (one[j] as number), 0);
      return count > 1 ? (sum * count) / (count - 1) : 0;
    }),
  );
}

function columnSums(lines: readonly (readonly number[])[], size: number): number[] {
  return Array.from({ length: size }, (_, j) => lines.reduce((sum, line) => sum + (line[j] as number), 0));
}

function moved(from: readonly number[], step: readonly number[], share: number): number[] {
  return from.map((value, i) => value + share * (step[i] as number));
}

function product(matrix: readonly (readonly number[])[], vector: readonly number[]): number[] {
  return matrix.map((line) => line.reduce((sum, value, j) => sum + value * (vector[j] as number), 0));
}

function multiply(left: readonly (readonly number[])[], right: readonly (readonly number[])[]): number[][] {
  return left.map((line) =>
    columnSums(
      line.map((value, k) => (right[k] as number[]).map((other) => value * other)),
      right.length,
    ),
  );
}

/** Inverse of a small symmetric positive matrix by Gauss-Jordan elimination; undefined where it is singular to working precision. */
function inverseOf(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const size = matrix.length;
  // Scaled to a unit diagonal first, so that the pivots say how nearly the columns depend on each other.
  const scales = matrix.map((line, i) => 1 / Math.sqrt(line[i] as number));
  if (!scales.every((scale) => Number.isFinite(scale))) return undefined;
  const work = matrix.map((line, i) => [
    ...line.map((value, j) => value * (scales[i] as number) * (scales[j] as number)),
    ...line.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let i = 0; i < size; i += 1) {
    const line = work[i] as number[];
    const pivot = line[i] as number;
    if (!(pivot > 1e-11)) return undefined;
    for (let k = 0; k < 2 * size; k += 1) line[k] = (line[k] as number) / pivot;
    for (let j = 0; j < size; j += 1) {
      if (j === i) continue;
      const other = work[j] as number[];
      const times = other[i] as number;
      for (let k = 0; k < 2 * size; k += 1) other[k] = (other[k] as number) - times * (line[k] as number);
    }
  }
  return work.map((line, i) =>
    line.slice(size).map((value, j) => value * (scales[i] as number) * (scales[j] as number)),
  );
}
