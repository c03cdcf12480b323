import type { Direction, LoRaDataRate } from '../Region.js';

/** What the rows of one table have in common. */
export interface CommonOfRows {
  readonly direction: Direction | 'both';
  readonly bandwidthHz: number;
}

/** A row as the regional parameters print it: data rate, spreading factor, M, and M under the dwell limit where there is one. */
export type PrintedRow =
  | readonly [dataRate: number, spreadingFactor: number, macPayloadBytes: number]
  | readonly [
      dataRate: number,
      spreadingFactor: number,
      macPayloadBytes: number,
      dwellMacPayloadBytes: number | null,
    ];

/** The rows of a printed table of LoRa data rates. */
export function loraRows(common: CommonOfRows, table: readonly PrintedRow[]): LoRaDataRate[] {
  return table.map(([dataRate, spreadingFactor, macPayloadBytes, dwellMacPayloadBytes]) => ({
    dataRate,
    ...common,
    modulation: 'LoRa',
    spreadingFactor,
    macPayloadBytes,
    dwellMacPayloadBytes,
  }));
}
