import { defineSheet, type FieldGroup, type Value } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';
import type { AntennaValues } from './AntennaValues.js';
import { cutOutcome, hasNode } from './cutOutcome.js';
import { rodsOutcome } from './rodsOutcome.js';
import { sweepOutcome } from './sweepOutcome.js';

type Asked = Readonly<Record<string, Value>>;

const isCut = whereChosen('question', 'cut');
const isSweep = whereChosen('question', 'sweep');
const isRods = whereChosen('question', 'rods');
/** Asked while sizing one of these antennas. */
const cutOf =
  (...kinds: readonly string[]) =>
  ({ question, kind }: Asked) =>
    question === 'cut' && kinds.includes(String(kind));
const standsOnRadials = ({ question, kind, ground }: Asked) =>
  question === 'rods' ||
  (question === 'cut' && (kind === 'ground-plane' || (kind === 'five-eighths' && ground === 'radials')));
/** All but the collinear, which is reckoned without the thickness of its rods. */
const hasRod = ({ question, kind }: Asked) =>
  question === 'rods' || (question === 'cut' && kind !== 'collinear');
const hasPattern = (values: Asked) => isCut(values) && hasNode(values as unknown as AntennaValues);

const question: FieldGroup = {
  legend: 'The question',
  fields: [
    {
      kind: 'choice',
      key: 'question',
      label: 'What do you want to know?',
      choices: [
        { value: 'cut', label: 'how long to cut' },
        { value: 'sweep', label: 'what a sweep says' },
        { value: 'rods', label: 'what rods of these lengths do' },
      ],
    },
    {
      kind: 'number',
      key: 'frequencyHz',
      label: 'Frequency at which it shall work',
      unit: 'MHz',
      scale: 1e6,
      step: 0.1,
    },
  ],
};

const kind: FieldGroup = {
  legend: 'The antenna',
  fields: [
    {
      kind: 'choice',
      key: 'kind',
      label: 'Kind',
      isAsked: isCut,
      choices: [
        { value: 'ground-plane', label: 'quarter-wave rod on radials (ground plane)' },
        { value: 'dipole', label: 'half-wave dipole' },
        { value: 'sleeve-dipole', label: 'sleeve dipole: rod over a tube' },
        { value: 'monopole', label: 'quarter-wave rod on a wide metal roof' },
        { value: 'five-eighths', label: '5/8-wave rod' },
        { value: 'j-pole', label: 'J-pole' },
        { value: 'collinear', label: 'collinear: half waves one above the other' },
      ],
    },
    {
      kind: 'number',
      key: 'elementDiameterM',
      label: 'Diameter of the rod',
      unit: 'mm',
      scale: 1e-3,
      step: 0.1,
      isAsked: hasRod,
      help: 'Of the metal, without insulation.',
    },
    {
      kind: 'choice',
      key: 'ground',
      label: 'What it stands on',
      isAsked: cutOf('five-eighths'),
      choices: [
        { value: 'radials', label: 'quarter-wave radials' },
        { value: 'perfect', label: 'a metal ground without end' },
      ],
    },
    {
      kind: 'number',
      key: 'rodLengthM',
      label: 'Length of the upright rod',
      unit: 'mm',
      scale: 1e-3,
      step: 0.5,
      isAsked: isRods,
      help: 'On the metal, from the feed point to the tip.',
    },
    {
      kind: 'number',
      key: 'rodRadials',
      label: 'Number of radials',
      unit: '',
      step: 1,
      isAsked: isRods,
      help: '0 for a rod on a wide metal roof.',
    },
    {
      kind: 'number',
      key: 'radialLengthM',
      label: 'Length of each radial',
      unit: 'mm',
      scale: 1e-3,
      step: 0.5,
      isAsked: ({ question: asked, rodRadials }) => asked === 'rods' && rodRadials !== 0,
    },
    {
      kind: 'number',
      key: 'radials',
      label: 'Number of radials',
      unit: '',
      step: 1,
      isAsked: (values) => isCut(values) && standsOnRadials(values),
    },
    {
      kind: 'number',
      key: 'droopDeg',
      label: 'How far the radials hang down',
      unit: '°',
      step: 5,
      isAsked: standsOnRadials,
      help: '0 is flat; about 45° brings the feed to 50 Ω.',
    },
    {
      kind: 'number',
      key: 'sleeveDiameterM',
      label: 'Diameter of the tube (sleeve)',
      unit: 'mm',
      scale: 1e-3,
      step: 0.5,
      isAsked: cutOf('sleeve-dipole'),
    },
    {
      kind: 'number',
      key: 'elements',
      label: 'Number of elements',
      unit: '',
      step: 1,
      isAsked: cutOf('collinear'),
    },
    {
      kind: 'number',
      key: 'spacingWavelengths',
      label: 'Distance between their middles',
      unit: 'λ',
      step: 0.05,
      isAsked: cutOf('collinear'),
      help: 'In wavelengths: 0.5 where they touch.',
    },
    {
      kind: 'number',
      key: 'downtiltDeg',
      label: 'Beam turned below the horizon',
      unit: '°',
      step: 1,
      isAsked: cutOf('collinear'),
    },
    {
      kind: 'number',
      key: 'insulationVelocityFactor',
      label: 'Insulation: velocity factor',
      unit: '',
      step: 0.01,
      isAsked: (values) => isCut(values) && hasRod(values),
      help: '1 for bare metal; insulation left on the wire has 0.94 to 0.98 and makes it shorter.',
    },
    {
      kind: 'number',
      key: 'referenceOhm',
      label: 'Impedance of the cable',
      unit: 'Ω',
      step: 5,
      isAsked: (values) => hasRod(values) && !cutOf('j-pole')(values),
    },
  ],
};

