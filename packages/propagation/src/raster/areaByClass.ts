import { checkFinite, checkList, checkObject, InputError } from '@finial/units';
import { type CoverageLayer, checkLayer, isWithin, type RasterFrame } from './RasterFrame.js';

/** A class of figures: those from here up to the next class. */
export interface FigureClass {
  /** What a legend calls it. */
  readonly name: string;
  /** Least figure of the class, in the unit of the layer. */
  readonly leastFigure: number;
}

/** A layer and the classes to sort it into. */
export interface ClassedLayer extends CoverageLayer {
  /** Classes in any order, each with a least figure of its own. */
  readonly classes: readonly FigureClass[];
}

/** How much of an area a class covers. */
export interface ClassArea extends FigureClass {
  /** How many cells are in this class. */
  readonly cellCount: number;
  /** Area of this class alone in square metres. */
  readonly areaM2: number;
  /** Area of this class and all above it in square metres. */
  readonly areaAndAboveM2: number;
  /** This class alone as a share of all cells with data, 0 to 1. */
  readonly shareRatio: number;
}

/** An area sorted into classes. */
export interface ClassAreas {
  /** The classes, the highest first. */
  readonly classes: readonly ClassArea[];
  /** Area below the lowest class in square metres. */
  readonly belowM2: number;
  /** Area with data in square metres. */
  readonly knownM2: number;
  /** Area within the radius without data in square metres: the gateway's own cell, and unknown ground. */
  readonly missingM2: number;
}

/**
 * Area by class of a view: how many square metres have at least this margin, this data rate, this probability.
 *
 * Every cell counts as its side squared. The grid stretches with distance: 20 km away that is right to one part in a million, 200 km away
 * to one in 5000.
 *
 * @returns square metres, exact multiples of a cell
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` (also where two classes begin at one figure) or
 * `unknown-option`
 * @source counting
 * @example Four cells around a gateway
 * ```ts
 * import { areaByClass } from '@finial/propagation';
 *
 * const marginDb = Float32Array.of(NaN, 12, NaN, 4, NaN, -3, NaN, 15, NaN);
 * const raster = {
 *   kind: 'coverage' as const, columns: 3, rows: 3, cellM: 100, radiusM: 100,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb: marginDb,
 * };
 * const classes = [{ name: 'safe', leastFigure: 10 }, { name: 'fair', leastFigure: 0 }];
 * const areas = areaByClass({ raster, figures: marginDb, classes });
 * areas.classes.map(({ name, areaM2 }) => [name, areaM2]); // → [['safe', 20000], ['fair', 10000]]
 * areas.belowM2; // ≈ 10000
 * ```
 */
export function areaByClass(layer: ClassedLayer): ClassAreas {
  checkLayer(layer, 'layer');
  const { raster, figures } = layer;
  const classes = checkClasses(layer.classes, 'classes');
  const counts = new Float64Array(classes.length + 1);
  let knownCount = 0;
  for (let index = 0; index < figures.length; index++) {
    const figure = figures[index] as number;
    if (figure - figure !== 0) continue;
    knownCount++;
    let place = 0;
    while (place < classes.length && figure < (classes[place] as FigureClass).leastFigure) place++;
    counts[place] = (counts[place] as number) + 1;
  }
  const cellM2 = raster.cellM ** 2;
  let aboveCount = 0;
  return {
    classes: classes.map(({ name, leastFigure }, place) => {
      const cellCount = counts[place] as number;
      aboveCount += cellCount;
      const shareRatio = knownCount === 0 ? 0 : cellCount / knownCount;
      return {
        name,
        leastFigure,
        cellCount,
        areaM2: cellCount * cellM2,
        areaAndAboveM2: aboveCount * cellM2,
        shareRatio,
      };
    }),
    belowM2: (counts[classes.length] as number) * cellM2,
    knownM2: knownCount * cellM2,
    missingM2: Math.max(0, cellsWithin(raster) - knownCount) * cellM2,
  };
}

/** Classes, the highest first, each checked. */
export function checkClasses<Class extends FigureClass>(
  classes: readonly Class[],
  argument: string,
): readonly Class[] {
  const sorted = checkList(classes, argument)
    .map((each, index) => {
      checkObject(each, `${argument}[${index}]`);
      checkName(each.name, `${argument}[${index}].name`);
      checkFinite(each.leastFigure, `${argument}[${index}].leastFigure`, 'the unit of the layer');
      return each;
    })
    .sort((one, other) => other.leastFigure - one.leastFigure);
  const twice = sorted.find(({ leastFigure }, index) => leastFigure === sorted[index + 1]?.leastFigure);
  if (twice === undefined) return sorted;
  const expected = 'each class to begin at a figure of its own';
  throw new InputError({
    code: 'out-of-range',
    argument: `${argument}.leastFigure`,
    received: twice.leastFigure,
    expected,
  });
}

/** Refuses what is no name. */
export function checkName(name: string, argument: string): string {
  if (typeof name === 'string' && name.length > 0) return name;
  throw new InputError({
    code: 'wrong-type',
    argument,
    received: name,
    expected: 'a text that is not empty',
  });
}

function cellsWithin(raster: RasterFrame): number {
  const middle = (raster.columns - 1) / 2;
  let count = 0;
  for (let down = -middle; down <= middle; down++) {
    for (let across = -middle; across <= middle; across++) if (isWithin(raster, across, down)) count++;
  }
  return count;
}
