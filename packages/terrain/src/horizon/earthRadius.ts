import { checkRange } from '@finial/units';

/** How strongly the atmosphere bends the ray, as a factor on the Earth's radius. */
export interface RayBending {
  /**
   * Factor on the Earth's radius, 0.1 to 1000: 4/3 for radio in an average atmosphere, 1 for a straight ray, about 2/3 in weather
   * that bends rays upwards; about 1.15 for light (common practice, no source).
   *
   * @defaultValue 4/3
   */
  readonly effectiveEarthRadiusFactor?: number | undefined;
}

/** Radius of the Earth in metres by which a ray bent by the atmosphere can be drawn straight (P.1812, equation 7a: 6371 km). */
export function effectiveRadiusM({ effectiveEarthRadiusFactor: factor = 4 / 3 }: RayBending): number {
  const bounds = { min: 0.1, max: 1000, unit: 'as a factor on the Earth radius' };
  return 6_371_000 * checkRange(factor, 'effectiveEarthRadiusFactor', bounds);
}
