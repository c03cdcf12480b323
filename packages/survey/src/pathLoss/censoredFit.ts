import { InputError } from '@finial/units';
import type { CensoringReport } from './CensoringReport.js';
import { type CensoredFit, fitCensored, spreadPlace } from './fitCensored.js';
import type { FitSettings } from './fitSettings.js';
import { distanceRange, frameLevels, signalWarnings, spotNames } from './frameSeries.js';
import { frameThresholds, thresholdTable } from './frameThresholds.js';
import type { ExcludedFrames, PathLossFit } from './PathLossFit.js';
import { leastSquaresLine, safeMarginDb } from './settleLaw.js';
import { spotErrors } from './spotErrors.js';
import type { UsedFrame } from './usableFrames.js';

/** The law of greatest likelihood, with missed frames below their threshold. */
export function censoredFit(
  sorted: { readonly used: readonly UsedFrame[]; readonly excluded: ExcludedFrames },
  frames: number,
  settings: FitSettings,
): PathLossFit {
  const { used, thresholds, excluded } = framesAndThresholds(sorted, settings);
  const series = frameLevels(used, thresholds, settings.referencePowerDbm);
  const { nearestDistanceM, farthestDistanceM } = distanceRange(used);
  const fit = fitCensored(series, {
    isTruncated: settings.censored === 'truncated',
    wantsConstantLoss: settings.constantLoss,
    slopeCount: settings.slopeCount,
    breakpointM: settings.breakpointM,
    confidence: settings.confidence,
    statedDistancesM: statedDistances(settings.statedDistancesM, nearestDistanceM, farthestDistanceM),
    nearestDistanceM,
    farthestDistanceM,
  });
  const { parameters } = fit.law.best;
  const spread = spreadPlace({ breakDb: fit.report.secondSlope?.breakpointM });
  const shadowingDb = Math.exp(parameters[spread] as number);
  const error = (place: number): number =>
    Math.sqrt((fit.covariance[place] as Float64Array)[place] as number);
  const spots = spotNames(used);
  const bySpot = spots && spotErrors(fit.law.model, parameters, spots, parameters.length);
  const censoring: CensoringReport = {
    ...fit.report,
    missedFrames: used.filter(({ levelDbm }) => levelDbm === undefined).length,
    thresholds: thresholdTable(used, thresholds),
    isThresholdEstimated: settings.thresholdDbm === undefined,
  };
  return {
    interceptDbm: parameters[0] as number,
    exponent: parameters[1] as number,
    standardErrors: { interceptDb: error(0), exponent: error(1), shadowingDb: shadowingDb * error(spread) },
    standardErrorsBySpot: bySpot && {
      interceptDb: bySpot.errors[0] as number,
      exponent: bySpot.errors[1] as number,
      shadowingDb: shadowingDb * (bySpot.errors[spread] as number),
      spotCount: bySpot.spotCount,
    },
    shadowingDb,
    explainedRatio: leastSquaresLine(series).explainedRatio,
    signal: settings.signal,
    frames,
    usedFrames: used.length,
    excluded,
    nearestDistanceM,
    farthestDistanceM,
    censoring,
    warnings: [
      ...frameWarnings(used, thresholds, excluded, settings),
      ...fitWarnings(fit, censoring, bySpot?.spotCount, settings),
      ...signalWarnings(settings.signal),
    ],
  };
}

/** In a truncated fit a level below its threshold has no likelihood: such frames are left out, and counted. */
function framesAndThresholds(
  { used, excluded }: { readonly used: readonly UsedFrame[]; readonly excluded: ExcludedFrames },
  { censored, thresholdDbm, minimumDistanceM }: FitSettings,
): {
  readonly used: readonly UsedFrame[];
  readonly thresholds: Float64Array;
  readonly excluded: ExcludedFrames;
} {
  const thresholds = frameThresholds(used, thresholdDbm);
  if (censored !== 'truncated') return { used, thresholds, excluded };
  const isAbove = used.map(({ levelDbm = -Infinity }, i) => levelDbm >= (thresholds[i] as number));
  const above = used.filter((_, i) => isAbove[i]);
  if (above.length < 3 || new Set(above.map(({ distanceM }) => distanceM)).size < 2) {
    throw new InputError({
      code: 'missing',
      argument: 'observations',
      received: above.length,
      expected: `at least 3 received frames above their threshold at 2 or more distances from ${minimumDistanceM} m on`,
    });
  }
  return {
    used: above,
    thresholds: thresholds.filter((_, i) => isAbove[i]),
    excluded: { ...excluded, belowThresholdFrames: used.length - above.length },
  };
}

