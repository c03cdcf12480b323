import type { Citation } from '../Citation.js';
import type { Region } from '../Region.js';
import { defaultDelays, defaultParameters, defaultSettings, repeaterTable } from './defaultSettings.js';
import { fskRow } from './dynamicRows.js';
import { loraRows } from './loraRows.js';
import { sf6AndSf5 } from './sf6AndSf5.js';

const stacks: Citation = {
  document: 'AS923 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

const payloadTable: Citation = {
  document: 'RP002 table 73, AS923 payloads with and without dwell limit (page 80)',
  edition: '1.0.5',
  status: 'read',
};

/** What differs between the groups of AS923: where they are. */
export interface As923Group {
  readonly name: string;
  readonly minHz: number;
  readonly maxHz: number;
  /** Distance in hertz of all its frequencies from those of AS923-1. */
  readonly offsetHz: number;
}

/**
 * The regional parameters of a group of AS923.
 *
 * Without a dwell limit DR2 carries 123 bytes since RP002-1.0.1; RP001 and RP002-1.0.0 had 59. RX1DROffset 6 and 7 mean one and two data
 * rates faster than the uplink.
 */
export function as923({ name, minHz, maxHz, offsetHz }: As923Group): Region {
  return {
    name,
    plan: 'dynamic',
    minHz,
    maxHz,
    dataRates: [
      ...loraRows({ direction: 'both', bandwidthHz: 125e3 }, [
        // DR, SF, M, M under the dwell limit
        [0, 12, 59, null],
        [1, 11, 59, null],
        [2, 10, 123, 19],
        [3, 9, 123, 61],
        [4, 8, 250, 133],
        [5, 7, 250, 250],
      ]),
      ...loraRows({ direction: 'both', bandwidthHz: 250e3 }, [[6, 7, 250, 250]]),
      { ...fskRow, dwellMacPayloadBytes: 250 },
    ],
    unconfirmedDataRates: sf6AndSf5(payloadTable, 250),
    repeaterMacPayloadBytes: 230,
    channels: [
      {
        direction: 'both',
        firstHz: 923.2e6 + offsetHz,
        stepHz: 200e3,
        channelCount: 2,
        bandwidthHz: 125e3,
        minDataRate: 0,
        maxDataRate: 5,
      },
    ],
    power: { quantity: 'EIRP', txPowersDbm: [16, 14, 12, 10, 8, 6, 4, 2] },
    firstWindow: {
      channel: 'same',
      dataRates: {
        // RX1DROffset 0 to 7
        0: [0, 0, 0, 0, 0, 0, 1, 2],
        1: [1, 0, 0, 0, 0, 0, 2, 3],
        2: [2, 1, 0, 0, 0, 0, 3, 4],
        3: [3, 2, 1, 0, 0, 0, 4, 5],
        4: [4, 3, 2, 1, 0, 0, 5, 6],
        5: [5, 4, 3, 2, 1, 0, 6, 7],
        6: [6, 5, 4, 3, 2, 1, 7, 7],
        7: [7, 6, 5, 4, 3, 2, 7, 7],
      },
      dwellDataRates: {
        0: [2, 2, 2, 2, 2, 2, 2, 2],
        1: [2, 2, 2, 2, 2, 2, 2, 3],
        2: [2, 2, 2, 2, 2, 2, 3, 4],
        3: [3, 2, 2, 2, 2, 2, 4, 5],
        4: [4, 3, 2, 2, 2, 2, 5, 6],
        5: [5, 4, 3, 2, 2, 2, 6, 7],
        6: [6, 5, 4, 3, 2, 2, 7, 7],
        7: [7, 6, 5, 4, 3, 2, 7, 7],
      },
    },
    secondWindow: { frequencyHz: 923.2e6 + offsetHz, dataRate: 2 },
    // DR0 and DR1 are left out, because nodes start with limited dwell time.
    joinRequestDataRates: [2, 3, 4, 5],
    delays: defaultDelays,
    defaults: { ...defaultSettings, uplinkDwellLimited: true },
    dwell: { dwellSeconds: 0.4, when: 'commanded' },
    sources: {
      dataRates: [stacks],
      payloads: [payloadTable, stacks],
      repeater: [repeaterTable],
      channels: [stacks],
      power: [stacks],
      firstWindow: [stacks],
      secondWindow: [stacks],
      joinRequest: [
        {
          document: 'AS923 join distribution of the MAC stack SWL2001 9a14f67',
          edition: 'commit 9a14f67',
          status: 'stack',
        },
      ],
      delays: [defaultParameters],
      dwell: [stacks],
      defaults: [defaultParameters, stacks],
    },
  };
}
