import type { Access, JurisdictionName } from '@finial/lora';
import * as z from 'zod';
import { type FeedlinePlan, feedlineSchema } from './feedlinePlan.js';
import { type Position, positionSchema } from './position.js';
import { type SitePlan, siteSchema } from './sitePlan.js';
import { type TerrainPlan, terrainSchema } from './terrainPlan.js';

/** Common name of a channel plan of the LoRaWAN regional parameters. */
export type RegionName =
  | 'EU868'
  | 'US915'
  | 'AU915'
  | 'AS923-1'
  | 'AS923-2'
  | 'AS923-3'
  | 'AS923-4'
  | 'IN865'
  | 'KR920'
  | 'EU433'
  | 'CN470'
  | 'CN779'
  | 'RU864';

/** The gateway on the roof. */
export interface GatewayPlan {
  /** Where the antenna stands. */
  readonly position: Position;
  /** Height of the antenna above the ground in metres, 0.5 to 3000. */
  readonly antennaHeightM: number;
  /** Power at the transmitter's connector in dBm, -30 to 40; used for downlinks. */
  readonly conductedPowerDbm: number;
  /** Loss of cable, connectors and arrestor between radio and antenna in dB, 0 to 60, where the plan does not list them under `feedline`. */
  readonly feedlineLossDb?: number | undefined;
  /** Gain of the antenna over an isotropic one in dBi, -20 to 30. */
  readonly antennaGainDbi: number;
  /** Noise figure of the receiver in dB, 0 to 30. */
  readonly noiseFigureDb: number;
  /** Man-made noise above the thermal floor at this place in dB, 0 to 60; 0 when left out. */
  readonly manMadeNoiseDb?: number | undefined;
  /** The downlink that the law check looks at; without it only the node is checked. */
  readonly downlink?: TransmissionPlan | undefined;
}

/** One frame that is to be sent. */
export interface TransmissionPlan {
  /** Data rate index of the region. */
  readonly dataRate: number;
  /** Channel centre in hertz, 400 MHz to 3 GHz. */
  readonly frequencyHz: number;
  /** Application payload in bytes, 0 to 242. */
  readonly applicationBytes: number;
}

/** The node that is to be heard. */
export interface NodePlan {
  /** Height above the ground in metres, 0.5 to 3000. */
  readonly heightM: number;
  /** Power at the transmitter's connector in dBm, -30 to 40. */
  readonly conductedPowerDbm: number;
  /** Loss between radio and antenna in dB, 0 to 60; 0 when left out. */
  readonly feedlineLossDb?: number | undefined;
  /** Gain of the antenna over an isotropic one in dBi, -20 to 30; a short whip in the hand is negative. */
  readonly antennaGainDbi: number;
  /** Noise figure of the receiver in dB, 0 to 30. */
  readonly noiseFigureDb: number;
  /** The frame that the node sends. */
  readonly uplink: TransmissionPlan;
  /** Time between two frames in seconds. */
  readonly intervalSeconds: number;
  /** How the node uses the channels; only some laws ask. */
  readonly channelUse?: ChannelUse | undefined;
  /** Whether the node keeps a duty cycle or listens first, where the law leaves the choice. */
  readonly access?: Access | undefined;
  /** Whether the network limits the dwell time of uplinks. */
  readonly dwellLimited?: boolean | undefined;
}

/** How a node spreads its frames over the channels, as 47 CFR 15.247 tells hopping from hybrid systems. */
export type ChannelUse = 'hopping-64' | 'hybrid-8' | 'single';

/** A loss between the antennas that the free-space figure does not hold. */
export interface NamedLoss {
  /** What causes it, as it shall appear in the budget. */
  readonly name: string;
  /** Loss in dB, 0 to 100. */
  readonly lossDb: number;
}

/** The path of the link-budget picture. */
export interface LinkPlan {
  /** Distance between node and gateway in metres, 1 to 1000000, where the plan does not say where the node is. */
  readonly distanceM?: number | undefined;
  /** Where the node is, instead of a distance; with elevation files the loss then comes from the ground between. */
  readonly to?: Position | undefined;
  /** How much lower the ground at the node lies than at the gateway in metres, -9000 to 9000; 0 when left out. */
  readonly groundDropM?: number | undefined;
  /** Losses beside free space. */
  readonly losses?: readonly NamedLoss[] | undefined;
}

/** One sweep of the gateway's antenna. */
export interface ElementSweepPlan {
  /** Path of the sweep (Touchstone, or CSV by its ending), from the plan's own folder. */
  readonly file: string;
  /** Length of the element when it was swept in metres, always between the same two places; trim advice needs it. */
  readonly elementLengthM?: number | undefined;
}

