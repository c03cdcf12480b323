import { regions } from '@finial/lora';
import type { Calls } from './Call.js';

const transmission = {
  region: regions.EU868,
  jurisdiction: 'EU',
  direction: 'uplink',
  dataRate: 5,
  frequencyHz: 868.1e6,
  applicationBytes: 20,
  fOptsBytes: 2,
  conductedPowerDbm: 12,
  feedlineLossDb: 1.2,
  antennaGainDbi: 2.15,
  intervalSeconds: 300,
  channelUse: 'single',
};

export const calls: Calls = {
  bitRateBps: [{ spreadingFactor: 7, bandwidthHz: 125_000, codingRate: 5, lowDataRateOptimize: 'auto' }],
  channelFrequenciesHz: [{ firstHz: 902.3e6, stepHz: 200e3, channelCount: 64 }],
  checkTransmission: { args: [transmission], constants: ['transmission.region'] },
  conductedLimitDbm: [{ baseConductedPowerDbm: 30, antennaGainDbi: 8 }],
  dwellIntervalSeconds: [{ timeOnAirSeconds: 0.3, dwellSeconds: 0.4, windowSeconds: 20 }],
  firstWindowDataRate: {
    args: [{ region: regions.EU868, uplinkDataRate: 5, rx1DrOffset: 1 }],
    constants: ['uplink.region'],
  },
  maxPayload: {
    args: [{ region: regions.US915, dataRate: 3, direction: 'uplink', dwellLimited: true, repeater: false }],
    constants: ['question.region'],
  },
  minimumIntervalSeconds: [{ timeOnAirSeconds: 0.06, dutyCycleRatio: 0.01 }],
  phyPayloadBytes: [{ applicationBytes: 20, fOptsBytes: 2 }],
  requiredSnrDb: [9],
  sensitivityDbm: [{ spreadingFactor: 9, bandwidthHz: 125_000, noiseFigureDb: 6 }],
  subBandAt: [{ jurisdiction: 'EU', frequencyHz: 868.1e6, bandwidthHz: 125_000 }],
  timeOnAir: [
    {
      spreadingFactor: 9,
      bandwidthHz: 125_000,
      codingRate: 5,
      payloadBytes: 33,
      preambleSymbols: 8,
      header: 'explicit',
      crc: true,
      lowDataRateOptimize: 'auto',
    },
  ],
};
