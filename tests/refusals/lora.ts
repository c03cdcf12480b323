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
  access: 'duty-cycle',
  dwellLimited: false,
  repeater: true,
};

export const calls: Calls = {
  airtimeLimits: [
    {
      jurisdiction: 'US',
      direction: 'uplink',
      frequencyHz: 915e6,
      bandwidthHz: 125e3,
      modulation: 'LoRa',
      channelUse: { system: 'hybrid', channelCount: 8 },
      access: 'duty-cycle',
    },
  ],
  alohaDelivery: [
    { offeredErlangs: 0.4, capture: { thresholdDb: 6, pathLossExponent: 3.5, innerRadiusRatio: 0.2 } },
  ],
  batteryLife: [
    { averageCurrentA: 2e-5, capacityAh: 2.5, usableRatio: 0.8, selfDischargePerYearRatio: 0.02 },
  ],
  bitRateBps: [{ spreadingFactor: 7, bandwidthHz: 125_000, codingRate: 5, lowDataRateOptimize: 'auto' }],
  channelFrequenciesHz: [{ firstHz: 902.3e6, stepHz: 200e3, channelCount: 64 }],
  checkTransmission: { args: [transmission], constants: ['transmission.region'] },
  'checkTransmission over a set of channels': {
    args: [
      {
        ...transmission,
        region: regions.US915,
        jurisdiction: 'US',
        dataRate: 3,
        channelUse: { system: 'hopping', channelCount: 64 },
      },
    ],
    constants: ['transmission.region'],
  },
  citationOf: {
    args: [{ region: regions.US915, group: 'payloads', dataRate: 0 }],
    constants: ['rows.region'],
  },
  conductedLimitDbm: [{ baseConductedPowerDbm: 30, antennaGainDbi: 8 }],
  downlinkLimits: {
    args: [
      {
        region: regions.EU868,
        jurisdiction: 'EU',
        feedlineLossDb: 2,
        antennaGainDbi: 5.15,
        access: 'duty-cycle',
      },
    ],
    constants: ['question.region'],
  },
  dwellIntervalSeconds: [{ timeOnAirSeconds: 0.3, dwellSeconds: 0.4, windowSeconds: 20 }],
  energyPerFrame: [
    {
      timeOnAirSeconds: 0.06,
      transmitCurrentA: 0.029,
      receiveWindows: [{ name: 'first window', durationSeconds: 0.03, currentA: 0.011 }],
      otherPhases: [{ durationSeconds: 0.2, currentA: 0.004 }],
      supplyV: 3.3,
      sleepCurrentA: 5e-6,
      intervalSeconds: 600,
    },
  ],
  erlangBlockingRatio: [{ offeredErlangs: 3, demodulatorCount: 8 }],
  firstWindowDataRate: {
    args: [{ region: regions.EU868, uplinkDataRate: 5, rx1DrOffset: 1 }],
    constants: ['uplink.region'],
  },
  'firstWindowDataRate with a dwell limit': {
    args: [{ region: regions.AS923_1, uplinkDataRate: 5, rx1DrOffset: 1, downlinkDwellLimited: true }],
    constants: ['uplink.region'],
  },
  gatewayCapacity: [
    {
      groups: [
        { spreadingFactor: 7, nodeCount: 300, timeOnAirSeconds: 0.06, intervalSeconds: 600 },
        { spreadingFactor: 12, nodeCount: 20, timeOnAirSeconds: 1.5, intervalSeconds: 900 },
      ],
      channelCount: 8,
      demodulatorCount: 8,
      capture: { thresholdDb: 6, pathLossExponent: 3.5, innerRadiusRatio: 0.2 },
      downlink: { timeOnAirSeconds: 0.2, framesPerHour: 30 },
      targetDeliveryRatio: 0.9,
    },
  ],
  lawfulPace: {
    args: [
      {
        region: regions.EU868,
        jurisdiction: 'EU',
        direction: 'uplink',
        frequencyHz: 868.1e6,
        dataRate: 3,
        applicationBytes: 20,
        fOptsBytes: 2,
        channelUse: 'single',
        access: 'duty-cycle',
        dailyBudgetSeconds: 30,
      },
    ],
    constants: ['sender.region'],
  },
  'lawfulPace of a known time on air': {
    args: [
      {
        region: regions.US915,
        jurisdiction: 'US',
        direction: 'uplink',
        frequencyHz: 902.3e6,
        dataRate: 3,
        timeOnAirSeconds: 0.1,
        channelUse: { system: 'hybrid', channelCount: 8 },
      },
    ],
    constants: ['sender.region'],
  },
  maxPayload: {
    args: [{ region: regions.US915, dataRate: 3, direction: 'uplink', dwellLimited: true, repeater: false }],
    constants: ['question.region'],
  },
  minimumIntervalSeconds: [{ timeOnAirSeconds: 0.06, dutyCycleRatio: 0.01 }],
  onChannelPlan: {
    args: [{ region: regions.CN470, channelPlan: '20 MHz A', joinChannel: 7 }],
    constants: ['choice.region'],
  },
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
      generation: 'second',
    },
  ],
  transmitLedger: {
    args: [
      {
        region: regions.EU868,
        jurisdiction: 'EU',
        channelUse: 'single',
        access: 'duty-cycle',
        dailyBudgetSeconds: 30,
        state: {
          version: 1,
          region: 'EU868',
          jurisdiction: 'EU',
          channelUse: 'single',
          access: 'duty-cycle',
          dailyBudgetSeconds: 30,
          entries: [
            {
              startSeconds: 1.7e9,
              timeOnAirSeconds: 1.5,
              frequencyHz: 868.1e6,
              dataRate: 0,
              direction: 'uplink',
            },
          ],
        },
      },
    ],
    constants: ['settings.region'],
  },
  usableDataRates: {
    args: [
      {
        region: regions.US915,
        direction: 'uplink',
        snrDb: 12,
        referenceDataRate: 0,
        rssiDbm: -90,
        noiseFigureDb: 6,
        fadeAllowanceDb: 10,
        applicationBytes: 11,
        dwellLimited: true,
        jurisdiction: 'US',
        frequencyHz: 902.3e6,
        channelUse: 'hopping-64',
        access: 'duty-cycle',
      },
    ],
    constants: ['question.region'],
  },
  describeReception: [
    { rssiDbm: -110, snrDb: -3, spreadingFactor: 9, bandwidthHz: 125_000, noiseFigureDb: 3 },
  ],
  fskTimeOnAir: [{ payloadBytes: 20, bitRateBps: 50_000, preambleBytes: 5, syncWordBytes: 3, crc: true }],
  longestPayloadBytes: [
    {
      spreadingFactor: 9,
      bandwidthHz: 125_000,
      codingRate: 5,
      preambleSymbols: 8,
      header: 'explicit',
      crc: true,
      lowDataRateOptimize: 'auto',
      generation: 'second',
      maxSeconds: 0.4,
    },
  ],
  loraSymbol: [{ spreadingFactor: 9, bandwidthHz: 125_000, lowDataRateOptimize: 'auto' }],
  lrFhssTimeOnAir: [{ payloadBytes: 20, codeRate: '1/3' }],
  processingGainDb: [9],
  signalAndNoiseDbm: [{ rssiDbm: -110, snrDb: -3 }],
  slowestDataRate: {
    args: [
      {
        region: regions.EU868,
        direction: 'uplink',
        applicationBytes: 20,
        fOptsBytes: 2,
        maxSeconds: 1,
        dwellLimited: false,
      },
    ],
    constants: ['question.region'],
  },
  timesOnAirSeconds: [
    { spreadingFactor: 9, bandwidthHz: 125_000, codingRate: 5, payloadBytes: Uint8Array.of(13, 24) },
  ],
};
