import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan, SubBand } from './bandPlan.js';
import type { Jurisdiction } from './Jurisdiction.js';
import { notCoveredHere } from './notCoveredHere.js';

const sharing: Citation = {
  document: 'Korean rules of 917 to 923.5 MHz by a regulation survey in IEEE 802.15',
  edition: 'edition not recorded',
  status: 'quoted',
};
const nodePower: Citation = {
  document: 'RP001 section 2.9.3: KR920-923, 14 dBm EIRP, 10 dBm below 922 MHz',
  edition: '1.0.3revA, 2018',
  status: 'read',
};
const gatewayPower: Citation = {
  document: 'RP001 section 2.9: KR920-923, 23 dBm EIRP of gateways',
  edition: 'page not read',
  status: 'memory',
};
const unread: Citation = { document: 'Korean radio rules', edition: 'not read', status: 'memory' };

const common = {
  // The raster of the band; wider channels have another one, which is not known here.
  maxBandwidthHz: 200e3,
  maxGatewayEirpDbm: 23,
  dutyCycleRatio: 0.02,
  observationSeconds: 20,
  longestSeconds: 4,
  pauseSeconds: 0.05,
  listening: { listenSeconds: 5e-3, thresholdDbm: -65, sparesDutyCycle: true },
  citation: sharing,
  sources: { bandwidth: notCoveredHere, eirp: nodePower, gatewayEirp: gatewayPower },
} as const satisfies Partial<SubBand>;

/**
 * The 917 to 923.5 MHz band of Korea: stations listen for 5 ms and then have 4 s, or they keep 2 % of any 20 s.
 *
 * The limits on power are those that the LoRaWAN plan states; the law's own table was not read.
 *
 * @source a survey of regulations in IEEE 802.15 (times), RP001 1.0.3revA section 2.9.3 (power of nodes)
 */
export const krBandPlan: BandPlan = {
  subBands: [
    { minHz: 917e6, maxHz: 922e6, maxEirpDbm: 10, ...common },
    { minHz: 922e6, maxHz: 923.5e6, maxEirpDbm: 14, ...common },
  ],
  reserved: [],
};

/** The Korean rules as {@link Jurisdiction}. */
export const kr: Jurisdiction = {
  name: 'KR',
  plan: krBandPlan,
  demandsOn: (signal) => bandDemands('KR', krBandPlan, signal),
  otherRules: [
    {
      id: 'KR hopping',
      jurisdiction: 'KR',
      limits: 'hopping over 16 channels or more with 0.4 s on each, the third way to share the band',
      figure: 16,
      unit: 'channels',
      citation: sharing,
      use: 'not covered',
    },
    {
      id: 'KR power table',
      jurisdiction: 'KR',
      limits: "the law's own table of power, by channel, and that of gateways",
      unit: '',
      citation: unread,
      use: 'not covered',
    },
    {
      id: 'KR equipment',
      jurisdiction: 'KR',
      limits: 'certification of the equipment and unwanted emissions',
      unit: '',
      citation: unread,
      use: 'not covered',
    },
  ],
};
