import { InputError } from '@finial/units';

/** Where to look for a resonance. */
export interface ResonanceSearch {
  /** Shortest length to try in metres; the antenna is capacitive there. */
  readonly shortestM: number;
  /** Longest length to try in metres; the antenna is inductive there. */
  readonly longestM: number;
  /** Argument to name where there is no resonance in between. */
  readonly argument: string;
  /** What came as that argument. */
  readonly received: unknown;
}

/** Reactance below which nobody can tell the difference, and how often to try. */
const closeOhm = 0.01;
const mostTrials = 40;

/** Length at which the reactance is zero: a secant that keeps the crossing between its ends (the Illinois rule). */
export function findResonantLength(
  reactanceOhm: (lengthM: number) => number,
  { shortestM, longestM, argument, received }: ResonanceSearch,
): number {
  let [low, high] = [shortestM, longestM];
  let [lowOhm, highOhm] = [reactanceOhm(low), reactanceOhm(high)];
  if (!(lowOhm < 0 && highOhm > 0)) {
    const expected = 'an antenna that is resonant between half and one and a half of its usual length';
    throw new InputError({ code: 'outside-validity', argument, received, expected });
  }
  let side = 0;
  for (let trial = 0; trial < mostTrials; trial++) {
    const lengthM = (low * highOhm - high * lowOhm) / (highOhm - lowOhm);
    const ohm = reactanceOhm(lengthM);
    if (Math.abs(ohm) < closeOhm || high - low < 1e-9 * high) return lengthM;
    if (ohm < 0) {
      [low, lowOhm] = [lengthM, ohm];
      if (side < 0) highOhm /= 2;
      side = -1;
    } else {
      [high, highOhm] = [lengthM, ohm];
      if (side > 0) lowOhm /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}
