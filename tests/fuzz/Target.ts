import type { Random } from './Random.js';

/** Something that takes input from outside, and a way to make that input up. */
export interface Target {
  readonly name: string;
  /** Arguments of one call: the same for the same draws. */
  readonly args: (random: Random) => readonly unknown[];
  /** The call; it may throw refusals, and nothing else. It throws also where a promise of the function is broken. */
  readonly call: (...args: never[]) => unknown;
  /** True where NaN in the result means 'no data', by contract. */
  readonly hasNoData?: boolean | undefined;
}
