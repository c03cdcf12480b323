import { checkRange } from '@finial/units';

/**
 * A probability or share as a ratio, far enough from 0 and 1 for the normal distribution to be evaluated. A percentage typed by
 * mistake is asked after.
 */
export function checkProbability(value: unknown, argument: string): number {
  return checkRange(value, argument, {
    min: 1e-12,
    max: 1 - 1e-12,
    unit: 'as a ratio',
    hints: [{ name: 'percent', ratio: 0.01 }],
  });
}
