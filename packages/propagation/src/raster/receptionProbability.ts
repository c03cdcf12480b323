import { checkObject, InputError } from '@finial/units';
import { marginProbability, type PredictionSpread } from '../certainty/marginProbability.js';
import type { CoverageRaster } from '../sweep/SweepJob.js';
import { checkFigures, checkFrame, mapFigures } from './RasterFrame.js';

/** Margins over an area, and what they may be off by. */
export interface UncertainMargin extends PredictionSpread {
  /** Median margin of each cell in dB: see {@link coverageMarginDb}. */
  readonly marginDb: Float32Array;
}

/**
 * Probability that a place in each cell reads a frame, from the median margin and what it may be off by.
 *
 * Neighbouring cells fail together: the error of a model stays the same over much of a hill, so a probability of 0.8 over an area does not
 * promise four fifths of it. The coverage must be one of median locations, or the spread of places would count twice.
 *
 * @returns probability, 0 to 1, NaN where there is no data; error below 1e-7 (32 bits)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` (also where the coverage was swept for another share of
 * locations than 50 %) or `unknown-option`
 * @source as {@link marginProbability}
 * @example A margin of 10 dB, places and model each uncertain
 * ```ts
 * import { type CoverageRaster, receptionProbability } from '@finial/propagation';
 *
 * const origin = { latitudeDeg: 50, longitudeDeg: 16 };
 * const raster: CoverageRaster = {
 *   kind: 'coverage', columns: 3, rows: 3, cellM: 100, radiusM: 100, origin, lossDb: new Float32Array(9), missingCount: 0, warnings: [],
 *   question: {
 *     gateway: { position: origin, antennaHeightM: 12 }, frequencyHz: 868.1e6, model: { kind: 'p526', deltaN: 40 },
 *     radiusM: 100, cellM: 100, receiverHeightM: 1.5,
 *   },
 * };
 * const marginDb = new Float32Array(9).fill(10);
 * receptionProbability(raster, { marginDb, locationSigmaDb: 6, modelErrorDb: 8 })[1]; // ≈ 0.8413
 * ```
 */
export function receptionProbability(raster: CoverageRaster, settings: UncertainMargin): Float32Array {
  checkFrame(raster);
  checkMedianLocations(raster);
  checkObject(settings, 'settings');
  const { marginDb, locationSigmaDb, modelErrorDb } = settings;
  checkFigures(marginDb, raster, 'marginDb');
  // Also where no cell has data, a wrong spread is refused.
  marginProbability({ marginDb: 0, locationSigmaDb, modelErrorDb });
  return mapFigures(marginDb, (margin) =>
    marginProbability({ marginDb: margin, locationSigmaDb, modelErrorDb }),
  );
}

function checkMedianLocations({ question }: CoverageRaster): void {
  const { model } = checkObject(question, 'raster.question');
  checkObject(model, 'raster.question.model');
  const locationPercent = model.kind === 'p1812' ? model.locationPercent : 50;
  if (locationPercent === undefined || locationPercent === 50) return;
  const argument = 'raster.question.model.locationPercent';
  const expected = '50: a coverage of median locations, whose spread is not counted yet';
  throw new InputError({ code: 'out-of-range', argument, received: locationPercent, expected });
}
