import type { Citation } from '../Citation.js';
import type { LoRaDataRate } from '../Region.js';

const fromMemory: Citation = {
  document: 'RP002 DR12 and DR13 are SF6 and SF5 at 125 kHz',
  edition: '1.0.5',
  status: 'memory',
};

/** DR12 and DR13 as RP002-1.0.5 adds them: that they exist was read, what modulation they are was not. */
export function sf6AndSf5(payload: Citation, dwellMacPayloadBytes?: number): LoRaDataRate[] {
  return [6, 5].map((spreadingFactor) => ({
    dataRate: 18 - spreadingFactor,
    direction: 'both',
    modulation: 'LoRa',
    spreadingFactor,
    bandwidthHz: 125e3,
    macPayloadBytes: 250,
    dwellMacPayloadBytes,
    citations: { modulation: fromMemory, payload },
  }));
}
