import { InputError } from '@finial/units';
import { checkObservations } from './checkObservations.js';
import type { Observation } from './Observation.js';
import { censoredFit } from './pathLoss/censoredFit.js';
import { fitSettings } from './pathLoss/fitSettings.js';
import { leastSquaresFit } from './pathLoss/leastSquaresFit.js';
import type { ExcludedFrames, FitPathLossOptions, PathLossFit } from './pathLoss/PathLossFit.js';
import { usableFrames } from './pathLoss/usableFrames.js';

export type { ExcludedFrames, FitPathLossOptions, PathLossFit } from './pathLoss/PathLossFit.js';

/**
 * Fits the log-distance law to the levels of a walk.
 *
 * Only received frames have a level. Far out those are the lucky ones, so that a line through them (`censored: false`, least squares)
 * comes out flatter and higher than the truth, by 8 to 11 dB at the far end of real rides. With `censored: true` a missed frame counts as a
 * level below its threshold, and the law is the one of greatest likelihood. It rests on the thresholds: the result tells how it moves when
 * they lie 3 dB elsewhere. A frame lost to a collision was not below any threshold: `constantLoss` takes a share of such frames out.
 * Where the log holds no missed frames, `'truncated'` is all that is left; it is weakly identified.
 *
 * Frames of one spot are not independent: `standardErrors` are too small where spots have many frames, `standardErrorsBySpot` are not, given
 * ten spots or more. All frames must go to one gateway, at one transmit power unless `referencePowerDbm` is given. The time taken grows
 * in proportion to the frames.
 *
 * @param observations - at least three received ones that can be used, at two different distances
 * @returns the law; relative error of its numbers below 1e-9 by least squares, 1e-6 otherwise
 * @throws {@link InputError} `wrong-type`, `missing` (no distance, too few frames, no threshold, frames that fix no law),
 * `not-a-finite-number`, `out-of-range`, `outside-validity` (a stated distance beyond the used frames) or `unknown-option` (also: an option
 * that only a fit with missed frames has)
 * @source Log-distance law: T. S. Rappaport, Wireless Communications, 2nd edition (2002), section 4.9.1 (from memory); least squares:
 * NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1; censored likelihood: J. Tobin, Econometrica 26 (1958) 24, in the parameters of
 * R. J. Olsen, Econometrica 46 (1978) 1211 (both from memory); for LoRa: G. Callebaut and L. Van der Perre, IEEE Internet of Things Journal 7
 * (2020) 1910
 * @example Four frames along a street
 * ```ts
 * import { fitPathLoss } from '@finial/survey';
 *
 * const street = { latitudeDeg: 45.75, longitudeDeg: 4.9, received: true, snrDb: 5 };
 * const law = fitPathLoss([
 *   { ...street, distanceM: 100, rssiDbm: -80 },
 *   { ...street, distanceM: 200, rssiDbm: -92 },
 *   { ...street, distanceM: 400, rssiDbm: -99 },
 *   { ...street, distanceM: 800, rssiDbm: -110 },
 * ]);
 * law.exponent; // ≈ 3.222
 * law.shadowingDb; // ≈ 1.466
 * ```
 * @example The same street with two missed frames at its end
 * ```ts
 * import { fitPathLoss } from '@finial/survey';
 *
 * const street = { latitudeDeg: 45.75, longitudeDeg: 4.9, received: true, snrDb: 5 };
 * const missed = { latitudeDeg: 45.75, longitudeDeg: 4.9, received: false, distanceM: 1600 };
 * const law = fitPathLoss(
 *   [
 *     { ...street, distanceM: 100, rssiDbm: -80 },
 *     { ...street, distanceM: 200, rssiDbm: -92 },
 *     { ...street, distanceM: 400, rssiDbm: -99 },
 *     { ...street, distanceM: 800, rssiDbm: -110 },
 *     missed,
 *     missed,
 *   ],
 *   { censored: true, thresholdDbm: -122 },
 * );
 * law.exponent; // ≈ 3.432
 * law.censoring?.optimism[0]?.optimismDb; // ≈ 1.896
 * ```
 */
export function fitPathLoss(
  observations: readonly Observation[],
  options: FitPathLossOptions = {},
): PathLossFit {
  const settings = fitSettings(options);
  const { minimumDistanceM, censored } = settings;
  const choice = { ...settings, withMissed: censored === true };
  const sorted = usableFrames(checkObservations(observations), choice);
  const heardAtM = sorted.used.flatMap(({ levelDbm, distanceM }) =>
    levelDbm === undefined ? [] : [distanceM],
  );
  if (heardAtM.length < 3 || new Set(heardAtM).size < 2) {
    throw tooFewFrames(heardAtM.length, minimumDistanceM, sorted.excluded);
  }
  return censored === false
    ? leastSquaresFit(sorted, observations.length, settings)
    : censoredFit(sorted, observations.length, settings);
}

function tooFewFrames(used: number, minimumDistanceM: number, excluded: ExcludedFrames): InputError {
  const { tooNearFrames, missedFrames, noSignalFrames } = excluded;
  return new InputError({
    code: 'missing',
    argument: 'observations',
    received: used,
    expected:
      `at least 3 received frames with a level at 2 or more distances from ${minimumDistanceM} m on ` +
      `(left out: ${missedFrames} missed, ${tooNearFrames} too near, ${noSignalFrames} without level)`,
  });
}
