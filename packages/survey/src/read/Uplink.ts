import { type FieldRules, observationFields } from '../observationFields.js';

/** One frame that a gateway received, before anyone knows where the node was. */
export interface Uplink {
  /** When the gateway received it: ISO 8601 in UTC. */
  readonly timeUtc: string;
  /** Frame counter as sent, 0 to 4294967295. Without it missed frames cannot be inferred. */
  readonly counter?: number | undefined;
  /** Name or address of the node. */
  readonly device?: string | undefined;
  /** Name of the gateway. */
  readonly gateway?: string | undefined;
  /** Name of the modulation or data rate, such as `DR0`. */
  readonly dataRate?: string | undefined;
  /** LoRa spreading factor, 5 to 12. */
  readonly spreadingFactor?: number | undefined;
  /** Bandwidth in hertz, 7.8e3 to 1.625e6. */
  readonly bandwidthHz?: number | undefined;
  /** Carrier frequency in hertz, 100e6 to 3e9. */
  readonly frequencyHz?: number | undefined;
  /** Packet RSSI at the gateway in dBm, -250 to 20. */
  readonly rssiDbm?: number | undefined;
  /** Signal-to-noise ratio at the gateway in dB, -60 to 60. */
  readonly snrDb?: number | undefined;
  /** Line of the source where the record begins, counted from 1. */
  readonly line?: number | undefined;
}

/** How the fields of an uplink are read. */
export const uplinkFields: FieldRules = {
  timeUtc: observationFields.timeUtc,
  counter: observationFields.counter,
  device: { kind: 'text' },
  gateway: { kind: 'text' },
  dataRate: { kind: 'text' },
  spreadingFactor: observationFields.spreadingFactor,
  bandwidthHz: observationFields.bandwidthHz,
  frequencyHz: observationFields.frequencyHz,
  rssiDbm: observationFields.rssiDbm,
  snrDb: observationFields.snrDb,
};
