import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan } from './bandPlan.js';
import type { Jurisdiction } from './Jurisdiction.js';

const rulesOf2005: Citation = {
  document: 'G.S.R. 168(E), low power devices of 865 to 867 MHz',
  edition: '2005; superseded by G.S.R. 853(E) of 2021-12-10, whose limits were not read',
  status: 'read',
};
const rulesOf2021: Citation = {
  document: 'G.S.R. 853(E), 865 to 868 MHz',
  edition: '2021-12-10; title read, limits not',
  status: 'memory',
};

/**
 * The 865 to 867 MHz band of India under the rules of 2005.
 *
 * Rules of 2021 reach to 868 MHz and supersede them; their limits are not known here, so that the last megahertz is not covered. The
 * LoRaWAN plan asks for less power than these rules.
 *
 * @source G.S.R. 168(E), 2005
 */
export const inBandPlan: BandPlan = {
  subBands: [
    {
      minHz: 865e6,
      maxHz: 867e6,
      // 4 W is 36.02 dBm, 1 W is 30 dBm.
      maxErpDbm: 36.02,
      maxConductedPowerDbm: 30,
      maxBandwidthHz: 200e3,
      citation: rulesOf2005,
    },
  ],
  reserved: [],
};

/** The Indian rules as {@link Jurisdiction}; `in` alone is a word of the language. */
export const india: Jurisdiction = {
  name: 'IN',
  plan: inBandPlan,
  demandsOn: (signal) => bandDemands('IN', inBandPlan, signal),
  otherRules: [
    {
      id: 'IN rules of 2021',
      jurisdiction: 'IN',
      limits:
        'the limits of the rules of 2021, which supersede those of 2005, and the band from 867 to 868 MHz',
      unit: '',
      citation: rulesOf2021,
      use: 'not covered',
    },
    {
      id: 'IN equipment',
      jurisdiction: 'IN',
      limits: 'approval of the equipment and unwanted emissions',
      unit: '',
      citation: rulesOf2021,
      use: 'not covered',
    },
  ],
};
