import type { Direction, LoRaDataRate } from './Region.js';
import type { Frame } from './timeOnAir.js';

/** The LoRa settings of a LoRaWAN data frame: coding rate 4/5, eight preamble symbols, payload CRC on uplinks only. */
export function loraFrame(row: LoRaDataRate, direction: Direction, payloadBytes: number): Frame {
  return {
    spreadingFactor: row.spreadingFactor,
    bandwidthHz: row.bandwidthHz,
    codingRate: 5,
    payloadBytes,
    crc: direction === 'uplink',
  };
}
