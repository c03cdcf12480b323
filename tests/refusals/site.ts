import type { Calls } from './Call.js';

const gust = {
  code: 'asce-7',
  gustSpeedMPerS: 40,
  exposureCategory: 'C',
  heightAboveGroundM: 9,
  topographicRatio: 1.2,
  directionalityRatio: 0.95,
  gustEffectRatio: 1.1,
};
const mean = {
  code: 'en-1991-1-4',
  meanSpeedMPerS: 26,
  terrainCategory: 'II',
  heightAboveGroundM: 10,
  structuralRatio: 1,
};
const tube = {
  outerDiameterM: 0.0483,
  wallM: 0.0032,
  topM: 2,
  supportM: 0.5,
  material: 'steel-s235',
  strengthPa: 235e6,
  modulusPa: 210e9,
};
const parts = [
  { name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1, dragRatio: 1.2, massKg: 4 },
  { name: 'box', shape: 'flat-by-aspect', widthM: 0.2, heightM: 0.15, centreM: 1 },
];
const foot = { kind: 'ballast', tippingArmM: 0.45, frictionRatio: 0.4, ballastKg: 60, areaM2: 0.8 };

export const calls: Calls = {
  windPressure: [gust],
  'windPressure of a mean': [mean],
  'windPressure with a given gust factor': [{ code: 'asce-7', gustSpeedMPerS: 40, exposureRatio: 1 }],
  'windPressure with a given exposure factor': [
    { code: 'en-1991-1-4', meanSpeedMPerS: 25, exposureRatio: 2.4 },
  ],
  dragCoefficient: [{ shape: 'round-by-length', widthM: 0.04, heightM: 2, pressurePa: 980 }],
  tubeInWind: [tube, [{ forceN: 150, fromM: 0, toM: 2.3 }]],
  mastLoad: [{ wind: gust, parts, foot, tube, iceM: 0.005, safetyRatio: 1.5 }],
  'mastLoad on a fixed foot': [{ wind: mean, parts, foot: { kind: 'fixed' } }],
  ridgeClamp: [
    {
      springCount: 4,
      springRateNPerM: 20e3,
      springTravelM: 0.025,
      settlingM: 0.002,
      faceAngleDeg: 80,
      jawAngleDeg: 82,
      frictionRatio: 0.4,
      jawLengthM: 0.4,
      jawSpacingM: 0.2,
      forceN: 60,
      momentNm: 40,
      safetyRatio: 1.5,
    },
  ],
  safetyFindings: [
    {
      exposure: {
        eirpDbm: 29,
        frequencyHz: 869.5e6,
        limit: 'fcc-general',
        dutyCycle: 0.1,
        groundReflection: 'typical',
        nearestPersonM: 2,
      },
      overheadLines: { distanceM: 15, mastHeightM: 10 },
      ladder: { supportHeightM: 4, footDistanceM: 1, beyondEdgeM: 1, isConducting: true },
      lightning: { protectionSystem: 'unknown', isBonded: true, hasArrestor: true, hasCopperData: false },
      mains: { isOutdoors: true },
    },
  ],
  backhaulChoices: [{ cableRouteM: 130, leavesBuilding: true, wifiMarginDb: 25 }],
  indoorLossDb: [{ frequencyHz: 2.437e9, distanceM: 10, building: 'house', floorsCount: 1 }],
  slabLossDb: [{ material: 'concrete', thicknessM: 0.2, frequencyHz: 2.437e9 }],
  wifiBackhaul: [
    {
      frequencyHz: 2.437e9,
      distanceM: 30,
      surroundings: 'open-air',
      eirpDbm: 15,
      antennaGainDbi: 2,
      walls: [{ material: 'brick', thicknessM: 0.1 }],
    },
  ],
  effectiveAreaM2: [{ widthM: 0.2, heightM: 0.2, depthM: 0.1, mounting: 'free-standing' }],
  enclosureRiseK: [
    {
      powerW: 4,
      absorptivityRatio: 0.25,
      irradianceWPerM2: 1000,
      sunlitAreaM2: 0.03,
      transferWPerM2K: 3.5,
      areaM2: 0.13,
    },
  ],
  enclosureBalance: [
    {
      widthM: 0.2,
      heightM: 0.2,
      depthM: 0.1,
      mounting: 'free-standing',
      faceAzimuthDeg: 180,
      powerW: 4,
      airC: 35,
      sunElevationDeg: 45,
      sunAzimuthDeg: 240,
      colour: 'white',
    },
  ],
  enclosureDay: [
    {
      widthM: 0.2,
      heightM: 0.2,
      depthM: 0.1,
      mounting: 'free-standing',
      faceAzimuthDeg: 180,
      powerW: 5,
      colour: 'white',
      date: '2026-07-15',
      latitudeDeg: 38,
      longitudeDeg: 23.7,
      highestAirC: 42,
      lowestAirC: 28,
    },
  ],
  surfaceConvectionWPerM2K: [{ surfaceC: 50, airC: 30, heightM: 0.2 }],
  absoluteHumidityKgPerM3: [{ temperatureC: 20, relativeHumidityPercent: 100, formula: 'iapws' }],
  boxMoisture: [
    {
      hours: [
        { skinC: 10, insideC: 12 },
        { skinC: 30, insideC: 35 },
      ],
      airC: 27.76,
      relativeHumidityPercent: 60,
      volumeM3: 0.004,
      wallAreaM2: 0.16,
      breathing: 'gasketed',
    },
  ],
  desiccantUnits: [
    {
      volumeM3: 0.004,
      wallAreaM2: 0.13,
      wallVapourKgPerM2Day: 0.0004,
      durationDays: 365,
      finalHumidityPercent: 40,
    },
  ],
  dewPointC: [{ temperatureC: 25, relativeHumidityPercent: 60, formula: 'magnus' }],
  magnusPressurePa: [20],
  saturationPressurePa: [20],
  clearSky: [30],
  sunOnFace: [{ elevationDeg: 30, azimuthDeg: 180, faceAzimuthDeg: 180, faceTiltDeg: 90 }],
  sunPosition: [{ timeSeconds: 1066419030, latitudeDeg: 39.742476, longitudeDeg: -105.1786 }],
  longestRunM: [
    {
      wire: '24 AWG',
      supplyV: 5.1,
      leastLoadV: 4.75,
      connectorsOhm: 0,
      states: [{ name: 'boot', currentA: 1.2 }],
    },
  ],
  powerOverCable: [{ type: 'type-1', lengthM: 50, loadW: 8 }],
  solarSizing: [{ meanLoadW: 5, worstMonthWPerM2: 83.3, autonomyDays: 5, batteryV: 12 }],
  supplyDrop: [
    {
      supplyV: 5.1,
      leastLoadV: 4.75,
      wire: '1 mm2',
      lengthM: 5,
      connectorsOhm: 0,
      states: [
        { name: 'idle', currentA: 0.6 },
        { name: 'boot', currentA: 2.5 },
      ],
    },
  ],
  thinnestWire: [{ lengthM: 10, supplyV: 24, leastLoadV: 20, states: [{ name: 'boot', powerW: 6 }] }],
  wireResistanceOhm: [{ wire: '24 AWG', lengthM: 100, temperatureC: 60 }],
};
