import type { Calls } from './Call.js';

const gateway = {
  conductedPowerDbm: 14,
  feedlineLossDb: 1.2,
  antennaGainDbi: 5.15,
  noiseFigureDb: 4,
  receivedNoiseRiseDb: 3,
};
const node = { ...gateway, feedlineLossDb: 0, antennaGainDbi: 0, noiseFigureDb: 7 };
const chain = { conductedPowerDbm: 14, feedlineLossDb: 1.2, antennaGainDbi: 5.15 };

export const calls: Calls = {
  earthBulgeM: [{ distanceToStartM: 4000, distanceToEndM: 6000, effectiveEarthRadiusFactor: 1.3 }],
  eirpDbm: [chain],
  eirpToErpDbm: [16.15],
  erpDbm: [chain],
  erpToEirpDbm: [14],
  exposureDistance: [
    {
      frequencyHz: 868.1e6,
      limit: 'icnirp-2020-general',
      eirpDbm: 29.15,
      dutyCycle: 0.1,
      groundReflection: 'typical',
      nearestPersonM: 3,
    },
  ],
  exposureLimit: [{ frequencyHz: 868.1e6, limit: 'icnirp-2020-general' }],
  freeSpaceLossDb: [{ frequencyHz: 868.1e6, distanceM: 10_000 }],
  fresnelClearance: [{ frequencyHz: 868.1e6, distanceToStartM: 4000, distanceToEndM: 6000, clearanceM: 20 }],
  fresnelRadiusM: [{ frequencyHz: 868.1e6, distanceToStartM: 4000, distanceToEndM: 6000, zone: 2 }],
  friisReceivedPowerDbm: [
    {
      frequencyHz: 868.1e6,
      distanceM: 10_000,
      conductedPowerDbm: 14,
      transmitGainDbi: 2.15,
      receiveGainDbi: 5.15,
    },
  ],
  impedanceToReflection: [{ resistanceOhm: 73.13, reactanceOhm: 42.54, referenceOhm: 75 }],
  linkBudget: [
    {
      pathLossDb: 130,
      bandwidthHz: 125_000,
      uplinkRequiredSnrDb: -12.5,
      downlinkRequiredSnrDb: -12.5,
      gateway,
      node,
      losses: [
        { name: 'wall', lossDb: 8 },
        { name: 'foliage', lossDb: 4 },
      ],
    },
  ],
  maxConductedPowerDbm: [{ eirpLimitDbm: 16.15, feedlineLossDb: 1.2, antennaGainDbi: 5.15 }],
  noiseFigureCascade: [
    [
      { noiseFigureDb: 1, gainDb: 15 },
      { noiseFigureDb: 2, gainDb: -2 },
      { noiseFigureDb: 6, gainDb: 20 },
    ],
  ],
  polarisationMismatchDb: [
    { transmit: 'linear', receive: 'linear', angleDeg: 30, crossPolarDiscriminationDb: 25 },
  ],
  'polarisationMismatchDb of two ellipses': [
    {
      transmit: { axialRatioDb: 3, sense: 'right' },
      receive: { axialRatioDb: 6, sense: 'left' },
      angleDeg: 30,
    },
  ],
  powerDensityWPerM2: [{ eirpDbm: 36, distanceM: 2 }],
  radioHorizonM: [{ heightM: 20, effectiveEarthRadiusFactor: 1.3 }],
  radioLineOfSightM: [{ transmitHeightM: 20, receiveHeightM: 1.5, effectiveEarthRadiusFactor: 1.3 }],
  reflectionCoefficientToVswr: [0.3333],
  returnLossToMismatchLossDb: [9.54],
  returnLossToVswr: [9.54],
  systemNoise: [
    {
      receiverNoiseFigureDb: 4,
      feedlineLossDb: 1.2,
      feedlineTemperatureC: 25,
      antennaTemperatureK: 150,
      bandwidthHz: 125_000,
    },
  ],
  thermalNoiseDbm: [{ bandwidthHz: 125_000, temperatureK: 300 }],
  vswrThroughLoss: [{ vswr: 3, lossDb: 3 }],
  vswrToMismatchLossDb: [2],
  vswrToReflectionCoefficient: [2],
  vswrToReturnLossDb: [2],
  wavelengthM: [868.1e6],
};
