import type { RadioZone } from '../path/RadioPath.js';

/** Land of any kind. */
export function isLand(zone: RadioZone): boolean {
  return zone !== 'sea';
}

/** Land beyond the reach of the sea's air. */
export function isInland(zone: RadioZone): boolean {
  return zone === 'inland';
}

/**
 * Longest stretch whose points all count, in metres. It reaches half of the gap to its neighbour at each end that lies inside the path.
 */
export function longestStretchM(
  distanceM: Float64Array,
  zones: readonly RadioZone[],
  counts: (zone: RadioZone) => boolean,
): number {
  const last = zones.length - 1;
  let longestM = 0;
  for (let index = 0; index <= last; index += 1) {
    if (!counts(zones[index] as RadioZone)) continue;
    const startM = gapMiddleM(distanceM, Math.max(index - 1, 0), index);
    while (index < last && counts(zones[index + 1] as RadioZone)) index += 1;
    const endM = gapMiddleM(distanceM, index, Math.min(index + 1, last));
    longestM = Math.max(longestM, endM - startM);
  }
  return longestM;
}

/** Distance over land from the transmitter to the first sea in metres, 0 where it stands at sea, Infinity where there is none. */
export function transmitterCoastM(distanceM: Float64Array, zones: readonly RadioZone[]): number {
  const sea = zones.indexOf('sea');
  if (sea < 0) return Number.POSITIVE_INFINITY;
  return sea === 0 ? 0 : gapMiddleM(distanceM, sea - 1, sea);
}

/** The same from the receiver: see {@link transmitterCoastM}. */
export function receiverCoastM(distanceM: Float64Array, zones: readonly RadioZone[]): number {
  const last = zones.length - 1;
  const sea = zones.lastIndexOf('sea');
  if (sea < 0) return Number.POSITIVE_INFINITY;
  return sea === last ? 0 : (distanceM[last] as number) - gapMiddleM(distanceM, sea, sea + 1);
}

function gapMiddleM(distanceM: Float64Array, from: number, to: number): number {
  return ((distanceM[from] as number) + (distanceM[to] as number)) / 2;
}