/** The cable between analyser and antenna when it was swept. */
export interface SweepLeadPlan {
  /** Loss one way in dB at the wanted frequency, 0 to 60. */
  readonly lossDb: number;
  /** Length in metres, 0 to 1000. */
  readonly lengthM: number;
  /** Speed in the cable over the speed of light, 0.1 to 1. */
  readonly velocityFactor: number;
}

/** Half-wave elements one above the other: how the antenna's gain goes with elevation. */
export interface PatternPlan {
  /** How many, 1 (a dipole, and nearly a ground plane) to 32. */
  readonly elements: number;
  /** Distance between their centres in wavelengths, 0.5 to 2; 0.5 when left out. */
  readonly spacingWavelengths?: number | undefined;
  /** Angle in degrees by which the beam is steered below the horizon, -45 to 45; 0 when left out. */
  readonly downtiltDeg?: number | undefined;
}

/** The gateway's antenna, as measured and as described. */
export interface AntennaPlan {
  /** Where it shall work in hertz; the node's uplink when left out. */
  readonly targetHz?: number | undefined;
  /** Sweeps in the order of the cuts; the last one is the antenna as it is. */
  readonly sweeps?: readonly ElementSweepPlan[] | undefined;
  /** The cable that the sweeps were taken through; none when left out. */
  readonly lead?: SweepLeadPlan | undefined;
  /** What is cut: the vertical alone over fixed radials, or the whole antenna alike; the vertical when left out. */
  readonly trimmed?: 'vertical' | 'whole-antenna' | undefined;
  /** How its gain goes with elevation. */
  readonly pattern?: PatternPlan | undefined;
}

/** A column of the walk log with what its cells need to become the field. */
export interface WalkColumn {
  /** Name of the column. */
  readonly column: string;
  /** Unit of the cells, where it is not the field's own: `km`, `MHz`, `mW`. */
  readonly unit?: string | undefined;
  /** True where the column marks the missed frames instead of the received ones. */
  readonly inverted?: boolean | undefined;
}

/** The walk log and how to read it. */
export interface WalkPlan {
  /** Path of the log, from the plan's own folder. */
  readonly file: string;
  /** Which column of the log holds which field, where its name differs: `{ "rssiDbm": "level", "distanceM": { "column": "km", "unit": "km" } }`. */
  readonly columns?: Readonly<Record<string, string | WalkColumn>> | undefined;
  /** True for a log that lists received frames only; false when left out. */
  readonly receivedOnly?: boolean | undefined;
  /** Decimal mark of the numbers in a CSV log; a point when left out. */
  readonly decimal?: '.' | ',' | undefined;
  /** What to do with a row that cannot be read; `stop` when left out. */
  readonly onBadRow?: 'stop' | 'skip' | undefined;
}

/** The log of a fixed node that the gateway has heard for weeks. */
export interface BeaconPlan {
  /** Path of the log (CSV), from the plan's own folder. */
  readonly file: string;
  /** Which column of the log holds which field, where its name differs. */
  readonly columns?: Readonly<Record<string, string | WalkColumn>> | undefined;
  /** Decimal mark of the numbers; a point when left out. */
  readonly decimal?: '.' | ',' | undefined;
  /** What to do with a row that cannot be read; `stop` when left out. */
  readonly onBadRow?: 'stop' | 'skip' | undefined;
  /** Jump in dB that the watch shall find soonest, 0.1 to 40; 3 when left out. */
  readonly stepDb?: number | undefined;
  /** Frames from the first on that tell what is normal, 50 to 100000; 200 when left out. All must be well then. */
  readonly referenceCount?: number | undefined;
  /** When the watch ended, as a time of ISO 8601 in UTC, so that a beacon that fell silent is noticed; its last frame when left out. */
  readonly untilTime?: string | undefined;
}

