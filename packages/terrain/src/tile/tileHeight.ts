import type { ElevationTile } from '../parts.js';

/**
 * Degrees and steps such as 1/3600 are rounded in binary, so a position on the very edge can come out a hair outside: within this
 * share of a cell (30 micrometres of a 30-metre cell) it still belongs to the tile.
 */
export const edgeShare = 1e-6;

/** Height of one cell in metres; NaN at a void. Row and column are whole and inside. Unchecked. */
export function cellHeight(tile: ElevationTile, row: number, column: number): number {
  const heightM = tile.heightsM[row * tile.columns + column] as number;
  return heightM === tile.voidValue || !Number.isFinite(heightM) ? Number.NaN : heightM;
}

/**
 * Height in metres between the cells of one tile, bilinear in rows and columns; NaN outside the tile and where a cell that
 * counts is void. Positional and unchecked, for inner loops.
 */
export function tileHeight(tile: ElevationTile, row: number, column: number): number {
  const lastRow = tile.rows - 1;
  const lastColumn = tile.columns - 1;
  const isInside =
    row >= -edgeShare &&
    column >= -edgeShare &&
    row <= lastRow + edgeShare &&
    column <= lastColumn + edgeShare;
  if (!isInside) return Number.NaN;
  const top = Math.max(0, Math.min(Math.floor(row), lastRow - 1));
  const left = Math.max(0, Math.min(Math.floor(column), lastColumn - 1));
  const downShare = Math.max(0, Math.min(row - top, 1));
  const rightShare = Math.max(0, Math.min(column - left, 1));
  const upper = cellHeight(tile, top, left) * (1 - rightShare) + cellHeight(tile, top, left + 1) * rightShare;
  const lower =
    cellHeight(tile, top + 1, left) * (1 - rightShare) + cellHeight(tile, top + 1, left + 1) * rightShare;
  const heightM = upper * (1 - downShare) + lower * downShare;
  if (!Number.isNaN(heightM)) return heightM;
  return bilinear(
    (down, right) => cellHeight(tile, top + down, left + right),
    snapped(downShare),
    snapped(rightShare),
  );
}

/** On a row or column up to rounding is on it, so that a void beside it has no weight. */
function snapped(share: number): number {
  if (share < edgeShare) return 0;
  return share > 1 - edgeShare ? 1 : share;
}

/**
 * Bilinear between four corners, by the shares of the way down and to the right. A corner without weight is not asked: a void
 * beside a good row must not make holes in it.
 */
export function bilinear(
  corner: (down: 0 | 1, right: 0 | 1) => number,
  downShare: number,
  rightShare: number,
): number {
  const upper = downShare === 1 ? 0 : between(0);
  const lower = downShare === 0 ? 0 : between(1);
  return upper * (1 - downShare) + lower * downShare;

  function between(down: 0 | 1): number {
    const left = rightShare === 1 ? 0 : corner(down, 0);
    const right = rightShare === 0 ? 0 : corner(down, 1);
    return left * (1 - rightShare) + right * rightShare;
  }
}
