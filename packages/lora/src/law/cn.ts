import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan } from './bandPlan.js';
import type { Jurisdiction } from './Jurisdiction.js';

const power: Citation = {
  document: 'CN470 power of the MAC stack LoRaMac-node dcbcfb3 (19.15 dBm EIRP, which is 50 mW ERP)',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};
const notice: Citation = {
  document: 'MIIT notice No. 52 of 2019, 470 to 510 MHz: 200 kHz, 1 s in one transmission',
  edition: '2019, not read; the 1 s also follows from the payload table of the plan',
  status: 'memory',
};

/**
 * The 470 to 510 MHz band of China.
 *
 * 50 mW ERP is written as 17 dBm. Bandwidth and duration are from memory, so that they make notes only.
 *
 * @source MIIT notice No. 52 of 2019 (from memory); power from a MAC stack
 */
export const cnBandPlan: BandPlan = {
  subBands: [
    {
      minHz: 470e6,
      maxHz: 510e6,
      maxErpDbm: 17,
      maxBandwidthHz: 200e3,
      longestSeconds: 1,
      citation: power,
      sources: { bandwidth: notice, burst: notice },
    },
  ],
  reserved: [],
};

/** The Chinese rules as {@link Jurisdiction}. */
export const cn: Jurisdiction = {
  name: 'CN',
  plan: cnBandPlan,
  demandsOn: (signal) => bandDemands('CN', cnBandPlan, signal),
  otherRules: [
    {
      id: 'CN use',
      jurisdiction: 'CN',
      limits:
        'what the band may be used for and where, channels kept for others, and approval of the equipment',
      unit: '',
      citation: notice,
      use: 'not covered',
    },
    {
      id: 'CN 779 to 787 MHz',
      jurisdiction: 'CN',
      limits: 'the band of the CN779 plan',
      unit: '',
      citation: notice,
      use: 'not covered',
    },
  ],
};
