import { fitPolynomial, minimumOf, polynomialAt } from './fitPolynomial.js';
import { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './OnePortSweep.js';
import { reflectedPowerAt } from './SweepPoint.js';

/** Where the least comes back. */
export interface BestMatch {
  readonly frequencyHz: number;
  /** Whether the reflection rises to both sides of it by more than the reading scatters. */
  readonly isMinimum: boolean;
}

/** How far up the sides of the dip the curve is fitted, as a part of the power sent. */
const dipHeight = 0.03;

/**
 * The frequency at which the least comes back: the minimum of a curve fitted to the reflected power around the lowest point. A single
 * lowest point would follow the noise, for a flat dip is no deeper there than next to it.
 */
export function bestMatch(sweep: OnePortSweep | MagnitudeSweep): BestMatch {
  const { frequencyHz } = sweep;
  const power = Array.from(frequencyHz, (_, index) => reflectedPower(sweep, index));
  const lowest = power.reduce((best, value, index) => (value < (power[best] as number) ? index : best), 0);
  const [start, end] = dipAround(power, lowest);
  const x = Array.from(frequencyHz.slice(start, end + 1));
  const fit = fitPolynomial(x, power.slice(start, end + 1), Math.min(3, x.length > 3 ? 3 : 2));
  const found = minimumOf(fit);
  const [first = 0, last = 0] = [x[0], x.at(-1)];
  const onLowest = { frequencyHz: frequencyHz[lowest] as number, isMinimum: false };
  if (found === undefined || found <= first || found >= last) return onLowest;
  const depth = polynomialAt(fit, found);
  const rise = Math.min(polynomialAt(fit, first), polynomialAt(fit, last)) - depth;
  if (rise <= 4 * fit.spread) return onLowest;
  // A dip narrower than the window (few points) is followed less well by the fit than by its own lowest point.
  const isLower = reflectedPowerAt(sweep, found) <= (power[lowest] as number) + 4 * fit.spread;
  return isLower
    ? { frequencyHz: found, isMinimum: true }
    : { ...onLowest, isMinimum: lowest > 0 && lowest < power.length - 1 };
}

/** First and last point of the dip around its lowest point: at least two to each side, where the sweep has them. */
function dipAround(power: readonly number[], lowest: number): readonly [number, number] {
  const bottom = power[lowest] as number;
  const ceiling = bottom + dipHeight * Math.max(1 - bottom, 0);
  const isInside = (index: number) =>
    index >= 0 && index < power.length && (power[index] as number) <= ceiling;
  let start = lowest;
  let end = lowest;
  while (isInside(start - 1)) start -= 1;
  while (isInside(end + 1)) end += 1;
  return [Math.max(Math.min(start, lowest - 2), 0), Math.min(Math.max(end, lowest + 2), power.length - 1)];
}

function reflectedPower(sweep: OnePortSweep | MagnitudeSweep, index: number): number {
  if (!knowsPhase(sweep)) return (sweep.reflectionCoefficient[index] as number) ** 2;
  return (sweep.reflectionReal[index] as number) ** 2 + (sweep.reflectionImaginary[index] as number) ** 2;
}
