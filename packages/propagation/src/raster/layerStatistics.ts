import { checkList, checkRange, InputError } from '@finial/units';
import { type CoverageLayer, checkLayer } from './RasterFrame.js';

/** A layer, and which quantiles of it are wanted. */
export interface LayerQuestion extends CoverageLayer {
  /**
   * Levels of the wanted quantiles, 0 to 1.
   *
   * @defaultValue `[0.05, 0.25, 0.75, 0.95]`
   */
  readonly quantiles?: readonly number[] | undefined;
}

/** Statistics of a view, in its own unit. */
export interface LayerStatistics {
  /** How many cells have data. */
  readonly cellCount: number;
  /** Least figure. */
  readonly leastFigure: number;
  /** Greatest figure. */
  readonly greatestFigure: number;
  /** Mean of the figures as they stand: of decibels it is the mean of decibels, not of powers. */
  readonly meanFigure: number;
  /** Standard deviation over all cells. */
  readonly deviationFigure: number;
  /** Median figure. */
  readonly medianFigure: number;
  /** Figures at the wanted quantiles, in their order. */
  readonly quantileFigures: readonly number[];
}

/**
 * Least, greatest, mean, spread and quantiles of a view over all cells with data.
 *
 * The figures of a coverage are no sample: neighbouring cells share their hills, so the spread says nothing about the error of a mean.
 *
 * @returns figures in the unit of the layer; quantiles interpolated between neighbours
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `missing` where no cell has data
 * @source R. J. Hyndman, Y. Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 361, definition 7
 * @example
 * ```ts
 * import { layerStatistics } from '@finial/propagation';
 *
 * const figures = Float32Array.of(NaN, 120, NaN, 130, NaN, 150, NaN, 160, NaN);
 * const raster = {
 *   kind: 'coverage' as const, columns: 3, rows: 3, cellM: 100, radiusM: 100,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb: figures,
 * };
 * const { medianFigure, quantileFigures } = layerStatistics({ raster, figures, quantiles: [0, 0.5, 0.9] });
 * medianFigure; // ≈ 140
 * quantileFigures; // → [120, 140, 157]
 * ```
 */
export function layerStatistics(layer: LayerQuestion): LayerStatistics {
  checkLayer(layer, 'layer');
  const { quantiles = [0.05, 0.25, 0.75, 0.95] } = layer;
  const levels = checkList(quantiles, 'quantiles').map((level, index) =>
    checkRange(level, `quantiles[${index}]`, {
      min: 0,
      max: 1,
      unit: 'as a ratio',
      hints: [{ name: 'percent', ratio: 0.01 }],
    }),
  );
  const sorted = layer.figures.filter((figure) => figure - figure === 0).sort();
  if (sorted.length === 0) {
    throw new InputError({
      code: 'missing',
      argument: 'figures',
      received: 0,
      expected: 'at least one cell with data',
    });
  }
  const meanFigure = sorted.reduce((sum, figure) => sum + figure, 0) / sorted.length;
  const squares = sorted.reduce((sum, figure) => sum + (figure - meanFigure) ** 2, 0);
  return {
    cellCount: sorted.length,
    leastFigure: quantileOf(sorted, 0),
    greatestFigure: quantileOf(sorted, 1),
    meanFigure,
    deviationFigure: Math.sqrt(squares / sorted.length),
    medianFigure: quantileOf(sorted, 0.5),
    quantileFigures: levels.map((level) => quantileOf(sorted, level)),
  };
}

function quantileOf(sorted: Float32Array, level: number): number {
  const place = level * (sorted.length - 1);
  const below = Math.floor(place);
  const [from, to] = [sorted[below] as number, sorted[Math.min(below + 1, sorted.length - 1)] as number];
  return from + (place - below) * (to - from);
}
