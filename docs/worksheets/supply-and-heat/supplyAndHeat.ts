import { defineSheet } from '../frame/sheet.js';
import { boxGroups, dampGroup } from './boxFields.js';
import { dampOutcome } from './dampOutcome.js';
import { heatOutcome } from './heatOutcome.js';
import type { SiteValues } from './SiteValues.js';
import { supplyGroups } from './supplyFields.js';
import { supplyOutcome } from './supplyOutcome.js';
import { windGroups } from './windFields.js';
import { windOutcome } from './windOutcome.js';

/** Supply, heat, damp and wind of a gateway outdoors. */
export const supplyAndHeat = defineSheet<SiteValues>({
  runs: 'typing',
  defaults: {
    question: 'heat',
    supplyV: 24,
    leastLoadV: 9,
    wire: '0.5 mm2',
    wireOhmPerM: 0.039,
    lengthM: 18,
    conductorsCount: '1',
    connectorsOhm: 0.04,
    wireTemperatureC: 20,
    load: 'power',
    idleW: 3.5,
    transmitW: 5,
    bootW: 7,
    idleA: 0.6,
    transmitA: 1.2,
    bootA: 2.5,
    widthM: 0.2,
    heightM: 0.2,
    depthM: 0.1,
    mounting: 'wall',
    faceAzimuthDeg: 200,
    powerW: 4,
    colour: 'dark grey or green',
    absorptivityRatio: 0.85,
    shadeRatio: 0,
    ventAreaM2: 0,
    month: '07',
    day: 15,
    latitudeDeg: 41.1901,
    longitudeDeg: -37.4322,
    highestAirC: 33,
    lowestAirC: 21,
    windMPerS: 0,
    albedoRatio: 0.2,
    electronicsLimitC: 60,
    relativeHumidityPercent: 55,
    breathing: 'gasketed',
    desiccantUnitsCount: 1,
    serviceDays: 365,
    glandsFaceDown: true,
    dripLoops: true,
    hasDrain: false,
    code: 'en-1991-1-4',
    gustSpeedMPerS: 40,
    meanSpeedMPerS: 27,
    exposureCategory: 'C',
    terrainCategory: 'I',
    heightAboveGroundM: 8,
    tubeDiameterM: 0.042,
    tubeLengthM: 2,
    tubeWallM: 0.003,
    tubeSupportM: 0,
    material: 'steel-s235',
    antennaDiameterM: 0.02,
    antennaLengthM: 0.4,
    hasPlate: false,
    plateWidthM: 0.35,
    plateHeightM: 0.3,
    plateCentreM: 0.4,
    iceM: 0,
    foot: 'ballast',
    tippingArmM: 0.45,
    frictionRatio: 0.4,
    ballastKg: 120,
    footAreaM2: 0.81,
  },
  groups: [
    {
      legend: 'The question',
      fields: [
        {
          kind: 'choice',
          key: 'question',
          label: 'What do you want to know?',
          choices: [
            { value: 'supply', label: 'what voltage arrives at the gateway' },
            { value: 'heat', label: 'how hot the box gets' },
            { value: 'damp', label: 'whether water condenses in it' },
            { value: 'wind', label: 'what the wind does to the mast' },
          ],
        },
      ],
    },
    ...supplyGroups,
    dampGroup,
    ...boxGroups,
    ...windGroups,
  ],
  fieldOf: {
    'box.date': 'day',
    airC: 'highestAirC',
    'wire.resistanceOhmPerM': 'wireOhmPerM',
    temperatureC: 'wireTemperatureC',
    'states[0].powerW': 'idleW',
    'states[1].powerW': 'transmitW',
    'states[2].powerW': 'bootW',
    'states[0].currentA': 'idleA',
    'states[1].currentA': 'transmitA',
    'states[2].currentA': 'bootA',
    'parts[0].widthM': 'tubeDiameterM',
    'parts[0].heightM': 'tubeLengthM',
    'parts[0].centreM': 'tubeLengthM',
    'parts[1].widthM': 'antennaDiameterM',
    'parts[1].heightM': 'antennaLengthM',
    'parts[1].centreM': 'antennaLengthM',
    'parts[2].widthM': 'plateWidthM',
    'parts[2].heightM': 'plateHeightM',
    'parts[2].centreM': 'plateCentreM',
    outerDiameterM: 'tubeDiameterM',
    wallM: 'tubeWallM',
    topM: 'tubeLengthM',
    supportM: 'tubeSupportM',
    areaM2: 'footAreaM2',
    'foot.areaM2': 'footAreaM2',
  },
  compute: (values) => {
    switch (values.question) {
      case 'supply':
        return supplyOutcome(values);
      case 'heat':
        return heatOutcome(values);
      case 'damp':
        return dampOutcome(values);
      case 'wind':
        return windOutcome(values);
    }
  },
});
