import { contours } from 'd3-contour';
import { nestedRings } from './nestedRings.js';
import type { SquareLayer } from './thinnedLayer.js';

/** A point in cells from the north-western outer corner of a grid: to the east, and to the south. */
export type PlaneRing = readonly (readonly [across: number, down: number])[];

/** Polygons, each of an outer ring and its holes; rings are closed. */
export type PlaneRings = readonly (readonly PlaneRing[])[];

/**
 * Polygons around everything from a figure upwards.
 *
 * The library draws the rings half-way between cells, and its own smoothing would pull them to the centres of cells that border on no data,
 * where a strip one cell wide has no width left. So they are moved here, and only between two cells with data.
 */
export function contourRings({ columns, figures }: SquareLayer, least: number): PlaneRings {
  const draw = contours().size([columns, columns]).smooth(false);
  // The types ask for a plain list; the code reads by index, and copying a million figures for that would be waste.
  const { coordinates } = draw.contour(figures as unknown as number[], least);
  const outers = coordinates.map(([outer = []]) => outer as unknown as PlaneRing);
  const holes = coordinates.flatMap(([, ...inner]) => inner as unknown as readonly PlaneRing[]);
  return nestedRings(outers, holes).map((polygon) =>
    polygon.map((ring) => ring.map(([across, down]) => moved(figures, columns, least, across, down))),
  );
}

/** A crossing between two cells, moved to where the figure is met between their centres. */
function moved(
  figures: Float32Array,
  columns: number,
  least: number,
  across: number,
  down: number,
): readonly [number, number] {
  const column = Math.floor(across);
  const row = Math.floor(down);
  if (column === across && column > 0 && column < columns && row < columns) {
    const here = row * columns + column;
    return [across + shift(figures[here - 1] as number, figures[here] as number, least), down];
  }
  if (row === down && row > 0 && row < columns && column < columns) {
    const here = row * columns + column;
    return [across, down + shift(figures[here - columns] as number, figures[here] as number, least)];
  }
  return [across, down];
}

function shift(before: number, after: number, least: number): number {
  const share = (least - before) / (after - before);
  return share >= 0 && share <= 1 ? share - 0.5 : 0;
}
