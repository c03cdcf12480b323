import * as z from 'zod';
import { type Position, positionSchema } from './position.js';

/** State of the air along the path, as Recommendation ITU-R P.1812 asks for it; P.453 maps it, and a small table of places comes with the propagation package. */
export interface ClimatePlan {
  /** Fall of the refractive index in the lowest kilometre in N-units per km (positive), 20 to 120. */
  readonly deltaN: number;
  /** Refractivity at sea level in N-units, 250 to 450. */
  readonly surfaceRefractivity: number;
}

/** The area for which coverage is predicted. */
export interface CoveragePlan {
  /** Radius in metres, 100 to 100000. */
  readonly radiusM: number;
  /** Side of a cell in metres, 5 to 1000; the radius holds at most 1500 cells. */
  readonly cellM: number;
  /** Other sites, or other heights, to compare the gateway with. */
  readonly sites?: readonly CandidateSitePlan[] | undefined;
  /** Places that should be served: homes, sensors. */
  readonly points?: readonly PointPlan[] | undefined;
}

/** Another place or height for the gateway. */
export interface CandidateSitePlan {
  /** Name of the site; each another. */
  readonly name: string;
  /** Where its antenna would stand. */
  readonly position: Position;
  /** Height of its antenna above the ground in metres, 0.5 to 3000. */
  readonly antennaHeightM: number;
  /** Loss of its feedline in dB, 0 to 60; that of the plan's gateway when left out. */
  readonly feedlineLossDb?: number | undefined;
}

/** A place that should be served. */
export interface PointPlan {
  /** Name of the place. */
  readonly name: string;
  /** Where it is. */
  readonly position: Position;
  /** How much it counts beside others, 0 to 1000000; 1 when left out. */
  readonly weightRatio?: number | undefined;
}

/** The ground round the gateway and how it is to be reckoned with. */
export interface TerrainPlan {
  /** Elevation files (GeoTIFF, HGT, ASCII grid), from the plan's own folder. */
  readonly elevation: readonly string[];
  /** State of the air; never assumed. */
  readonly climate: ClimatePlan;
  /** Share of time in per cent for which the loss is not exceeded, 1 to 50; 50 when left out. */
  readonly timePercent?: number | undefined;
  /** Share of places in per cent for which the loss is not exceeded, 1 to 99; 50 when left out. */
  readonly locationPercent?: number | undefined;
  /** Spread of the loss from place to place in dB, 0 to 20; 5.5 when left out. */
  readonly locationSigmaDb?: number | undefined;
  /** Height of houses and trees between the two ends in metres, 0 to 60; 0 (bare ground) when left out. */
  readonly clutterHeightM?: number | undefined;
  /** How far the skyline is looked for in metres, 100 to 100000; 20000 when left out, or to the edge of the files. */
  readonly skylineRadiusM?: number | undefined;
  /** The area for which coverage is predicted; none when left out. */
  readonly coverage?: CoveragePlan | undefined;
}

const between = (min: number, max: number): z.ZodNumber => z.number().min(min).max(max);

/** The ground of the plan format. */
export const terrainSchema: z.ZodType<TerrainPlan> = z.strictObject({
  elevation: z
    .array(z.string().min(1).max(500))
    .min(1)
    .max(100)
    .describe("Elevation files (GeoTIFF, HGT, ASCII grid), from the plan's own folder."),
  climate: z
    .strictObject({
      deltaN: between(20, 120).describe('Fall of refractivity in the lowest kilometre in N-units per km.'),
      surfaceRefractivity: between(250, 450).describe('Refractivity at sea level in N-units.'),
    })
    .describe('State of the air, as Recommendation ITU-R P.1812 asks for it.'),
  timePercent: between(1, 50).optional().describe('Share of time for which the loss is not exceeded.'),
  locationPercent: between(1, 99).optional().describe('Share of places for which the loss is not exceeded.'),
  locationSigmaDb: between(0, 20).optional().describe('Spread of the loss from place to place in dB.'),
  clutterHeightM: between(0, 60).optional().describe('Height of houses and trees between the two ends.'),
  coverage: z
    .strictObject({
      radiusM: between(100, 100_000).describe('Radius in metres.'),
      cellM: between(5, 1000).describe('Side of a cell in metres; the radius holds at most 1500 cells.'),
      sites: z
        .array(
          z.strictObject({
            name: z.string().min(1).max(120).describe('Name of the site; each another.'),
            position: positionSchema.describe('Where its antenna would stand.'),
            antennaHeightM: between(0.5, 3000).describe('Height of its antenna above the ground in metres.'),
            feedlineLossDb: between(0, 60).optional().describe('Loss of its feedline in dB.'),
          }),
        )
        .max(10)
        .optional()
        .describe('Other sites, or other heights, to compare the gateway with.'),
      points: z
        .array(
          z.strictObject({
            name: z.string().min(1).max(120).describe('Name of the place.'),
            position: positionSchema.describe('Where it is.'),
            weightRatio: between(0, 1e6).optional().describe('How much it counts beside others.'),
          }),
        )
        .max(1000)
        .optional()
        .describe('Places that should be served: homes, sensors.'),
    })
    .optional()
    .describe('The area for which coverage is predicted.'),
  skylineRadiusM: between(100, 100_000).optional().describe('How far the skyline is looked for in metres.'),
}) satisfies z.ZodType<TerrainPlan>;