/** A gateway plan: what the maker builds, and the files that prove it. */
export interface Plan {
  /** Path or address of the JSON Schema, for editors; not read. */
  readonly $schema?: string | undefined;
  /** Version of the plan format. */
  readonly version: 1;
  /** Name of the gateway, as it shall appear on the dossier. */
  readonly name: string;
  /** LoRaWAN regional parameters in force. */
  readonly region: RegionName;
  /** Law in force. */
  readonly jurisdiction: JurisdictionName;
  /** The gateway on the roof. */
  readonly gateway: GatewayPlan;
  /** The node that is to be heard. */
  readonly node: NodePlan;
  /** The path of the link-budget picture. */
  readonly link: LinkPlan;
  /** Everything between the gateway's connector and the antenna's. */
  readonly feedline?: FeedlinePlan | undefined;
  /** The gateway's antenna, as measured and as described. */
  readonly antenna?: AntennaPlan | undefined;
  /** Supply, heat, wind and dangers of the site. */
  readonly site?: SitePlan | undefined;
  /** The ground round the gateway. */
  readonly terrain?: TerrainPlan | undefined;
  /** The walk that proves the coverage. */
  readonly walk?: WalkPlan | undefined;
  /** The fixed node that shows how the gateway ages. */
  readonly beacon?: BeaconPlan | undefined;
}

const regionNames = [
  'EU868',
  'US915',
  'AU915',
  'AS923-1',
  'AS923-2',
  'AS923-3',
  'AS923-4',
  'IN865',
  'KR920',
  'EU433',
  'CN470',
  'CN779',
  'RU864',
] as const satisfies readonly RegionName[];

const text = (longest: number): z.ZodString => z.string().min(1).max(longest);
const between = (min: number, max: number): z.ZodNumber => z.number().min(min).max(max);

const transmission = z.strictObject({
  dataRate: between(0, 15).int().describe('Data rate index of the region: 3 is DR3.'),
  frequencyHz: between(400e6, 3e9).describe('Channel centre in hertz: 868.1 MHz is 868100000.'),
  applicationBytes: between(0, 242)
    .int()
    .describe('Application payload in bytes, without the 13 bytes of LoRaWAN framing.'),
});

const gateway = z.strictObject({
  position: positionSchema.describe('Where the antenna stands.'),
  antennaHeightM: between(0.5, 3000).describe('Height of the antenna above the ground in metres.'),
  conductedPowerDbm: between(-30, 40).describe("Power at the transmitter's connector in dBm, for downlinks."),
  feedlineLossDb: between(0, 60)
    .optional()
    .describe(
      'Loss of cable, connectors and arrestor between radio and antenna in dB, where the plan does not list them under feedline.',
    ),
  antennaGainDbi: between(-20, 30).describe('Gain of the antenna in dBi.'),
  noiseFigureDb: between(0, 30).describe('Noise figure of the receiver in dB.'),
  manMadeNoiseDb: between(0, 60)
    .optional()
    .describe('Man-made noise above the thermal floor in dB; 0 when left out.'),
  downlink: transmission.optional().describe('The downlink that the law check looks at.'),
});

const node = z.strictObject({
  heightM: between(0.5, 3000).describe('Height above the ground in metres.'),
  conductedPowerDbm: between(-30, 40).describe("Power at the transmitter's connector in dBm."),
  feedlineLossDb: between(0, 60)
    .optional()
    .describe('Loss between radio and antenna in dB; 0 when left out.'),
  antennaGainDbi: between(-20, 30).describe(
    'Gain of the antenna in dBi; a short whip in the hand is negative.',
  ),
  noiseFigureDb: between(0, 30).describe('Noise figure of the receiver in dB.'),
  uplink: transmission.describe('The frame that the node sends.'),
  intervalSeconds: between(0.1, 31_557_600).describe('Time between two frames in seconds.'),
  channelUse: z
    .enum(['hopping-64', 'hybrid-8', 'single'])
    .optional()
    .describe(
      'How the node uses the channels: 64-channel hopping, an 8-channel hybrid, or one channel. Only some laws ask.',
    ),
  access: z
    .enum(['duty-cycle', 'listen-before-talk'])
    .optional()
    .describe('Whether the node keeps a duty cycle or listens first, where the law leaves the choice.'),
  dwellLimited: z.boolean().optional().describe('Whether the network limits the dwell time of uplinks.'),
});

const link = z.strictObject({
  distanceM: between(1, 1e6)
    .optional()
    .describe('Distance between node and gateway in metres, where the plan does not say where the node is.'),
  to: positionSchema.optional().describe('Where the node is, instead of a distance.'),
  groundDropM: between(-9000, 9000)
    .optional()
    .describe('How much lower the ground at the node lies than at the gateway in metres.'),
  losses: z
    .array(
      z.strictObject({
        name: text(80).describe('What causes the loss.'),
        lossDb: between(0, 100).describe('Loss in dB.'),
      }),
    )
    .max(20)
    .optional()
    .describe('Losses beside free space: body, foliage, walls.'),
});

