import { normalQuantile } from '@finial/units';
import { betaQuantile } from './betaQuantile.js';

/**
 * How the interval of a delivery ratio is made.
 *
 * - `wilson`: score interval; on average over all ratios its confidence is right, for one ratio it may fall short
 * - `clopper-pearson`: guaranteed to hold at least the confidence, and therefore the widest; for claims
 * - `jeffreys`: equal-tailed posterior under Jeffreys' prior; does not reach 0 at no frame nor 1 at all frames
 * - `jeffreys-modified`: the same with the ends 0 and 1 put in at no frame and at all frames
 */
export type IntervalMethod = 'wilson' | 'clopper-pearson' | 'jeffreys' | 'jeffreys-modified';

/** All of {@link IntervalMethod}, for checks. */
export const intervalMethods: readonly IntervalMethod[] = [
  'wilson',
  'clopper-pearson',
  'jeffreys',
  'jeffreys-modified',
];

/** Lower and upper end of a two-sided interval for k of n; unchecked. */
export function binomialInterval(
  method: IntervalMethod,
  k: number,
  n: number,
  confidence: number,
): readonly [lower: number, upper: number] {
  const tail = (1 - confidence) / 2;
  switch (method) {
    case 'wilson':
      return wilson(k, n, -normalQuantile(tail));
    case 'clopper-pearson':
      return [
        k === 0 ? 0 : betaQuantile(tail, k, n - k + 1),
        k === n ? 1 : 1 - betaQuantile(tail, n - k, k + 1),
      ];
    case 'jeffreys':
      return [betaQuantile(tail, k + 0.5, n - k + 0.5), 1 - betaQuantile(tail, n - k + 0.5, k + 0.5)];
    default: {
      const [lower, upper] = binomialInterval('jeffreys', k, n, confidence);
      return [k === 0 ? 0 : lower, k === n ? 1 : upper];
    }
  }
}

function wilson(k: number, n: number, z: number): readonly [number, number] {
  const square = z * z;
  const lower = (hits: number): number => {
    const misses = n - hits;
    // The lower end as a quotient of sums: the textbook difference loses all digits near no frame.
    return (hits * hits) / n / (hits + square / 2 + z * Math.sqrt((hits * misses) / n + square / 4));
  };
  return [lower(k), 1 - lower(n - k)];
}
