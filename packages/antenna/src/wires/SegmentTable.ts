import { along, between, lengthM } from './geometry.js';
import type { Point } from './Wire.js';

/** Straight pieces of wire, column by column, for loops that visit every pair of them. */
export interface SegmentTable {
  readonly count: number;
  /** Where each begins, three numbers each, in metres. */
  readonly startsM: Float64Array;
  /** Unit vectors from start to end, three numbers each. */
  readonly directions: Float64Array;
  readonly lengthsM: Float64Array;
  readonly radiiM: Float64Array;
  /** Place of the wire of each. */
  readonly wires: Int32Array;
  /** Place of the first segment of each wire, and the count of all at the end. */
  readonly firstOfWire: readonly number[];
}

/** What a wire must say to be cut. */
export interface CutWire {
  readonly start: Point;
  readonly end: Point;
  readonly radiusM: number;
  readonly segments: number;
}

/** Cuts wires into equal pieces, wire after wire. */
export function segmentTable(wires: readonly CutWire[]): SegmentTable {
  const firstOfWire = [0];
  for (const { segments } of wires) firstOfWire.push((firstOfWire.at(-1) as number) + segments);
  const count = firstOfWire.at(-1) as number;
  const table = {
    count,
    startsM: new Float64Array(3 * count),
    directions: new Float64Array(3 * count),
    lengthsM: new Float64Array(count),
    radiiM: new Float64Array(count),
    wires: new Int32Array(count),
    firstOfWire,
  };
  for (const [index, { start, end, radiusM, segments }] of wires.entries()) {
    const vector = between(start, end);
    const wholeM = lengthM(vector);
    const first = firstOfWire[index] as number;
    for (let piece = 0; piece < segments; piece++) {
      const at = first + piece;
      const { xM, yM, zM } = along(start, end, piece / segments);
      table.startsM.set([xM, yM, zM], 3 * at);
      table.directions.set([vector.xM / wholeM, vector.yM / wholeM, vector.zM / wholeM], 3 * at);
      table.lengthsM[at] = wholeM / segments;
      table.radiiM[at] = radiusM;
      table.wires[at] = index;
    }
  }
  return table;
}

/** The same pieces mirrored in the plane z = 0. The current in each image runs against the mirrored direction. */
export function mirrored(table: SegmentTable): SegmentTable {
  const flip = (values: Float64Array) => values.map((value, index) => (index % 3 === 2 ? -value : value));
  return { ...table, startsM: flip(table.startsM), directions: flip(table.directions) };
}
