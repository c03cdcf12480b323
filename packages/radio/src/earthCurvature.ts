import { checkObject, checkRange, type RangeBounds } from '@finial/units';
import { earthRadiusM, standardEarthRadiusFactor } from './physicalConstants.js';

/** How strongly the atmosphere bends the ray, as a factor on the Earth's radius. */
export interface Refraction {
  /**
   * Factor on the Earth's radius, 0.1 to 1000: 4/3 for an average atmosphere, 1 for a straight ray, about 2/3 in the weather
   * that bends rays upwards.
   *
   * @defaultValue 4/3
   */
  readonly effectiveEarthRadiusFactor?: number | undefined;
}

/** A point between two ends on the Earth's surface. */
export interface BulgePoint extends Refraction {
  /** Distance from the point to one end in metres, 0 to 1e6. */
  readonly distanceToStartM: number;
  /** Distance from the point to the other end in metres, 0 to 1e6. */
  readonly distanceToEndM: number;
}

/** An antenna above smooth ground. */
export interface HorizonAntenna extends Refraction {
  /** Height of the antenna above the smooth Earth around it in metres, 0 to 20000. */
  readonly heightM: number;
}

/** Two antennas above smooth ground. */
export interface LineOfSightAntennas extends Refraction {
  /** Height of one antenna above the smooth Earth in metres, 0 to 20000. */
  readonly transmitHeightM: number;
  /** Height of the other antenna above the smooth Earth in metres, 0 to 20000. */
  readonly receiveHeightM: number;
}

const legBounds: RangeBounds = { min: 0, max: 1e6, unit: 'metres' };
const heightBounds: RangeBounds = { min: 0, max: 20_000, unit: 'metres' };

/**
 * Height in metres by which the Earth's surface rises above the straight chord between two ends.
 *
 * The parabola is used, as the propagation Recommendations do: within 0.4 % up to 2000 km, far closer on any LoRa path.
 *
 * @returns metres, 0 or more
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.1812, section 4.3.1 (500 C_e d_i (d − d_i) in metres and kilometres)
 * @example Halfway along 10 km
 * ```ts
 * import { earthBulgeM } from '@finial/radio';
 *
 * earthBulgeM({ distanceToStartM: 5000, distanceToEndM: 5000 }); // ≈ 1.4715
 * ```
 */
export function earthBulgeM(point: BulgePoint): number {
  checkObject(point, 'point');
  const startM = checkRange(point.distanceToStartM, 'distanceToStartM', legBounds);
  const endM = checkRange(point.distanceToEndM, 'distanceToEndM', legBounds);
  return (startM * endM) / (2 * effectiveRadiusM(point));
}

/**
 * Distance in metres from an antenna to its horizon over smooth Earth.
 *
 * Terms of second order are left out: 0.0005 % at 100 m, 0.05 % too far at 10 km of height. Hills, houses and trees decide on real
 * ground.
 *
 * @returns metres, 0 or more
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.1812, equation 22 (one of its two terms)
 * @example A gateway 20 m up
 * ```ts
 * import { radioHorizonM } from '@finial/radio';
 *
 * radioHorizonM({ heightM: 20 }); // ≈ 18433
 * ```
 */
export function radioHorizonM(antenna: HorizonAntenna): number {
  checkObject(antenna, 'antenna');
  const heightM = checkRange(antenna.heightM, 'heightM', heightBounds);
  return Math.sqrt(2 * effectiveRadiusM(antenna) * heightM);
}

/**
 * Greatest distance in metres at which two antennas see each other over smooth Earth: the sum of their horizons.
 *
 * At that distance the line of sight grazes the ground and half of the first Fresnel zone is filled, so the link is already
 * weaker than in free space: by 6 dB behind a sharp edge, by more over the round Earth.
 *
 * @returns metres, 0 or more
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.1812, equation 22 (marginal line-of-sight distance for a smooth path)
 * @example A gateway 20 m up and a node at 1.5 m
 * ```ts
 * import { radioLineOfSightM } from '@finial/radio';
 *
 * radioLineOfSightM({ transmitHeightM: 20, receiveHeightM: 1.5 }); // ≈ 23481
 * ```
 */
export function radioLineOfSightM(antennas: LineOfSightAntennas): number {
  checkObject(antennas, 'antennas');
  const transmitHeightM = checkRange(antennas.transmitHeightM, 'transmitHeightM', heightBounds);
  const receiveHeightM = checkRange(antennas.receiveHeightM, 'receiveHeightM', heightBounds);
  return Math.sqrt(2 * effectiveRadiusM(antennas)) * (Math.sqrt(transmitHeightM) + Math.sqrt(receiveHeightM));
}

function effectiveRadiusM({
  effectiveEarthRadiusFactor: factor = standardEarthRadiusFactor,
}: Refraction): number {
  const bounds = { min: 0.1, max: 1000, unit: 'as a factor on the Earth radius' };
  return earthRadiusM * checkRange(factor, 'effectiveEarthRadiusFactor', bounds);
}
