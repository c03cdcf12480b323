import type { BoxInDamp, EnclosureOnADay, MastQuestion, SafetyQuestion, SupplyLine } from '@finial/site';
import * as z from 'zod';

/** The box with its hottest day; its place is the gateway's. */
export type BoxPlan = Omit<EnclosureOnADay, 'latitudeDeg' | 'longitudeDeg'>;

/** What moisture does to the box of the plan: its day and its measures are those of the box, the air that of its hottest hour. */
export type MoisturePlan = Omit<BoxInDamp, 'hours' | 'volumeM3' | 'wallAreaM2' | 'airC'>;

/** Everything that the site does to the gateway: supply, heat, wind, and what is dangerous there. */
export interface SitePlan {
  /** The supply line from the house to the gateway. */
  readonly supply?: SupplyLine | undefined;
  /** The box through a clear hot day. */
  readonly box?: BoxPlan | undefined;
  /** Damp in the box; needs `box`. */
  readonly moisture?: MoisturePlan | undefined;
  /** The mast in the strongest wind. */
  readonly mast?: MastQuestion | undefined;
  /** What is dangerous at the site; radio exposure is worked out from the rest of the plan. */
  readonly safety?: Omit<SafetyQuestion, 'exposure'> | undefined;
}

const between = (min: number, max: number): z.ZodNumber => z.number().min(min).max(max);
const words = z.string().min(1).max(120);
const maybe = (min: number, max: number, what: string): z.ZodOptional<z.ZodNumber> =>
  between(min, max).optional().describe(what);

const supply = z.strictObject({
  supplyV: between(1, 400).describe("Voltage at the supply's own terminals in volts."),
  leastLoadV: between(1, 400).describe('Least voltage at which the gateway works in volts.'),
  wire: words.describe('The wire: 24 AWG, 1.5 mm2.'),
  lengthM: between(0.01, 1000).describe('Length of the line one way in metres.'),
  states: z
    .array(
      z.strictObject({
        name: words.describe('What the gateway does then: idle, transmit, boot.'),
        currentA: maybe(1e-6, 100, 'Current in amperes, for a linear regulator.'),
        powerW: maybe(1e-6, 1000, 'Power in watts, for a switching regulator.'),
      }),
    )
    .min(1)
    .max(20)
    .describe('What it draws in each state; either a current or a power.'),
  conductorsCount: z
    .union([z.literal(1), z.literal(2), z.literal(4)])
    .optional()
    .describe('Conductors side by side in each direction.'),
  connectorsOhm: maybe(0, 10, 'Resistance of all contacts together in ohms; 0.04 when left out.'),
  temperatureC: maybe(-60, 200, 'Temperature of the copper in degrees C; 20 when left out.'),
});

const box = z.strictObject({
  widthM: between(0.02, 5).describe('Width in metres.'),
  heightM: between(0.02, 5).describe('Height in metres.'),
  depthM: between(0.02, 5).describe('Depth in metres.'),
  mounting: z
    .enum(['free-standing', 'wall'])
    .describe('Whether all sides are free, or the back lies on a wall.'),
  faceAzimuthDeg: between(-360, 360).describe('Direction that the front looks at, clockwise from north.'),
  powerW: between(0, 200).describe('Power that the electronics turn to heat in watts.'),
  colour: z
    .enum(['white', 'light grey', 'weathered aluminium', 'dark grey or green', 'black'])
    .optional()
    .describe('Finish.'),
  absorptivityRatio: maybe(0, 1, 'Share of sunshine that the finish takes up, in place of the colour.'),
  emissivityRatio: maybe(0.02, 1, 'Emissivity in the infrared; 0.9 when left out.'),
  shadeRatio: maybe(0, 1, 'Share of the sun that an awning keeps off.'),
  ventAreaM2: maybe(0, 0.1, 'Free area of the lower opening in square metres, one as large above.'),
  wallJPerK: maybe(1, 1e6, 'Heat capacity of the walls in joules per kelvin.'),
  contentsJPerK: maybe(1, 1e6, 'Heat capacity of what is inside in joules per kelvin.'),
  date: z.string().max(10).describe('The day, YYYY-MM-DD.'),
  highestAirC: between(-60, 60).describe('Highest air temperature of the day in degrees C.'),
  lowestAirC: between(-60, 60).describe('Lowest air temperature of the day in degrees C.'),
  windMPerS: maybe(0, 50, 'Wind at the box in metres per second; 0 when left out.'),
  albedoRatio: maybe(0, 1, 'Share of sunshine that the ground throws back; 0.2 when left out.'),
  electronicsLimitC: maybe(0, 150, 'Highest air temperature that the electronics allow; 70 when left out.'),
});

const moisture = z.strictObject({
  relativeHumidityPercent: between(1, 100).describe(
    'Relative humidity of the outside air at the highest temperature of the day in per cent.',
  ),
  breathing: z
    .enum(['gasketed', 'vented'])
    .describe('Whether the box is closed with gaskets, or has a vent.'),
  wallVapourKgPerM2Day: maybe(0, 0.1, 'Vapour through the walls in kilograms per square metre and day.'),
  desiccantUnitsCount: maybe(0, 1000, 'Units of desiccant in the box.'),
  serviceDays: maybe(1, 3650, 'Days until the next visit; 365 when left out.'),
  glandsFaceDown: z.boolean().optional().describe('Whether every cable enters from below.'),
  dripLoops: z.boolean().optional().describe('Whether every cable hangs in a loop below its entry.'),
  hasDrain: z.boolean().optional().describe('Whether there is a drain at the lowest point.'),
});

