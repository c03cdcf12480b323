import type { RadioZone } from './RadioPath.js';

/**
 * Part of a path that lies over the sea, 0 to 1: the gap between two points counts whole if both are sea, half if one is. Positional and
 * unchecked.
 */
export function seaRatio(distanceM: Float64Array, zone: readonly RadioZone[] | undefined): number {
  if (zone === undefined) return 0;
  let seaM = 0;
  for (let index = 1; index < distanceM.length; index += 1) {
    const ends = Number(zone[index] === 'sea') + Number(zone[index - 1] === 'sea');
    seaM += (ends / 2) * ((distanceM[index] as number) - (distanceM[index - 1] as number));
  }
  // A sum of many gaps may round past the whole.
  return Math.min(1, seaM / (distanceM[distanceM.length - 1] as number));
}
