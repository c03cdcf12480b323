import type { Citation } from './Citation.js';

/** Which way a frame goes: from the node (`uplink`) or from the gateway (`downlink`). */
export type Direction = 'uplink' | 'downlink';

/** Where the figures of one row come from, where that is not the first citation of their group. */
export interface RowCitations {
  /** The modulation; as `sources.dataRates` unless given. */
  readonly modulation?: Citation | undefined;
  /** The payloads, with and without a dwell limit; as `sources.payloads` unless given. */
  readonly payload?: Citation | undefined;
}

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
  /** Where this row comes from, where it differs from the rest of its group. */
  readonly citations?: RowCitations | undefined;
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
  /** Bandwidth of each in hertz: of LR-FHSS, the width of the channel that a frame hops in. */
  readonly bandwidthHz: number;
  /** Lowest data rate on them. */
  readonly minDataRate: number;
  /** Highest data rate on them. */
  readonly maxDataRate: number;
  /** Where the group comes from, where that is not the first citation of `sources.channels`. */
  readonly citation?: Citation | undefined;
}

/** A channel on which nodes join, and where the network answers. */
export interface JoinChannel {
  /** Centre of the join request in hertz. */
  readonly uplinkHz: number;
  /** Centre of the first receive window in hertz. */
  readonly firstWindowHz: number;
  /** Centre of the second receive window in hertz, for the join accept and for everything after it. */
  readonly secondWindowHz: number;
}

/** One of several sets of channels of a region, of which a network uses one; the channel that a node joined on tells which. */
export interface ChannelPlan {
  /** Name within the region, such as `26 MHz A`. */
  readonly name: string;
  /** Its channels. */
  readonly channels: readonly ChannelGroup[];
  /** The channels that nodes try when they join. */
  readonly joinChannels: readonly JoinChannel[];
  /** Channel of the first receive window. */
  readonly firstWindowChannel: FirstWindow['channel'];
  /** Second receive window of nodes that were activated without joining. */
  readonly secondWindow: SecondWindow;
}

/** Transmit power of nodes. Law may set another limit, see `checkTransmission`. */
export interface RegionPower {
  /** What the figures mean: radiated (`EIRP`) or at the transmitter's port (`conducted`). */
  readonly quantity: 'EIRP' | 'conducted';
  /** Power of each TXPower index in dBm; the first is the plan's default maximum. */
  readonly txPowersDbm: readonly number[];
  /** Parts of the band with a lower maximum; left out where there are none. */
  readonly lowerParts?: readonly LowerPowerPart[] | undefined;
}

/** A part of a band whose nodes must stay below the plan's maximum. */
export interface LowerPowerPart {
  /** Lowest centre frequency in hertz. */
  readonly minHz: number;
  /** Highest centre frequency in hertz. */
  readonly maxHz: number;
  /** Maximum there in dBm, of the quantity of the plan. */
  readonly maximumDbm: number;
}

/** A limit on the time one uplink may last. */
export interface RegionDwell {
  /** Longest uplink in seconds. */
  readonly dwellSeconds: number;
  /** Bandwidth in hertz of the uplinks it binds; left out where it binds all of them. */
  readonly bandwidthHz?: number | undefined;
  /** Whether it binds always, or when the network says so (UplinkDwellTime). */
  readonly when: 'always' | 'commanded';
}

/** The first receive window. */
export interface FirstWindow {
  /** Data rate of the window by uplink data rate, then by RX1DROffset from 0. */
  readonly dataRates: Readonly<Record<number, readonly number[]>>;
  /** The same while the dwell time of downlinks is limited (DownlinkDwellTime); left out where the plan has no such setting. */
  readonly dwellDataRates?: Readonly<Record<number, readonly number[]>> | undefined;
  /**
   * Its channel: that of the uplink, the downlink channel of the same number, or of that number modulo the count of downlink
   * channels. `by-channel-plan`: each channel plan has its own rule.
   */
  readonly channel: 'same' | 'same-number' | 'modulo-8' | 'modulo-24' | 'by-channel-plan';
  /** Where the rows of single uplink data rates come from, where that is not the first citation of the group. */
  readonly citations?: Readonly<Record<number, Citation>> | undefined;
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

/** Settings that nodes start with, besides the delays of the receive windows. */
export interface RegionDefaults extends ReceiveDelays {
  /** ADR_ACK_LIMIT: uplinks without an answer after which a node asks for one. */
  readonly adrAckLimitFrames: number;
  /** ADR_ACK_DELAY: further uplinks after which it takes the next step to be heard. */
  readonly adrAckDelayFrames: number;
  /** RETRANSMIT_TIMEOUT, formerly ACK_TIMEOUT: seconds from the second window to the next try of a confirmed frame, in the middle. */
  readonly retransmitTimeoutSeconds: number;
  /** How far that is spread at random to either side, in seconds. */
  readonly retransmitSpreadSeconds: number;
  /** MAX_FCNT_GAP of LoRaWAN 1.0.x: largest step of a frame counter that is still accepted. */
  readonly maxCounterGapFrames: number;
  /** RX1DROffset. */
  readonly rx1DrOffset: number;
  /** UplinkDwellTime: whether nodes start with uplinks of limited duration. */
  readonly uplinkDwellLimited: boolean;
  /** DownlinkDwellTime: whether nodes start with downlinks of limited duration. */
  readonly downlinkDwellLimited: boolean;
}

/** The groups of rows of a {@link Region}, for its sources. */
export type RegionGroup =
  | 'dataRates'
  | 'payloads'
  | 'repeater'
  | 'channels'
  | 'power'
  | 'firstWindow'
  | 'secondWindow'
  | 'joinRequest'
  | 'delays'
  | 'dwell'
  | 'defaults';

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
  /** Data rates with their largest payloads. An index that is missing here and in the next two is reserved for future use. */
  readonly dataRates: readonly DataRate[];
  /**
   * Data rates of which at least the modulation is known from memory only: they can be asked for by index, and a note says so,
   * but no advice and no receive window rests on them.
   */
  readonly unconfirmedDataRates?: readonly DataRate[] | undefined;
  /** Data rates that the plan lists and nobody may use, by index, each with the reason in words. */
  readonly unusableDataRates?: Readonly<Record<number, string>> | undefined;
  /** Largest MACPayload in bytes where a repeater must fit its own bytes in; smaller rows stay as they are. */
  readonly repeaterMacPayloadBytes: number;
  /** Default channels of a dynamic plan, all channels of a fixed one; of every channel plan where there are several. */
  readonly channels: readonly ChannelGroup[];
  /** The channel plans of a region that has several; `onChannelPlan` narrows the region down to one of them. */
  readonly channelPlans?: readonly ChannelPlan[] | undefined;
  /** Transmit power of nodes. */
  readonly power: RegionPower;
  /** First receive window (RX1). */
  readonly firstWindow: FirstWindow;
  /** Second receive window (RX2); where the region has several channel plans, that of the first one. */
  readonly secondWindow: SecondWindow;
  /** Data rates of join requests. */
  readonly joinRequestDataRates: readonly number[];
  /** Delays of the receive windows. */
  readonly delays: ReceiveDelays;
  /** Settings that nodes start with. */
  readonly defaults: RegionDefaults;
  /** Limit on the duration of uplinks; left out where the plan has none. */
  readonly dwell?: RegionDwell | undefined;
  /**
   * Where each group of rows comes from. The first citation covers every row that does not name its own; `citationOf` finds the one
   * of a row, and findings carry that.
   */
  readonly sources: Readonly<Record<RegionGroup, readonly Citation[]>>;
}
