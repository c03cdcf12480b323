import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { firstWindowRows, fskRow, narrowRows, row250kHz } from '../planRows/dynamicRows.js';
import type { Region } from '../Region.js';

const stacks: Citation = {
  document: 'RU864 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/**
 * RU864-870, the plan of Russia.
 *
 * @source MAC stack sources, compared: `sources` says which rows come from where
 */
export const RU864: Region = {
  name: 'RU864',
  plan: 'dynamic',
  minHz: 864e6,
  maxHz: 870e6,
  dataRates: [...narrowRows, ...row250kHz, fskRow],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'both',
      firstHz: 868.9e6,
      stepHz: 200e3,
      channelCount: 2,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
  ],
  power: { quantity: 'EIRP', txPowersDbm: [16, 14, 12, 10, 8, 6, 4, 2] },
  firstWindow: { channel: 'same', dataRates: firstWindowRows },
  secondWindow: { frequencyHz: 869.1e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks],
    payloads: [stacks],
    repeater: [repeaterTable],
    channels: [stacks],
    power: [stacks],
    firstWindow: [stacks],
    secondWindow: [stacks],
    joinRequest: [stacks],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters],
  },
};
