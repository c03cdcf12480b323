/** A place on the WGS84 ellipsoid, as a GPS receiver tells it. */
export interface Position {
  /** Latitude in degrees, -90 to 90, north positive. */
  readonly latitudeDeg: number;
  /** Longitude in degrees, -180 to 180, east positive. */
  readonly longitudeDeg: number;
}

/**
 * One frame that the node sent during a walk, received by the gateway or missed.
 *
 * A missed frame is an observation too: it has `received: false` and neither RSSI nor SNR. Dropping the missed ones makes
 * any coverage look better than it is. One list of observations belongs to one gateway.
 */
export interface Observation extends Position {
  /** True if the gateway received the frame, false if the frame was sent and missed. */
  readonly received: boolean;
  /** When the frame was sent: ISO 8601 in UTC, such as `2024-07-24T05:43:12Z`. */
  readonly timeUtc?: string | undefined;
  /** Name of the spot where several frames were sent from one place. */
  readonly spot?: string | undefined;
  /** Frame counter, a whole number from 0 to 4294967295. */
  readonly counter?: number | undefined;
  /** LoRa spreading factor, 5 to 12. */
  readonly spreadingFactor?: number | undefined;
  /** Bandwidth in hertz, 7.8e3 to 1.625e6. */
  readonly bandwidthHz?: number | undefined;
  /** Carrier frequency in hertz, 100e6 to 3e9. */
  readonly frequencyHz?: number | undefined;
  /** Packet RSSI at the gateway in dBm, -250 to 20: the power of signal and noise together. */
  readonly rssiDbm?: number | undefined;
  /** Signal-to-noise ratio at the gateway in dB, -60 to 60. */
  readonly snrDb?: number | undefined;
  /** Power at the node's antenna connector in dBm, -60 to 60. */
  readonly conductedPowerDbm?: number | undefined;
  /** Distance over ground to the gateway in metres, 0 to 20.1e6. */
  readonly distanceM?: number | undefined;
  /** Line of the source where the row (or the GeoJSON feature) begins, counted from 1. */
  readonly line?: number | undefined;
}
