import { offsetOf, positionAt } from './placement.js';
import { intervalsFor, PlaneMap, type PlanePoint } from './planeMap.js';
import type { RasterFrame } from './RasterFrame.js';

/** A site's grid, and the best data rate of each cell of it. */
export interface RatedSite {
  readonly raster: RasterFrame;
  readonly dataRates: Float32Array;
}

/** How many cells a site serves that none of the others does. Each cell is looked up where its centre lies in the others' grids. Unchecked. */
export function exclusiveCells(site: RatedSite, others: readonly RatedSite[]): number {
  const { raster, dataRates } = site;
  const isExclusive = Uint8Array.from(dataRates, (rate) => (rate >= 0 ? 1 : 0));
  for (const other of others) {
    const serves = servedFrom(raster, other);
    if (serves === undefined) continue;
    const middle = (raster.columns - 1) / 2;
    for (let row = 0, index = 0; row < raster.rows; row++) {
      for (let column = 0; column < raster.columns; column++, index++) {
        if (isExclusive[index] === 0) continue;
        if (serves((column - middle) * raster.cellM, (middle - row) * raster.cellM)) isExclusive[index] = 0;
      }
    }
  }
  return isExclusive.reduce((sum, each) => sum + each, 0);
}

/** Whether another site serves an offset of this one; nothing where the two areas do not meet. */
function servedFrom(
  { origin, columns, cellM, radiusM }: RasterFrame,
  { raster, dataRates }: RatedSite,
): ((eastM: number, northM: number) => boolean) | undefined {
  const apart = offsetOf(raster.origin, origin);
  if (apart.distanceM > radiusM + raster.radiusM + 2 * cellM) return undefined;
  const middle = (raster.columns - 1) / 2;
  const point: PlanePoint = { x: 0, y: 0 };
  const locate = locator();
  return (eastM, northM) => {
    locate(eastM, northM);
    const column = middle + Math.round(point.x / raster.cellM);
    const row = middle - Math.round(point.y / raster.cellM);
    if (column < 0 || row < 0 || column >= raster.columns || row >= raster.rows) return false;
    return (dataRates[row * raster.columns + column] as number) >= 0;
  };

  function locator(): (eastM: number, northM: number) => void {
    // Heights at one place share one grid: rounding must not move a cell there.
    if (apart.distanceM === 0) {
      return (eastM, northM) => {
        point.x = eastM;
        point.y = northM;
      };
    }
    const halfM = (columns * cellM) / 2;
    const square = { left: -halfM, right: halfM, top: halfM, bottom: -halfM };
    const map = new PlaneMap(square, intervalsFor(halfM), (eastM, northM) => {
      const found = offsetOf(raster.origin, positionAt(origin, { eastM, northM }));
      return { x: found.eastM, y: found.northM };
    });
    return (eastM, northM) => map.locate(eastM, northM, point);
  }
}
