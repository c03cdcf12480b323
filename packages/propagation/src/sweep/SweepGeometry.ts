import type { SweepQuestion } from './SweepJob.js';

/** Which cells of a raster around a gateway are receivers, on which radial each lies, and in what order a sweep meets them. */
export interface SweepGeometry {
  /** Columns and rows of the raster; odd, the gateway is in the middle cell. */
  readonly size: number;
  /** Radials all round; radial k runs at the azimuth 360° k / radialCount. */
  readonly radialCount: number;
  /** Points along a radial, the gateway at 0 among them: point k lies k cells away, none beyond the radius. */
  readonly pointCount: number;
  /**
   * All cells within the radius but the gateway's own, sorted by nearest radial and then by distance, as indices row by row from the
   * north-west.
   */
  readonly order: Int32Array;
  /** Where the cells of radial k start in `order`; one entry more than there are radials. */
  readonly start: Int32Array;
  /** Most receivers on one radial. */
  readonly mostReceivers: number;
}

let remembered: { readonly key: string; readonly geometry: SweepGeometry } | undefined;

/**
 * Geometry of a sweep. It depends on nothing but these numbers, so the last one is kept: sites and heights are compared on one raster.
 * Unchecked.
 */
export function sweepGeometry(radiusM: number, cellM: number, radialFactor: 1 | 2 = 1): SweepGeometry {
  const key = `${radiusM} ${cellM} ${radialFactor}`;
  if (remembered?.key !== key) remembered = { key, geometry: layOut(radiusM / cellM, radialFactor) };
  return remembered.geometry;
}

/** Takes a geometry over that was laid out for these numbers elsewhere: workers need not lay it out again. Unchecked. */
export function keepGeometry(
  { radiusM, cellM, radialFactor = 1 }: Pick<SweepQuestion, 'radiusM' | 'cellM' | 'radialFactor'>,
  geometry: SweepGeometry,
): void {
  remembered = { key: `${radiusM} ${cellM} ${radialFactor}`, geometry };
}

function layOut(radiusCells: number, radialFactor: 1 | 2): SweepGeometry {
  const reach = Math.floor(radiusCells);
  const radialCount = Math.ceil(2 * Math.PI * radiusCells) * radialFactor;
  const byDistance = cellsByDistance(reach, Math.floor(radiusCells * radiusCells));
  const { order, start } = byRadial(byDistance, reach, radialCount);
  let mostReceivers = 0;
  for (let radial = 0; radial < radialCount; radial += 1) {
    mostReceivers = Math.max(mostReceivers, (start[radial + 1] as number) - (start[radial] as number));
  }
  return { size: 2 * reach + 1, radialCount, pointCount: reach + 1, order, start, mostReceivers };
}

/** Cells by rising distance, by counting: the squared distance in cells is a whole number. */
function cellsByDistance(reach: number, mostSquared: number): Int32Array {
  const place = new Int32Array(mostSquared + 2);
  eachCell(reach, mostSquared, (squared) => {
    place[squared + 1] = (place[squared + 1] as number) + 1;
  });
  accumulate(place);
  const cells = new Int32Array(place[mostSquared + 1] as number);
  eachCell(reach, mostSquared, (squared, cell) => {
    const at = place[squared] as number;
    cells[at] = cell;
    place[squared] = at + 1;
  });
  return cells;
}

function eachCell(reach: number, mostSquared: number, visit: (squared: number, cell: number) => void): void {
  let cell = 0;
  for (let south = -reach; south <= reach; south += 1) {
    for (let east = -reach; east <= reach; east += 1) {
      const squared = south * south + east * east;
      if (squared > 0 && squared <= mostSquared) visit(squared, cell);
      cell += 1;
    }
  }
}

/** The same cells by radial; what was in order of distance stays so within each. */
function byRadial(
  cells: Int32Array,
  reach: number,
  radialCount: number,
): { readonly order: Int32Array; readonly start: Int32Array } {
  const size = 2 * reach + 1;
  const radial = new Int32Array(cells.length);
  const start = new Int32Array(radialCount + 1);
  for (let at = 0; at < cells.length; at += 1) {
    const cell = cells[at] as number;
    const row = Math.floor(cell / size);
    const nearest = nearestRadial(cell - row * size - reach, reach - row, radialCount);
    radial[at] = nearest;
    start[nearest + 1] = (start[nearest + 1] as number) + 1;
  }
  accumulate(start);
  const next = start.slice();
  const order = new Int32Array(cells.length);
  for (let at = 0; at < cells.length; at += 1) {
    const nearest = radial[at] as number;
    const to = next[nearest] as number;
    order[to] = cells[at] as number;
    next[nearest] = to + 1;
  }
  return { order, start };
}

/** The radial that runs nearest to a place so many cells east and north of the gateway. */
export function nearestRadial(eastCells: number, northCells: number, radialCount: number): number {
  const turns = Math.atan2(eastCells, northCells) / (2 * Math.PI);
  return (Math.round(turns * radialCount) + radialCount) % radialCount;
}

function accumulate(counts: Int32Array): void {
  for (let index = 1; index < counts.length; index += 1) {
    counts[index] = (counts[index] as number) + (counts[index - 1] as number);
  }
}
