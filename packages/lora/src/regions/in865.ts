import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { fskRow, narrowRows } from '../planRows/dynamicRows.js';
import { sf6AndSf5 } from '../planRows/sf6AndSf5.js';
import type { ChannelGroup, Region } from '../Region.js';

const stacks: Citation = {
  document: 'IN865 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** The two stacks disagree on DR6: one lists SF7 at 250 kHz there, which the plan reserves. */
const dataRateStack: Citation = {
  document: 'IN865 data rates and RX1 offsets of the MAC stack SWL2001 9a14f67, DR6 reserved',
  edition: 'commit 9a14f67',
  status: 'stack',
};

/** The default channels keep no common distance. */
const channel: Omit<ChannelGroup, 'firstHz'> = {
  direction: 'both',
  stepHz: 0,
  channelCount: 1,
  bandwidthHz: 125e3,
  minDataRate: 0,
  maxDataRate: 5,
};

/**
 * IN865-867, the plan of India.
 *
 * The 29.2 dBm EIRP are of RP002-1.0.5; earlier editions had 30 dBm and TXPower 0 to 10. DR6 is reserved, so that the RX1 table steps over
 * it: RX1DROffset 6 and 7 mean one and two data rates faster, as far as there are any. The payloads of DR12 and DR13 are from memory.
 *
 * @source RP002-1.0.5 tables 93 and 94 for power; MAC stack sources for the rest: `sources` says which rows come from where
 */
export const IN865: Region = {
  name: 'IN865',
  plan: 'dynamic',
  minHz: 865e6,
  maxHz: 867e6,
  dataRates: [...narrowRows, fskRow],
  unconfirmedDataRates: /* @__PURE__ */ sf6AndSf5({
    document: 'RP002 IN865 payloads of DR12 and DR13',
    edition: '1.0.5',
    status: 'memory',
  }),
  repeaterMacPayloadBytes: 230,
  channels: [
    { ...channel, firstHz: 865.0625e6 },
    { ...channel, firstHz: 865.4025e6 },
    { ...channel, firstHz: 865.985e6 },
  ],
  power: {
    quantity: 'EIRP',
    txPowersDbm: [29.2, 27.2, 25.2, 23.2, 21.2, 19.2, 17.2, 15.2, 13.2, 11.2, 9.2, 7.2, 5.2, 3.2, 1.2],
  },
  firstWindow: {
    channel: 'same',
    dataRates: {
      // RX1DROffset 0 to 7
      0: [0, 0, 0, 0, 0, 0, 1, 2],
      1: [1, 0, 0, 0, 0, 0, 2, 3],
      2: [2, 1, 0, 0, 0, 0, 3, 4],
      3: [3, 2, 1, 0, 0, 0, 4, 5],
      4: [4, 3, 2, 1, 0, 0, 5, 5],
      5: [5, 4, 3, 2, 1, 0, 5, 7],
      7: [7, 5, 5, 4, 3, 2, 7, 7],
    },
  },
  secondWindow: { frequencyHz: 866.55e6, dataRate: 2 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [dataRateStack],
    payloads: [stacks],
    repeater: [repeaterTable],
    channels: [stacks],
    power: [{ document: 'RP002 table 94, IN865 TXPower (page 91)', edition: '1.0.5', status: 'read' }],
    firstWindow: [dataRateStack],
    secondWindow: [stacks],
    joinRequest: [stacks],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters],
  },
};
