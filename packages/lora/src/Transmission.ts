import type { Finding } from '@finial/units';
import type { Direction, Region } from './Region.js';

/** Whose law is asked. */
export type JurisdictionName = 'EU' | 'US';

/**
 * How a node of the 902 to 928 MHz band spreads its 125 kHz uplinks.
 *
 * - `hopping-64`: pseudo-randomly over all 64 channels
 * - `hybrid-8`: pseudo-randomly over the 8 channels of one sub-band
 * - `single`: one fixed channel
 */
export type ChannelUse = 'hopping-64' | 'hybrid-8' | 'single';

/** A LoRaWAN data frame that somebody means to send, and the station that sends it. */
export interface Transmission {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** Which way the frame goes; `uplink` unless given. Downlinks are the gateway's and carry no payload CRC. */
  readonly direction?: Direction | undefined;
  /** Index of a LoRa data rate of the region, 0 to 14. */
  readonly dataRate: number;
  /** Centre frequency in hertz, 100 MHz to 3 GHz; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /** Bytes of the application, 0 to 242, less those of `fOptsBytes`. */
  readonly applicationBytes: number;
  /** Bytes of MAC commands in the header, 0 to 15; 0 unless given. */
  readonly fOptsBytes?: number | undefined;
  /** Power at the output of the transmitter in dBm, -300 to 300. */
  readonly conductedPowerDbm: number;
  /** Loss of cables, connectors and arrestors up to the antenna in dB, 0 to 200. */
  readonly feedlineLossDb: number;
  /** Gain of the antenna in its strongest direction in dBi, -100 to 100. */
  readonly antennaGainDbi: number;
  /** Interval in seconds between the starts of such frames, above 0 to 1e9, if it is known: then it is checked too. */
  readonly intervalSeconds?: number | undefined;
  /** How the node spreads its 125 kHz uplinks, in the United States; `hopping-64` unless given, and then a note says so. */
  readonly channelUse?: ChannelUse | undefined;
}

/** A change that removes a finding: spread it over the transmission. */
export type TransmissionChange = Partial<
  Pick<
    Transmission,
    'conductedPowerDbm' | 'applicationBytes' | 'dataRate' | 'frequencyHz' | 'intervalSeconds' | 'channelUse'
  >
>;

/** A finding about a transmission, with the changes that would remove it. */
export interface TransmissionFinding extends Finding {
  /** Each of these alone removes this finding (others may remain, or follow from it); empty where none is known. */
  readonly remedies: readonly TransmissionChange[];
}
