import type { Elevation } from '../parts.js';
import { type FractionalCell, tileFrame } from '../tile/tileFrame.js';
import { cellHeight } from '../tile/tileHeight.js';

/**
 * Value of the cell that each place lies in; NaN in a void and outside all tiles. Where tiles overlap, the first that has a value
 * holds. A cell reaches half a step around its centre. Unchecked.
 */
export function nearestCellValues(
  { tiles }: Elevation,
  latitudesDeg: ArrayLike<number>,
  longitudesDeg: ArrayLike<number>,
): Float64Array {
  const sheets = tiles.map((tile) => ({ tile, frame: tileFrame(tile) }));
  const cell: FractionalCell = { row: 0, column: 0 };
  return Float64Array.from({ length: latitudesDeg.length }, (_, index) => {
    for (const { tile, frame } of sheets) {
      frame.locate(latitudesDeg[index] as number, longitudesDeg[index] as number, cell);
      const row = Math.round(cell.row);
      const column = Math.round(cell.column);
      if (row < 0 || column < 0 || row >= tile.rows || column >= tile.columns) continue;
      const value = cellHeight(tile, row, column);
      if (!Number.isNaN(value)) return value;
    }
    return Number.NaN;
  });
}
