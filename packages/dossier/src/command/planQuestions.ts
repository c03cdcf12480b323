import { type JurisdictionName, type Region, regions } from '@finial/lora';
import type { PlanAnswers } from './planAnswers.js';
import { firstChannelHz } from './regionNamed.js';

/** One thing that a new plan needs to know. */
export interface PlanQuestion {
  /** Name of the answer, and of the option in the words of a program. */
  readonly key: keyof PlanAnswers;
  /** The question to a person; an answer without one is never asked for, only taken from its option. */
  readonly words?: string | undefined;
  /** What the option says of itself in the help text. */
  readonly help: string;
  /** Where the answer stands in the plan. */
  readonly place: string;
  /** What holds where nothing is said; nothing where a person must say it. */
  readonly standard?: ((answers: Partial<PlanAnswers>) => string | number | undefined) | undefined;
}

/** The law of the regions that lie under one of those known here; the others need to be asked. */
const usualJurisdictions: Readonly<Record<string, JurisdictionName>> = {
  EU868: 'EU',
  EU433: 'EU',
  US915: 'US',
  AU915: 'AU',
  IN865: 'IN',
  KR920: 'KR',
  CN470: 'CN',
  CN779: 'CN',
};

/** Gain of a half-wave dipole in dBi, for an antenna of which nothing is said. */
const dipoleGainDbi = 2.15;
/** What common transmitters give in dBm; common practice, no source. */
const commonPowerDbm = 14;
/** Between range and time on air: common practice for a first plan, no source. */
const usualSpreadingFactor = 9;

/** The questions in the order in which they are asked; a standard may rest on the answers before it. */
export const planQuestions: readonly PlanQuestion[] = [
  { key: 'name', words: 'Name of the gateway', help: 'name of the gateway', place: 'name' },
  {
    key: 'region',
    words: `LoRaWAN region (${Object.values(regions)
      .map(({ name }) => name)
      .join(', ')})`,
    help: 'LoRaWAN regional parameters, such as EU868',
    place: 'region',
  },
  {
    key: 'jurisdiction',
    words: 'Whose law holds (EU, US, AU, JP, IN, KR, CN)',
    help: 'whose law holds: EU, US, AU, JP, IN, KR or CN; by the region where that tells it',
    place: 'jurisdiction',
    standard: ({ region }) => usualJurisdictions[region ?? ''],
  },
  {
    key: 'latitudeDeg',
    words: 'Latitude of the gateway in degrees north',
    help: 'where the gateway stands, degrees north',
    place: 'gateway.position.latitudeDeg',
  },
  {
    key: 'longitudeDeg',
    words: 'Longitude of the gateway in degrees east',
    help: 'where the gateway stands, degrees east',
    place: 'gateway.position.longitudeDeg',
  },
  {
    key: 'antennaHeightM',
    words: 'Height of its antenna above the ground in metres',
    help: "height of the gateway's antenna above the ground",
    place: 'gateway.antennaHeightM',
  },
  {
    key: 'antennaGainDbi',
    words: 'Gain of its antenna in dBi',
    help: "gain of the gateway's antenna; that of a dipole when left out",
    place: 'gateway.antennaGainDbi',
    standard: () => dipoleGainDbi,
  },
  {
    key: 'feedlineLossDb',
    words: 'Loss of cable, connectors and arrestor in dB',
    help: 'loss between gateway and antenna',
    place: 'gateway.feedlineLossDb',
    standard: () => 1,
  },
  {
    key: 'conductedPowerDbm',
    words: "Power at the gateway's connector in dBm",
    help: "power at the gateway's connector; 14, or less where the antenna brings that above the region's power",
    place: 'gateway.conductedPowerDbm',
    standard: ({ region, antennaGainDbi = 0, feedlineLossDb = 0 }) =>
      usualPowerDbm(region, antennaGainDbi - feedlineLossDb),
  },
  {
    key: 'noiseFigureDb',
    help: "noise figure of the gateway's receiver",
    place: 'gateway.noiseFigureDb',
    standard: () => 4,
  },
  {
    key: 'nodeHeightM',
    words: 'Height of the node above the ground in metres',
    help: 'height of the node above the ground',
    place: 'node.heightM',
    standard: () => 1.5,
  },
  {
    key: 'nodeAntennaGainDbi',
    words: "Gain of the node's antenna in dBi (a short whip is negative)",
    help: "gain of the node's antenna; a short whip is negative",
    place: 'node.antennaGainDbi',
    standard: () => -2,
  },
  {
    key: 'nodeConductedPowerDbm',
    help: "power at the node's connector; 14, or less as for the gateway",
    place: 'node.conductedPowerDbm',
    standard: ({ region, nodeAntennaGainDbi = 0 }) => usualPowerDbm(region, nodeAntennaGainDbi),
  },
  {
    key: 'nodeNoiseFigureDb',
    help: "noise figure of the node's receiver",
    place: 'node.noiseFigureDb',
    standard: () => 6,
  },
  {
    key: 'dataRate',
    words: 'Data rate index of its uplinks',
    help: "data rate index of the uplinks; the region's SF9 of 125 kHz when left out",
    place: 'node.uplink.dataRate',
    standard: ({ region }) => usualDataRate(regionOf(region)),
  },
  {
    key: 'frequencyHz',
    help: 'channel of the uplinks; the first for the data rate when left out',
    place: 'node.uplink.frequencyHz',
    standard: ({ region, dataRate = 0 }) => {
      const known = regionOf(region);
      return known && firstChannelHz(known, dataRate);
    },
  },
  {
    key: 'applicationBytes',
    help: 'bytes of the application in a frame',
    place: 'node.uplink.applicationBytes',
    standard: () => 12,
  },
  {
    key: 'intervalSeconds',
    words: 'Time between two of its frames in seconds',
    help: 'time between two frames of the node',
    place: 'node.intervalSeconds',
    standard: () => 600,
  },
  {
    key: 'distanceM',
    words: 'Distance between node and gateway in metres',
    help: 'distance between node and gateway',
    place: 'link.distanceM',
  },
];

/** Answers that are texts; the others are numbers. */
export const textAnswers: ReadonlySet<keyof PlanAnswers> = /* @__PURE__ */ new Set([
  'name',
  'region',
  'jurisdiction',
]);

function regionOf(name: string | undefined): Region | undefined {
  return Object.values(regions).find((region) => region.name === name);
}

/** Power at a connector that the antenna behind it does not raise above the highest of the region. */
function usualPowerDbm(regionName: string | undefined, netGainDbi: number): number | undefined {
  const power = regionOf(regionName)?.power;
  if (power === undefined) return undefined;
  const highestDbm = (power.txPowersDbm[0] ?? commonPowerDbm) - (power.quantity === 'EIRP' ? netGainDbi : 0);
  return Math.min(commonPowerDbm, Math.floor(highestDbm * 100 + 1e-6) / 100);
}

function usualDataRate(region: Region | undefined): number | undefined {
  return region?.dataRates.find(
    (row) =>
      row.modulation === 'LoRa' &&
      row.direction !== 'downlink' &&
      row.spreadingFactor === usualSpreadingFactor &&
      row.bandwidthHz === 125_000,
  )?.dataRate;
}
