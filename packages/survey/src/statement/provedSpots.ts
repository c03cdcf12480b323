import { betaShareBelow } from '../betaQuantile.js';
import { exactBounds } from '../delivery/deliveryClaim.js';

/** What a count of frames says about a wanted delivery ratio. */
export type SpotVerdict = 'proved' | 'refuted' | 'open';

/** A spot and what was proved there. */
export interface ProvedSpot {
  /** Name of the spot. */
  readonly spot: string;
  /** Frames received. */
  readonly received: number;
  /** Frames sent. */
  readonly sent: number;
  /** Received over sent. */
  readonly ratio: number;
  /** One-sided lower bound of the delivery ratio for this spot alone, exact (Clopper-Pearson). */
  readonly lowerRatio: number;
  /**
   * `'proved'`: the wanted share comes through; `'refuted'`: less than it does; `'open'`: too few frames to tell. As sure as
   * the confidence, for all spots together or for each.
   */
  readonly verdict: SpotVerdict;
  /** Further frames, all received, that would prove an open spot whatever the others show; 0 where it is proved. Absent where refuted. */
  readonly furtherFrames?: number | undefined;
}

/** A checked count at a spot. */
export interface SpotCount {
  readonly spot: string;
  readonly received: number;
  readonly sent: number;
}

/**
 * Which spots have at least the wanted delivery ratio, by exact binomial tests; unchecked. Together: step-down over the spots, so that
 * the chance of even one wrong 'proved' stays below 1 - confidence, however the spots depend on each other; the same for 'refuted'.
 *
 * Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404; S. Holm, Scandinavian Journal of Statistics 6 (1979) 65 (from memory).
 */
export function provedSpots(
  spots: readonly SpotCount[],
  targetRatio: number,
  confidence: number,
  claim: 'together' | 'each',
): readonly ProvedSpot[] {
  const proved = rejected(
    spots.map((count) => chanceOfAtLeast(count, targetRatio)),
    1 - confidence,
    claim,
  );
  const refuted = rejected(
    spots.map(({ received, sent }) => chanceOfAtLeast({ received: sent - received, sent }, 1 - targetRatio)),
    1 - confidence,
    claim,
  );
  // A spot that stands alone among many must overcome the share of the error that all of them have.
  const ownConfidence = claim === 'each' ? confidence : 1 - (1 - confidence) / spots.length;
  return spots.map(({ spot, received, sent }, index) => {
    const verdict = proved[index] ? 'proved' : refuted[index] ? 'refuted' : 'open';
    return {
      spot,
      received,
      sent,
      ratio: received / sent,
      lowerRatio: exactBounds({ received, sent }, 1 - confidence).atLeastRatio,
      verdict,
      ...(verdict === 'refuted'
        ? {}
        : {
            furtherFrames:
              verdict === 'proved' ? 0 : furtherFrames(received, sent, targetRatio, ownConfidence),
          }),
    };
  });
}

/** Chance of so many received frames or more if the ratio is just the wanted one. */
function chanceOfAtLeast({ received, sent }: Omit<SpotCount, 'spot'>, ratio: number): number {
  return received === 0 ? 1 : betaShareBelow(ratio, received, sent - received + 1);
}

function rejected(chances: readonly number[], error: number, claim: 'together' | 'each'): readonly boolean[] {
  if (claim === 'each') return chances.map((chance) => chance <= error);
  const order = chances.map((_, index) => index).sort((one, other) => at(chances, one) - at(chances, other));
  const stop = order.findIndex((index, rank) => at(chances, index) > error / (chances.length - rank));
  const passed = new Set(stop === -1 ? order : order.slice(0, stop));
  return chances.map((_, index) => passed.has(index));
}

/** Least number of further frames, none of them missed, at which the spot's own lower bound reaches the wanted ratio. */
function furtherFrames(received: number, sent: number, targetRatio: number, confidence: number): number {
  const isEnough = (more: number): boolean =>
    chanceOfAtLeast({ received: received + more, sent: sent + more }, targetRatio) <= 1 - confidence;
  let low = -1;
  let high = 0;
  while (!isEnough(high)) {
    low = high;
    high = 2 * high + 1;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function at(values: readonly number[], index: number): number {
  return values[index] as number;
}
