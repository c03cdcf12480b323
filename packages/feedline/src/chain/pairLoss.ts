import type { Connector } from '../catalogue/parts.js';
import { connectorFor } from './connectorFor.js';
import { matingOf } from './mates.js';
import type { StatedEnd } from './partEnd.js';

/** What a joined pair loses. */
export interface PairLoss {
  /** In its contacts, dB. */
  readonly contactLossDb: number;
  readonly contactLossUncertaintyDb: number;
  /** By reflection where the impedances differ, dB. */
  readonly mismatchLossDb: number;
}

/**
 * Loss of a pair that joins. The contacts lose with the square root of frequency, since the current flows in their skin. Their uncertainty is
 * half the published range at 1 GHz, which grows alike: the published figures span a range rather than scatter about a mean.
 */
export function pairLoss(
  a: StatedEnd,
  b: StatedEnd,
  frequencyHz: number,
  connectors: readonly Connector[],
): PairLoss {
  const rootOfGigahertz = Math.sqrt(frequencyHz / 1e9);
  const rows = [connectorFor(a, connectors), connectorFor(b, connectors)];
  const halfRanges = rows.map((row) => (row.greatestPairLossDb - row.leastPairLossDb) / 2);
  return {
    contactLossDb: Math.max(...rows.map((row) => row.pairLossAtOneGigahertzDb)) * rootOfGigahertz,
    contactLossUncertaintyDb: Math.max(...halfRanges) * rootOfGigahertz,
    mismatchLossDb: matingOf(a, b, connectors).mismatchLossDb,
  };
}