const node: FieldGroup = {
  legend: 'Towards a node',
  fields: [
    {
      kind: 'number',
      key: 'gatewayHeightM',
      label: 'Height of the antenna',
      unit: 'm',
      step: 1,
      isAsked: hasPattern,
      help: 'Above the same level as the node: a hill counts.',
    },
    {
      kind: 'number',
      key: 'nodeHeightM',
      label: 'Height of the node',
      unit: 'm',
      step: 1,
      isAsked: hasPattern,
    },
    {
      kind: 'number',
      key: 'distanceM',
      label: 'Distance',
      unit: 'km',
      scale: 1000,
      step: 0.1,
      isAsked: hasPattern,
    },
  ],
};

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

const sweeps: FieldGroup = {
  legend: 'The sweeps',
  fields: [
    {
      kind: 'file',
      key: 'sweeps',
      label: 'Touchstone (.s1p) or table (.csv)',
      accept: '.s1p,.s2p,.csv,.tsv,.txt',
      isMultiple: true,
      isAsked: isSweep,
      help: 'One sweep, or all of them at once, in the order of the cuts; the last one is the antenna as it is.',
    },
    {
      kind: 'choice',
      key: 'lengthsCount',
      label: 'Sweeps whose element length you know',
      isAsked: isSweep,
      choices: ['0', '1', '2', '3', '4', '5', '6'].map((value) => ({
        value,
        label: value === '0' ? 'none: no advice on cutting' : value,
      })),
      help: 'Advice on cutting needs the length of the element at every sweep.',
    },
    ...ordinals.map((name, index) => ({
      kind: 'number' as const,
      key: `element${index + 1}M`,
      label: `Element at the ${name} sweep`,
      unit: 'mm',
      scale: 1e-3,
      step: 0.1,
      isAsked: ({ question: asked, lengthsCount }: Asked) =>
        asked === 'sweep' && Number(lengthsCount) > index,
    })),
    {
      kind: 'choice',
      key: 'trimmed',
      label: 'What is cut',
      isAsked: ({ question: asked, lengthsCount }) => asked === 'sweep' && lengthsCount !== '0',
      choices: [
        { value: 'vertical', label: 'the upright rod alone' },
        { value: 'whole-antenna', label: 'the whole antenna alike' },
      ],
    },
  ],
};

const lead: FieldGroup = {
  legend: 'Lead between analyser and antenna',
  fields: [
    {
      kind: 'number',
      key: 'leadLossDb',
      label: 'Loss one way at the frequency above',
      unit: 'dB',
      step: 0.05,
      isAsked: isSweep,
      help: 'Leave loss and length at 0 where the analyser was calibrated at the antenna.',
    },
    { kind: 'number', key: 'leadLengthM', label: 'Length', unit: 'm', step: 0.05, isAsked: isSweep },
    {
      kind: 'number',
      key: 'leadVelocityFactor',
      label: 'Velocity factor',
      unit: '',
      step: 0.01,
      isAsked: isSweep,
      help: '0.66 to 0.69 for solid plastic, 0.8 and more for foam.',
    },
  ],
};

/** How long to cut an antenna, what a sweep of it says, and what rods of given lengths do. */
export const antenna = defineSheet<AntennaValues>({
  runs: 'typing',
  defaults: {
    question: 'cut',
    kind: 'ground-plane',
    frequencyHz: 868.1e6,
    elementDiameterM: 0.002,
    insulationVelocityFactor: 1,
    referenceOhm: 50,
    droopDeg: 45,
    radials: 4,
    sleeveDiameterM: 0.006,
    ground: 'radials',
    elements: 4,
    spacingWavelengths: 0.8,
    downtiltDeg: 0,
    gatewayHeightM: 120,
    nodeHeightM: 12,
    distanceM: 500,
    leadLossDb: 0,
    leadLengthM: 0,
    leadVelocityFactor: 0.69,
    trimmed: 'vertical',
    lengthsCount: '1',
    element1M: 0.079,
    element2M: 0.078,
    element3M: 0.0772,
    element4M: 0.0765,
    element5M: 0.076,
    element6M: 0.0755,
    rodLengthM: 0.0793,
    rodRadials: 4,
    radialLengthM: 0.0863,
  },
  groups: [question, sweeps, lead, kind, node],
  waitsFor: {
    key: 'sweeps',
    words: 'Drop the file of a sweep, or several in the order of the cuts, and the answer appears here.',
  },
  samples: [
    { key: 'sweeps', name: 'the first sweep of the invented antenna', url: '/fennimara/antenna.s1p' },
  ],
  fieldOf: {
    sweep: 'sweeps',
    'sweep.frequencyHz': 'sweeps',
    targetHz: 'frequencyHz',
    lossDb: 'leadLossDb',
    lengthM: 'leadLengthM',
    velocityFactor: 'leadVelocityFactor',
    ...Object.fromEntries(
      ordinals.map((_, index) => [`cuts[${index}].elementLengthM`, `element${index + 1}M`]),
    ),
    'wires[0]': 'rodLengthM',
  },
  compute: (values, files) => {
    if (values.question === 'sweep') return sweepOutcome(values, files['sweeps'] ?? []);
    return values.question === 'rods' ? rodsOutcome(values) : cutOutcome(values);
  },
});
