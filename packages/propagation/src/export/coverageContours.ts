import { checkInteger } from '@finial/units';
import { checkClasses, checkName, type FigureClass } from '../raster/areaByClass.js';
import { type CoverageLayer, checkLayer } from '../raster/RasterFrame.js';
import { contourRings, type PlaneRings } from './contourRings.js';
import { geographicPolygons } from './geographicPolygons.js';
import { thinnedLayer } from './thinnedLayer.js';

/** A contour: the area from a figure upwards. */
export interface ContourLevel extends FigureClass {
  /**
   * Colour for the legend, in any form that a style sheet takes.
   *
   * @defaultValue none
   */
  readonly colour?: string | undefined;
}

/** A view to draw contours of. */
export interface ContourQuestion extends CoverageLayer {
  /** The levels, in any order, each with a figure of its own. */
  readonly levels: readonly ContourLevel[];
  /** What the figures are: `margin`. */
  readonly quantity: string;
  /** Unit of the figures: `dB`. */
  readonly unit: string;
  /**
   * How many cells on a side are averaged into one before contours are drawn, 1 to 1000. Contours of every cell of a hilly country are
   * large files full of specks.
   *
   * @defaultValue as many as leave about 400 on a side
   */
  readonly thinningCount?: number | undefined;
}

/**
 * Contours of a view as the text of a GeoJSON FeatureCollection in degrees of WGS 84: for each level, the lowest first, the whole area from
 * its figure upwards, so that later ones are drawn over earlier ones.
 *
 * Properties of each feature are the legend: `name`, `quantity`, `unit`, `least` (the figure of the level), `below` (that of the next level,
 * or null), `areaM2` (of the cells from `least` upwards, before any thinning) and `colour` where one was given. A level that no cell reaches
 * has `null` for geometry. Lines run in straight lines between the centres of (thinned) cells, and half-way to cells without data. Classes
 * such as data rates have no values in between: draw contours of margins instead. An area that crosses the date line has longitudes
 * beyond 180.
 *
 * @returns the text of the file; coordinates rounded to 1e-7°
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `unknown-option` or `out-of-range`
 * @source RFC 7946; marching squares: common practice, no source
 * @example
 * ```ts
 * import { coverageContours } from '@finial/propagation/export';
 *
 * const marginDb = Float32Array.from({ length: 21 * 21 }, (_, cell) => 10 - Math.hypot((cell % 21) - 10, Math.floor(cell / 21) - 10));
 * const raster = {
 *   kind: 'coverage' as const, columns: 21, rows: 21, cellM: 100, radiusM: 1000,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb: marginDb,
 * };
 * const levels = [{ name: 'fair', leastFigure: 3 }, { name: 'safe', leastFigure: 6, colour: '#174' }];
 * const text = coverageContours({ raster, figures: marginDb, levels, quantity: 'margin', unit: 'dB' });
 * JSON.parse(text).features[1].properties.name; // → 'safe'
 * ```
 */
export function coverageContours(question: ContourQuestion): string {
  checkLayer(question, 'question');
  const { raster, figures, thinningCount = Math.max(1, Math.round(raster.columns / 400)) } = question;
  const quantity = checkName(question.quantity, 'quantity');
  const unit = checkName(question.unit, 'unit');
  checkInteger(thinningCount, 'thinningCount', { min: 1, max: 1000, unit: 'cells' });
  const levels = checkClasses(question.levels, 'levels').toReversed();
  levels.forEach(({ colour }, index) => {
    if (colour !== undefined) checkName(colour, `levels[${index}].colour`);
  });
  const thinned = thinnedLayer(figures, raster.columns, thinningCount);
  const features = levels.map(({ name, leastFigure, colour }, index) => ({
    type: 'Feature',
    properties: {
      name,
      quantity,
      unit,
      least: leastFigure,
      below: levels[index + 1]?.leastFigure ?? null,
      areaM2: countFrom(figures, leastFigure) * raster.cellM ** 2,
      ...(colour === undefined ? {} : { colour }),
    },
    geometry: geometryOf(contourRings(thinned, leastFigure)),
  }));
  return JSON.stringify({ type: 'FeatureCollection', features });

  function geometryOf(polygons: PlaneRings): object | null {
    if (polygons.length === 0) return null;
    return { type: 'MultiPolygon', coordinates: geographicPolygons(polygons, raster, thinningCount) };
  }
}

function countFrom(figures: Float32Array, least: number): number {
  let count = 0;
  for (const figure of figures) if (figure >= least && figure < Number.POSITIVE_INFINITY) count++;
  return count;
}
