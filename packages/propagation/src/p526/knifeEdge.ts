import { fresnelRadiusM } from '@finial/radio';
import { checkObject, checkRange, type RangeBounds } from '@finial/units';
import { diffractionLimits } from './diffractionLimits.js';
import { knifeEdgeJ } from './knifeEdgeJ.js';

/** One edge across the straight ray between two antennas. */
export interface KnifeEdge {
  /** Frequency in hertz, 30e6 to 100e9. */
  readonly frequencyHz: number;
  /**
   * Height of the edge above the straight ray in metres, -1e5 to 1e5; negative where the ray passes above it. The bulge of the Earth has
   * to be in it.
   */
  readonly obstacleHeightM: number;
  /** Distance from the edge to one antenna in metres, 0.1 to 3e6. */
  readonly distanceToStartM: number;
  /** Distance from the edge to the other antenna in metres, 0.1 to 3e6. */
  readonly distanceToEndM: number;
}

/** What an edge costs. */
export interface KnifeEdgeLoss {
  /** Radius of the first Fresnel zone at the edge in metres. */
  readonly fresnelRadiusM: number;
  /** ν, a plain ratio: √2 times the height of the edge over that radius. */
  readonly nuRatio: number;
  /** Loss in dB beyond that of free space, 0 or more. */
  readonly lossDb: number;
}

const nuBounds: RangeBounds = { min: -1e9, max: 1e9, unit: 'as the parameter ν' };
const legBounds: RangeBounds = { min: 0.1, max: 3e6, unit: 'metres' };
const heightBounds: RangeBounds = { min: -1e5, max: 1e5, unit: 'metres above the ray' };

/**
 * Loss of a knife edge in dB beyond that of free space, by its parameter ν.
 *
 * An approximation of the Fresnel integral, good to about 0.1 dB; ripples of the true curve for a clear edge are left out. 0 at and below
 * ν = -0.78, with a step of 0.004 dB there.
 *
 * @param nuRatio - ν, -1e9 to 1e9: 0 where the edge just touches the ray, positive where it stands in it
 * @returns dB, 0 or more
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.526, section 4.1 (single knife-edge obstacle)
 * @example An edge that touches the ray
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * p526.knifeEdgeLossDb(0); // ≈ 6.03
 * ```
 */
export function knifeEdgeLossDb(nuRatio: number): number {
  return knifeEdgeJ(checkRange(nuRatio, 'nuRatio', nuBounds));
}

/**
 * Loss of one knife edge in dB beyond that of free space, by where it stands.
 *
 * True for an edge thin and sharp against the Fresnel zone, standing across the path. A rounded hilltop or a roof with depth costs more.
 *
 * @returns the loss with ν and the Fresnel radius; the approximation is good to about 0.1 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.526, section 4.1 (single knife-edge obstacle)
 * @example A roof 5 m into the ray, 200 m from the node and 3 km from the gateway
 * ```ts
 * import { p526 } from '@finial/propagation';
 *
 * const edge = { frequencyHz: 868.1e6, obstacleHeightM: 5, distanceToStartM: 200, distanceToEndM: 3000 };
 * p526.singleKnifeEdge(edge).nuRatio; // ≈ 0.879
 * p526.singleKnifeEdge(edge).lossDb; // ≈ 13.12
 * ```
 */
export function singleKnifeEdge(edge: KnifeEdge): KnifeEdgeLoss {
  checkObject(edge, 'edge');
  const frequencyHz = checkRange(edge.frequencyHz, 'frequencyHz', diffractionLimits.frequencyHz);
  const obstacleHeightM = checkRange(edge.obstacleHeightM, 'obstacleHeightM', heightBounds);
  const distanceToStartM = checkRange(edge.distanceToStartM, 'distanceToStartM', legBounds);
  const distanceToEndM = checkRange(edge.distanceToEndM, 'distanceToEndM', legBounds);
  const radiusM = fresnelRadiusM({ frequencyHz, distanceToStartM, distanceToEndM });
  const nuRatio = (Math.SQRT2 * obstacleHeightM) / radiusM;
  return { fresnelRadiusM: radiusM, nuRatio, lossDb: knifeEdgeJ(nuRatio) };
}
