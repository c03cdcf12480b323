import type { Citation } from '../Citation.js';
import type { Region } from '../Region.js';

const stacks: Citation = {
  document: 'US915 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** LR-FHSS rows are in one of the two stacks only. */
const hoppingStack: Citation = {
  document: 'US915 region tables of the MAC stack SWL2001 9a14f67, LR-FHSS rows',
  edition: 'commit 9a14f67',
  status: 'stack',
};

const repeaterTable: Citation = {
  document: 'Repeater table of the MAC library brocaar/lorawan a18a103',
  edition: 'labelled RP002-1.0.3',
  status: 'stack',
};

const defaultDelays: Citation = {
  document: 'RP002 section 3, default parameters (page 28, read in part; MAC stacks agree)',
  edition: '1.0.4',
  status: 'read',
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
    },
    {
      dataRate: 1,
      direction: 'uplink',
      modulation: 'LoRa',
      spreadingFactor: 9,
      bandwidthHz: 125e3,
      macPayloadBytes: 61,
      dwellMacPayloadBytes: 61,
    },
    {
      dataRate: 2,
      direction: 'uplink',
      modulation: 'LoRa',
      spreadingFactor: 8,
      bandwidthHz: 125e3,
      macPayloadBytes: 133,
      dwellMacPayloadBytes: 133,
    },
    {
      dataRate: 3,
      direction: 'uplink',
      modulation: 'LoRa',
      spreadingFactor: 7,
      bandwidthHz: 125e3,
      macPayloadBytes: 250,
      dwellMacPayloadBytes: 250,
    },
    {
      dataRate: 4,
      direction: 'uplink',
      modulation: 'LoRa',
      spreadingFactor: 8,
      bandwidthHz: 500e3,
      macPayloadBytes: 250,
      dwellMacPayloadBytes: 250,
    },
    {
      dataRate: 5,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '1/3',
      channelWidthHz: 1523e3,
      macPayloadBytes: 58,
      dwellMacPayloadBytes: 58,
    },
    {
      dataRate: 6,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '2/3',
      channelWidthHz: 1523e3,
      macPayloadBytes: 133,
      dwellMacPayloadBytes: 133,
    },
    {
      dataRate: 8,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 12,
      bandwidthHz: 500e3,
      macPayloadBytes: 61,
    },
    {
      dataRate: 9,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 11,
      bandwidthHz: 500e3,
      macPayloadBytes: 137,
    },
    {
      dataRate: 10,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 10,
      bandwidthHz: 500e3,
      macPayloadBytes: 250,
    },
    {
      dataRate: 11,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 9,
      bandwidthHz: 500e3,
      macPayloadBytes: 250,
    },
    {
      dataRate: 12,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 8,
      bandwidthHz: 500e3,
      macPayloadBytes: 250,
    },
    {
      dataRate: 13,
      direction: 'downlink',
      modulation: 'LoRa',
      spreadingFactor: 7,
      bandwidthHz: 500e3,
      macPayloadBytes: 250,
    },
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
    {
      direction: 'downlink',
      firstHz: 923.3e6,
      stepHz: 600e3,
      channelCount: 8,
      bandwidthHz: 500e3,
      minDataRate: 8,
      maxDataRate: 13,
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
  },
  secondWindow: { frequencyHz: 923.3e6, dataRate: 8 },
  joinRequestDataRates: [0, 4],
  delays: { receive1Seconds: 1, receive2Seconds: 2, joinAccept1Seconds: 5, joinAccept2Seconds: 6 },
  dwell: { dwellSeconds: 0.4, bandwidthHz: 125e3, when: 'always' },
  sources: {
    dataRates: [stacks, hoppingStack],
    payloads: [
      { document: 'RP001 table 16 (DR1 to DR4, DR8 to DR13)', edition: '1.0.3revA, 2018', status: 'read' },
      stacks,
      hoppingStack,
      repeaterTable,
    ],
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
        document: 'RP002 US902-928 join-request data rates',
        edition: 'edition not recorded',
        status: 'memory',
      },
    ],
    delays: [defaultDelays],
    dwell: [stacks],
  },
};
