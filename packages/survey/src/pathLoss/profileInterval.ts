import { climb } from './lawLikelihood.js';
import type { SettledLaw } from './settleLaw.js';

/**
 * Ends of the interval of one parameter in which twice the fall of the log-likelihood, the others following, stays below z²; an end that
 * cannot be reached is `undefined`.
 *
 * Source: likelihood-ratio interval: W. Q. Meeker and L. A. Escobar, The American Statistician 49 (1995) 48 (from memory).
 */
export function profileInterval(
  { model, best }: SettledLaw,
  place: number,
  standardError: number,
  z: number,
): readonly [lower: number | undefined, upper: number | undefined] {
  return [
    profileEnd({ model, best }, place, -standardError, z),
    profileEnd({ model, best }, place, standardError, z),
  ];
}

/** √(2 · fall) is nearly straight in the parameter, so that the secant settles in a few rounds. */
function profileEnd({ model, best }: SettledLaw, place: number, step: number, z: number): number | undefined {
  const centre = best.parameters[place] as number;
  let start = best.parameters;
  const root = (away: number): number | undefined => {
    const from = start.slice();
    from[place] = centre + away;
    const there = climb(model, from, place);
    if (there === undefined) return undefined;
    start = there.parameters;
    return Math.sqrt(Math.max(0, 2 * (best.logLikelihood - there.logLikelihood))) - z;
  };
  let [oldAway, oldMiss] = [0, -z];
  let away = z * step;
  for (let round = 0; round < 40; round += 1) {
    const miss = root(away);
    if (miss === undefined) return undefined;
    if (Math.abs(miss) < 1e-9) return centre + away;
    const slope = (miss - oldMiss) / (away - oldAway);
    [oldAway, oldMiss] = [away, miss];
    // Not past the other side, and not more than threefold outwards, where the profile is flat.
    const next = away - miss / slope;
    away = step > 0 ? clampTo(next, away / 4, away * 3) : clampTo(next, away * 3, away / 4);
  }
  return undefined;
}

function clampTo(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
