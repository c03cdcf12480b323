import { checkObject, checkRange, normalQuantile } from '@finial/units';
import { inverseMills, logNormalTail, normalShareBelow } from '../pathLoss/normalTail.js';
import { crossing } from './crossing.js';

/** The law of a disc around the gateway. */
export interface DiscLaw {
  /** Path-loss exponent, 0.5 to 10. */
  readonly exponent: number;
  /** Standard deviation of shadowing in dB, 0.1 to 40. */
  readonly shadowingDb: number;
}

/** A disc whose edge has a known margin. */
export interface DiscEdge extends DiscLaw {
  /** Margin of the mean level over the threshold at the edge in dB, -200 to 200. */
  readonly edgeMarginDb: number;
}

/** A disc that shall be covered to a wanted share. */
export interface DiscArea extends DiscLaw {
  /** Wanted share of the area above the threshold as a probability, 0.001 to 0.9999. */
  readonly areaProbability: number;
}

/** Coverage at the edge and over the whole disc. */
export interface DiscCoverage {
  /** Margin of the mean level at the edge in dB. */
  readonly edgeMarginDb: number;
  /** Probability that a place at the edge lies above the threshold. */
  readonly edgeProbability: number;
  /** Share of the disc's area above the threshold. */
  readonly areaProbability: number;
}

/**
 * What share of a disc is covered, from the margin at its edge.
 *
 * The mean level falls with the logarithm of distance from the middle, shadowing is normal in decibels and the same everywhere. Real ground has
 * hills: take it for a first estimate. The chart readings printed in textbooks for the same inputs lie up to 3 points higher than
 * formula and integral agree on.
 *
 * @returns probabilities, error below 1e-12; nothing overflows within the ranges
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source W. C. Jakes, Microwave Mobile Communications (1974), section 2.5.3 (by D. O. Reudink; from memory), rearranged so that no large
 * power of e is formed; checked against the integral of the disc
 * @example Three of four places at the edge make nine of ten over the area
 * ```ts
 * import { areaFromEdge } from '@finial/survey';
 *
 * areaFromEdge({ edgeMarginDb: 5.396, exponent: 4, shadowingDb: 8 }).areaProbability; // ≈ 0.907
 * ```
 */
export function areaFromEdge(edge: DiscEdge): DiscCoverage {
  const law = checkDiscLaw(edge, 'edge');
  const edgeMarginDb = checkRange(edge.edgeMarginDb, 'edgeMarginDb', { min: -200, max: 200, unit: 'dB' });
  return {
    edgeMarginDb,
    edgeProbability: normalShareBelow(edgeMarginDb / law.shadowingDb),
    areaProbability: areaShare(edgeMarginDb, law),
  };
}

/**
 * What margin the edge of a disc needs for a wanted share of the area: the inverse of {@link areaFromEdge}.
 *
 * @returns the margin, error below 1e-9 dB; negative where even an edge below the threshold leaves enough inside
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source As {@link areaFromEdge}, solved by halving
 * @example
 * ```ts
 * import { edgeFromArea } from '@finial/survey';
 *
 * const edge = edgeFromArea({ areaProbability: 0.9, exponent: 3.5, shadowingDb: 8 });
 * edge.edgeMarginDb; // ≈ 5.45
 * edge.edgeProbability; // ≈ 0.752
 * ```
 */
export function edgeFromArea(area: DiscArea): DiscCoverage {
  const law = checkDiscLaw(area, 'area');
  const { exponent, shadowingDb } = law;
  const wanted = checkRange(area.areaProbability, 'areaProbability', {
    min: 0.001,
    max: 0.9999,
    unit: 'as a probability',
  });
  // The area is never worse than its edge; and the disc that the mean level alone reaches may be as small as the wanted share.
  const high = shadowingDb * Math.max(0, normalQuantile(wanted)) + 1;
  const low = 5 * exponent * Math.log10(wanted) - 10 * shadowingDb - 10 * exponent;
  const edgeMarginDb = crossing((margin) => areaShare(margin, law), wanted, { low, high });
  return {
    edgeMarginDb,
    edgeProbability: normalShareBelow(edgeMarginDb / shadowingDb),
    areaProbability: areaShare(edgeMarginDb, law),
  };
}

function checkDiscLaw(law: DiscLaw, argument: string): DiscLaw {
  checkObject(law, argument);
  return {
    exponent: checkRange(law.exponent, 'exponent', { min: 0.5, max: 10, unit: 'as an exponent' }),
    shadowingDb: checkRange(law.shadowingDb, 'shadowingDb', { min: 0.1, max: 40, unit: 'dB' }),
  };
}

/**
 * Φ(u) + e^((2 + 2uw)/w²) Φ(-(2 + uw)/w) with u = margin/σ and w = 10 n lg(e)/σ. The power alone overflows for small w. Where
 * the argument of Φ is negative, both are taken together as φ(u) over the inverse Mills ratio.
 */
function areaShare(edgeMarginDb: number, { exponent, shadowingDb }: DiscLaw): number {
  const u = edgeMarginDb / shadowingDb;
  const w = (10 * exponent * Math.LOG10E) / shadowingDb;
  const z = -(2 / w + u);
  const inside =
    z < 0
      ? Math.exp((-u * u) / 2) / Math.sqrt(2 * Math.PI) / inverseMills(z)
      : Math.exp((2 / w + 2 * u) / w + logNormalTail(z));
  return normalShareBelow(u) + inside;
}
