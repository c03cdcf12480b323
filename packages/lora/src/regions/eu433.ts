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
  document: 'EU433 region tables of the MAC stack LoRaMac-node dcbcfb3',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/**
 * EU433, the plan of the 433.05 to 434.79 MHz band in Europe and elsewhere. TXPower ends at index 5.
 *
 * @source RP001 1.0.3revA for payloads; one MAC stack for the rest: `sources` says which rows come from where
 */
export const EU433: Region = {
  name: 'EU433',
  plan: 'dynamic',
  minHz: 433.05e6,
  maxHz: 434.79e6,
  dataRates: [...narrowRows, ...row250kHz, fskRow],
  repeaterMacPayloadBytes: 230,
  channels: [
    {
      direction: 'both',
      firstHz: 433.175e6,
      stepHz: 200e3,
      channelCount: 3,
      bandwidthHz: 125e3,
      minDataRate: 0,
      maxDataRate: 5,
    },
  ],
  power: { quantity: 'EIRP', txPowersDbm: [12.15, 10.15, 8.15, 6.15, 4.15, 2.15] },
  firstWindow: { channel: 'same', dataRates: firstWindowRows },
  secondWindow: { frequencyHz: 434.665e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks],
    payloads: [
      {
        document: 'RP001, EU433 payload tables (table 32 and next to it)',
        edition: '1.0.3revA, 2018',
        status: 'read',
      },
      stacks,
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
