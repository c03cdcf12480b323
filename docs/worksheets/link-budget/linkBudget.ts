import { requiredSnrDb, sensitivityDbm } from '@finial/lora';
import {
  linkBudget as budgetOf,
  freeSpaceLossDb,
  type LinkEnd,
  type LinkPlan,
  polarisationMismatchDb,
} from '@finial/radio';
import { checkRange } from '@finial/units';
import { defineSheet } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';
import type { Link, LinkValues } from './Link.js';
import { linkOutcome } from './linkOutcome.js';

const spreadingFactors = ['12', '11', '10', '9', '8', '7'].map((value) => ({ value, label: `SF${value}` }));
const bandwidths = [
  { value: '125000', label: '125 kHz' },
  { value: '250000', label: '250 kHz' },
  { value: '500000', label: '500 kHz' },
];

const isTilted = whereChosen('polarisation', 'tilted');

const endFields = (end: 'gateway' | 'node') => [
  {
    kind: 'number' as const,
    key: `${end}PowerDbm`,
    label: 'Power at the connector',
    unit: 'dBm',
    step: 0.5,
    help:
      end === 'gateway' ? 'What the law allows depends on cable and antenna: see Frame and law.' : undefined,
  },
  {
    kind: 'number' as const,
    key: `${end}FeedlineLossDb`,
    label: 'Loss between radio and antenna',
    unit: 'dB',
    step: 0.1,
  },
  {
    kind: 'number' as const,
    key: `${end}GainDbi`,
    label: 'Antenna gain towards the other end',
    unit: 'dBi',
    step: 0.1,
    help: end === 'node' ? 'A small antenna inside a case often has less than 0 dBi.' : undefined,
  },
  {
    kind: 'number' as const,
    key: `${end}NoiseFigureDb`,
    label: 'Noise figure of the receiver',
    unit: 'dB',
    step: 0.5,
    help: 'How much noise the receiver adds by itself; the data sheet says it.',
  },
  {
    kind: 'number' as const,
    key: `${end}NoiseRiseDb`,
    label: 'Man-made noise',
    unit: 'dB',
    step: 0.5,
    help: 'How far machines and power supplies around lift the noise at the receiver. 0 in the wild, several dB in a town.',
  },
  {
    kind: 'number' as const,
    key: `${end}HeightM`,
    label: 'Height of the antenna above the ground around',
    unit: 'm',
    step: 0.5,
  },
];

/** What arrives in each direction between a gateway and a node, and how much there is to spare. */
export const linkBudget = defineSheet<LinkValues>({
  runs: 'typing',
  defaults: {
    frequencyHz: 868.1e6,
    distanceM: 5000,
    polarisation: 'same',
    tiltDeg: 30,
    crossPolarDiscriminationDb: 20,
    obstacleLossDb: 0,
    fadingMarginDb: 0,
    uplinkSpreadingFactor: '9',
    uplinkBandwidthHz: '125000',
    downlinkSpreadingFactor: '12',
    downlinkBandwidthHz: '125000',
    gatewayPowerDbm: 14,
    gatewayFeedlineLossDb: 1.4,
    gatewayGainDbi: 2,
    gatewayNoiseFigureDb: 4,
    gatewayNoiseRiseDb: 3,
    gatewayHeightM: 8,
    nodePowerDbm: 14,
    nodeFeedlineLossDb: 0,
    nodeGainDbi: -2,
    nodeNoiseFigureDb: 6,
    nodeNoiseRiseDb: 0,
    nodeHeightM: 1.5,
  },
  groups: [
    {
      legend: 'The way',
      fields: [
        { kind: 'number', key: 'frequencyHz', label: 'Frequency', unit: 'MHz', scale: 1e6, step: 0.1 },
        { kind: 'number', key: 'distanceM', label: 'Distance', unit: 'km', scale: 1000, step: 0.1 },
        {
          kind: 'choice',
          key: 'polarisation',
          label: 'How the two antennas stand to each other',
          choices: [
            { value: 'same', label: 'both upright' },
            { value: 'tilted', label: 'the node is tilted' },
            { value: 'circular', label: 'one upright, one circular' },
          ],
          help: 'Antennas at an angle to each other hear less of each other: polarisation.',
        },
        {
          kind: 'number',
          key: 'tiltDeg',
          label: 'Tilt of the node from upright',
          unit: '°',
          step: 5,
          isAsked: isTilted,
        },
        {
          kind: 'number',
          key: 'crossPolarDiscriminationDb',
          label: 'What crossed antennas still lose at most',
          unit: 'dB',
          step: 1,
          isAsked: isTilted,
          help: 'On paper everything; real places leave 10 to 30 dB (common practice, no source).',
        },
        {
          kind: 'number',
          key: 'obstacleLossDb',
          label: 'Houses, trees, walls',
          unit: 'dB',
          step: 1,
          help: 'Loss beyond free space. Only a walk or the terrain worksheet tells it; 20 dB and more is usual in a town.',
        },
        {
          kind: 'number',
          key: 'fadingMarginDb',
          label: 'Margin for fading',
          unit: 'dB',
          step: 1,
          help: 'The level swings in time. 10 dB is a usual allowance (common practice, no source).',
        },
      ],
    },
    {
      legend: 'The signal',
      fields: [
        {
          kind: 'choice',
          key: 'uplinkSpreadingFactor',
          label: 'Uplink: spreading factor',
          choices: spreadingFactors,
        },
        { kind: 'choice', key: 'uplinkBandwidthHz', label: 'Uplink: bandwidth', choices: bandwidths },
        {
          kind: 'choice',
          key: 'downlinkSpreadingFactor',
          label: 'Downlink: spreading factor',
          choices: spreadingFactors,
        },
        { kind: 'choice', key: 'downlinkBandwidthHz', label: 'Downlink: bandwidth', choices: bandwidths },
      ],
    },
    { legend: 'The gateway', fields: endFields('gateway') },
    { legend: 'The node', fields: endFields('node') },
  ],
  fieldOf: {
    ...fieldsOfEnd('gateway'),
    ...fieldsOfEnd('node'),
    angleDeg: 'tiltDeg',
    transmitHeightM: 'gatewayHeightM',
    receiveHeightM: 'nodeHeightM',
  },
  compute: (values) => linkOutcome(linkOf(values)),
});

