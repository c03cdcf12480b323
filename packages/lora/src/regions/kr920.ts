import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { narrowRows } from '../planRows/dynamicRows.js';
import type { Region } from '../Region.js';

const stacks: Citation = {
  document: 'KR920 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/**
 * KR920-923, the plan of South Korea.
 *
 * Centres lie on a raster of 200 kHz from 920.9 to 923.3 MHz; the band here reaches half a step further. Below 922 MHz nodes stay at 10 dBm.
 *
 * @source RP001 1.0.3revA for power; MAC stack sources, compared, for the rest: `sources` says which rows come from where
 */
export const KR920: Region = {
  name: 'KR920',
  plan: 'dynamic',
  minHz: 920.8e6,
  maxHz: 923.4e6,
  dataRates: [...narrowRows],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'both',
      firstHz: 922.1e6,
      stepHz: 200e3,
      channelCount: 3,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
  ],
  power: {
    quantity: 'EIRP',
    txPowersDbm: [14, 12, 10, 8, 6, 4, 2, 0],
    lowerParts: [{ minHz: 920.8e6, maxHz: 922e6, maximumDbm: 10 }],
  },
  firstWindow: {
    channel: 'same',
    dataRates: {
      // RX1DROffset 0 to 5
      0: [0, 0, 0, 0, 0, 0],
      1: [1, 0, 0, 0, 0, 0],
      2: [2, 1, 0, 0, 0, 0],
      3: [3, 2, 1, 0, 0, 0],
      4: [4, 3, 2, 1, 0, 0],
      5: [5, 4, 3, 2, 1, 0],
    },
  },
  secondWindow: { frequencyHz: 921.9e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks],
    payloads: [stacks],
    repeater: [repeaterTable],
    channels: [stacks],
    power: [
      { document: 'RP001, KR920 end-device power', edition: '1.0.3revA, 2018', status: 'read' },
      stacks,
    ],
    firstWindow: [stacks],
    secondWindow: [stacks],
    joinRequest: [stacks],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters],
  },
};
