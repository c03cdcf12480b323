import type { Elevation, ElevationTile } from './parts.js';
import { checkElevation } from './tile/checkElevation.js';
import { tileFrame, withinHalfTurn } from './tile/tileFrame.js';

/** The box of latitude and longitude around all tiles, from cell centre to cell centre. */
export interface ElevationBounds {
  /** Southernmost latitude in degrees. */
  readonly southDeg: number;
  /** Westernmost longitude in degrees, -180 to 180. */
  readonly westDeg: number;
  /** Northernmost latitude in degrees. */
  readonly northDeg: number;
  /** Easternmost longitude in degrees, -180 to 180; below `westDeg` where the box crosses the date line. */
  readonly eastDeg: number;
}

/**
 * The box of latitude and longitude around all tiles. Not every place in it need have a height: tiles may leave gaps, and those in
 * UTM zones lie askew in it.
 *
 * @returns edges in degrees, exact for tiles in degrees; of a tile in a UTM zone the box around the centres of its edge cells
 * @throws {@link InputError} `wrong-type`, `missing` or `out-of-range`: not an elevation
 * @source the order of west and east across the date line: RFC 7946 (August 2016), section 5.2
 * @example
 * ```ts
 * import { elevationBounds, openElevation } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 160\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * elevationBounds(elevation); // → { southDeg: 50, westDeg: 7, northDeg: 50.5, eastDeg: 7.5 }
 * ```
 */
export function elevationBounds(elevation: Elevation): ElevationBounds {
  checkElevation(elevation);
  const boxes = elevation.tiles.map(tileBox);
  const span = commonSpan(boxes);
  return {
    southDeg: Math.min(...boxes.map(({ southDeg }) => southDeg)),
    westDeg: withinHalfTurn(span.westDeg),
    northDeg: Math.max(...boxes.map(({ northDeg }) => northDeg)),
    eastDeg: withinHalfTurn(span.westDeg + span.widthDeg),
  };
}

interface Box {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly widthDeg: number;
}

function tileBox(tile: ElevationTile): Box {
  const { rows, columns, grid } = tile;
  if (grid.kind === 'geographic') {
    const { northDeg, westDeg } = grid;
    const widthDeg = (columns - 1) * grid.columnStepDeg;
    return { northDeg, southDeg: northDeg - (rows - 1) * grid.rowStepDeg, westDeg, widthDeg };
  }
  const { position } = tileFrame(tile);
  const edge = [
    ...Array.from({ length: columns }, (_, column) => [
      position(0, column),
      position(rows - 1, column),
    ]).flat(),
    ...Array.from({ length: rows }, (_, row) => [position(row, 0), position(row, columns - 1)]).flat(),
  ];
  // Longitudes count from the zone's own meridian, so that zones 1 and 60 do not tear at the date line.
  const meridianDeg = 6 * grid.zone - 183;
  const box = { southDeg: 90, northDeg: -90, leastDeg: 180, mostDeg: -180 };
  for (const [latitudeDeg, longitudeDeg] of edge) {
    const offDeg = withinHalfTurn(longitudeDeg - meridianDeg);
    box.southDeg = Math.min(box.southDeg, latitudeDeg);
    box.northDeg = Math.max(box.northDeg, latitudeDeg);
    box.leastDeg = Math.min(box.leastDeg, offDeg);
    box.mostDeg = Math.max(box.mostDeg, offDeg);
  }
  const { southDeg, northDeg, leastDeg, mostDeg } = box;
  return { southDeg, northDeg, westDeg: meridianDeg + leastDeg, widthDeg: mostDeg - leastDeg };
}

/** The least span of longitude around all boxes: it starts where the widest gap on the circle ends. */
function commonSpan(boxes: readonly Box[]): { readonly westDeg: number; readonly widthDeg: number } {
  const spans = boxes.map(({ westDeg: start }) => {
    const ends = boxes.map(({ westDeg, widthDeg }) => {
      const ahead = westDeg - start;
      return ahead - 360 * Math.floor(ahead / 360) + widthDeg;
    });
    return { westDeg: start, widthDeg: Math.max(...ends) };
  });
  const [first = { westDeg: -180, widthDeg: 360 }, ...others] = spans;
  const least = others.reduce((best, span) => (span.widthDeg < best.widthDeg ? span : best), first);
  return least.widthDeg <= 360 ? least : { westDeg: -180, widthDeg: 360 };
}
