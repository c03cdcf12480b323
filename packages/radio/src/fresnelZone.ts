import { checkInteger, checkObject, checkRange } from '@finial/units';
import { distanceBounds, frequencyBounds } from './bounds.js';
import { speedOfLightMPerS } from './physicalConstants.js';

/** A point on a straight path between two antennas. */
export interface PointOnPath {
  /** Carrier frequency in hertz, 1e6 to 3e12. */
  readonly frequencyHz: number;
  /** Distance from the point to one end in metres, 1e-6 to 1e12. */
  readonly distanceToStartM: number;
  /** Distance from the point to the other end in metres, 1e-6 to 1e12. */
  readonly distanceToEndM: number;
}

/** A point on a path, and which Fresnel zone is asked for. */
export interface FresnelZonePoint extends PointOnPath {
  /**
   * Number of the zone, a whole number from 1 to 1000000.
   *
   * @defaultValue 1
   */
  readonly zone?: number | undefined;
}

/** A point on a path, and how far below the line of sight the obstacle there ends. */
export interface FresnelObstacle extends PointOnPath {
  /**
   * Height of the line of sight above the obstacle in metres, -1e12 to 1e12. Negative when the obstacle rises above the line.
   * Take the Earth's bulge off the line (or add it to the obstacle) first.
   */
  readonly clearanceM: number;
}

/** How much of the first Fresnel zone is free at an obstacle. */
export interface FresnelClearance {
  /** Radius of the first Fresnel zone at the obstacle in metres. */
  readonly firstZoneRadiusM: number;
  /** Clearance divided by that radius, as a plain ratio; negative when the line of sight is cut. */
  readonly clearanceRatio: number;
  /** The clearance in metres that 60 % of the radius asks for. */
  readonly requiredClearanceM: number;
  /** Whether at least 60 % of the radius is free, so that the path counts as free space. */
  readonly isClear: boolean;
}

/** Part of the first zone that has to be free, as a ratio. */
const clearPartRatio = 0.6;

/**
 * Radius of a Fresnel zone at a point of a path, in metres: within the first zone an obstacle weakens the wave even where the
 * line of sight is open.
 *
 * True away from the ends (distances of many wavelengths) and for radii small against the distances.
 *
 * @returns metres, relative error of the formula's evaluation below 1e-14
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.526, section 2.1 (Fresnel ellipsoids), the self-consistent form
 * @example Halfway along 10 km at 868.1 MHz
 * ```ts
 * import { fresnelRadiusM } from '@finial/radio';
 *
 * fresnelRadiusM({ frequencyHz: 868.1e6, distanceToStartM: 5000, distanceToEndM: 5000 }); // ≈ 29.38
 * ```
 */
export function fresnelRadiusM(point: FresnelZonePoint): number {
  checkObject(point, 'point');
  const { zone = 1 } = point;
  const frequencyHz = checkRange(point.frequencyHz, 'frequencyHz', frequencyBounds);
  const startM = checkRange(point.distanceToStartM, 'distanceToStartM', distanceBounds);
  const endM = checkRange(point.distanceToEndM, 'distanceToEndM', distanceBounds);
  const number = checkInteger(zone, 'zone', { min: 1, max: 1e6, unit: 'Fresnel zones' });
  return Math.sqrt((number * (speedOfLightMPerS / frequencyHz) * startM * endM) / (startM + endM));
}

/**
 * Whether an obstacle leaves enough of the first Fresnel zone free for the path to count as free space.
 *
 * The customary 60 % is on the safe side: a single sharp edge loses nothing from 55 % on (P.526, ν = −0.78). A wide or rounded
 * obstacle needs more; several obstacles need a diffraction model.
 *
 * @returns the radius, the ratio, and what 60 % asks for
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.526, section 2.1; 60 %: Recommendation ITU-R P.530, path clearance (from memory)
 * @example A ridge 2 km out on a path of 10 km, 15 m below the line of sight
 * ```ts
 * import { fresnelClearance } from '@finial/radio';
 *
 * const ridge = fresnelClearance({
 *   frequencyHz: 868.1e6, distanceToStartM: 2000, distanceToEndM: 8000, clearanceM: 15,
 * });
 * ridge.clearanceRatio; // ≈ 0.638
 * ridge.isClear; // → true
 * ```
 */
export function fresnelClearance(obstacle: FresnelObstacle): FresnelClearance {
  checkObject(obstacle, 'obstacle');
  const { frequencyHz, distanceToStartM, distanceToEndM } = obstacle;
  const firstZoneRadiusM = fresnelRadiusM({ frequencyHz, distanceToStartM, distanceToEndM });
  const clearanceM = checkRange(obstacle.clearanceM, 'clearanceM', { min: -1e12, max: 1e12, unit: 'metres' });
  const requiredClearanceM = clearPartRatio * firstZoneRadiusM;
  return {
    firstZoneRadiusM,
    clearanceRatio: clearanceM / firstZoneRadiusM,
    requiredClearanceM,
    isClear: clearanceM >= requiredClearanceM,
  };
}
