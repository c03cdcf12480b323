import type { PreparedSource, PreparedWire } from './prepareWires.js';

/** How much of the current at the two ends of a segment runs through a source; over all segments the shares add to 1. */
export interface GapShare {
  readonly segment: number;
  readonly startShare: number;
  readonly endShare: number;
}

/**
 * Spreads a source over a gap as wide as the wire is thick, half to each side (at the end of a wire, what of it lies on the wire).
 * Across an endlessly narrow gap the current would grow without end as segments get shorter, and the impedance would never settle.
 */
export function sourceGap(
  source: PreparedSource,
  { lengthM, radiusM, segments }: PreparedWire,
): readonly GapShare[] {
  const from = Math.max(0, source.drawnRatio - radiusM / lengthM) * segments;
  const to = Math.min(1, source.drawnRatio + radiusM / lengthM) * segments;
  const shares: GapShare[] = [];
  for (let segment = Math.floor(from); segment < Math.min(segments, to); segment++) {
    const low = Math.max(from, segment) - segment;
    const high = Math.min(to, segment + 1) - segment;
    const width = (high - low) / (to - from);
    const endShare = (width * (high + low)) / 2;
    shares.push({ segment, startShare: width - endShare, endShare });
  }
  return shares;
}
