import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { downlinkChannels500kHz, downlinkRows500kHz } from '../planRows/downlinkRows500kHz.js';
import { loraRows } from '../planRows/loraRows.js';
import type { LrFhssDataRate, Region } from '../Region.js';

const stacks: Citation = {
  document: 'US915 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** LR-FHSS rows are in one of the two stacks only. */
const hoppingStack: Citation = {
  document: 'US915 region tables of the MAC stack SWL2001 9a14f67, LR-FHSS rows and channels',
  edition: 'commit 9a14f67',
  status: 'stack',
};

/** What the LR-FHSS rows have in common. */
const hopping: Pick<LrFhssDataRate, 'direction' | 'modulation' | 'channelWidthHz' | 'citations'> = {
  direction: 'uplink',
  modulation: 'LR-FHSS',
  channelWidthHz: 1523e3,
  citations: { modulation: hoppingStack, payload: hoppingStack },
};

/**
 * US902-928, the plan of the United States, Canada and others that follow 47 CFR part 15.
 *
 * DR4 and DR12 are the same modulation, one for uplinks, one for downlinks. RP002-1.0.0 and 1.0.1 allowed MACPayloads of 137 and 134
 * bytes on DR2, which last longer than 400 ms; the 133 here are of later editions.
 *
 * @source RP001 1.0.3revA, tables 16 to 18; MAC stack sources for the rest: `sources` says which rows come from where
 */
export const US915: Region = {
  name: 'US915',
  plan: 'fixed',
  minHz: 902e6,
  maxHz: 928e6,
  dataRates: [
    {
      dataRate: 0,
      direction: 'uplink',
      modulation: 'LoRa',
      spreadingFactor: 10,
      bandwidthHz: 125e3,
      macPayloadBytes: 19,
      dwellMacPayloadBytes: 19,
      citations: { payload: stacks },
    },
    ...loraRows({ direction: 'uplink', bandwidthHz: 125e3 }, [
      // DR, SF, M, M under the dwell limit, which always holds
      [1, 9, 61, 61],
      [2, 8, 133, 133],
      [3, 7, 250, 250],
    ]),
    ...loraRows({ direction: 'uplink', bandwidthHz: 500e3 }, [[4, 8, 250, 250]]),
    { ...hopping, dataRate: 5, codeRate: '1/3', macPayloadBytes: 58, dwellMacPayloadBytes: 58 },
    { ...hopping, dataRate: 6, codeRate: '2/3', macPayloadBytes: 133, dwellMacPayloadBytes: 133 },
    ...downlinkRows500kHz,
  ],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'uplink',
      firstHz: 902.3e6,
      stepHz: 200e3,
      channelCount: 64,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 3,
    },
    {
      direction: 'uplink',
      firstHz: 903e6,
      stepHz: 1.6e6,
      channelCount: 8,
      bandwidthHz: 500e3,
      minDataRate: 4,
      maxDataRate: 4,
    },
    downlinkChannels500kHz,
    // LR-FHSS around the centres of the wide channels.
    {
      direction: 'uplink',
      firstHz: 903e6,
      stepHz: 1.6e6,
      channelCount: 8,
      bandwidthHz: 1523e3,
      minDataRate: 5,
      maxDataRate: 6,
      citation: hoppingStack,
    },
  ],
  power: { quantity: 'conducted', txPowersDbm: [30, 28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2] },
  firstWindow: {
    channel: 'modulo-8',
    dataRates: {
      0: [10, 9, 8, 8],
      1: [11, 10, 9, 8],
      2: [12, 11, 10, 9],
      3: [13, 12, 11, 10],
      4: [13, 13, 12, 11],
      5: [10, 9, 8, 8],
      6: [11, 10, 9, 8],
    },
    citations: { 5: hoppingStack, 6: hoppingStack },
  },
  secondWindow: { frequencyHz: 923.3e6, dataRate: 8 },
  joinRequestDataRates: [0, 4],
  delays: defaultDelays,
  defaults: { ...defaultSettings, uplinkDwellLimited: true },
  dwell: { dwellSeconds: 0.4, bandwidthHz: 125e3, when: 'always' },
  sources: {
    dataRates: [stacks, hoppingStack],
    payloads: [
      { document: 'RP001 table 16 (DR1 to DR4, DR8 to DR13)', edition: '1.0.3revA, 2018', status: 'read' },
      stacks,
      hoppingStack,
    ],
    repeater: [repeaterTable],
    channels: [stacks],
    power: [stacks],
    firstWindow: [
      {
        document: 'RP001 section 2.3.7: channel modulo 8, RX1 table for DR0 to DR4',
        edition: '1.0.3revA, 2018',
        status: 'read',
      },
      hoppingStack,
    ],
    secondWindow: [stacks],
    joinRequest: [
      {
        document: 'US915 join sequence of the MAC stack LoRaMac-node: eight times DR0, then DR4',
        edition: '4.4 and later',
        status: 'stack',
      },
    ],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters, stacks],
  },
};
