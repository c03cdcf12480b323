import * as z from 'zod';

/** A place on the ground, WGS 84. */
export interface Position {
  /** Degrees north of the equator, -90 to 90. */
  readonly latitudeDeg: number;
  /** Degrees east of Greenwich, -180 to 180. */
  readonly longitudeDeg: number;
}

/** A place of the plan format. */
export const positionSchema: z.ZodType<Position> = z.strictObject({
  latitudeDeg: z.number().min(-90).max(90).describe('Degrees north of the equator (WGS 84).'),
  longitudeDeg: z.number().min(-180).max(180).describe('Degrees east of Greenwich (WGS 84).'),
});
