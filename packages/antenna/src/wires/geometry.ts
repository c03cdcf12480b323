import type { Point } from './Wire.js';

// Plain vector arithmetic on points, as far as the wires need it.

export function between(from: Point, to: Point): Point {
  return { xM: to.xM - from.xM, yM: to.yM - from.yM, zM: to.zM - from.zM };
}

export function dot(a: Point, b: Point): number {
  return a.xM * b.xM + a.yM * b.yM + a.zM * b.zM;
}

export function lengthM(vector: Point): number {
  return Math.hypot(vector.xM, vector.yM, vector.zM);
}

export function distanceM(a: Point, b: Point): number {
  return lengthM(between(a, b));
}

export function along(start: Point, end: Point, ratio: number): Point {
  return {
    xM: start.xM + ratio * (end.xM - start.xM),
    yM: start.yM + ratio * (end.yM - start.yM),
    zM: start.zM + ratio * (end.zM - start.zM),
  };
}

/** A straight line from start to end. */
export interface Line {
  readonly start: Point;
  readonly end: Point;
}

/** Shortest distance between two straight lines of finite length, ends included. */
export function lineDistanceM(a: Line, b: Line): number {
  const ends = Math.min(
    pointDistanceM(a.start, b),
    pointDistanceM(a.end, b),
    pointDistanceM(b.start, a),
    pointDistanceM(b.end, a),
  );
  // Where neither foot of the common perpendicular is an end, the perpendicular itself is the shortest way.
  const u = between(a.start, a.end);
  const v = between(b.start, b.end);
  const w = between(b.start, a.start);
  const uu = dot(u, u);
  const vv = dot(v, v);
  const uv = dot(u, v);
  const determinant = uu * vv - uv * uv;
  if (determinant <= 1e-12 * uu * vv) return ends;
  const s = (uv * dot(v, w) - vv * dot(u, w)) / determinant;
  const t = (uu * dot(v, w) - uv * dot(u, w)) / determinant;
  if (s < 0 || s > 1 || t < 0 || t > 1) return ends;
  return Math.min(ends, distanceM(along(a.start, a.end, s), along(b.start, b.end, t)));
}

export function pointDistanceM(point: Point, line: Line): number {
  const direction = between(line.start, line.end);
  const ratio = dot(between(line.start, point), direction) / dot(direction, direction);
  return distanceM(point, along(line.start, line.end, Math.min(1, Math.max(0, ratio))));
}
