import type { Calls } from './Call.js';
import { coverageCalls } from './propagationCoverage.js';
import { sweepCalls } from './propagationSweep.js';

/** Ten kilometres over gentle ground. */
const path = {
  frequencyHz: 868.1e6,
  distanceM: [0, 2000, 4000, 6000, 8000, 10_000],
  heightM: [210, 190, 180, 200, 195, 205],
  transmitterHeightM: 20,
  receiverHeightM: 2,
  polarisation: 'vertical',
};

const irregularTerrain = {
  climate: 'continental-temperate',
  seaLevelRefractivity: 301,
  ground: { permittivity: 15, conductivitySPerM: 0.005 },
  timePercent: 50,
  locationPercent: 50,
  situationPercent: 90,
  variabilityMode: 'broadcast',
  withoutLocationVariability: true,
  withoutSituationVariability: false,
  outsideValidity: 'refuse',
};

const pathSpecific = {
  timePercent: 10,
  locationPercent: 90,
  centreLatitudeDeg: 50,
  deltaN: 45,
  surfaceRefractivity: 325,
  resolutionM: 30,
  transmitterCoastDistanceM: 3000,
  receiverCoastDistanceM: 4000,
  building: { buildingClass: 'traditional', elevationDeg: 5 },
  outsideValidity: 'refuse',
};

/** For the formulas that want a base station above the roofs. */
const tallMast = { baseHeightM: 40, mobileHeightM: 1.5, distanceM: 3000, outsideValidity: 'allow' };

export const calls: Calls = {
  ...sweepCalls,
  ...coverageCalls,
  basicTransmissionLoss: [path, { ...pathSpecific, resolutionM: undefined, locationSigmaDb: 5.5 }],
  'basicTransmissionLoss with every option': [
    {
      ...path,
      clutterHeightM: [0, 10, 0, 15, 0, 10],
      zone: ['inland', 'inland', 'coastal-land', 'sea', 'coastal-land', 'inland'],
    },
    pathSpecific,
  ],
  fieldStrengthDbuvPerM: [{ frequencyHz: 868.1e6, lossDb: 130, erpDbm: 14 }],
  bullington: [path, { effectiveEarthRadiusM: 8.5e6 }],
  cascadedKnifeEdges: [path, { deltaN: 40 }],
  'deltaBullington with clutter and zones': [
    {
      ...path,
      clutterHeightM: [0, 10, 0, 15, 0, 0],
      zone: ['inland', 'inland', 'coastal-land', 'sea', 'coastal-land', 'inland'],
    },
    { effectiveEarthRadiusM: 8.5e6 },
  ],
  'deltaBullington with a gradient': [path, { deltaN: 40 }],
  freeSpace: [path],
  knifeEdgeLossDb: [0.5],
  singleKnifeEdge: [
    { frequencyHz: 868.1e6, obstacleHeightM: 5, distanceToStartM: 200, distanceToEndM: 3000 },
  ],
  sphericalEarthLoss: [
    {
      frequencyHz: 868.1e6,
      distanceM: 40_000,
      transmitterHeightM: 20,
      receiverHeightM: 2,
      polarisation: 'vertical',
      seaRatio: 0.5,
      deltaN: 40,
    },
  ],
  twoRayLoss: [
    {
      frequencyHz: 868.1e6,
      distanceM: 5000,
      transmitterHeightM: 15,
      receiverHeightM: 1.5,
      polarisation: 'horizontal',
      permittivityRatio: 15,
      conductivitySPerM: 0.005,
    },
  ],
  area: [
    {
      ...irregularTerrain,
      frequencyHz: 868.1e6,
      distanceM: 15_000,
      transmitterHeightM: 30,
      receiverHeightM: 2,
      terrainIrregularityM: 90,
      transmitterSiting: 'careful',
      receiverSiting: 'random',
      polarisation: 'vertical',
    },
  ],
  'itm.model': [irregularTerrain],
  'p526.model': [{ deltaN: 40 }],
  'p1812.model': [pathSpecific],
  pointToPoint: [path, irregularTerrain],
  buildingEntryLoss: [
    {
      frequencyHz: 868e6,
      buildingClass: 'traditional',
      probability: 0.5,
      elevationDeg: 10,
      outsideValidity: 'refuse',
    },
  ],
  buildingEntryLossDb: [
    { frequencyHz: 868e6, buildingClass: 'thermally-efficient', probability: 0.5, elevationDeg: 10 },
  ],
  cost231Hata: [{ ...tallMast, frequencyHz: 1800e6, surroundings: 'medium-city' }],
  locationSigmaDb: [{ frequencyHz: 868e6, resolutionM: 50, antennaHeightM: 1.5, clutterHeightM: 10 }],
  marginProbability: [{ marginDb: 6, locationSigmaDb: 5, modelErrorDb: 8 }],
  okumuraHata: [{ ...tallMast, frequencyHz: 868e6, surroundings: 'suburban' }],
  requiredMarginDb: [{ probability: 0.9, locationSigmaDb: 5, modelErrorDb: 8 }],
  siteGeneralLoss: [
    { frequencyHz: 868e6, distanceM: 100, situation: 'residential', outsideValidity: 'allow' },
  ],
  slantClutterLoss: [{ frequencyHz: 30e9, elevationDeg: 5, probability: 0.5, outsideValidity: 'allow' }],
  streetLevelLoss: [
    {
      frequencyHz: 868e6,
      distanceM: 100,
      surroundings: 'urban',
      probability: 0.5,
      transitionM: 20,
      outsideValidity: 'allow',
    },
  ],
  terminalClutterLoss: [
    {
      frequencyHz: 868e6,
      antennaHeightM: 1.5,
      surroundings: 'suburban',
      clutterHeightM: 10,
      streetWidthM: 27,
      outsideValidity: 'allow',
    },
  ],
  'terminalClutterLoss over open land': [
    { frequencyHz: 868e6, antennaHeightM: 1.5, surroundings: 'open', clutterHeightM: 10, streetWidthM: 27 },
  ],
  terrestrialClutterLoss: [
    {
      frequencyHz: 868e6,
      distanceM: 1500,
      probability: 0.5,
      clutteredEnds: 'both',
      outsideValidity: 'allow',
    },
  ],
  woodlandLoss: [{ frequencyHz: 868e6, depthM: 50, outsideValidity: 'allow' }],
  'woodlandLoss of a given wood': [
    { frequencyHz: 868e6, depthM: 50, specificLossDbPerM: 0.2, maximumLossDb: 20 },
  ],
};
