import { checkInteger, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { CoverageRaster } from '../sweep/SweepJob.js';

/** Where the cells of a coverage lie: what a view needs of a {@link CoverageRaster} besides its own figures. */
export type RasterFrame = Pick<
  CoverageRaster,
  'kind' | 'columns' | 'rows' | 'cellM' | 'radiusM' | 'origin' | 'lossDb'
>;

/** A view of a coverage: one figure for each cell of it. */
export interface CoverageLayer {
  /** The coverage that the figures belong to; tells where the cells lie. */
  readonly raster: RasterFrame;
  /** One figure for each cell, row by row from the north-west corner, in whatever unit the view has. NaN means no data. */
  readonly figures: Float32Array;
}

/** Refuses what is no coverage: everything but the losses themselves, of which there may be millions. */
export function checkFrame(raster: RasterFrame, argument = 'raster'): void {
  checkObject(raster, argument);
  checkOneOf(raster.kind, `${argument}.kind`, ['coverage']);
  const columns = checkInteger(raster.columns, `${argument}.columns`, { min: 3, max: 6001, unit: 'columns' });
  const rows = { min: columns, max: columns, unit: 'rows (as many as columns)' };
  checkInteger(raster.rows, `${argument}.rows`, rows);
  checkRange(raster.cellM, `${argument}.cellM`, { min: 1, max: 10_000, unit: 'metres' });
  checkRange(raster.radiusM, `${argument}.radiusM`, { min: 1, max: 3e7, unit: 'metres' });
  checkObject(raster.origin, `${argument}.origin`);
  const { latitudeDeg, longitudeDeg } = raster.origin;
  checkRange(latitudeDeg, `${argument}.origin.latitudeDeg`, { min: -90, max: 90, unit: 'degrees' });
  checkRange(longitudeDeg, `${argument}.origin.longitudeDeg`, { min: -180, max: 180, unit: 'degrees' });
  checkFigures(raster.lossDb, raster, `${argument}.lossDb`);
}

/** Refuses figures that are not one for each cell. */
export function checkFigures(
  figures: Float32Array,
  { columns, rows }: Pick<RasterFrame, 'columns' | 'rows'>,
  argument: string,
): Float32Array {
  const isSeries = figures instanceof Float32Array;
  if (isSeries && figures.length === columns * rows) return figures;
  throw new InputError({
    code: isSeries ? 'out-of-range' : 'wrong-type',
    argument,
    received: isSeries ? figures.length : figures,
    expected: isSeries ? `${columns * rows} figures, one for each cell` : 'a Float32Array',
  });
}

/** Refuses a layer that is none. */
export function checkLayer(layer: CoverageLayer, argument: string): void {
  checkObject(layer, argument);
  checkFrame(layer.raster);
  checkFigures(layer.figures, layer.raster, 'figures');
}

/** Figures made from others cell by cell. What is not finite counts as no data and stays so. Unchecked. */
export function mapFigures(figures: Float32Array, change: (figure: number) => number): Float32Array {
  const changed = new Float32Array(figures.length);
  for (let index = 0; index < figures.length; index++) {
    const figure = figures[index] as number;
    // The difference with itself is 0 only for a finite number.
    changed[index] = figure - figure === 0 ? change(figure) : Number.NaN;
  }
  return changed;
}

/** Whether the centre of a cell lies within the radius, counted in cells from the middle. */
export function isWithin({ radiusM, cellM }: RasterFrame, acrossCells: number, downCells: number): boolean {
  return acrossCells * acrossCells + downCells * downCells <= (radiusM / cellM) ** 2;
}
