import { checkInteger, checkObject, checkPositive, checkRange, InputError } from '@finial/units';
import { checkSamples, type PlaneSample } from './PlaneSample.js';

/** How pairs of samples are put into classes of distance. */
export interface VariogramOptions {
  /** Greatest distance of a pair in metres, up to 4.2e7. @defaultValue a third of the diagonal of the samples' bounding box */
  readonly cutoffM?: number | undefined;
  /** Count of classes, 1 to 1000. @defaultValue `15` */
  readonly classCount?: number | undefined;
}

/** Pairs of samples at about one distance. */
export interface VariogramClass {
  /** Count of pairs, at least one. */
  readonly pairCount: number;
  /** Mean distance of the pairs in metres. */
  readonly distanceM: number;
  /** Half the mean squared difference of the pairs in dB². */
  readonly semivarianceDb2: number;
}

/**
 * Semivariogram of samples: how unlike two places are, by the distance between them.
 *
 * Fit it to residuals of a trend (the distance law, a prediction), not to raw levels, or the trend counts as scatter. Frames of one place
 * belong in one sample. Under some thirty pairs a class says little (common practice, no source).
 *
 * @param samples - 2 to 2000
 * @returns the classes that hold pairs, by distance; relative error below 1e-12
 * @throws {@link InputError} `wrong-type`, `missing` (too few samples, or no pair nearer than the cutoff), `not-a-finite-number` or
 * `out-of-range`
 * @source G. Matheron, Economic Geology 58 (1963) 1246 (from memory); classes (from, to] and cutoff as in R package gstat 2.1-0
 * @example
 * ```ts
 * import { empiricalVariogram } from '@finial/survey';
 *
 * const samples = [0, 3, 1, 6].map((levelDb, index) => ({ eastM: 100 * index, northM: 0, levelDb }));
 * const classes = empiricalVariogram(samples, { cutoffM: 200, classCount: 2 });
 * classes[0]; // → { pairCount: 3, distanceM: 100, semivarianceDb2: 19 / 3 }
 * ```
 */
export function empiricalVariogram(
  samples: readonly PlaneSample[],
  options: VariogramOptions = {},
): readonly VariogramClass[] {
  checkSamples(samples, 'samples');
  const { cutoffM = diagonalM(samples) / 3, classCount = 15 } = checkObject(options, 'options');
  if (samples.length < 2 || diagonalM(samples) === 0) throw withoutPairs(samples.length, 0);
  checkPositive(cutoffM, 'cutoffM', 'metres');
  checkRange(cutoffM, 'cutoffM', { min: 0, max: 4.2e7, unit: 'metres' });
  checkInteger(classCount, 'classCount', { min: 1, max: 1000, unit: 'classes' });
  const classes = Array.from({ length: classCount }, () => ({ pairs: 0, distances: 0, squares: 0 }));
  samples.forEach((a, index) => {
    for (const b of samples.slice(index + 1)) {
      const distanceM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
      // A class holds its upper end, not its lower.
      const found = classes[Math.ceil((distanceM / cutoffM) * classCount) - 1];
      if (found === undefined) continue;
      found.pairs += 1;
      found.distances += distanceM;
      found.squares += (a.levelDb - b.levelDb) ** 2;
    }
  });
  const filled = classes
    .filter(({ pairs }) => pairs > 0)
    .map(({ pairs, distances, squares }) => ({
      pairCount: pairs,
      distanceM: distances / pairs,
      semivarianceDb2: squares / (2 * pairs),
    }));
  if (filled.length === 0) throw withoutPairs(samples.length, cutoffM);
  return filled;
}

function diagonalM(samples: readonly PlaneSample[]): number {
  const sideOf = (values: readonly number[]) =>
    values.reduce((most, value) => Math.max(most, value), -Infinity) -
    values.reduce((least, value) => Math.min(least, value), Infinity);
  return Math.hypot(sideOf(samples.map(({ eastM }) => eastM)), sideOf(samples.map(({ northM }) => northM)));
}

function withoutPairs(received: number, cutoffM: number): InputError {
  const expected = `samples at two or more places${cutoffM > 0 ? ` at most ${cutoffM} metres (cutoffM) apart` : ''}`;
  return new InputError({ code: 'missing', argument: 'samples', received, expected });
}
