import { checkObject, checkRange } from '@finial/units';

/** A published correlation of shadowing. */
export interface ShadowingCorrelation {
  /** Correlation of two places, a plain ratio, 1e-6 to 0.999999. */
  readonly correlationRatio: number;
  /** Distance between the two places in metres, 0.01 to 1e6. */
  readonly distanceM: number;
}

/**
 * Distance in metres over which the correlation of shadowing falls to 1/e, from the correlation at another distance.
 *
 * Papers state the distance of a correlation of 0.3, 0.5 or 1/e under the same name; with 0.5 the figure is 0.69 of this one.
 * The exponential law is a fit to drives along streets; shadows need not fade alike in all directions.
 *
 * @returns metres, relative error below 1e-10; the ends of the ranges give 7e-4 to 1e12 m
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source M. Gudmundson, Correlation model for shadow fading in mobile radio systems, Electronics Letters 27 (1991) 2145 (from memory)
 * @example A suburb, correlation 0.82 over 100 m
 * ```ts
 * import { decorrelationM } from '@finial/survey';
 *
 * decorrelationM({ correlationRatio: 0.82, distanceM: 100 }); // ≈ 503.9
 * ```
 */
export function decorrelationM(correlation: ShadowingCorrelation): number {
  const { correlationRatio, distanceM } = checkObject(correlation, 'correlation');
  checkRange(correlationRatio, 'correlationRatio', { min: 1e-6, max: 0.999999, unit: 'as a correlation' });
  checkRange(distanceM, 'distanceM', { min: 0.01, max: 1e6, unit: 'metres' });
  return -distanceM / Math.log(correlationRatio);
}
