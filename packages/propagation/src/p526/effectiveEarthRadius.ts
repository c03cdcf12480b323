import { earthRadiusM, standardEarthRadiusFactor } from '@finial/radio';
import { checkRange, InputError } from '@finial/units';

/** How strongly the air bends the ray: one of the two, or neither. */
export interface RefractionSettings {
  /**
   * Effective radius of the Earth in metres, 1e6 to 1e10.
   *
   * @defaultValue 4/3 of 6371 km, the average of a temperate climate
   */
  readonly effectiveEarthRadiusM?: number | undefined;
  /**
   * How fast the refractivity of the air falls with height in the lowest kilometre, in N-units per kilometre, -200 to 150, and positive
   * when it falls: about 40 in a temperate climate. Sets the radius to 6371 km times 157/(157 - deltaN).
   */
  readonly deltaN?: number | undefined;
}

/** The radius that the settings ask for. */
export function effectiveEarthRadius({ effectiveEarthRadiusM, deltaN }: RefractionSettings): number {
  if (effectiveEarthRadiusM !== undefined && deltaN !== undefined) {
    const expected = 'to be left out where effectiveEarthRadiusM is given';
    throw new InputError({ code: 'out-of-range', argument: 'deltaN', received: deltaN, expected });
  }
  if (effectiveEarthRadiusM !== undefined) {
    const bounds = { min: 1e6, max: 1e10, unit: 'metres' };
    return checkRange(effectiveEarthRadiusM, 'effectiveEarthRadiusM', bounds);
  }
  if (deltaN === undefined) return standardEarthRadiusFactor * earthRadiusM;
  const bounds = { min: -200, max: 150, unit: 'N-units per kilometre (positive when falling with height)' };
  return earthRadiusM * (157 / (157 - checkRange(deltaN, 'deltaN', bounds)));
}
