import { checkObject, checkRange, frequencyHints, type RangeBounds } from '@finial/units';
import { type BandPlace, placeInBandPlan } from './law/bandPlan.js';
import { checkedJurisdiction } from './law/jurisdictions.js';
import type { JurisdictionName } from './Transmission.js';

/** A channel whose law is asked. */
export interface Channel {
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** Centre frequency in hertz, 100 MHz to 3 GHz. */
  readonly frequencyHz: number;
  /** Occupied bandwidth in hertz, 0 to 10 MHz; 0 asks for the centre alone. */
  readonly bandwidthHz: number;
}

/** Centre frequencies that any band of LoRaWAN can have. */
export const frequencyBounds: RangeBounds = {
  min: 100e6,
  max: 3e9,
  unit: 'hertz',
  hints: frequencyHints,
};

/**
 * The sub-band of the law that holds a channel with its whole bandwidth, or why none does.
 *
 * `not-covered` means that no rule is known here, never that anything goes. `reserved` belongs to others, `across-an-edge` is a
 * channel that reaches out of a sub-band.
 *
 * @returns the place with its sub-band (power, duty cycle, citation); exact to the cited tables
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`
 * @source EN 300 220-2 table B.1 and ERC/REC 70-03 (EU), 47 CFR 15.247 (US) and others; each row carries its citation
 * @example 125 kHz centred on the edge of a sub-band
 * ```ts
 * import { subBandAt } from '@finial/lora';
 *
 * subBandAt({ jurisdiction: 'EU', frequencyHz: 868.6e6, bandwidthHz: 125e3 }).kind; // → 'reserved'
 * subBandAt({ jurisdiction: 'EU', frequencyHz: 868.5e6, bandwidthHz: 125e3 }).kind; // → 'inside'
 * ```
 */
export function subBandAt(channel: Channel): BandPlace {
  checkObject(channel, 'channel');
  const { plan } = checkedJurisdiction(channel.jurisdiction);
  const frequencyHz = checkRange(channel.frequencyHz, 'frequencyHz', frequencyBounds);
  const bandwidthHz = checkRange(channel.bandwidthHz, 'bandwidthHz', { min: 0, max: 10e6, unit: 'hertz' });
  return placeInBandPlan(plan, frequencyHz, bandwidthHz);
}
