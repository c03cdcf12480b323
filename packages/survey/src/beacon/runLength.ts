import { normalShareBelow } from '../pathLoss/normalTail.js';
import { gaussLegendre } from './gaussLegendre.js';
import { solveLinear } from './solveLinear.js';

/**
 * Average number of readings until a one-sided cumulative sum passes its limit, for independent standard normal readings whose mean is
 * off by `shift`; unchecked. The sum is S = max(0, S + z - reference), from 0.
 *
 * Source: A. L. Goel and S. M. Wu, Technometrics 13 (1971) 221 (read of, not read): the run length as a Fredholm equation, solved on
 * Gauss points.
 */
export function cusumRunLength(reference: number, limit: number, shift: number): number {
  // The kernel is a normal density of width one: a few points for each unit of the range.
  const n = Math.ceil(16 + 3 * limit);
  const { points, weights } = gaussLegendre(n, 0, limit);
  const rows: Float64Array[] = [];
  // The last unknown is the run length from the wall at 0, which holds a lump of probability of its own.
  for (let i = 0; i <= n; i += 1) {
    const start = i === n ? 0 : (points[i] as number);
    const row = new Float64Array(n + 1);
    for (let j = 0; j < n; j += 1) {
      row[j] = -(weights[j] as number) * density((points[j] as number) + reference - start - shift);
    }
    row[n] = -normalShareBelow(reference - start - shift);
    row[i] = (row[i] as number) + 1;
    rows.push(row);
  }
  return solveLinear(rows, new Float64Array(n + 1).fill(1))[n] as number;
}

/** The same for both sides at once: the chances of an alarm add, exactly so where both sides have one limit. */
export function twoSidedCusumRunLength(reference: number, limit: number, shift: number): number {
  const up = cusumRunLength(reference, limit, shift);
  const down = cusumRunLength(reference, limit, -shift);
  return up > 0 && down > 0 ? 1 / (1 / up + 1 / down) : Infinity;
}

/**
 * Average number of readings until an exponentially weighted mean leaves its limits on either side; unchecked. The limit is in standard
 * deviations of the settled mean, √(weight/(2 - weight)).
 *
 * Source: S. V. Crowder, Technometrics 29 (1987) 401 (from memory): integral equation, solved on Gauss points.
 */
export function ewmaRunLength(weight: number, limit: number, shift: number): number {
  const bound = limit * Math.sqrt(weight / (2 - weight));
  const n = Math.ceil(24 + (4 * bound) / weight) | 1;
  const { points, weights } = gaussLegendre(n, -bound, bound);
  const rows: Float64Array[] = [];
  for (let i = 0; i < n; i += 1) {
    const row = new Float64Array(n);
    for (let j = 0; j < n; j += 1) {
      const z = ((points[j] as number) - (1 - weight) * (points[i] as number)) / weight - shift;
      row[j] = (-(weights[j] as number) * density(z)) / weight;
    }
    row[i] = (row[i] as number) + 1;
    rows.push(row);
  }
  // An odd rule has a point at 0, where the chart starts.
  const length = solveLinear(rows, new Float64Array(n).fill(1))[(n - 1) / 2] as number;
  return length > 0 ? length : Infinity;
}

/** The limit of a chart at which the average run length without any shift is `wanted`; unchecked. */
export function limitFor(runLength: (limit: number) => number, wanted: number): number {
  let low = 0;
  let high = 1;
  while (runLength(high) < wanted) {
    low = high;
    high *= 1.5;
  }
  // The logarithm of the run length is nearly straight in the limit; false position, with halving of a side that stays.
  const distance = (limit: number): number => Math.log(Math.min(runLength(limit), 1e300) / wanted);
  let below = low === 0 ? -Math.log(wanted) : distance(low);
  let above = distance(high);
  for (let step = 0; step < 60 && high - low > 1e-10 * high; step += 1) {
    const middle = low - (below * (high - low)) / (above - below);
    const value = distance(middle);
    if (Math.abs(value) < 1e-9) return middle;
    if (value < 0) {
      low = middle;
      below = value;
      above /= 2;
    } else {
      high = middle;
      above = value;
      below /= 2;
    }
  }
  return high;
}

/**
 * Average number of trials until `run` misses come in a row, each with the given chance; unchecked.
 *
 * Source: W. Feller, An Introduction to Probability Theory and Its Applications, volume 1, XIII.7 (from memory).
 */
export function runOfMisses(chance: number, run: number): number {
  const all = chance ** run;
  return (1 - all) / ((1 - chance) * all);
}

function density(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}
