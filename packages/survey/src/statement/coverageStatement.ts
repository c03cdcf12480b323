import { normalQuantile } from '@finial/units';
import { exactBounds } from '../delivery/deliveryClaim.js';
import { type CheckedQuestion, type CoverageQuestion, checkQuestion } from './CoverageQuestion.js';
import { coverageSentences, notClaimed } from './coverageSentences.js';
import { type ProvedSpot, provedSpots } from './provedSpots.js';

/** What may be published about where a gateway is heard, and what may not. */
export interface CoverageStatement {
  /** The main claim in one sentence. */
  readonly claim: string;
  /** All that may be published, the claim first. */
  readonly sentences: readonly string[];
  /** What the walk does not show and must not be read into the statement. */
  readonly notClaimed: readonly string[];
  /** Each spot with its bound and its verdict, in the order given. */
  readonly spots: readonly ProvedSpot[];
  /** Share of frames that was asked for. */
  readonly targetRatio: number;
  /** Confidence as a ratio. */
  readonly confidence: number;
  /** Spots where it is proved. */
  readonly provedCount: number;
  /** Spots where the opposite is proved. */
  readonly refutedCount: number;
  /** Spots with too few frames to tell. */
  readonly openCount: number;
  /** Distance of the farthest proved spot in metres, where distances are known. */
  readonly farthestProvedM?: number | undefined;
  /**
   * Share of the places of the area, at least, where it holds, at the same confidence; absent unless spots were drawn by lot. Half of the
   * allowed error goes to the spots and half to the draw.
   */
  readonly areaShareRatio?: number | undefined;
  /**
   * Estimate, without a confidence: distance in metres at which the wanted share of frames still arrives on average over places, by
   * the fitted law, never beyond the fitted distances. Absent without a fit, where the fit left missed frames out, or where the law falls short
   * at its nearest distance.
   */
  readonly estimatedRangeM?: number | undefined;
}

/**
 * The statement on coverage that a walk allows: sentences with numbers, and what they do not say.
 *
 * A spot is named only if its frames prove the wanted delivery ratio by an exact test: 29 of 29 frames are the least that prove 90 % at 95 %
 * for one spot, 50 of 50 for each of ten together. The test takes the frames of a spot as independent throws with one ratio: frames sent in
 * one minute share its fading and interference, so spread them over the time that the statement shall hold for.
 *
 * @returns sentences and numbers; bounds within 1e-10
 * @throws {@link InputError} `wrong-type`, `missing` (no spot, a threshold, the size of the frames), `not-a-finite-number`, `out-of-range` or
 * `unknown-option`
 * @source C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404; S. Holm, Scandinavian Journal of Statistics 6 (1979) 65 (from memory)
 * @example Two spots, one with enough frames
 * ```ts
 * import { coverageStatement } from '@finial/survey';
 *
 * const statement = coverageStatement({
 *   spots: [
 *     { spot: 'bridge', received: 60, sent: 60 },
 *     { spot: 'mill', received: 20, sent: 20 },
 *   ],
 *   node: { heightM: 1.5, spreadingFactor: 9 },
 * });
 * statement.claim;
 * // → 'A node at 1.5 m, SF9, reaches this gateway with at least 90 % of its frames at 1 of the 2 spots walked: bridge (95 % confidence, for all named spots together).'
 * statement.spots[1]?.furtherFrames; // → 16
 * ```
 */
export function coverageStatement(question: CoverageQuestion): CoverageStatement {
  const checked = checkQuestion(question);
  const { targetRatio, confidence, claim } = checked;
  const spots = provedSpots(checked.spots, targetRatio, confidence, claim);
  const count = (verdict: ProvedSpot['verdict']): number =>
    spots.filter((spot) => spot.verdict === verdict).length;
  const figures = {
    spots,
    targetRatio,
    confidence,
    provedCount: count('proved'),
    refutedCount: count('refuted'),
    openCount: count('open'),
    ...known('farthestProvedM', farthestProvedM(checked, spots)),
    ...known('areaShareRatio', areaShareRatio(checked)),
    ...known('estimatedRangeM', estimatedRangeM(checked)),
  };
  const sentences = coverageSentences(checked, figures);
  return { claim: sentences[0] as string, sentences, notClaimed: notClaimed(checked), ...figures };
}

function farthestProvedM({ spots }: CheckedQuestion, proved: readonly ProvedSpot[]): number | undefined {
  const distances = spots
    .filter((_, index) => proved[index]?.verdict === 'proved')
    .map(({ distanceM }) => distanceM)
    .filter((distanceM) => distanceM !== undefined);
  return distances.length === 0 ? undefined : distances.reduce((most, each) => Math.max(most, each), 0);
}

/** Spots proved together at half of the error are at most as many as truly hold; the draw of the spots takes the other half. */
function areaShareRatio({ spots, targetRatio, confidence, spotChoice }: CheckedQuestion): number | undefined {
  if (spotChoice !== 'random') return undefined;
  const half = 1 - (1 - confidence) / 2;
  const proved = provedSpots(spots, targetRatio, half, 'together').filter(
    ({ verdict }) => verdict === 'proved',
  );
  return exactBounds({ received: proved.length, sent: spots.length }, 1 - half).atLeastRatio;
}

function estimatedRangeM({ fit, thresholdDbm = 0, targetRatio }: CheckedQuestion): number | undefined {
  if (fit === undefined || fit.excluded.missedFrames > 0) return undefined;
  const { interceptDbm, exponent, shadowingDb, nearestDistanceM, farthestDistanceM } = fit;
  const neededDbm = thresholdDbm + normalQuantile(targetRatio) * shadowingDb;
  const levelAt = (distanceM: number): number => interceptDbm - exponent * 10 * Math.log10(distanceM);
  if (levelAt(nearestDistanceM) < neededDbm) return undefined;
  if (levelAt(farthestDistanceM) >= neededDbm) return farthestDistanceM;
  return 10 ** ((interceptDbm - neededDbm) / (10 * exponent));
}

function known<Name extends string>(name: Name, value: number | undefined): { [Key in Name]?: number } {
  return (value === undefined ? {} : { [name]: value }) as { [Key in Name]?: number };
}
