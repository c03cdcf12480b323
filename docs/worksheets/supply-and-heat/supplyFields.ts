import { supplyWireTable } from '@finial/site';
import type { FieldGroup, Value } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';

type Asked = Readonly<Record<string, Value>>;

const isSupply = whereChosen('question', 'supply');
const drawsPower = (values: Asked) => isSupply(values) && values['load'] === 'power';
const drawsCurrent = (values: Asked) => isSupply(values) && values['load'] === 'current';

const gauges = [12, 14, 16, 18, 20, 22, 23, 24, 26, 28].map((gauge) => `${gauge} AWG`);
const wires = [...supplyWireTable.map(({ designation }) => designation), ...gauges].map((value) => ({
  value,
  label: value.replace('mm2', 'mm²'),
}));

const states = [
  ['idle', 'idle'],
  ['transmit', 'sending'],
  ['boot', 'starting (boot)'],
] as const;

/** Fields of the supply line. */
export const supplyGroups: readonly FieldGroup[] = [
  {
    legend: 'The line',
    fields: [
      {
        kind: 'number',
        key: 'supplyV',
        label: 'Voltage of the supply',
        unit: 'V',
        step: 0.1,
        isAsked: isSupply,
        help: 'At its own terminals, under load. Extra-low voltage only.',
      },
      {
        kind: 'choice',
        key: 'wire',
        label: 'Wire',
        choices: [...wires, { value: 'measured', label: 'measured, or from its data sheet' }],
        isAsked: isSupply,
      },
      {
        kind: 'number',
        key: 'wireOhmPerM',
        label: 'Resistance of one conductor',
        unit: 'mΩ/m',
        scale: 1e-3,
        step: 1,
        isAsked: (values) => isSupply(values) && values['wire'] === 'measured',
        help: 'Half of what an ohmmeter shows for a pair joined at its far end, by its length. Copper-clad aluminium has half as much again as copper.',
      },
      { kind: 'number', key: 'lengthM', label: 'Length, one way', unit: 'm', step: 1, isAsked: isSupply },
      {
        kind: 'choice',
        key: 'conductorsCount',
        label: 'Conductors side by side, each way',
        isAsked: isSupply,
        choices: [
          { value: '1', label: '1' },
          { value: '2', label: '2: both wires of a data pair' },
          { value: '4', label: '4: two data pairs' },
        ],
      },
      {
        kind: 'number',
        key: 'connectorsOhm',
        label: 'Resistance of all contacts together',
        unit: 'mΩ',
        scale: 1e-3,
        step: 10,
        isAsked: isSupply,
        help: 'A plug and its socket add 20 to 60 mΩ (common practice, no source).',
      },
      {
        kind: 'number',
        key: 'wireTemperatureC',
        label: 'Temperature of the wire',
        unit: '°C',
        step: 5,
        isAsked: isSupply,
      },
    ],
  },
  {
    legend: 'The gateway',
    fields: [
      {
        kind: 'number',
        key: 'leastLoadV',
        label: 'Least voltage at which it works',
        unit: 'V',
        step: 0.05,
        isAsked: isSupply,
        help: 'A board fed with 5 V complains below about 4.63 to 4.75 V; a converter in the box bears far less than its nominal voltage.',
      },
      {
        kind: 'choice',
        key: 'load',
        label: 'What it draws',
        isAsked: isSupply,
        choices: [
          { value: 'power', label: 'a power: there is a switching converter in it' },
          { value: 'current', label: 'a current: linear regulator, or as measured' },
        ],
      },
      ...states.map(([key, words]) => ({
        kind: 'number' as const,
        key: `${key}W`,
        label: `Power while ${words}`,
        unit: 'W',
        step: 0.5,
        isAsked: drawsPower,
      })),
      ...states.map(([key, words]) => ({
        kind: 'number' as const,
        key: `${key}A`,
        label: `Current while ${words}`,
        unit: 'A',
        step: 0.1,
        isAsked: drawsCurrent,
      })),
    ],
  },
];
