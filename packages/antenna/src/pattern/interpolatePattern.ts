import { InputError } from '@finial/units';
import type { NumberSeries, PatternTable } from './PatternTable.js';

/** Gain of a table that was checked, linear in decibels between its angles. Unchecked: for inner loops. */
export function interpolatePattern(pattern: PatternTable, elevationDeg: number, azimuthDeg: number): number {
  const { azimuthDeg: azimuths } = pattern;
  const place = placeOf(pattern.elevationDeg, elevationDeg);
  if (azimuths === undefined || azimuths.length === 1) return along(pattern, 0, place);

  const turned = ((azimuthDeg % 360) + 360) % 360;
  const last = azimuths.length - 1;
  const [first, final] = [azimuths[0] as number, azimuths[last] as number];
  if (turned < first || turned >= final) {
    // Between the last azimuth and the first lies the seam of the circle.
    const share = (turned >= final ? turned - final : turned + 360 - final) / (first + 360 - final);
    return (1 - share) * along(pattern, last, place) + share * along(pattern, 0, place);
  }
  const { index, share } = placeOf(azimuths, turned);
  return (1 - share) * along(pattern, index, place) + share * along(pattern, index + 1, place);
}

/** Refuses a direction that a table does not reach: beyond its ends nothing is known. */
export function checkWithinTable(pattern: PatternTable, elevationDeg: number, argument: string): void {
  const { elevationDeg: table } = pattern;
  const [first, last] = [table[0] as number, table[table.length - 1] as number];
  if (elevationDeg >= first && elevationDeg <= last) return;
  throw new InputError({
    code: 'out-of-range',
    argument,
    received: elevationDeg,
    expected: `${first} to ${last} degrees, which the pattern covers`,
  });
}

interface Place {
  readonly index: number;
  readonly share: number;
}

function along({ elevationDeg, gainDbi }: PatternTable, azimuth: number, { index, share }: Place): number {
  const start = azimuth * elevationDeg.length + index;
  return (1 - share) * (gainDbi[start] as number) + share * (gainDbi[start + 1] as number);
}

function placeOf(angles: NumberSeries, angleDeg: number): Place {
  let [low, high] = [0, angles.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((angles[middle] as number) <= angleDeg) low = middle;
    else high = middle;
  }
  const [from, to] = [angles[low] as number, angles[high] as number];
  return { index: low, share: (angleDeg - from) / (to - from) };
}
