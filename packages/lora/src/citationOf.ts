import { checkObject, checkOneOf } from '@finial/units';
import type { Citation } from './Citation.js';
import { checkedDataRate, checkedRegion, dataRateRow } from './checkedRegion.js';
import type { Region, RegionGroup } from './Region.js';

/** Rows of a region whose source is wanted. */
export interface CitedRows {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Group of rows. */
  readonly group: RegionGroup;
  /**
   * Index of the data rate, 0 to 14, in the groups that have one row for each (`dataRates`, `payloads`, and `firstWindow` by uplink data
   * rate); the group as a whole unless given.
   */
  readonly dataRate?: number | undefined;
}

const groups: readonly RegionGroup[] = [
  'dataRates',
  'payloads',
  'repeater',
  'channels',
  'power',
  'firstWindow',
  'secondWindow',
  'joinRequest',
  'delays',
  'dwell',
  'defaults',
];

/**
 * Where the rows of a region come from, and how far that was confirmed. Rows of one table can differ: part of it was read in the document,
 * part taken from MAC stacks.
 *
 * @returns the citation that covers the row; one of status `memory` where the region names none, so that nothing can rest on it
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source `region.sources` and the citations of its rows
 * @example
 * ```ts
 * import { citationOf, regions } from '@finial/lora';
 *
 * const payload = { region: regions.US915, group: 'payloads' } as const;
 * citationOf({ ...payload, dataRate: 0 }).status; // → 'stack'
 * citationOf({ ...payload, dataRate: 1 }).document; // → 'RP001 table 16 (DR1 to DR4, DR8 to DR13)'
 * ```
 */
export function citationOf(rows: CitedRows): Citation {
  checkObject(rows, 'rows');
  const region = checkedRegion(rows.region);
  const group = checkOneOf(rows.group, 'group', groups);
  const { dataRate } = rows;
  if (dataRate !== undefined) checkedDataRate(dataRate, 'dataRate');
  return citationOfRow(region, group, dataRate);
}

/** The same for a region that was looked at before. */
export function citationOfRow(region: Region, group: RegionGroup, dataRate?: number): Citation {
  return (
    ownCitation(region, group, dataRate) ??
    region.sources[group]?.[0] ?? {
      document: region.name,
      edition: 'edition not recorded',
      status: 'memory',
    }
  );
}

function ownCitation(region: Region, group: RegionGroup, dataRate: number | undefined): Citation | undefined {
  if (dataRate === undefined) return undefined;
  if (group === 'firstWindow') return region.firstWindow.citations?.[dataRate];
  const citations = dataRateRow(region, dataRate)?.citations;
  if (group === 'dataRates') return citations?.modulation;
  return group === 'payloads' ? citations?.payload : undefined;
}
