import type { Citation } from '../Citation.js';
import type { Region } from '../Region.js';

const stacks: Citation = {
  document: 'EU868 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** LR-FHSS rows are in one of the two stacks only. */
const hoppingStack: Citation = {
  document: 'EU868 region tables of the MAC stack SWL2001 9a14f67, LR-FHSS rows',
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
 * EU863-870, the plan of Europe and of many countries that follow its rules.
 *
 * RP002-1.0.5 adds DR12 and DR13; their modulation is known from memory only, so they are left out.
 *
 * @source RP001 1.0.3revA and RP002-1.0.4 in part; MAC stack sources for the rest: `sources` says which rows come from where
 */
export const EU868: Region = {
  name: 'EU868',
  plan: 'dynamic',
  minHz: 863e6,
  maxHz: 870e6,
  dataRates: [
    {
      dataRate: 0,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 12,
      bandwidthHz: 125e3,
      macPayloadBytes: 59,
    },
    {
      dataRate: 1,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 11,
      bandwidthHz: 125e3,
      macPayloadBytes: 59,
    },
    {
      dataRate: 2,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 10,
      bandwidthHz: 125e3,
      macPayloadBytes: 59,
    },
    {
      dataRate: 3,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 9,
      bandwidthHz: 125e3,
      macPayloadBytes: 123,
    },
    {
      dataRate: 4,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 8,
      bandwidthHz: 125e3,
      macPayloadBytes: 250,
    },
    {
      dataRate: 5,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 7,
      bandwidthHz: 125e3,
      macPayloadBytes: 250,
    },
    {
      dataRate: 6,
      direction: 'both',
      modulation: 'LoRa',
      spreadingFactor: 7,
      bandwidthHz: 250e3,
      macPayloadBytes: 250,
    },
    { dataRate: 7, direction: 'both', modulation: 'FSK', bitRateBps: 50e3, macPayloadBytes: 250 },
    {
      dataRate: 8,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '1/3',
      channelWidthHz: 137e3,
      macPayloadBytes: 58,
    },
    {
      dataRate: 9,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '2/3',
      channelWidthHz: 137e3,
      macPayloadBytes: 123,
    },
    {
      dataRate: 10,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '1/3',
      channelWidthHz: 336e3,
      macPayloadBytes: 58,
    },
    {
      dataRate: 11,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '2/3',
      channelWidthHz: 336e3,
      macPayloadBytes: 123,
    },
  ],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'both',
      firstHz: 868.1e6,
      stepHz: 200e3,
      channelCount: 3,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
  ],
  power: { quantity: 'EIRP', txPowersDbm: [16, 14, 12, 10, 8, 6, 4, 2] },
  firstWindow: {
    channel: 'same',
    dataRates: {
      0: [0, 0, 0, 0, 0, 0],
      1: [1, 0, 0, 0, 0, 0],
      2: [2, 1, 0, 0, 0, 0],
      3: [3, 2, 1, 0, 0, 0],
      4: [4, 3, 2, 1, 0, 0],
      5: [5, 4, 3, 2, 1, 0],
      6: [6, 5, 4, 3, 2, 1],
      7: [7, 6, 5, 4, 3, 2],
      8: [1, 0, 0, 0, 0, 0],
      9: [2, 1, 0, 0, 0, 0],
      10: [1, 0, 0, 0, 0, 0],
      11: [2, 1, 0, 0, 0, 0],
    },
  },
  secondWindow: { frequencyHz: 869.525e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: { receive1Seconds: 1, receive2Seconds: 2, joinAccept1Seconds: 5, joinAccept2Seconds: 6 },
  sources: {
    dataRates: [stacks, hoppingStack],
    payloads: [stacks, hoppingStack, repeaterTable],
    channels: [{ document: 'RP001 table 3', edition: '1.0.3revA, 2018', status: 'read' }],
    power: [{ document: 'RP001 table 6', edition: '1.0.3revA, 2018', status: 'read' }],
    firstWindow: [
      {
        document: 'EU868 offset table of the MAC stack SWL2001 9a14f67',
        edition: 'commit 9a14f67',
        status: 'stack',
      },
    ],
    secondWindow: [stacks],
    joinRequest: [
      {
        document: 'RP001 table 3 (DR0 to DR5 on the default channels)',
        edition: '1.0.3revA, 2018',
        status: 'read',
      },
    ],
    delays: [defaultDelays],
    dwell: [stacks],
  },
};
