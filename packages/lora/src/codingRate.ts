import { checkInteger } from '@finial/units';

/**
 * The denominator of the coding rate if it is one of 4/5 to 4/8.
 *
 * The long-interleaver rates (LI) of later chips spread over the whole payload, so that no formula here holds for them. Their codes
 * in the chips' registers happen to be 5, 6 and 7: they are no denominators.
 */
export function checkedCodingRate(codingRate: unknown): number {
  const unit = 'coded bits for four (the long interleaver, LI, is not covered)';
  return checkInteger(codingRate, 'codingRate', { min: 5, max: 8, unit });
}
