import { checkObject, checkOneOf, normalQuantile } from '@finial/units';
import { checkProbability } from '../certainty/checkProbability.js';
import { distanceM as distanceBounds, frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/** A path between two antennas near street level, both some 1.9 to 3 m high. */
export interface StreetPath {
  /** Frequency in hertz, 300e6 to 3e9. */
  readonly frequencyHz: number;
  /** Distance between the antennas in metres, up to 3000. */
  readonly distanceM: number;
  /** What stands around. The Recommendation gives a town of mixed height more loss than a dense or high-rise one. */
  readonly surroundings: 'suburban' | 'urban' | 'dense-urban';
  /** Share of places whose loss is not greater, as a ratio, 1e-12 to 1 - 1e-12. */
  readonly probability: number;
  /**
   * Length in metres over which seeing each other gives way to not, 1 to 1000.
   *
   * @defaultValue 20
   */
  readonly transitionM?: number | undefined;
  /**
   * What to do with a number outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss near street level, with both kinds of path. */
export interface StreetLevelLoss {
  /** Loss in dB that is not exceeded at the share of places asked for. */
  readonly lossDb: number;
  /** Loss in dB of places that see each other, at that share; in the transition at its near end. */
  readonly visibleLossDb: number;
  /** Loss in dB of places that do not, at that share; in the transition at its far end. */
  readonly hiddenLossDb: number;
  /** Distance in metres up to which that share of the places see each other. */
  readonly visibleDistanceM: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

/** Spread over places in dB. */
const sigmaDb = 7;

const surroundingsDb = { suburban: 0, urban: 6.8, 'dense-urban': 2.3 } as const;

/**
 * Loss between two low antennas in a town, not exceeded at a share of places: from node to node, or to a gateway on a garden shed.
 *
 * Distance, frequency and kind of town only; the heights are fixed near those of a person. A gateway on a roof does better.
 *
 * @returns the loss, and both kinds of path that it goes over between
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * @source Recommendation ITU-R P.1411-11 (09/2021), section 4.3.1, equations 58 to 64
 * @example Two nodes at 500 m in a suburb
 * ```ts
 * import { streetLevelLoss } from '@finial/propagation/p1411';
 *
 * const street = { frequencyHz: 900e6, distanceM: 500, surroundings: 'suburban' } as const;
 * streetLevelLoss({ ...street, probability: 0.5 }).lossDb; // ≈ 130.40
 * streetLevelLoss({ ...street, probability: 0.9 }).lossDb; // ≈ 139.37
 * ```
 */
export function streetLevelLoss(path: StreetPath): StreetLevelLoss {
  checkObject(path, 'path');
  const { within, warnings } = validityCheck(path.outsideValidity);
  const frequencyHz = within(path.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: 300e6,
    max: 3e9,
  });
  const distanceM = within(path.distanceM, 'distanceM', { possible: distanceBounds, min: 0.1, max: 3000 });
  const surroundings = checkOneOf(path.surroundings, 'surroundings', ['suburban', 'urban', 'dense-urban']);
  const probability = checkProbability(path.probability, 'probability');
  const { transitionM = 20 } = path;
  const lengthM = within(transitionM, 'transitionM', {
    possible: { min: 1, max: 1000, unit: 'metres' },
    min: 1,
    max: 1000,
  });

  const logFrequency = Math.log10(frequencyHz / 1e6);
  const visibleAt = (metres: number) =>
    32.45 + 20 * logFrequency + 20 * Math.log10(metres / 1000) + visibleSpreadDb(probability);
  const hiddenAt = (metres: number) =>
    9.5 +
    45 * logFrequency +
    40 * Math.log10(metres / 1000) +
    surroundingsDb[surroundings] +
    sigmaDb * normalQuantile(probability);
  const nearM = visibleDistance(probability);
  const farM = nearM + lengthM;
  const share = Math.min(Math.max((distanceM - nearM) / lengthM, 0), 1);
  const visibleLossDb = visibleAt(share > 0 && share < 1 ? nearM : distanceM);
  const hiddenLossDb = hiddenAt(share > 0 && share < 1 ? farM : distanceM);
  return {
    lossDb: visibleLossDb * (1 - share) + hiddenLossDb * share,
    visibleLossDb,
    hiddenLossDb,
    visibleDistanceM: nearM,
    warnings,
  };
}

/** Rayleigh-like spread of places that see each other, against their median. */
function visibleSpreadDb(probability: number): number {
  return 1.5624 * sigmaDb * (Math.sqrt(-2 * Math.log1p(-probability)) - 1.1774);
}

function visibleDistance(probability: number): number {
  if (probability >= 0.45) return 79.2 - 70 * probability;
  const logShare = Math.log10(probability);
  return 212 * logShare ** 2 - 64 * logShare;
}
