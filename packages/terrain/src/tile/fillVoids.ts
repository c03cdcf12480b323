import type { ElevationTile } from '../parts.js';
import { elevationSampler } from './elevationSampler.js';
import { tileFrame } from './tileFrame.js';
import { cellHeight } from './tileHeight.js';

/** A tile without voids, and how many were filled. */
export interface FilledTile {
  readonly tile: ElevationTile;
  readonly filledCount: number;
}

/**
 * Fills the voids of a tile. A void that another tile covers takes its height. The others close from their rims inwards: ring by ring,
 * each cell becomes the mean of those of its eight neighbours that are known. That is a guess; a summit inside a void is lost.
 *
 * A tile that is void all over and covered by no other stays as it is.
 */
export function fillVoids(tile: ElevationTile, others: readonly ElevationTile[]): FilledTile {
  if (tile.voidCount === 0) return { tile, filledCount: 0 };
  const filled: ElevationTile = { ...tile, heightsM: tile.heightsM.slice() };
  let ring = voidCells(tile);
  fillFromOthers(filled, ring, others);
  ring = ring.filter((index) => isVoid(filled, index));
  for (let open = ring.length; open > 0; open = ring.length) {
    // A whole ring is worked out before any of it is written: the order of the cells must not matter.
    const heights = ring.map((index) => meanOfNeighbours(filled, index));
    for (const [place, index] of ring.entries()) put(filled, index, heights[place] as number);
    ring = ring.filter((index) => isVoid(filled, index));
    if (ring.length === open) break;
  }
  return { tile: { ...filled, voidCount: ring.length }, filledCount: tile.voidCount - ring.length };
}

function voidCells(tile: ElevationTile): readonly number[] {
  return Array.from(tile.heightsM.keys()).filter((index) => isVoid(tile, index));
}

function isVoid(tile: ElevationTile, index: number): boolean {
  return Number.isNaN(cellHeight(tile, 0, index));
}

function fillFromOthers(
  tile: ElevationTile,
  cells: readonly number[],
  others: readonly ElevationTile[],
): void {
  if (others.length === 0) return;
  const sampler = elevationSampler({ tiles: others });
  const frame = tileFrame(tile);
  for (const index of cells) {
    const column = index % tile.columns;
    put(tile, index, sampler.heightM(...frame.position((index - column) / tile.columns, column)));
  }
}

function meanOfNeighbours(tile: ElevationTile, index: number): number {
  const column = index % tile.columns;
  const row = (index - column) / tile.columns;
  let sum = 0;
  let count = 0;
  for (let r = Math.max(0, row - 1); r <= Math.min(tile.rows - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(tile.columns - 1, column + 1); c++) {
      const heightM = cellHeight(tile, r, c);
      if (Number.isNaN(heightM)) continue;
      sum += heightM;
      count++;
    }
  }
  return count === 0 ? Number.NaN : sum / count;
}

/** Writes a height if there is one; tiles of whole metres round it. */
function put({ heightsM }: ElevationTile, index: number, heightM: number): void {
  if (!Number.isNaN(heightM))
    heightsM[index] = heightsM instanceof Int16Array ? Math.round(heightM) : heightM;
}
