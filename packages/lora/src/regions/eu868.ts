import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { firstWindowRows, fskRow, narrowRows, row250kHz } from '../planRows/dynamicRows.js';
import type { LrFhssDataRate, Region } from '../Region.js';

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

/** What the LR-FHSS rows have in common; a node must be made for them, and its downlinks are LoRa. */
const hopping: Pick<LrFhssDataRate, 'direction' | 'modulation' | 'citations'> = {
  direction: 'uplink',
  modulation: 'LR-FHSS',
  citations: { modulation: hoppingStack, payload: hoppingStack },
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
    ...narrowRows,
    ...row250kHz,
    fskRow,
    { ...hopping, dataRate: 8, codeRate: '1/3', channelWidthHz: 137e3, macPayloadBytes: 58 },
    { ...hopping, dataRate: 9, codeRate: '2/3', channelWidthHz: 137e3, macPayloadBytes: 123 },
    { ...hopping, dataRate: 10, codeRate: '1/3', channelWidthHz: 336e3, macPayloadBytes: 58 },
    { ...hopping, dataRate: 11, codeRate: '2/3', channelWidthHz: 336e3, macPayloadBytes: 123 },
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
      ...firstWindowRows,
      // LR-FHSS counts as DR1 at code rate 1/3, as DR2 at 2/3.
      8: [1, 0, 0, 0, 0, 0],
      9: [2, 1, 0, 0, 0, 0],
      10: [1, 0, 0, 0, 0, 0],
      11: [2, 1, 0, 0, 0, 0],
    },
  },
  secondWindow: { frequencyHz: 869.525e6, dataRate: 0 },
  joinRequestDataRates: [0, 1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks, hoppingStack],
    payloads: [stacks, hoppingStack],
    repeater: [repeaterTable],
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
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters],
  },
};
