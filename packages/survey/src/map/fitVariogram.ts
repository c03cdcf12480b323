import { checkInteger, checkList, checkObject, checkRange, InputError } from '@finial/units';
import type { VariogramClass } from './empiricalVariogram.js';
import { leastOnLine } from './leastOnLine.js';
import type { ShadowingModel } from './ShadowingModel.js';

/** An exponential variogram, fitted. */
export interface VariogramFit extends ShadowingModel {
  /** Weighted sum of the squared differences between classes and curve, in dB⁴/m²: only of use to compare fits of the same classes. */
  readonly weightedSquareSum: number;
  /** What the fit does not show, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Fits the exponential curve nugget + sill · (1 - exp(-h / decorrelation)) to a variogram, by least squares weighted with pairs over
 * distance squared.
 *
 * The decorrelation distance is looked for between a thousandth of the nearest and ten times the farthest class; nugget and
 * sill cannot be negative, and a nugget of 0 is a common answer. One walk rarely fixes the distance: on two rides
 * over the same ground it came out as 60 and 660 m.
 *
 * @param classes - at least three, from `empiricalVariogram`
 * @returns standard deviations (roots of sill and nugget) and distance; against R's gstat within 2e-5 relative
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number` or `out-of-range` (also where all classes are 0 or fall
 * with distance, so that there is no shadowing to fit)
 * @source N. Cressie, Mathematical Geology 17 (1985) 563 (from memory); weights as in R package gstat 2.1-0, fit.variogram
 * @example A curve of 8 dB over 300 m and a nugget of 2 dB, found again
 * ```ts
 * import { fitVariogram } from '@finial/survey';
 *
 * const classes = [50, 150, 300, 600, 1200].map((distanceM) => (
 *   { pairCount: 40, distanceM, semivarianceDb2: 4 + 64 * (1 - Math.exp(-distanceM / 300)) }
 * ));
 * fitVariogram(classes).decorrelationM; // ≈ 300
 * ```
 */
export function fitVariogram(classes: readonly VariogramClass[]): VariogramFit {
  checkClasses(classes);
  const nearestM = Math.min(...classes.map(({ distanceM }) => distanceM));
  const farthestM = Math.max(...classes.map(({ distanceM }) => distanceM));
  const [from, to] = [Math.log(nearestM / 1000), Math.log(farthestM * 10)];
  const best = leastOnLine((logM) => curveFor(classes, Math.exp(logM)).weightedSquareSum, from, to);
  const decorrelationM = Math.exp(best);
  const { nuggetDb2, sillDb2, weightedSquareSum } = curveFor(classes, decorrelationM);
  if (!(sillDb2 >= 1e-4 && decorrelationM >= 0.1 && decorrelationM <= 1e6)) {
    const expected = 'classes that rise with distance (0.01 dB of shadowing or more, over 0.1 to 1e6 metres)';
    throw new InputError({ code: 'out-of-range', argument: 'classes', received: sillDb2, expected });
  }
  const warnings: string[] = [];
  if (decorrelationM > farthestM) {
    warnings.push('The variogram does not level off within its classes: sill and distance are a guess.');
  }
  if (decorrelationM < nearestM / 3) {
    warnings.push(
      'The variogram has levelled off before its first class: sill and nugget cannot be told apart.',
    );
  }
  return {
    shadowingDb: Math.sqrt(sillDb2),
    decorrelationM,
    nuggetDb: Math.sqrt(nuggetDb2),
    weightedSquareSum,
    warnings,
  };
}

interface Curve {
  readonly nuggetDb2: number;
  readonly sillDb2: number;
  readonly weightedSquareSum: number;
}

/** Best nugget and sill, neither negative, for one decorrelation distance: a straight line against 1 - exp(-h / decorrelation). */
function curveFor(classes: readonly VariogramClass[], decorrelationM: number): Curve {
  const rows = classes.map(({ pairCount, distanceM, semivarianceDb2 }) => ({
    weight: pairCount / distanceM ** 2,
    rise: -Math.expm1(-distanceM / decorrelationM),
    semivarianceDb2,
  }));
  const sum = (of: (row: (typeof rows)[number]) => number) =>
    rows.reduce((total, row) => total + row.weight * of(row), 0);
  const weights = sum(() => 1);
  const meanRise = sum(({ rise }) => rise) / weights;
  const mean = sum((row) => row.semivarianceDb2) / weights;
  const spread = sum(({ rise }) => (rise - meanRise) ** 2);
  const slope =
    spread === 0 ? 0 : sum((row) => (row.rise - meanRise) * (row.semivarianceDb2 - mean)) / spread;
  const through = sum((row) => row.rise * row.semivarianceDb2) / sum(({ rise }) => rise ** 2);
  // The two ends of what is allowed stand beside the free line: no nugget, or nothing but nugget.
  const free = { nuggetDb2: mean - slope * meanRise, sillDb2: slope };
  const candidates = [
    ...(free.nuggetDb2 >= 0 && free.sillDb2 >= 0 ? [free] : []),
    { nuggetDb2: 0, sillDb2: through },
    { nuggetDb2: mean, sillDb2: 0 },
  ].map(({ nuggetDb2, sillDb2 }) => ({
    nuggetDb2,
    sillDb2,
    weightedSquareSum: sum((row) => (row.semivarianceDb2 - nuggetDb2 - sillDb2 * row.rise) ** 2),
  }));
  return candidates.reduce((best, each) => (each.weightedSquareSum < best.weightedSquareSum ? each : best));
}

function checkClasses(classes: readonly VariogramClass[]): void {
  checkList(classes, 'classes').forEach((each, index) => {
    const name = `classes[${index}]`;
    const { pairCount, distanceM, semivarianceDb2 } = checkObject(each, name);
    checkInteger(pairCount, `${name}.pairCount`, { min: 1, max: 1e9, unit: 'pairs' });
    checkRange(distanceM, `${name}.distanceM`, { min: 0.01, max: 4.2e7, unit: 'metres' });
    checkRange(semivarianceDb2, `${name}.semivarianceDb2`, { min: 0, max: 1e6, unit: 'square decibels' });
  });
  if (classes.length >= 3) return;
  const expected = 'at least 3 classes of distance';
  throw new InputError({ code: 'missing', argument: 'classes', received: classes.length, expected });
}
