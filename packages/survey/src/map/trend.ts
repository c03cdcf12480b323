import { checkOneOf, InputError } from '@finial/units';
import type { PlanePlace } from './PlaneSample.js';

/**
 * What the levels scatter about: zero (`'known'`: the calibration left no offset), a mean that the samples tell (`'constant'`,
 * ordinary kriging), or the log-distance law (`'log-distance'`, regression kriging; the plane's middle is the gateway).
 */
export type Trend = 'known' | 'constant' | 'log-distance';

/** Refuses another trend. */
export function checkTrend(trend: unknown): Trend {
  return checkOneOf(trend, 'trend', ['known', 'constant', 'log-distance']);
}

/** Terms of a trend at a place; a distance below a metre has no logarithm of use and is refused. */
export function trendTerms(trend: Trend, { eastM, northM }: PlanePlace, argument: string): Float64Array {
  if (trend === 'known') return new Float64Array(0);
  if (trend === 'constant') return Float64Array.of(1);
  const distanceM = Math.hypot(eastM, northM);
  if (distanceM >= 1) return Float64Array.of(1, 10 * Math.log10(distanceM));
  throw new InputError({
    code: 'out-of-range',
    argument: `${argument}.eastM and northM`,
    received: distanceM,
    expected: 'a place at least 1 metre from the gateway, for the log-distance law',
  });
}

/** Terms of a trend for many places: one series for each term. */
export function trendSeries(trend: Trend, places: readonly PlanePlace[], argument: string): Float64Array[] {
  const rows = places.map((place, index) => trendTerms(trend, place, `${argument}[${index}]`));
  const terms = { known: 0, constant: 1, 'log-distance': 2 }[trend];
  return Array.from({ length: terms }, (_, j) => Float64Array.from(rows, (row) => row[j] as number));
}
