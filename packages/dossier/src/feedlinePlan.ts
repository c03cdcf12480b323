import type { OutdoorRun } from '@finial/feedline';
import * as z from 'zod';

/** Where the run begins or ends: the connector of the gateway or of the antenna. */
export interface PortPlan {
  /** What it is called in the dossier: `gateway`, `antenna`. */
  readonly port: string;
  /** Its connector in the trade's words: `N jack`, `RP-SMA jack`, `F jack 75 ohm`. */
  readonly end: string;
}

/** A length of cable with a connector on each end. */
export interface CableRunPlan {
  /** Designation of a cable in the catalogue. */
  readonly cable: string;
  /** Length in metres, 0.01 to 1000. */
  readonly lengthM: number;
  /** The connectors on its ends; the first looks towards the gateway. */
  readonly ends: readonly [string, string];
  /** Temperature of the cable in degrees C, -60 to 200; that of the whole run when left out. */
  readonly temperatureC?: number | undefined;
}

/** A ready-made part of the catalogue. */
export interface ReadyPartPlan {
  /** Designation of an adapter, pigtail, arrestor or filter in the catalogue. */
  readonly part: string;
  /** True where its second end looks towards the gateway; false when left out. */
  readonly turned?: boolean | undefined;
}

/** One part of the run. */
export type FeedlinePartPlan = PortPlan | CableRunPlan | ReadyPartPlan;

/** Another run to hold beside the one of the plan: a basket of parts before it is ordered, for example. */
export interface OtherRunPlan {
  /** What it is called in the dossier. */
  readonly name: string;
  /** Its parts from the gateway's port to the antenna's port. */
  readonly parts: readonly FeedlinePartPlan[];
}

/** Everything between the gateway's connector and the antenna's. */
export interface FeedlinePlan {
  /** Path of a catalogue (JSON) with further parts, from the plan's own folder; the built-in parts are always there. */
  readonly catalogue?: string | undefined;
  /** Temperature of the run in degrees C, -60 to 200; 20 when left out. A black jacket in the sun lies far above the air. */
  readonly temperatureC?: number | undefined;
  /** The parts from the gateway's port to the antenna's port. */
  readonly parts: readonly FeedlinePartPlan[];
  /** Other runs that are checked beside it; the link budget does not use them. */
  readonly otherRuns?: readonly OtherRunPlan[] | undefined;
  /**
   * How the run lies in the open: seals, drip loops, ties, arrestor, bonding. Least bend radius, sunlight and whether there is an arrestor are
   * taken from the parts where this says nothing of them. Without it the weather is not looked at.
   */
  readonly outdoors?: OutdoorRun | undefined;
}

const words = z.string().min(1).max(120);
const temperature = z.number().min(-60).max(200).optional();

const port = z.strictObject({
  port: words.describe('What it is called in the dossier: gateway, antenna.'),
  end: words.describe('Its connector: N jack, RP-SMA jack, F jack 75 ohm.'),
});

const cableRun = z.strictObject({
  cable: words.describe('Designation of a cable in the catalogue.'),
  lengthM: z.number().min(0.01).max(1000).describe('Length in metres.'),
  ends: z.tuple([words, words]).describe('The connectors on its ends; the first looks towards the gateway.'),
  temperatureC: temperature.describe('Temperature of the cable in degrees C.'),
});

const readyPart = z.strictObject({
  part: words.describe('Designation of an adapter, pigtail, arrestor or filter in the catalogue.'),
  turned: z.boolean().optional().describe('True where its second end looks towards the gateway.'),
});

const outdoors = z.strictObject({
  joints: z
    .array(
      z.strictObject({
        name: words.describe('What the joint is called: antenna, arrestor below.'),
        sealing: z
          .enum(['gasket', 'splash', 'none'])
          .describe('How a joined pair of its series keeps water out by itself.'),
        seal: z
          .enum(['mastic-and-tape', 'adhesive-shrink-sleeve', 'own-gasket', 'nothing'])
          .describe('How it is kept dry.'),
        isOpen: z.boolean().optional().describe('True for an unused connector without a cap.'),
      }),
    )
    .max(40)
    .describe('Every joint in the open.'),
  hasDripLoops: z.boolean().optional().describe('Whether the cable hangs lower than each entry before it.'),
  isSunlightResistant: z.boolean().optional().describe('Whether the jacket withstands sunlight.'),
  isInTheSun: z.boolean().optional().describe('Whether the cable lies in the sun.'),
  tieSpacingM: z.number().min(0.01).max(1000).optional().describe('Greatest distance between two ties.'),
  tightestBendRadiusM: z.number().min(0.001).max(100).optional().describe('Radius of the tightest bend.'),
  leastBendRadiusM: z.number().min(0.001).max(5).optional().describe('Least bend radius of the cable.'),
  arrestor: z
    .union([
      z.literal('none'),
      z.strictObject({
        place: z.enum(['building-entry', 'antenna', 'radio']).describe('Where the arrestor sits.'),
        isBonded: z.boolean().describe("Whether its body is bonded to the building's earth."),
        bondLengthM: z.number().min(0).max(100).optional().describe('Length of the bonding conductor.'),
      }),
    ])
    .optional()
    .describe('The surge arrestor, or none.'),
  isMastBonded: z.boolean().optional().describe('Whether mast and screen are bonded to earth.'),
});

const parts = z
  .array(z.union([port, cableRun, readyPart]))
  .min(2)
  .max(40);

/** The feedline of the plan format. */
export const feedlineSchema: z.ZodType<FeedlinePlan> = z.strictObject({
  catalogue: z
    .string()
    .min(1)
    .max(500)
    .optional()
    .describe("Path of a catalogue (JSON) with further parts, from the plan's own folder."),
  temperatureC: temperature.describe('Temperature of the run in degrees C; 20 when left out.'),
  parts: parts.describe("The parts from the gateway's port to the antenna's port."),
  otherRuns: z
    .array(
      z.strictObject({
        name: words.describe('What it is called in the dossier.'),
        parts: parts.describe("Its parts from the gateway's port to the antenna's port."),
      }),
    )
    .max(10)
    .optional()
    .describe('Other runs to hold beside it: a basket of parts before it is ordered, for example.'),
  outdoors: outdoors.optional().describe('How the run lies in the open: seals, loops, ties, bonding.'),
}) satisfies z.ZodType<FeedlinePlan>;