const asceWind = z.strictObject({
  code: z.literal('asce-7').describe('Wind by ASCE 7: a gust of three seconds.'),
  gustSpeedMPerS: between(1, 120).describe('Gust of 3 s in metres per second, from the map of the code.'),
  exposureCategory: z.enum(['B', 'C', 'D']).optional().describe('Ground around the site.'),
  heightAboveGroundM: maybe(0.01, 150, 'Height of the top above the ground in metres.'),
  exposureRatio: maybe(0.1, 5, 'Exposure coefficient in place of category and height.'),
  topographicRatio: maybe(1, 5, 'Topographic factor.'),
  directionalityRatio: maybe(0.5, 1, 'Directionality factor.'),
  gustEffectRatio: maybe(0.5, 3, 'Gust-effect factor.'),
});

const enWind = z.strictObject({
  code: z.literal('en-1991-1-4').describe('Wind by EN 1991-1-4: a mean of ten minutes.'),
  meanSpeedMPerS: between(1, 80).describe('Basic wind velocity in metres per second.'),
  terrainCategory: z.enum(['0', 'I', 'II', 'III', 'IV']).optional().describe('Ground around the site.'),
  heightAboveGroundM: maybe(0.01, 200, 'Height of the top above the ground in metres.'),
  exposureRatio: maybe(0.5, 10, 'Exposure factor in place of category and height.'),
  structuralRatio: maybe(0.5, 3, 'Structural factor.'),
});

const mast = z.strictObject({
  wind: z.union([asceWind, enWind]).describe('The wind by one of two codes.'),
  parts: z
    .array(
      z.strictObject({
        name: words.describe('What the part is called.'),
        shape: z.enum(['round', 'flat', 'round-by-length', 'flat-by-aspect']).describe('Its shape.'),
        widthM: between(0.001, 10).describe('Width across the wind in metres.'),
        heightM: between(0.001, 100).describe('Extent upwards in metres.'),
        centreM: between(0.0005, 100).describe('Middle above the foot in metres.'),
        dragRatio: maybe(0.1, 3, 'Force coefficient in place of the table.'),
        massKg: maybe(0, 1e4, 'Mass in kilograms.'),
      }),
    )
    .min(1)
    .max(40)
    .describe('Everything that stands in the wind, the tube too.'),
  foot: z
    .union([
      z.strictObject({
        kind: z.literal('ballast').describe('Held by weight.'),
        tippingArmM: between(0.05, 20).describe('Distance from the mast to the edge it tips over in metres.'),
        frictionRatio: between(0.05, 1.5).describe('Coefficient of friction on the roof.'),
        ballastKg: maybe(0, 1e5, 'Ballast in kilograms.'),
        areaM2: maybe(0.01, 400, 'Area of the foot in square metres.'),
      }),
      z.strictObject({ kind: z.literal('fixed').describe('Bolted or clamped.') }),
    ])
    .describe('What holds it.'),
  tube: z
    .strictObject({
      outerDiameterM: between(0.005, 1).describe('Outer diameter in metres.'),
      wallM: between(0.0005, 0.5).describe('Wall thickness in metres.'),
      topM: between(0.1, 100).describe('Top above the foot in metres.'),
      supportM: maybe(0, 100, 'Topmost support above the foot in metres.'),
      material: words.optional().describe('Material by name.'),
      strengthPa: maybe(1e6, 3e9, 'Stress at which it yields in pascals.'),
      modulusPa: maybe(1e9, 1e12, 'Modulus of elasticity in pascals.'),
    })
    .optional()
    .describe('The tube, for its stress.'),
  iceM: maybe(0, 0.2, 'Thickness of ice in metres.'),
  safetyRatio: maybe(1, 5, 'Safety factor; 1.5 when left out.'),
});

const safety = z.strictObject({
  overheadLines: z
    .strictObject({
      distanceM: between(0, 1000).describe('Level distance from the mast to the nearest line in metres.'),
      mastHeightM: between(0.1, 100).describe('Height of mast and antenna in metres.'),
    })
    .optional()
    .describe('Power lines near the mast.'),
  ladder: z
    .strictObject({
      supportHeightM: between(0.5, 20).describe('Height of the edge that the ladder leans on in metres.'),
      footDistanceM: between(0.05, 20).describe('Distance of its foot from below that edge in metres.'),
      beyondEdgeM: maybe(0, 5, 'How far it reaches over the edge in metres.'),
      isConducting: z.boolean().optional().describe('Whether it conducts.'),
    })
    .optional()
    .describe('How people get up.'),
  lightning: z
    .strictObject({
      protectionSystem: z
        .enum(['present', 'absent', 'unknown'])
        .describe('Lightning protection of the house.'),
      isBonded: z.boolean().optional().describe('Whether mast and shield are bonded to earth.'),
      hasArrestor: z.boolean().optional().describe('Whether an arrestor is in the antenna cable.'),
      hasCopperData: z.boolean().optional().describe('Whether a copper data cable leads into the house.'),
    })
    .optional()
    .describe('Lightning and bonding.'),
  mains: z
    .strictObject({ isOutdoors: z.boolean().describe('Whether mains goes outdoors or up the mast.') })
    .optional()
    .describe('Mains voltage.'),
});

/** The site of the plan format. */
export const siteSchema: z.ZodType<SitePlan> = z.strictObject({
  supply: supply.optional().describe('The supply line from the house to the gateway.'),
  box: box.optional().describe('The box through a clear hot day.'),
  moisture: moisture.optional().describe('Damp in the box; needs box.'),
  mast: mast.optional().describe('The mast in the strongest wind.'),
  safety: safety.optional().describe('What is dangerous at the site.'),
}) as unknown as z.ZodType<SitePlan>;
