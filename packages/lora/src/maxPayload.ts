import { checkObject, checkOneOf } from '@finial/units';
import { checkedDataRate, checkedDirection, checkedRegion, dataRateRow, serves } from './checkedRegion.js';
import type { DataRate, Direction, Region } from './Region.js';

/** Which payload limit is wanted. */
export interface PayloadQuestion {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Index of the data rate, 0 to 14. */
  readonly dataRate: number;
  /** Which way the frame goes. */
  readonly direction: Direction;
  /** Whether the dwell time is limited (UplinkDwellTime); false unless given. Where the plan limits it always, both tables are one. */
  readonly dwellLimited?: boolean | undefined;
  /** Whether frames may pass a repeater, which needs room for its own bytes; false unless given. */
  readonly repeater?: boolean | undefined;
}

/** The largest payload of a data rate, or why there is none. */
export type MaxPayload =
  | {
      /** Whether the data rate can be used. */
      readonly available: true;
      /** Largest MACPayload (M) in bytes. */
      readonly macPayloadBytes: number;
      /** Largest application payload (N) in bytes with no MAC commands in the header; FOpts takes its bytes from it one by one. */
      readonly applicationBytes: number;
    }
  | {
      /** Whether the data rate can be used. */
      readonly available: false;
      /** Why the data rate cannot be used, in words. */
      readonly reason: string;
    };

/** FHDR without FOpts 7 bytes, FPort 1. */
const headerBytes = 8;

/**
 * Largest payload that the regional parameters allow on a data rate.
 *
 * The tables are the plan's, not the law's: without a dwell limit they are shorter than the radio allows, and a duty cycle may
 * still make long frames rare. Editions differ; `citationOf` says which one is here.
 *
 * @returns the limits in bytes, exact to the cited tables, or the reason why the data rate cannot be used
 * @throws {@link InputError} `wrong-type` (no region), `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source LoRaWAN regional parameters, payload tables of each plan, see `citationOf`
 * @example
 * ```ts
 * import { maxPayload, regions } from '@finial/lora';
 *
 * maxPayload({ region: regions.EU868, dataRate: 0, direction: 'uplink' });
 * // → { available: true, macPayloadBytes: 59, applicationBytes: 51 }
 * ```
 */
export function maxPayload(question: PayloadQuestion): MaxPayload {
  checkObject(question, 'question');
  const region = checkedRegion(question.region);
  const dataRate = checkedDataRate(question.dataRate, 'dataRate');
  const direction = checkedDirection(question.direction);
  const { dwellLimited = false, repeater = false } = question;
  checkOneOf(dwellLimited, 'dwellLimited', [true, false]);
  checkOneOf(repeater, 'repeater', [true, false]);

  const row = dataRateRow(region, dataRate);
  if (row === undefined) {
    const reason = region.unusableDataRates?.[dataRate];
    if (reason !== undefined) return unavailable(`DR${dataRate} of ${region.name} cannot be used: ${reason}`);
    return unavailable(`DR${dataRate} of ${region.name} is reserved for future use`);
  }
  if (!serves(row, direction))
    return unavailable(`DR${dataRate} of ${region.name} is for ${row.direction}s only`);
  const macPayloadBytes = dwellLimited ? dwellLimit(row, direction) : row.macPayloadBytes;
  if (macPayloadBytes === undefined)
    return unavailable(`${region.name} has no table for a limited dwell time`);
  if (macPayloadBytes === null) {
    return unavailable(`DR${dataRate} of ${region.name} cannot be used while the dwell time is limited`);
  }
  const limited = repeater ? Math.min(macPayloadBytes, region.repeaterMacPayloadBytes) : macPayloadBytes;
  return { available: true, macPayloadBytes: limited, applicationBytes: limited - headerBytes };
}

/** Nodes accept downlinks of the table without a dwell limit, whatever DownlinkDwellTime says (RP002-1.0.5, page 80). */
function dwellLimit(row: DataRate, direction: Direction): number | null | undefined {
  return direction === 'uplink' ? row.dwellMacPayloadBytes : row.macPayloadBytes;
}

function unavailable(reason: string): MaxPayload {
  return { available: false, reason };
}
