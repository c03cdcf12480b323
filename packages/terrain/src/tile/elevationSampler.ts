import type { Elevation, ElevationTile } from '../parts.js';
import { type FractionalCell, type TileFrame, tileFrame } from './tileFrame.js';
import { bilinear, edgeShare, tileHeight } from './tileHeight.js';

/** Heights of an elevation position by position. Unchecked. */
export interface ElevationSampler {
  /** Height in metres above sea level; NaN at a void and outside all tiles. */
  heightM(latitudeDeg: number, longitudeDeg: number): number;
  /** Whether a position lies inside a tile or on the seam between tiles, be there a void or not. */
  covers(latitudeDeg: number, longitudeDeg: number): boolean;
}

/** A tile with its frame. */
interface Sheet {
  readonly tile: ElevationTile;
  readonly frame: TileFrame;
}

/** Prepares an elevation for many questions; {@link Elevation} itself stays plain data. Unchecked. */
export function elevationSampler({ tiles }: Pick<Elevation, 'tiles'>): ElevationSampler {
  const sheets: readonly Sheet[] = tiles.map((tile) => ({ tile, frame: tileFrame(tile) }));
  const cell: FractionalCell = { row: 0, column: 0 };

  return {
    heightM(latitudeDeg, longitudeDeg) {
      const heightM = insideHeight(latitudeDeg, longitudeDeg);
      if (!Number.isNaN(heightM) || isInside(latitudeDeg, longitudeDeg)) return heightM;
      return seamHeight(latitudeDeg, longitudeDeg);
    },
    covers: (latitudeDeg, longitudeDeg) =>
      isInside(latitudeDeg, longitudeDeg) || onSeam(latitudeDeg, longitudeDeg),
  };

  /** Between the cells of one tile: the first tile that has a value. */
  function insideHeight(latitudeDeg: number, longitudeDeg: number): number {
    for (const { tile, frame } of sheets) {
      frame.locate(latitudeDeg, longitudeDeg, cell);
      const heightM = tileHeight(tile, cell.row, cell.column);
      if (!Number.isNaN(heightM)) return heightM;
    }
    return Number.NaN;
  }

  function isInside(latitudeDeg: number, longitudeDeg: number): boolean {
    return sheets.some(({ tile, frame }) => {
      frame.locate(latitudeDeg, longitudeDeg, cell);
      return reaches(tile, cell, edgeShare);
    });
  }

  /**
   * Between the last cells of one tile and the first of the next, where tiles do not share an edge: the four corners are those of
   * a tile whose outermost cell is less than one cell away, and what it lacks comes from its neighbours.
   */
  function seamHeight(latitudeDeg: number, longitudeDeg: number): number {
    for (const { frame } of sheetsBeside(latitudeDeg, longitudeDeg)) {
      frame.locate(latitudeDeg, longitudeDeg, cell);
      const row = Math.floor(cell.row);
      const column = Math.floor(cell.column);
      const heightM = bilinear(
        (down, right) => insideHeight(...frame.position(row + down, column + right)),
        cell.row - row,
        cell.column - column,
      );
      if (!Number.isNaN(heightM)) return heightM;
    }
    return Number.NaN;
  }

  function onSeam(latitudeDeg: number, longitudeDeg: number): boolean {
    return sheetsBeside(latitudeDeg, longitudeDeg).some(({ frame }) => {
      frame.locate(latitudeDeg, longitudeDeg, cell);
      const row = Math.floor(cell.row);
      const column = Math.floor(cell.column);
      const corners = [0, 1].flatMap((down) => [0, 1].map((right) => [row + down, column + right] as const));
      return corners.every((corner) => isInside(...frame.position(...corner)));
    });
  }

  function sheetsBeside(latitudeDeg: number, longitudeDeg: number): readonly Sheet[] {
    return sheets.filter(({ tile, frame }) => {
      frame.locate(latitudeDeg, longitudeDeg, cell);
      return reaches(tile, cell, 1 - edgeShare);
    });
  }
}

/** Whether a cell is inside a tile or at most a share of a cell away from it. */
function reaches({ rows, columns }: ElevationTile, { row, column }: FractionalCell, share: number): boolean {
  return row >= -share && column >= -share && row <= rows - 1 + share && column <= columns - 1 + share;
}
