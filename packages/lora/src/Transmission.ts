import type { Finding } from '@finial/units';
import type { Direction, Region } from './Region.js';

/**
 * Whose law is asked: European Union and CEPT, United States, Australia, Japan, India, Korea, China.
 *
 * Russia is not among them: the sources at hand contradict each other on its sub-bands and duty cycles.
 */
export type JurisdictionName = 'EU' | 'US' | 'AU' | 'JP' | 'IN' | 'KR' | 'CN';

/** Channels that a node takes in turn, when they are not those of a whole LoRaWAN plan. */
export interface ChannelSet {
  /**
   * As what the equipment was authorised in the United States: frequency `hopping`, or `hybrid` of hopping and digital modulation.
   */
  readonly system: 'hopping' | 'hybrid';
  /** Channels that are used equally and in pseudo-random order, 2 to 1000. */
  readonly channelCount: number;
}

/**
 * How a node of the 902 to 928 MHz band spreads its narrow uplinks.
 *
 * - `hopping-64`: pseudo-randomly over all 64 channels
 * - `hybrid-8`: pseudo-randomly over the 8 channels of one sub-band
 * - `single`: one fixed channel
 * - a {@link ChannelSet} for any other number of channels
 */
export type ChannelUse = 'hopping-64' | 'hybrid-8' | 'single' | ChannelSet;

/**
 * How a station shares its channel with others, where the law leaves the choice: by keeping a share of the time (`duty-cycle`) or by
 * listening first and sending only when the channel is free (`listen-before-talk`, in Europe 'polite spectrum access').
 */
export type Access = 'duty-cycle' | 'listen-before-talk';

/** A LoRaWAN data frame that somebody means to send, and the station that sends it. */
export interface Transmission {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** Which way the frame goes; `uplink` unless given. Downlinks are the gateway's and carry no payload CRC. */
  readonly direction?: Direction | undefined;
  /** Index of a data rate of the region, 0 to 14. */
  readonly dataRate: number;
  /** Centre frequency in hertz, 100 MHz to 3 GHz; 868.1 MHz is `868.1e6`. Of LR-FHSS it is the centre of the channel that is hopped in. */
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
  /** Interval in seconds between the starts of such frames, 1e-3 to 1e9, if it is known: then it is checked too. */
  readonly intervalSeconds?: number | undefined;
  /** How a node spreads its narrow uplinks, in the United States and Australia; `hopping-64` unless given, and then a note says so. */
  readonly channelUse?: ChannelUse | undefined;
  /**
   * How the station shares its channel; the usual way of the jurisdiction unless given: `listen-before-talk` in Japan and Korea, else
   * `duty-cycle`. Without effect where the law knows neither.
   */
  readonly access?: Access | undefined;
  /** Whether the dwell time of uplinks is limited (UplinkDwellTime), for the payload table; unless given, only where the plan always does. */
  readonly dwellLimited?: boolean | undefined;
  /** Whether the frame may pass a repeater, which needs room for its own bytes, for the payload table; false unless given. */
  readonly repeater?: boolean | undefined;
}

/** A change that removes a finding: spread it over the transmission. */
export type TransmissionChange = Partial<
  Pick<
    Transmission,
    | 'conductedPowerDbm'
    | 'applicationBytes'
    | 'dataRate'
    | 'frequencyHz'
    | 'intervalSeconds'
    | 'channelUse'
    | 'access'
  >
>;

/** A finding about a transmission, with the changes that would remove it. */
export interface TransmissionFinding extends Finding {
  /** Each of these alone removes this finding (others may remain, or follow from it); empty where none is known. */
  readonly remedies: readonly TransmissionChange[];
}
