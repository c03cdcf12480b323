import type { FskDataRate, LoRaDataRate } from '../Region.js';
import { loraRows } from './loraRows.js';

// Rows that the dynamic plans without a dwell time share. Their payloads are no limits of airtime: SF12 with 59 bytes lasts 2.8 s.

/** DR0 to DR5 at 125 kHz. */
export const narrowRows: readonly LoRaDataRate[] = /* @__PURE__ */ loraRows(
  { direction: 'both', bandwidthHz: 125e3 },
  [
    // DR, SF, M
    [0, 12, 59],
    [1, 11, 59],
    [2, 10, 59],
    [3, 9, 123],
    [4, 8, 250],
    [5, 7, 250],
  ],
);

/** DR6 at 250 kHz. */
export const row250kHz: readonly LoRaDataRate[] = /* @__PURE__ */ loraRows(
  { direction: 'both', bandwidthHz: 250e3 },
  [[6, 7, 250]],
);

/** DR7: frequency-shift keying. */
export const fskRow: FskDataRate = {
  dataRate: 7,
  direction: 'both',
  modulation: 'FSK',
  bitRateBps: 50e3,
  macPayloadBytes: 250,
};

/** RX1 data rates by uplink data rate, then by RX1DROffset 0 to 5: the uplink's less the offset, not below DR0. */
export const firstWindowRows: Readonly<Record<number, readonly number[]>> = {
  0: [0, 0, 0, 0, 0, 0],
  1: [1, 0, 0, 0, 0, 0],
  2: [2, 1, 0, 0, 0, 0],
  3: [3, 2, 1, 0, 0, 0],
  4: [4, 3, 2, 1, 0, 0],
  5: [5, 4, 3, 2, 1, 0],
  6: [6, 5, 4, 3, 2, 1],
  7: [7, 6, 5, 4, 3, 2],
};
