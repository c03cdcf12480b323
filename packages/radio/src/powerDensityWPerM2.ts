import { checkObject, checkRange, dbmToWatt } from '@finial/units';
import { distanceBounds, powerBounds } from './bounds.js';

/** A radiating antenna and a place in front of it. */
export interface RadiatedField {
  /** Equivalent isotropically radiated power towards the place in dBm, -300 to 300. */
  readonly eirpDbm: number;
  /** Distance from the antenna in metres, 1e-6 to 1e12. */
  readonly distanceM: number;
}

/**
 * Power density of a wave in free space in watts per square metre.
 *
 * True in the far field. Within about half a wavelength of the antenna the number means nothing, and reflections can raise
 * the density up to four times.
 *
 * @returns W/m², relative error below 1e-13
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source FCC OET Bulletin 65, edition 97-01, section 2, power density EIRP/(4πR²)
 * @example A metre away from a gateway that radiates 36 dBm
 * ```ts
 * import { powerDensityWPerM2 } from '@finial/radio';
 *
 * powerDensityWPerM2({ eirpDbm: 36, distanceM: 1 }); // ≈ 0.317
 * ```
 */
export function powerDensityWPerM2(field: RadiatedField): number {
  checkObject(field, 'field');
  const powerW = dbmToWatt(checkRange(field.eirpDbm, 'eirpDbm', powerBounds));
  const distanceM = checkRange(field.distanceM, 'distanceM', distanceBounds);
  return powerW / (4 * Math.PI * distanceM ** 2);
}
