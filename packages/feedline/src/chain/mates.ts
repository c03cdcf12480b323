import { vswrToMismatchLossDb } from '@finial/radio';
import { connectorSeries } from '../catalogue/connectorSeries.js';
import type { Connector, PartEnd } from '../catalogue/parts.js';
import { matingOutcome } from './matingRules.js';
import { checkedEnd, type StatedEnd } from './partEnd.js';

/** Whether two halves of a connector pair join, and what stands against it. */
export interface Mating {
  /** Whether they join and carry the signal. */
  readonly mates: boolean;
  /** Whether trying damages a contact or a thread. */
  readonly harmful: boolean;
  /** Whether the bodies go together, so that a bad joint passes for a good one. */
  readonly looksJoined: boolean;
  /** Why, in words. */
  readonly reason: string;
  /** Standing-wave ratio of the step between their impedances; 1 where they are equal. */
  readonly vswr: number;
  /** Loss in dB by reflection at that step, whether they join or not. */
  readonly mismatchLossDb: number;
}

/**
 * Whether two halves of a connector pair join. It does not matter which is named first.
 *
 * Same series, opposite gender, same polarity and a compatible impedance are needed; anything else needs an adapter ({@link adaptersBetween}).
 * Reverse polarity exchanges the contacts and keeps the thread, so that a wrong pair screws together and fails or breaks. The rules come from
 * the shapes of the parts; a worn, bent or dirty part may fail where they say yes. A series that no row describes is compared by name only.
 *
 * @param a - impedance from 1 to 500 ohms
 * @param b - impedance from 1 to 500 ohms
 * @returns the mismatch loss for a matched, lossless source, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source IEC 61169-15 and -16 (SMA, N), from memory; that a 50 ohm N pin spoils a 75 ohm jack is common practice, no source
 * @example A plain SMA antenna on a reverse-polarity jack
 * ```ts
 * import { mates, partEnd } from '@finial/feedline';
 *
 * mates(partEnd('SMA plug'), partEnd('SMA jack')).mates; // → true
 * const wrong = mates(partEnd('SMA plug'), partEnd('RP-SMA jack'));
 * [wrong.mates, wrong.looksJoined, wrong.harmful]; // → [false, true, true]
 * ```
 */
export function mates(a: PartEnd, b: PartEnd): Mating {
  return matingOf(checkedEnd(a, 'a'), checkedEnd(b, 'b'), connectorSeries);
}

/** The same for ends that are checked, with the connector rows of a caller. */
export function matingOf(a: StatedEnd, b: StatedEnd, connectors: readonly Connector[]): Mating {
  const [first, second] = isFirst(a, b) ? [a, b] : [b, a];
  const vswr = Math.max(a.impedanceOhm, b.impedanceOhm) / Math.min(a.impedanceOhm, b.impedanceOhm);
  return {
    ...matingOutcome(first, second, connectors),
    vswr,
    mismatchLossDb: vswrToMismatchLossDb(vswr),
  };
}

/** Plug before jack, then by name: an order that does not depend on who is named first. */
function isFirst(a: StatedEnd, b: StatedEnd): boolean {
  if (a.gender !== b.gender) return a.gender === 'plug';
  return a.series <= b.series;
}
