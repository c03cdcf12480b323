import { solarAbsorptivityRatios } from '@finial/site';
import type { FieldGroup, Value } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';

const isAsked = whereChosen('question', 'heat', 'damp');
const isDamp = whereChosen('question', 'damp');

const months = [
  ['01', 'January'],
  ['02', 'February'],
  ['03', 'March'],
  ['04', 'April'],
  ['05', 'May'],
  ['06', 'June'],
  ['07', 'July'],
  ['08', 'August'],
  ['09', 'September'],
  ['10', 'October'],
  ['11', 'November'],
  ['12', 'December'],
].map(([value = '', label = '']) => ({ value, label }));

/** Fields of the box and of its day: both heat and damp need them. */
export const boxGroups: readonly FieldGroup[] = [
  {
    legend: 'The box',
    fields: [
      { kind: 'number', key: 'widthM', label: 'Width', unit: 'cm', scale: 0.01, step: 1, isAsked },
      { kind: 'number', key: 'heightM', label: 'Height', unit: 'cm', scale: 0.01, step: 1, isAsked },
      { kind: 'number', key: 'depthM', label: 'Depth', unit: 'cm', scale: 0.01, step: 1, isAsked },
      {
        kind: 'choice',
        key: 'mounting',
        label: 'How it stands',
        choices: [
          { value: 'wall', label: 'its back on a wall' },
          { value: 'free-standing', label: 'free, on a mast' },
        ],
        isAsked,
      },
      {
        kind: 'number',
        key: 'faceAzimuthDeg',
        label: 'Where its front looks',
        unit: '°',
        step: 5,
        isAsked,
        help: 'Clockwise from north: 180 is south.',
      },
      {
        kind: 'choice',
        key: 'colour',
        label: 'Colour',
        choices: [
          ...Object.keys(solarAbsorptivityRatios).map((value) => ({ value, label: value })),
          { value: 'stated', label: 'by the data sheet of the paint' },
        ],
        isAsked,
      },
      {
        kind: 'number',
        key: 'absorptivityRatio',
        label: 'Share of sunshine that the paint takes up',
        unit: '%',
        scale: 0.01,
        step: 5,
        isAsked: (values: Readonly<Record<string, Value>>) =>
          isAsked(values) && values['colour'] === 'stated',
      },
      {
        kind: 'number',
        key: 'shadeRatio',
        label: 'Share of sun and sky that an awning keeps off',
        unit: '%',
        scale: 0.01,
        step: 10,
        isAsked,
        help: '0 without one; about 80 for a sheet with free air behind it.',
      },
      {
        kind: 'number',
        key: 'ventAreaM2',
        label: 'Opening at the bottom, with one as large at the top',
        unit: 'cm²',
        scale: 1e-4,
        step: 1,
        isAsked,
        help: '0 for a closed box. An insect mesh halves it.',
      },
      { kind: 'number', key: 'powerW', label: 'Power of the electronics', unit: 'W', step: 0.5, isAsked },
      {
        kind: 'number',
        key: 'electronicsLimitC',
        label: 'Air temperature that the electronics bear',
        unit: '°C',
        step: 5,
        isAsked,
      },
    ],
  },
  {
    legend: 'The day',
    fields: [
      { kind: 'choice', key: 'month', label: 'Month', choices: months, isAsked },
      { kind: 'number', key: 'day', label: 'Day of the month', unit: '', step: 1, isAsked },
      { kind: 'number', key: 'highestAirC', label: 'Highest air temperature', unit: '°C', step: 1, isAsked },
      { kind: 'number', key: 'lowestAirC', label: 'Lowest air temperature', unit: '°C', step: 1, isAsked },
      {
        kind: 'number',
        key: 'latitudeDeg',
        label: 'Latitude',
        unit: '°',
        step: 0.1,
        isAsked,
        help: 'South is negative.',
      },
      {
        kind: 'number',
        key: 'longitudeDeg',
        label: 'Longitude',
        unit: '°',
        step: 0.1,
        isAsked,
        help: 'West is negative.',
      },
      {
        kind: 'number',
        key: 'windMPerS',
        label: 'Wind at the box',
        unit: 'm/s',
        step: 0.5,
        isAsked,
        help: '0 is the hottest case.',
      },
      {
        kind: 'number',
        key: 'albedoRatio',
        label: 'Share of sunshine that the ground throws back',
        unit: '%',
        scale: 0.01,
        step: 5,
        isAsked,
        help: '20 for most ground, up to 80 for fresh snow (common practice, no source).',
      },
    ],
  },
];

/** Fields of the damp. */
export const dampGroup: FieldGroup = {
  legend: 'The damp',
  fields: [
    {
      kind: 'number',
      key: 'relativeHumidityPercent',
      label: 'Relative humidity at the highest air temperature',
      unit: '%',
      step: 1,
      isAsked: isDamp,
      help: 'Humidity falls as the day warms: take that of the early afternoon.',
    },
    {
      kind: 'choice',
      key: 'breathing',
      label: 'How the box breathes',
      choices: [
        { value: 'gasketed', label: 'closed, with gaskets and glands' },
        { value: 'vented', label: 'membrane or open vent' },
      ],
      isAsked: isDamp,
    },
    {
      kind: 'number',
      key: 'desiccantUnitsCount',
      label: 'Bags of desiccant in it',
      unit: 'units',
      step: 1,
      isAsked: isDamp,
      help: 'One unit takes up at least 6 g of water.',
    },
    {
      kind: 'number',
      key: 'serviceDays',
      label: 'Time to the next visit',
      unit: 'days',
      scale: 1,
      step: 30,
      isAsked: isDamp,
    },
    { kind: 'check', key: 'glandsFaceDown', label: 'all cables enter from below', isAsked: isDamp },
    { kind: 'check', key: 'dripLoops', label: 'every cable hangs in a drip loop', isAsked: isDamp },
    { kind: 'check', key: 'hasDrain', label: 'there is a drain at the lowest point', isAsked: isDamp },
  ],
};
