import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan } from './bandPlan.js';
import type { Jurisdiction } from './Jurisdiction.js';
import { notCoveredHere } from './notCoveredHere.js';

const edition = '1.4, 2021-04-23, as cited there';
const byStack: Citation = {
  document: 'ARIB STD-T108 by the Japanese rules of the MAC stack LoRaMac-node dcbcfb3',
  edition,
  status: 'stack',
};
const power: Citation = { document: 'ARIB STD-T108, 20 mW and 3 dBi', edition: 'not read', status: 'memory' };
const times: Citation = {
  document: 'ARIB STD-T108, 4 s, pause of 50 ms, 360 s in an hour',
  edition: 'not read',
  status: 'memory',
};
const unread: Citation = { document: 'ARIB STD-T108', edition: 'not read', status: 'memory' };

const common = {
  maxEirpDbm: 16,
  maxConductedPowerDbm: 13,
  // One unit channel; what holds for several side by side is not known here.
  maxBandwidthHz: 200e3,
  dutyCycleRatio: 0.1,
  observationSeconds: 3600,
} as const;
const memories = {
  bandwidth: notCoveredHere,
  eirp: power,
  conductedPower: power,
  dutyCycle: times,
  observation: times,
} as const;

/**
 * The 920 MHz band of Japan for stations of 20 mW that listen before they talk.
 *
 * The edges are those of the 200 kHz unit channels whose centres the source names: 920.6 to 923.4 MHz with 5 ms of listening, up to
 * 928.0 MHz with 128 µs and the 400 ms that go with it. Power, the 4 s, the pause and the hourly sum are from memory.
 *
 * @source ARIB STD-T108 1.4 as cited by a MAC stack; each fact carries its citation
 */
export const jpBandPlan: BandPlan = {
  subBands: [
    {
      minHz: 920.5e6,
      maxHz: 923.5e6,
      ...common,
      longestSeconds: 4,
      pauseSeconds: 0.05,
      listening: { listenSeconds: 5e-3, thresholdDbm: -80, sparesDutyCycle: false },
      citation: byStack,
      sources: { ...memories, burst: times },
    },
    {
      minHz: 923.5e6,
      maxHz: 928.1e6,
      ...common,
      longestSeconds: 0.4,
      listening: { listenSeconds: 128e-6, thresholdDbm: -80, sparesDutyCycle: false },
      citation: byStack,
      sources: memories,
    },
  ],
  reserved: [],
};

/** The Japanese rules as {@link Jurisdiction}. */
export const jp: Jurisdiction = {
  name: 'JP',
  plan: jpBandPlan,
  demandsOn: (signal) => bandDemands('JP', jpBandPlan, signal),
  otherRules: [
    {
      id: 'JP without listening',
      jurisdiction: 'JP',
      limits: 'stations that keep a duty cycle without listening',
      unit: '',
      citation: byStack,
      use: 'not covered',
    },
    {
      id: 'JP stack power',
      jurisdiction: 'JP',
      limits:
        'the MAC stack that cites the rules stays at 13 dBm EIRP, 3 dB below what is remembered of them',
      figure: 13,
      unit: 'dBm EIRP',
      citation: byStack,
      use: 'not covered',
    },
    {
      id: 'JP equipment',
      jurisdiction: 'JP',
      limits:
        'certification of the equipment, channels of more than 200 kHz, stations of 250 mW, unwanted emissions',
      unit: '',
      citation: unread,
      use: 'not covered',
    },
  ],
};
