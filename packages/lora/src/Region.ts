import type { Citation } from './Citation.js';

/** Which way a frame goes: from the node (`uplink`) or from the gateway (`downlink`). */
export type Direction = 'uplink' | 'downlink';

/** What every row of a data-rate table has. */
export interface DataRateRow {
  /** Index of the data rate, DR0 to DR14. */
  readonly dataRate: number;
  /** Which frames may use it. */
  readonly direction: Direction | 'both';
  /** Largest MACPayload (M) in bytes; 8 more than the application bytes when FOpts is empty. */
  readonly macPayloadBytes: number;
  /**
   * Largest MACPayload in bytes while the dwell time is limited: null where the data rate may then not be used. Left out where the plan
   * has no such table.
   */
  readonly dwellMacPayloadBytes?: number | null | undefined;
}

/** A data rate of LoRa modulation. LoRaWAN always codes 4/5. */
export interface LoRaDataRate extends DataRateRow {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'LoRa';
  /** Spreading factor, 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz. */
  readonly bandwidthHz: number;
}

/** A data rate of frequency-shift keying. */
export interface FskDataRate extends DataRateRow {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'FSK';
  /** Rate on the air in bits per second. */
  readonly bitRateBps: number;
}

/** A data rate of long-range frequency hopping. */
export interface LrFhssDataRate extends DataRateRow {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'LR-FHSS';
  /** Rate of the convolutional code. */
  readonly codeRate: '1/3' | '2/3';
  /** Width of the channel that the frame hops in, in hertz, rounded to the kilohertz as the tables print it. */
  readonly channelWidthHz: number;
}

/** One row of a plan's data-rate table. */
export type DataRate = LoRaDataRate | FskDataRate | LrFhssDataRate;

/** Evenly spaced channels of one bandwidth. */
export interface ChannelGroup {
  /** Which frames use them. */
  readonly direction: Direction | 'both';
  /** Centre of the first channel in hertz. */
  readonly firstHz: number;
  /** Distance to the next centre in hertz. */
  readonly stepHz: number;
  /** How many channels there are. */
  readonly channelCount: number;
  /** Bandwidth of each in hertz. */
  readonly bandwidthHz: number;
  /** Lowest data rate on them. */
  readonly minDataRate: number;
  /** Highest data rate on them. */
  readonly maxDataRate: number;
}

/** Transmit power of nodes. Law may set another limit, see `checkTransmission`. */
export interface RegionPower {
  /** What the figures mean: radiated (`EIRP`) or at the transmitter's port (`conducted`). */
  readonly quantity: 'EIRP' | 'conducted';
  /** Power of each TXPower index in dBm; the first is the plan's default maximum. */
  readonly txPowersDbm: readonly number[];
}

/** A limit on the time one uplink may last. */
export interface RegionDwell {
  /** Longest uplink in seconds. */
  readonly dwellSeconds: number;
  /** Bandwidth in hertz of the uplinks it binds. */
  readonly bandwidthHz: number;
  /** Whether it binds always, or when the network says so (UplinkDwellTime). */
  readonly when: 'always' | 'commanded';
}

/** The first receive window. */
export interface FirstWindow {
  /** Data rate of the window by uplink data rate, then by RX1DROffset from 0. */
  readonly dataRates: Readonly<Record<number, readonly number[]>>;
  /** Its channel: that of the uplink, or the downlink channel of the uplink channel's number modulo 8. */
  readonly channel: 'same' | 'modulo-8';
}

/** The second receive window before the network changes it. */
export interface SecondWindow {
  /** Centre frequency in hertz. */
  readonly frequencyHz: number;
  /** Data rate index. */
  readonly dataRate: number;
}

/** Delays from the end of the uplink to the start of each window, in seconds. */
export interface ReceiveDelays {
  /** RECEIVE_DELAY1. */
  readonly receive1Seconds: number;
  /** RECEIVE_DELAY2. */
  readonly receive2Seconds: number;
  /** JOIN_ACCEPT_DELAY1. */
  readonly joinAccept1Seconds: number;
  /** JOIN_ACCEPT_DELAY2. */
  readonly joinAccept2Seconds: number;
}

/** The groups of rows of a {@link Region}, for its sources. */
export type RegionGroup =
  | 'dataRates'
  | 'payloads'
  | 'channels'
  | 'power'
  | 'firstWindow'
  | 'secondWindow'
  | 'joinRequest'
  | 'delays'
  | 'dwell';

/** The LoRaWAN regional parameters of one channel plan: what devices agree on, apart from the law of the country. */
export interface Region {
  /** Common name of the plan, such as `EU868`. */
  readonly name: string;
  /** Whether the network hands out frequencies (`dynamic`) or the channels are fixed. */
  readonly plan: 'dynamic' | 'fixed';
  /** Lower edge of the band in hertz. */
  readonly minHz: number;
  /** Upper edge of the band in hertz. */
  readonly maxHz: number;
  /** Data rates with their largest payloads. An index that is missing is reserved for future use. */
  readonly dataRates: readonly DataRate[];
  /** Largest MACPayload in bytes where a repeater must fit its own bytes in; smaller rows stay as they are. */
  readonly repeaterMacPayloadBytes: number;
  /** Default channels of a dynamic plan, all channels of a fixed one. */
  readonly channels: readonly ChannelGroup[];
  /** Transmit power of nodes. */
  readonly power: RegionPower;
  /** First receive window (RX1). */
  readonly firstWindow: FirstWindow;
  /** Second receive window (RX2). */
  readonly secondWindow: SecondWindow;
  /** Data rates of join requests. */
  readonly joinRequestDataRates: readonly number[];
  /** Delays of the receive windows. */
  readonly delays: ReceiveDelays;
  /** Limit on the duration of uplinks; left out where the plan has none. */
  readonly dwell?: RegionDwell | undefined;
  /** Where each group of rows comes from; the first citation is the one that findings carry. */
  readonly sources: Readonly<Record<RegionGroup, readonly Citation[]>>;
}