const antenna = z.strictObject({
  targetHz: between(400e6, 3e9)
    .optional()
    .describe("Where it shall work in hertz; the node's uplink when left out."),
  sweeps: z
    .array(
      z.strictObject({
        file: text(500).describe(
          "Path of the sweep (Touchstone, or CSV by its ending), from the plan's own folder.",
        ),
        elementLengthM: between(0.001, 1000)
          .optional()
          .describe('Length of the element when it was swept in metres, always between the same two places.'),
      }),
    )
    .max(100)
    .optional()
    .describe('Sweeps in the order of the cuts; the last one is the antenna as it is.'),
  lead: z
    .strictObject({
      lossDb: between(0, 60).describe('Loss one way in dB at the wanted frequency.'),
      lengthM: between(0, 1000).describe('Length in metres.'),
      velocityFactor: between(0.1, 1).describe('Speed in the cable over the speed of light.'),
    })
    .optional()
    .describe('The cable that the sweeps were taken through.'),
  trimmed: z
    .enum(['vertical', 'whole-antenna'])
    .optional()
    .describe('What is cut: the vertical alone over fixed radials, or the whole antenna alike.'),
  pattern: z
    .strictObject({
      elements: between(1, 32).int().describe('Half-wave elements one above the other; 1 is a dipole.'),
      spacingWavelengths: between(0.5, 2)
        .optional()
        .describe('Distance between their centres in wavelengths.'),
      downtiltDeg: between(-45, 45)
        .optional()
        .describe('Angle in degrees by which the beam is steered down.'),
    })
    .optional()
    .describe('How its gain goes with elevation.'),
});

const walkColumn = z.strictObject({
  column: text(200).describe('Name of the column.'),
  unit: text(10).optional().describe("Unit of the cells, where it is not the field's own: km, MHz, mW."),
  inverted: z.boolean().optional().describe('True where the column marks the missed frames.'),
});

/** How any log of frames is read. */
const logKeys = {
  columns: z
    .record(text(60), z.union([text(200), walkColumn]))
    .optional()
    .describe('Which column of the log holds which field, where its name differs.'),
  decimal: z.enum(['.', ',']).optional().describe('Decimal mark of the numbers in a CSV log.'),
  onBadRow: z
    .enum(['stop', 'skip'])
    .optional()
    .describe('What to do with a row that cannot be read; stop when left out.'),
};

const walk = z.strictObject({
  file: text(500).describe("Path of the walk log (CSV or GeoJSON), from the plan's own folder."),
  receivedOnly: z.boolean().optional().describe('True for a log that lists received frames only.'),
  ...logKeys,
});

const beacon = z.strictObject({
  file: text(500).describe("Path of the beacon's log (CSV), from the plan's own folder."),
  ...logKeys,
  stepDb: between(0.1, 40)
    .optional()
    .describe('Jump in dB that the watch shall find soonest; 3 when left out.'),
  referenceCount: between(50, 100_000)
    .int()
    .optional()
    .describe('Frames from the first on that tell what is normal; 200 when left out.'),
  untilTime: z.iso
    .datetime()
    .optional()
    .describe('When the watch ended, in UTC: 2026-05-01T00:00:00Z; its last frame when left out.'),
});

/** The plan format as a schema; the published `plan.schema.json` is made from it. */
export const planSchema: z.ZodType<Plan> = z.strictObject({
  $schema: z.string().max(500).optional().describe('Path or address of the JSON Schema, for editors.'),
  version: z.literal(1).describe('Version of the plan format.'),
  name: text(120).describe('Name of the gateway, as it shall appear on the dossier.'),
  region: z.enum(regionNames).describe('LoRaWAN regional parameters in force.'),
  jurisdiction: z.enum(['EU', 'US', 'AU', 'JP', 'IN', 'KR', 'CN']).describe('Law in force.'),
  gateway: gateway.describe('The gateway on the roof.'),
  node: node.describe('The node that is to be heard.'),
  link: link.describe('The path of the link-budget picture.'),
  feedline: feedlineSchema
    .optional()
    .describe("Everything between the gateway's connector and the antenna's."),
  antenna: antenna.optional().describe("The gateway's antenna, as measured and as described."),
  site: siteSchema.optional().describe('Supply, heat, wind and dangers of the site.'),
  terrain: terrainSchema.optional().describe('The ground round the gateway.'),
  walk: walk.optional().describe('The walk that proves the coverage.'),
  beacon: beacon.optional().describe('The fixed node that shows how the gateway ages.'),
}) satisfies z.ZodType<Plan>;
