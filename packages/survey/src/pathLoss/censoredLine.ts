import { cholesky, choleskySolve, zeros } from './choleskySolve.js';
import { inverseMills, logNormalTail } from './normalTail.js';

/** A left-censored linear model: values are normal about a combination of columns, and some are only known to lie below a bound. */
export interface CensoredModel {
  /** What the mean is made of: one series per coefficient. */
  readonly columns: readonly Float64Array[];
  /** The value where it was seen, the bound where it was not. */
  readonly values: Float64Array;
  /** 1 where the value was seen, 0 where only the bound is known. */
  readonly seen: Uint8Array;
}

/** The maximum of the likelihood. */
export interface CensoredLine {
  readonly coefficients: Float64Array;
  readonly deviation: number;
  readonly logLikelihood: number;
  readonly isSettled: boolean;
  /** How often the frames were gone through. */
  readonly passes: number;
}

/**
 * Maximum of the likelihood of a left-censored linear model; unchecked.
 *
 * In coefficients/deviation and 1/deviation the log-likelihood is concave, so that Newton steps, halved where they overshoot, reach the
 * one maximum from any start. Needs a scatter in the seen values: through points on one line the likelihood has no bound.
 *
 * Source: J. Tobin, Econometrica 26 (1958) 24; R. J. Olsen, Econometrica 46 (1978) 1211 (both from memory).
 */
export function censoredLine(
  model: CensoredModel,
  start: { readonly coefficients: ArrayLike<number>; readonly deviation: number },
): CensoredLine {
  const size = model.columns.length;
  const scale = 1 / start.deviation;
  let at = Float64Array.from([...Array.from(start.coefficients, (value) => value * scale), scale]);
  let here = likelihoodAt(model, at);
  let passes = 1;
  let isSettled = false;
  for (let step = 0; step < 100 && !isSettled; step += 1) {
    const move = newtonStep(here);
    if (move === undefined) break;
    const gain = move.reduce((sum, value, j) => sum + value * (here.gradient[j] as number), 0);
    // The gain is twice what a last step can add; below this only rounding is left.
    isSettled = gain < 1e-16 * (1 + Math.abs(here.logLikelihood));
    let share = 1;
    for (; share > 1e-10; share /= 2) {
      const tried = at.map((value, j) => value + share * (move[j] as number));
      if ((tried[size] as number) <= 0) continue;
      const there = likelihoodAt(model, tried);
      passes += 1;
      if (there.logLikelihood < here.logLikelihood && !isSettled) continue;
      at = tried;
      here = there;
      break;
    }
    if (share <= 1e-10) {
      isSettled = gain < 1e-9;
      break;
    }
  }
  const deviation = 1 / (at[size] as number);
  return {
    coefficients: at.slice(0, size).map((value) => value * deviation),
    deviation,
    logLikelihood: here.logLikelihood,
    isSettled,
    passes,
  };
}

interface LikelihoodHere {
  readonly logLikelihood: number;
  readonly gradient: Float64Array;
  /** Minus the second derivatives. */
  readonly information: readonly Float64Array[];
}

/**
 * Each frame depends on r = value/deviation - mean/deviation alone, linear in the parameters: a seen one adds
 * -r²/2 + ln(1/deviation), a hidden one ln Φ(r).
 */
function likelihoodAt({ columns, values, seen }: CensoredModel, at: Float64Array): LikelihoodHere {
  const size = columns.length;
  const inverse = at[size] as number;
  const gradient = new Float64Array(size + 1);
  const information = zeros(size + 1);
  const lever = new Float64Array(size + 1);
  let logLikelihood = 0;
  let seenCount = 0;
  for (let i = 0; i < values.length; i += 1) {
    let r = inverse * (values[i] as number);
    for (let j = 0; j < size; j += 1) {
      const entry = (columns[j] as Float64Array)[i] as number;
      lever[j] = -entry;
      r -= entry * (at[j] as number);
    }
    lever[size] = values[i] as number;
    let slope = -r;
    let bend = 1;
    if (seen[i] === 1) {
      logLikelihood -= (r * r) / 2;
      seenCount += 1;
    } else {
      logLikelihood += logNormalTail(r);
      slope = inverseMills(r);
      bend = slope * (r + slope);
    }
    for (let j = 0; j <= size; j += 1) {
      gradient[j] = (gradient[j] as number) + slope * (lever[j] as number);
      const row = information[j] as Float64Array;
      const weight = bend * (lever[j] as number);
      for (let k = 0; k <= j; k += 1) row[k] = (row[k] as number) + weight * (lever[k] as number);
    }
  }
  logLikelihood += seenCount * (Math.log(inverse) - Math.log(2 * Math.PI) / 2);
  gradient[size] = (gradient[size] as number) + seenCount / inverse;
  const last = information[size] as Float64Array;
  last[size] = (last[size] as number) + seenCount / (inverse * inverse);
  return { logLikelihood, gradient, information };
}

function newtonStep({ gradient, information }: LikelihoodHere): Float64Array | undefined {
  const lower = cholesky(information);
  return lower === undefined ? undefined : choleskySolve(lower, gradient);
}
