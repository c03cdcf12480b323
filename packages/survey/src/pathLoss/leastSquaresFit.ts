import { leastSquaresModel } from './fitCensored.js';
import type { FitSettings } from './fitSettings.js';
import { distanceRange, frameLevels, signalWarnings, spotNames } from './frameSeries.js';
import type { ExcludedFrames, PathLossFit } from './PathLossFit.js';
import { leastSquaresLine } from './settleLaw.js';
import { spotErrors } from './spotErrors.js';
import type { UsedFrame } from './usableFrames.js';

/** The law by least squares through received frames, with missed ones left out. */
export function leastSquaresFit(
  { used, excluded }: { readonly used: readonly UsedFrame[]; readonly excluded: ExcludedFrames },
  frames: number,
  { signal, referencePowerDbm }: FitSettings,
): PathLossFit {
  const series = frameLevels(used, undefined, referencePowerDbm);
  const line = leastSquaresLine(series);
  const spots = spotNames(used);
  const { model, parameters } = leastSquaresModel(series);
  // Two counted parameters, as R counts for a line: the spread is none of them.
  const bySpot =
    spots === undefined || line.residualDeviation === 0 ? undefined : spotErrors(model, parameters, spots, 2);
  return {
    interceptDbm: line.intercept,
    exponent: -line.slope,
    standardErrors: { interceptDb: line.interceptStandardError, exponent: line.slopeStandardError },
    standardErrorsBySpot: bySpot && {
      interceptDb: bySpot.errors[0] as number,
      exponent: bySpot.errors[1] as number,
      spotCount: bySpot.spotCount,
    },
    shadowingDb: line.residualDeviation,
    explainedRatio: line.explainedRatio,
    signal,
    frames,
    usedFrames: used.length,
    excluded,
    ...distanceRange(used),
    warnings: [...missedWarnings(excluded, used.length), ...signalWarnings(signal)],
  };
}

function missedWarnings({ missedFrames, noSignalFrames }: ExcludedFrames, used: number): string[] {
  if (missedFrames === 0) return [];
  return [
    `${missedFrames} of ${missedFrames + noSignalFrames + used} frames were missed and left out: ` +
      'the fit is optimistic, most of all at the far end.',
  ];
}