function statedDistances(
  statedDistancesM: readonly number[] | undefined,
  nearestDistanceM: number,
  farthestDistanceM: number,
): readonly number[] {
  statedDistancesM?.forEach((distanceM, index) => {
    if (distanceM >= nearestDistanceM && distanceM <= farthestDistanceM) return;
    throw new InputError({
      code: 'outside-validity',
      argument: `statedDistancesM[${index}]`,
      received: distanceM,
      expected: `${nearestDistanceM} to ${farthestDistanceM} metres, where frames were used`,
    });
  });
  return statedDistancesM ?? [farthestDistanceM];
}

function frameWarnings(
  used: readonly UsedFrame[],
  thresholds: Float64Array,
  excluded: ExcludedFrames,
  { censored, referencePowerDbm, thresholdDbm }: FitSettings,
): string[] {
  const below = used.filter(
    ({ levelDbm }, i) => levelDbm !== undefined && levelDbm < (thresholds[i] as number),
  );
  const powers = new Set(used.map(({ observation }) => observation.conductedPowerDbm));
  const dropped = excluded.belowThresholdFrames ?? 0;
  const said: readonly (readonly [boolean, string])[] = [
    [
      thresholdDbm === undefined,
      'The thresholds are the weakest received levels: one lucky frame lowers them, and few frames leave them too high.',
    ],
    [below.length > 0, `${below.length} frames were received below their threshold, which is set too high.`],
    [dropped > 0, `${dropped} frames were received below their threshold and left out.`],
    [
      censored === true && excluded.noSignalFrames > 0,
      `${excluded.noSignalFrames} frames were received without a level and left out, which makes the law a little too low.`,
    ],
    [
      referencePowerDbm === undefined && powers.size > 1,
      'Frames were sent at different powers (or some tell none), and were fitted as if at one: give referencePowerDbm.',
    ],
  ];
  return said.flatMap(([holds, sentence]) => (holds ? [sentence] : []));
}

function fitWarnings(
  { unexplainedMisses, report }: CensoredFit,
  { missedFrames }: CensoringReport,
  spotCount: number | undefined,
  { censored, constantLoss }: FitSettings,
): string[] {
  const spreads = report.spreadTest;
  const said: readonly (readonly [boolean, string])[] = [
    [
      censored === 'truncated',
      'Missed frames are not in the log, so that level, exponent and spread are weakly identified: trust the law no further than its intervals, and log what is sent.',
    ],
    [
      censored === true && missedFrames === 0,
      'No frame was missed in this list: if the log holds received frames only, the law is as optimistic as least squares.',
    ],
    [
      unexplainedMisses > 0 && !constantLoss,
      `${unexplainedMisses} frames were missed where the law lies more than ${safeMarginDb} dB over the threshold: if they collided, constantLoss: true keeps them from bending the law.`,
    ],
    [
      spotCount === undefined,
      'Frames do not name two spots or more: standard errors take each frame as independent and are too small if several came from one place.',
    ],
    [
      spotCount !== undefined && spotCount < 10,
      `Errors by spot rest on ${spotCount} spots; below ten they are rough.`,
    ],
    [
      spreads !== undefined && spreads.probability < 0.01,
      `The spread is not the same everywhere: ${spreads?.nearestShadowingDb.toFixed(1)} dB at the near end, ${spreads?.farthestShadowingDb.toFixed(1)} dB at the far end.`,
    ],
  ];
  return said.flatMap(([holds, sentence]) => (holds ? [sentence] : []));
}
