import { freeSpaceLossDb } from '@finial/radio';
import { checkObject, checkOneOf } from '@finial/units';
import { distanceM as distanceBounds, frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/**
 * What lies between two antennas of a short path. In the first four both stand below the roofs: in sight of each other in a street, or hidden
 * among high houses, low houses or in a residential quarter. In the last two one of them stands above the roofs of a town.
 */
export type ShortPathSituation =
  | 'line-of-sight'
  | 'high-rise'
  | 'low-rise'
  | 'residential'
  | 'over-roofs-line-of-sight'
  | 'over-roofs-hidden';

/** A short path outdoors. */
export interface ShortPath {
  /** Frequency in hertz: from 450e6 in sight and among low houses, from 800e6 among high or residential ones, from 2.2e9 over the roofs. */
  readonly frequencyHz: number;
  /** Straight distance between the antennas in metres, heights included; tens to hundreds, as the situation has it. */
  readonly distanceM: number;
  /** What lies between. */
  readonly situation: ShortPathSituation;
  /**
   * What to do with a number outside the range of the situation.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss of a short path. */
export interface SiteGeneralLoss {
  /** Median loss between isotropic antennas in dB. */
  readonly lossDb: number;
  /** Standard deviation over places in dB. */
  readonly sigmaDb: number;
  /** Loss of the same distance in free space in dB, for comparison. */
  readonly freeSpaceLossDb: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

interface Fit {
  readonly alpha: number;
  readonly beta: number;
  readonly gamma: number;
  readonly sigmaDb: number;
  readonly minimumFrequencyHz: number;
  readonly minimumDistanceM: number;
  /** Highest frequency and greatest distance of each part of the measurements, by rising frequency. */
  readonly reaches: readonly [Reach, ...Reach[]];
}

interface Reach {
  readonly upToHz: number;
  readonly maximumDistanceM: number;
}

const fits: Readonly<Record<ShortPathSituation, Fit>> = {
  'line-of-sight': {
    alpha: 2.07,
    beta: 31.23,
    gamma: 2.06,
    sigmaDb: 4.91,
    minimumFrequencyHz: 0.45e9,
    minimumDistanceM: 5,
    reaches: [
      { upToHz: 82e9, maximumDistanceM: 660 },
      { upToHz: 159e9, maximumDistanceM: 500 },
      { upToHz: 255e9, maximumDistanceM: 250 },
      { upToHz: 300e9, maximumDistanceM: 155 },
    ],
  },
  'high-rise': {
    alpha: 3.73,
    beta: 16.02,
    gamma: 2.26,
    sigmaDb: 7.62,
    minimumFrequencyHz: 0.8e9,
    minimumDistanceM: 20,
    reaches: [
      { upToHz: 82e9, maximumDistanceM: 715 },
      { upToHz: 159e9, maximumDistanceM: 150 },
    ],
  },
  'low-rise': {
    alpha: 4.52,
    beta: 6.04,
    gamma: 2.14,
    sigmaDb: 8.02,
    minimumFrequencyHz: 0.45e9,
    minimumDistanceM: 10,
    reaches: [
      { upToHz: 73e9, maximumDistanceM: 250 },
      { upToHz: 159e9, maximumDistanceM: 150 },
      { upToHz: 255e9, maximumDistanceM: 80 },
    ],
  },
  residential: {
    alpha: 3.01,
    beta: 18.8,
    gamma: 2.07,
    sigmaDb: 3.07,
    minimumFrequencyHz: 0.8e9,
    minimumDistanceM: 30,
    reaches: [{ upToHz: 73e9, maximumDistanceM: 170 }],
  },
  'over-roofs-line-of-sight': {
    alpha: 2.29,
    beta: 28.6,
    gamma: 1.96,
    sigmaDb: 3.48,
    minimumFrequencyHz: 2.2e9,
    minimumDistanceM: 55,
    reaches: [{ upToHz: 73e9, maximumDistanceM: 1200 }],
  },
  'over-roofs-hidden': {
    alpha: 4.39,
    beta: -6.27,
    gamma: 2.3,
    sigmaDb: 6.89,
    minimumFrequencyHz: 2.2e9,
    minimumDistanceM: 260,
    reaches: [{ upToHz: 66.5e9, maximumDistanceM: 1200 }],
  },
};

/**
 * Median loss of a short path outdoors, fitted to measurements of many towns: 10α lg d + β + 10γ lg f.
 *
 * For street level, where the path models' profiles mean nothing. For a gateway above the roofs the fits begin at 2.2 GHz: on 868 or
 * 915 MHz that is outside. The median of a hidden path can come out below free space at the near end of its range; places do not.
 *
 * @returns the median, its spread over places, and free space beside it
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * @source Recommendation ITU-R P.1411-13, section 4.1.1 and table 4 (below the roofs; edition 11 had other coefficients); P.1411-11,
 * section 4.2.1 and table 8 (over the roofs)
 * @example Two nodes in a residential street
 * ```ts
 * import { siteGeneralLoss } from '@finial/propagation/p1411';
 *
 * const street = siteGeneralLoss({ frequencyHz: 868e6, distanceM: 100, situation: 'residential' });
 * street.lossDb; // ≈ 77.7
 * street.sigmaDb; // → 3.07
 * ```
 */
export function siteGeneralLoss(path: ShortPath): SiteGeneralLoss {
  checkObject(path, 'path');
  const { within, warnings } = validityCheck(path.outsideValidity);
  const situation = checkOneOf(path.situation, 'situation', [
    'line-of-sight',
    'high-rise',
    'low-rise',
    'residential',
    'over-roofs-line-of-sight',
    'over-roofs-hidden',
  ]);
  const { alpha, beta, gamma, sigmaDb, minimumFrequencyHz, minimumDistanceM, reaches } = fits[situation];
  const last = reaches.at(-1) ?? reaches[0];
  const frequencyHz = within(path.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: minimumFrequencyHz,
    max: last.upToHz,
  });
  const { maximumDistanceM } = reaches.find(({ upToHz }) => frequencyHz <= upToHz) ?? last;
  const distanceM = within(path.distanceM, 'distanceM', {
    possible: distanceBounds,
    min: minimumDistanceM,
    max: maximumDistanceM,
  });
  return {
    lossDb: 10 * alpha * Math.log10(distanceM) + beta + 10 * gamma * Math.log10(frequencyHz / 1e9),
    sigmaDb,
    freeSpaceLossDb: freeSpaceLossDb({ frequencyHz, distanceM }),
    warnings,
  };
}
