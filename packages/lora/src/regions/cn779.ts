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
  document: 'CN779 region tables of the MAC stack LoRaMac-node dcbcfb3',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/**
 * CN779-787, a plan of China for existing devices: from memory, RP002 keeps it for these only. TXPower ends at index 5. The edges of
 * the band are those in its name.
 *
 * @source One MAC stack, payloads also in a second library: `sources` says which rows come from where
 */
export const CN779: Region = {
  name: 'CN779',
  plan: 'dynamic',
  minHz: 779e6,
  maxHz: 787e6,
  dataRates: [...narrowRows, ...row250kHz, fskRow],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'both',
      firstHz: 779.5e6,
      stepHz: 200e3,
      channelCount: 3,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
  ],
  power: { quantity: 'EIRP', txPowersDbm: [12.15, 10.15, 8.15, 6.15, 4.15, 2.15] },
  firstWindow: { channel: 'same', dataRates: firstWindowRows },
  secondWindow: { frequencyHz: 786e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks],
    payloads: [
      {
        document:
          'CN779 payloads of the MAC stack LoRaMac-node dcbcfb3 and of brocaar/lorawan a18a103, which agree',
        edition: 'LoRaMac-node 4.7.0 and later fixes',
        status: 'stack',
      },
    ],
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
