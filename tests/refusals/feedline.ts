import type { Calls } from './Call.js';

const cable = {
  kind: 'cable',
  designation: 'attic reel',
  source: 'own measurement',
  status: 'read',
  construction: 'solid centre, foil and braid',
  impedanceOhm: 75,
  velocityFactor: 0.83,
  dielectric: 'foam PE',
  outerDiameterM: 0.0069,
  bendRadiusM: 0.035,
  attenuation: [
    { frequencyHz: 400e6, attenuationDbPerM: 0.14 },
    { frequencyHz: 868e6, attenuationDbPerM: 0.21 },
  ],
  attenuationUncertaintyRatio: 0.05,
};
const run = {
  lengthM: 10,
  frequencyHz: 868.1e6,
  temperatureC: 40,
  jointsLossDb: 0.2,
  systemImpedanceOhm: 50,
  pathLossExponent: 3,
  outsideValidity: 'refuse',
};

const plug = { series: 'N', gender: 'plug', polarity: 'normal', impedanceOhm: 50 };
const jack = { series: 'N', gender: 'jack', polarity: 'normal', impedanceOhm: 50 };
const twoEnded = {
  designation: 'own part',
  source: 'own measurement',
  status: 'read',
  ends: [plug, jack],
  lossDb: 0.2,
  lossUncertaintyDb: 0.1,
  lowestFrequencyHz: 100e6,
  highestFrequencyHz: 2e9,
};
const conditions = {
  frequencyHz: 868.1e6,
  temperatureC: 30,
  outsideValidity: 'refuse',
  conductedPowerDbm: 14,
  antennaGainDbi: 5.15,
  receiverNoiseFigureDb: 6,
};

const points = { attenuation: cable.attenuation, attenuationUncertaintyRatio: 0.05 };

export const calls: Calls = {
  attenuationDb: [
    { cable: 'RG-213/U', lengthM: 10, frequencyHz: 868.1e6, temperatureC: 40, outsideValidity: 'refuse' },
  ],
  attenuationFit: ['RG-213/U'],
  'attenuationFit of points': [points],
  cableLoss: [
    { cable: 'RG-213/U', lengthM: 10, frequencyHz: 868.1e6, temperatureC: 40, outsideValidity: 'allow' },
  ],
  cableNamed: ['RG-213/U'],
  connectorOf: [{ series: 'N', impedanceOhm: 75 }],
  electricalLength: [{ cable: 'RG-213/U', lengthM: 10, frequencyHz: 868.1e6 }],
  mismatchedLineLoss: [{ matchedLossDb: 3, loadVswr: 2 }],
  'powerHandling of points': [
    {
      cable: { ...points, maxTemperatureC: 80, powerLimits: [{ frequencyHz: 1e9, powerW: 60 }] },
      frequencyHz: 868.1e6,
    },
  ],
  'electricalLength of a row': [
    { cable: { ...points, velocityFactor: 0.8 }, lengthM: 10, frequencyHz: 868.1e6 },
  ],
  powerHandling: [{ cable: 'RG-213/U', frequencyHz: 868.1e6, temperatureC: 50, vswr: 2 }],
  adaptersBetween: [plug, { series: 'SMA', gender: 'jack' }, { frequencyHz: 868.1e6, greatestPartsCount: 2 }],
  checkChain: {
    args: [
      [
        { kind: 'cable-run', cable, lengthM: 10, ends: [plug, jack], temperatureC: 40 },
        {
          ...twoEnded,
          kind: 'arrestor',
          principle: 'gas-discharge',
          passesDirectCurrent: true,
          sparkOverV: 90,
        },
      ],
      conditions,
    ],
    // A row that checkCatalogue has let through.
    constants: ['parts[0].cable'],
  },
  'checkChain of ports': [
    [
      { kind: 'port', name: 'radio', end: jack },
      { kind: 'port', name: 'antenna', end: plug },
    ],
    conditions,
  ],
  'checkChain of a pigtail and an adapter': [
    [
      {
        kind: 'pigtail',
        designation: 'own pigtail',
        source: 'own measurement',
        status: 'read',
        cable: 'RG-316/U',
        lengthM: 0.3,
        ends: [plug, jack],
      },
      { ...twoEnded, kind: 'adapter' },
    ],
    conditions,
  ],
  endName: [plug],
  mates: [plug, jack],
  weatherFindings: [
    {
      joints: [{ name: 'antenna', sealing: 'none', seal: 'mastic-and-tape', isOpen: false }],
      hasDripLoops: true,
      isSunlightResistant: true,
      isInTheSun: true,
      tieSpacingM: 2,
      tightestBendRadiusM: 0.1,
      leastBendRadiusM: 0.05,
      arrestor: { place: 'building-entry', isBonded: true, bondLengthM: 0.5 },
      isMastBonded: true,
    },
  ],
  compareCables: [{ ...run, cables: [cable, 'RG-58C/U'] }],
  gatewayAtAntenna: [
    {
      cable: 'RG-58C/U',
      lengthM: 10,
      frequencyHz: 868.1e6,
      temperatureC: 40,
      jointsLossDb: 0.3,
      shortLinkLossDb: 0.4,
      supplyV: 12,
      loadW: 8,
      wireLengthM: 20,
      wireOhmPerM: 0.0133,
      conductorsCount: 2,
      wireTemperatureC: 40,
      leastLoadV: 10.8,
      worthwhileDb: 2,
      outsideValidity: 'refuse',
    },
  ],
  improveRun: [{ ...run, cable: 'RG-58C/U', cables: ['RG-58C/U', 'RG-213/U'], wantedLossDb: 3 }],
  mergeCatalogues: [
    { cables: [cable] },
    { cables: [{ ...cable, designation: 'shed reel' }] },
    { sameName: 'replace' },
  ],
};
