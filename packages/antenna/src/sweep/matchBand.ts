import { bisect } from './bisect.js';
import { placeBelow } from './interpolateSeries.js';
import type { MagnitudeSweep, OnePortSweep } from './OnePortSweep.js';
import { reflectedPowerAt } from './SweepPoint.js';

/** The band around the best match in which no more than a given part of the power comes back. */
export interface MatchBand {
  /** Lower edge in hertz. Left out where it lies beyond the sweep. */
  readonly lowerHz?: number | undefined;
  /** Upper edge in hertz. Left out where it lies beyond the sweep. */
  readonly upperHz?: number | undefined;
  /** Width in hertz. Left out where an edge lies beyond the sweep. */
  readonly widthHz?: number | undefined;
  /** The sweep ends before the band does: at neither, at one or at both ends. */
  readonly beyondSweep: 'neither' | 'below' | 'above' | 'both';
}

/** The band around a frequency in which the reflected power stays at or below a ratio; nothing where it does not even there. */
export function matchBand(
  sweep: OnePortSweep | MagnitudeSweep,
  centreHz: number,
  reflectedPowerRatio: number,
): MatchBand | undefined {
  const excess = (frequencyHz: number) => reflectedPowerAt(sweep, frequencyHz) - reflectedPowerRatio;
  if (excess(centreHz) > 0) return undefined;
  const { frequencyHz } = sweep;
  const below = placeBelow(frequencyHz, centreHz);
  const lowerHz = edge(frequencyHz, excess, { centreHz, from: below, step: -1 });
  const upperHz = edge(frequencyHz, excess, { centreHz, from: below + 1, step: 1 });
  const widthHz = lowerHz === undefined || upperHz === undefined ? undefined : upperHz - lowerHz;
  const ends = [lowerHz === undefined && 'below', upperHz === undefined && 'above'].filter(
    (end) => end !== false,
  );
  const [first, second] = ends as ('below' | 'above')[];
  return { lowerHz, upperHz, widthHz, beyondSweep: second === undefined ? (first ?? 'neither') : 'both' };
}

function edge(
  frequencyHz: Float64Array,
  excess: (frequencyHz: number) => number,
  { centreHz, from, step }: { readonly centreHz: number; readonly from: number; readonly step: 1 | -1 },
): number | undefined {
  let inside = centreHz;
  for (let index = from; index >= 0 && index < frequencyHz.length; index += step) {
    const here = frequencyHz[index] as number;
    if (excess(here) > 0) return bisect(excess, inside, here);
    inside = here;
  }
  return undefined;
}
