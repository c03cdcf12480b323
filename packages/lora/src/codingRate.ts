import { checkInteger } from '@finial/units';

const bounds = { min: 5, max: 8, unit: 'coded bits for four' };

/**
 * The denominator of the coding rate if it is one of 4/5 to 4/8. The long-interleaver rates of later chips are no such number: they
 * spread over the whole payload, and the formulas here do not hold for them.
 */
export function checkedCodingRate(codingRate: unknown): number {
  if (codingRate === 5) return 5;
  return checkInteger(codingRate, 'codingRate', bounds);
}
