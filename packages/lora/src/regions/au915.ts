import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { downlinkChannels500kHz, downlinkRows500kHz } from '../planRows/downlinkRows500kHz.js';
import { loraRows } from '../planRows/loraRows.js';
import type { Region } from '../Region.js';

const stacks: Citation = {
  document: 'AU915 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** LR-FHSS rows are in one of the two stacks only. */
const hoppingStack: Citation = {
  document: 'AU915 region tables of the MAC stack SWL2001 9a14f67, LR-FHSS rows and channels',
  edition: 'commit 9a14f67',
  status: 'stack',
};

/**
 * AU915-928, the plan of Australia, Brazil and others.
 *
 * Nodes start with uplinks limited to 400 ms, and then DR0 and DR1 carry nothing; the network may lift the limit. DR6 and DR12 are the
 * same modulation, one for uplinks, one for downlinks.
 *
 * @source MAC stack sources, compared: `sources` says which rows come from where
 */
export const AU915: Region = {
  name: 'AU915',
  plan: 'fixed',
  minHz: 915e6,
  maxHz: 928e6,
  dataRates: [
    ...loraRows({ direction: 'uplink', bandwidthHz: 125e3 }, [
      // DR, SF, M, M under the dwell limit
      [0, 12, 59, null],
      [1, 11, 59, null],
      [2, 10, 59, 19],
      [3, 9, 123, 61],
      [4, 8, 250, 133],
      [5, 7, 250, 250],
    ]),
    ...loraRows({ direction: 'uplink', bandwidthHz: 500e3 }, [[6, 8, 250, 250]]),
    {
      dataRate: 7,
      direction: 'uplink',
      modulation: 'LR-FHSS',
      codeRate: '1/3',
      channelWidthHz: 1523e3,
      macPayloadBytes: 58,
      dwellMacPayloadBytes: 58,
      citations: { modulation: hoppingStack, payload: hoppingStack },
    },
    ...downlinkRows500kHz,
  ],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'uplink',
      firstHz: 915.2e6,
      stepHz: 200e3,
      channelCount: 64,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
    {
      direction: 'uplink',
      firstHz: 915.9e6,
      stepHz: 1.6e6,
      channelCount: 8,
      bandwidthHz: 500e3,
      minDataRate: 6,
      maxDataRate: 6,
    },
    downlinkChannels500kHz,
    // LR-FHSS around the centres of the wide channels.
    {
      direction: 'uplink',
      firstHz: 915.9e6,
      stepHz: 1.6e6,
      channelCount: 8,
      bandwidthHz: 1523e3,
      minDataRate: 7,
      maxDataRate: 7,
      citation: hoppingStack,
    },
  ],
  power: { quantity: 'EIRP', txPowersDbm: [30, 28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2] },
  firstWindow: {
    channel: 'modulo-8',
    dataRates: {
      // RX1DROffset 0 to 5
      0: [8, 8, 8, 8, 8, 8],
      1: [9, 8, 8, 8, 8, 8],
      2: [10, 9, 8, 8, 8, 8],
      3: [11, 10, 9, 8, 8, 8],
      4: [12, 11, 10, 9, 8, 8],
      5: [13, 12, 11, 10, 9, 8],
      6: [13, 13, 12, 11, 10, 9],
      7: [9, 8, 8, 8, 8, 8],
    },
    citations: { 7: hoppingStack },
  },
  secondWindow: { frequencyHz: 923.3e6, dataRate: 8 },
  joinRequestDataRates: [2, 6],
  delays: defaultDelays,
  defaults: { ...defaultSettings, uplinkDwellLimited: true },
  dwell: { dwellSeconds: 0.4, when: 'commanded' },
  sources: {
    dataRates: [stacks, hoppingStack],
    payloads: [stacks, hoppingStack],
    repeater: [repeaterTable],
    channels: [stacks],
    power: [stacks],
    firstWindow: [stacks, hoppingStack],
    secondWindow: [stacks],
    joinRequest: [
      {
        document: 'AU915 join sequence of the MAC stack LoRaMac-node: eight times DR2, then DR6',
        edition: '4.5 and later',
        status: 'stack',
      },
    ],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters, stacks],
  },
};
