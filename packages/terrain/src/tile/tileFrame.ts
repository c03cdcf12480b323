import type { ElevationTile } from '../parts.js';
import { utmProjection } from './utmProjection.js';

/** Where the cells of a tile lie on the ground, and which cell lies where. Unchecked. */
export interface TileFrame {
  /** Writes the fractional row and column of a position into the cell, also of one outside the tile. */
  locate(latitudeDeg: number, longitudeDeg: number, cell: FractionalCell): void;
  /** Latitude and longitude in degrees of a cell, also of one outside the tile; longitude -180 to 180. */
  position(row: number, column: number): readonly [latitudeDeg: number, longitudeDeg: number];
}

/** A place between the centres of cells: 0 is the centre of the first row or column. */
export interface FractionalCell {
  row: number;
  column: number;
}

/** The frame of a tile. */
export function tileFrame({ grid, columns }: ElevationTile): TileFrame {
  if (grid.kind === 'utm') {
    const { northM, westM, rowStepM, columnStepM } = grid;
    const utm = utmProjection(grid.zone, grid.hemisphere);
    return {
      locate(latitudeDeg, longitudeDeg, cell) {
        const [eastingM, northingM] = utm.forward(latitudeDeg, longitudeDeg);
        cell.row = (northM - northingM) / rowStepM;
        cell.column = (eastingM - westM) / columnStepM;
      },
      position: (row, column) => utm.inverse(westM + column * columnStepM, northM - row * rowStepM),
    };
  }
  const { northDeg, westDeg, rowStepDeg, columnStepDeg } = grid;
  const middleDeg = ((columns - 1) / 2) * columnStepDeg;
  return {
    locate(latitudeDeg, longitudeDeg, cell) {
      // A tile beside the date line counts on past 180°: of all turns, the one nearest to the middle of the tile is meant.
      const eastDeg = longitudeDeg - westDeg;
      const turns = Math.round((eastDeg - middleDeg) / 360);
      cell.row = (northDeg - latitudeDeg) / rowStepDeg;
      cell.column = (eastDeg - 360 * turns) / columnStepDeg;
    },
    position: (row, column) => [
      northDeg - row * rowStepDeg,
      withinHalfTurn(westDeg + column * columnStepDeg),
    ],
  };
}

/** The same longitude between -180 and 180 degrees. */
export function withinHalfTurn(longitudeDeg: number): number {
  return longitudeDeg >= -180 && longitudeDeg <= 180
    ? longitudeDeg
    : longitudeDeg - 360 * Math.round(longitudeDeg / 360);
}
