import type { DataRate } from './Region.js';

/** LoRaWAN keys 50 kbit/s with a deviation of 25 kHz to either side (from memory). */
const fskDeviationHz = 25e3;

/** Bandwidth of a data rate in hertz, as the law is asked about it: of keying what Carson's rule gives, of LR-FHSS the channel that is hopped in. */
export function nominalBandwidthHz(row: DataRate): number {
  switch (row.modulation) {
    case 'LoRa':
      return row.bandwidthHz;
    case 'FSK':
      return row.bitRateBps + 2 * fskDeviationHz;
    case 'LR-FHSS':
      return row.channelWidthHz;
  }
}
