import { checkInteger, checkOneOf, InputError } from '@finial/units';
import type { DataRate, Direction, Region } from './Region.js';

/** The region if it looks like one; JavaScript callers tend to pass its name. */
export function checkedRegion(region: Region): Region {
  const given: unknown = region;
  if (typeof given === 'object' && given !== null && 'dataRates' in given && Array.isArray(given.dataRates)) {
    return region;
  }
  throw new InputError({
    code: 'wrong-type',
    argument: 'region',
    received: region,
    expected: 'the regional parameters, such as regions.EU868',
  });
}

/** The index if it can be a data rate: DR15 means 'keep' in commands and is none. */
export function checkedDataRate(dataRate: unknown, argument: string): number {
  return checkInteger(dataRate, argument, { min: 0, max: 14, unit: 'data rate' });
}

/** The direction if it is one. */
export function checkedDirection(direction: unknown): Direction {
  return checkOneOf(direction, 'direction', ['uplink', 'downlink']);
}

/** The row of a data rate, or nothing where the plan reserves the index. */
export function dataRateRow(region: Region, dataRate: number): DataRate | undefined {
  return region.dataRates.find((row) => row.dataRate === dataRate);
}

/** Whether frames of this direction may use the row. */
export function serves(row: { readonly direction: Direction | 'both' }, direction: Direction): boolean {
  return row.direction === 'both' || row.direction === direction;
}