function fieldsOfEnd(end: 'gateway' | 'node'): Record<string, string> {
  return {
    [`${end}.conductedPowerDbm`]: `${end}PowerDbm`,
    [`${end}.feedlineLossDb`]: `${end}FeedlineLossDb`,
    [`${end}.antennaGainDbi`]: `${end}GainDbi`,
    [`${end}.noiseFigureDb`]: `${end}NoiseFigureDb`,
    [`${end}.receivedNoiseRiseDb`]: `${end}NoiseRiseDb`,
  };
}

/** The budget, with what it was made from. */
function linkOf(values: LinkValues): Link {
  const { frequencyHz, distanceM } = values;
  const uplink = modulationOf(values.uplinkSpreadingFactor, values.uplinkBandwidthHz);
  const downlink = modulationOf(values.downlinkSpreadingFactor, values.downlinkBandwidthHz);
  const pathLossDb = freeSpaceLossDb({ frequencyHz, distanceM });
  const losses = lossesOf(values);
  const plan: LinkPlan = {
    pathLossDb,
    bandwidthHz: uplink.bandwidthHz,
    downlinkBandwidthHz: downlink.bandwidthHz,
    uplinkRequiredSnrDb: requiredSnrDb(uplink.spreadingFactor),
    downlinkRequiredSnrDb: requiredSnrDb(downlink.spreadingFactor),
    gateway: endOf(values, 'gateway'),
    node: endOf(values, 'node'),
    losses,
  };
  return {
    values,
    plan,
    budget: budgetOf(plan),
    uplinkModulation: uplink,
    downlinkModulation: downlink,
    gatewaySensitivityDbm: sensitivityDbm({ ...uplink, noiseFigureDb: values.gatewayNoiseFigureDb }),
    nodeSensitivityDbm: sensitivityDbm({ ...downlink, noiseFigureDb: values.nodeNoiseFigureDb }),
  };
}

function modulationOf(spreadingFactor: string, bandwidthHz: string) {
  return { spreadingFactor: Number(spreadingFactor), bandwidthHz: Number(bandwidthHz) };
}

function endOf(values: LinkValues, end: 'gateway' | 'node'): LinkEnd {
  return {
    conductedPowerDbm: values[`${end}PowerDbm`],
    feedlineLossDb: values[`${end}FeedlineLossDb`],
    antennaGainDbi: values[`${end}GainDbi`],
    noiseFigureDb: values[`${end}NoiseFigureDb`],
    receivedNoiseRiseDb: values[`${end}NoiseRiseDb`],
  };
}

/** The further losses that are there; each is checked here under the name of its field, since its place in the list varies. */
function lossesOf(values: LinkValues): { name: string; lossDb: number }[] {
  const bounds = { min: 0, max: 1000, unit: 'dB (a loss is positive)' };
  const losses = [
    { name: 'polarisation', lossDb: polarisationLossDb(values) },
    { name: 'houses, trees, walls', lossDb: checkRange(values.obstacleLossDb, 'obstacleLossDb', bounds) },
    { name: 'margin for fading', lossDb: checkRange(values.fadingMarginDb, 'fadingMarginDb', bounds) },
  ];
  return losses.filter(({ lossDb }) => lossDb !== 0);
}

function polarisationLossDb({ polarisation, tiltDeg, crossPolarDiscriminationDb }: LinkValues): number {
  if (polarisation === 'same') return 0;
  if (polarisation === 'circular')
    return polarisationMismatchDb({ transmit: 'linear', receive: 'right-circular' });
  const pair = { transmit: 'linear', receive: 'linear', angleDeg: tiltDeg } as const;
  return polarisationMismatchDb({ ...pair, crossPolarDiscriminationDb });
}
