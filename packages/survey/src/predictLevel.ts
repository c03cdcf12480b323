import { checkNotNegative, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { PathLossFit } from './fitPathLoss.js';
import type { SecondSlope } from './pathLoss/CensoringReport.js';

/** Where a fitted law is asked for a level. */
export interface LevelQuestion {
  /** The law, from `fitPathLoss`: intercept up to 3000 dBm and exponent up to 1000 either way, the rest 0 or more. */
  readonly fit: Pick<
    PathLossFit,
    'interceptDbm' | 'exponent' | 'shadowingDb' | 'nearestDistanceM' | 'farthestDistanceM' | 'warnings'
  > & {
    /** The second slope, where the law has one. */
    readonly censoring?:
      | {
          /** Distance of the second slope, and how steep it is. */
          readonly secondSlope?: Pick<SecondSlope, 'breakpointM' | 'beyondExponent'> | undefined;
        }
      | undefined;
  };
  /** Distance over ground in metres, 1 to 20.1e6. */
  readonly distanceM: number;
  /** `'allow'` answers beyond the distances that the law was fitted to, with a warning. @defaultValue `'refuse'` */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** The level that a fitted law gives for a distance. */
export interface PredictedLevel {
  /** Distance over ground in metres. */
  readonly distanceM: number;
  /** Mean level at that distance in dBm. */
  readonly levelDbm: number;
  /** Standard deviation of single levels about that mean in dB, as fitted. */
  readonly shadowingDb: number;
  /** Warnings of the fit, and of asking beyond its distances. */
  readonly warnings: readonly string[];
}

/**
 * Mean level at a distance, by a fitted law.
 *
 * The law was seen only between its nearest and farthest frame; beyond those the answer is a guess and has to be allowed.
 *
 * @returns level in dBm: interceptDbm - exponent · 10 lg(distance / 1 m), error below 1e-10 dB for the law as given
 * @throws {@link InputError} `outside-validity` beyond the fitted distances, `wrong-type`, `not-a-finite-number`, `out-of-range` or
 * `unknown-option`
 * @source The log-distance law as in `fitPathLoss`
 * @example
 * ```ts
 * import { predictLevel } from '@finial/survey';
 *
 * const fit = {
 *   interceptDbm: -20, exponent: 3, shadowingDb: 6, nearestDistanceM: 100, farthestDistanceM: 5000, warnings: [],
 * };
 * predictLevel({ fit, distanceM: 1000 }).levelDbm; // ≈ -110
 * ```
 */
export function predictLevel(question: LevelQuestion): PredictedLevel {
  const { fit, distanceM, outsideValidity = 'refuse' } = checkObject(question, 'question');
  checkObject(fit, 'fit');
  checkRange(fit.interceptDbm, 'fit.interceptDbm', { min: -3000, max: 3000, unit: 'dBm' });
  checkRange(fit.exponent, 'fit.exponent', { min: -1000, max: 1000, unit: 'as an exponent' });
  checkWarnings(fit.warnings);
  checkNotNegative(fit.shadowingDb, 'fit.shadowingDb', 'dB');
  checkNotNegative(fit.nearestDistanceM, 'fit.nearestDistanceM', 'metres');
  checkNotNegative(fit.farthestDistanceM, 'fit.farthestDistanceM', 'metres');
  checkRange(distanceM, 'distanceM', { min: 1, max: 20_100_000, unit: 'metres' });
  checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  const seen = `${fit.nearestDistanceM} to ${fit.farthestDistanceM} metres`;
  const isOutside = distanceM < fit.nearestDistanceM || distanceM > fit.farthestDistanceM;
  if (isOutside && outsideValidity === 'refuse') {
    const expected = `${seen}, where the law was fitted (or outsideValidity: 'allow')`;
    throw new InputError({ code: 'outside-validity', argument: 'distanceM', received: distanceM, expected });
  }
  return {
    distanceM,
    levelDbm: levelOf(fit, distanceM),
    shadowingDb: fit.shadowingDb,
    warnings: isOutside
      ? [...fit.warnings, `${distanceM} m lies outside ${seen}, where the law was fitted.`]
      : fit.warnings,
  };
}

function levelOf({ interceptDbm, exponent, censoring }: LevelQuestion['fit'], distanceM: number): number {
  const distanceDb = 10 * Math.log10(distanceM);
  if (censoring === undefined) return interceptDbm - exponent * distanceDb;
  const { secondSlope } = checkObject(censoring, 'fit.censoring');
  if (secondSlope === undefined) return interceptDbm - exponent * distanceDb;
  const { breakpointM, beyondExponent } = checkObject(secondSlope, 'fit.censoring.secondSlope');
  checkRange(breakpointM, 'fit.censoring.secondSlope.breakpointM', { min: 1, max: 1e6, unit: 'metres' });
  const bounds = { min: -1000, max: 1000, unit: 'as an exponent' };
  checkRange(beyondExponent, 'fit.censoring.secondSlope.beyondExponent', bounds);
  const beyondDb = Math.max(0, distanceDb - 10 * Math.log10(breakpointM));
  return interceptDbm - exponent * (distanceDb - beyondDb) - beyondExponent * beyondDb;
}

function checkWarnings(warnings: unknown): void {
  if (Array.isArray(warnings) && warnings.every((warning) => typeof warning === 'string')) return;
  throw new InputError({
    code: 'wrong-type',
    argument: 'fit.warnings',
    received: warnings,
    expected: 'a list of sentences',
  });
}
