import { gaussLegendre, gradedGaussLegendre, type QuadratureRule } from './gaussLegendre.js';
import type { SegmentTable } from './SegmentTable.js';

/**
 * Integrals over two segments p and q of e^(-jkR)/R times 1, t, t' and t·t', where t and t' run from 0 to 1 along p and q: real
 * and imaginary parts in turn, in metres.
 */
export type Moments = Float64Array;

/** How to integrate; made once per solution. */
export interface MomentRules {
  readonly far: QuadratureRule;
  readonly outer: QuadratureRule;
  readonly inner: QuadratureRule;
  /** Squares of the distances, in radii, that stand for the way around a tube. */
  readonly aroundTube: Float64Array;
  readonly justOne: Float64Array;
  /** Room for one set of moments. */
  readonly other: Moments;
}

/** Rules whose error stays below that of the straight-line currents. */
export function momentRules(): MomentRules {
  return {
    far: gaussLegendre(3),
    outer: gradedGaussLegendre(8),
    inner: gaussLegendre(4),
    aroundTube: aroundTube(8),
    justOne: Float64Array.of(1),
    other: new Float64Array(8),
  };
}

/**
 * Points on a tube of radius 1 lie 2 sin(φ/2) apart. The average of ln(2 sin(φ/2)) over the angle is 0; over the middles of
 * `count` equal steps it is ln(2)/(2 count), which the factor takes out again, so that a long wire comes out exactly.
 */
function aroundTube(count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, index) => {
    const distance = 2 * Math.sin((Math.PI * (index + 0.5)) / (2 * count)) * 2 ** (-1 / (2 * count));
    return distance * distance;
  });
}

/** Fills `out` for segment p of one table and segment q of another. */
export function segmentMoments(
  a: SegmentTable,
  p: number,
  b: SegmentTable,
  q: number,
  wavenumber: number,
  rules: MomentRules,
  out: Moments,
): void {
  out.fill(0);
  const longer = Math.max(a.lengthsM[p] as number, b.lengthsM[q] as number);
  const apart = centreDistanceM(a, p, b, q) - ((a.lengthsM[p] as number) + (b.lengthsM[q] as number)) / 2;
  const thicker = Math.max(a.radiiM[p] as number, b.radiiM[q] as number);
  // Not a whole number of lengths, so that rounding does not decide for the equal pieces of a straight wire.
  if (apart > 1.5 * longer) {
    farMoments(a, p, b, q, wavenumber, thicker, rules.far, out);
  } else {
    const around = areOneTube(a, p, b, q) ? rules.aroundTube : rules.justOne;
    nearMoments(a, p, b, q, wavenumber, thicker, around, rules, out);
    rules.other.fill(0);
    nearMoments(b, q, a, p, wavenumber, thicker, around, rules, rules.other);
    averageWithSwapped(out, rules.other);
  }
}

/** One segment goes by formula and one by points; the mean of both ways makes it no matter which, as reciprocity demands. */
function averageWithSwapped(out: Moments, other: Moments): void {
  for (let index = 0; index < 8; index++) {
    // The moments with t and with t' change places.
    const swapped = index >= 2 && index < 6 ? (index < 4 ? index + 2 : index - 2) : index;
    out[index] = ((out[index] as number) + (other[swapped] as number)) / 2;
  }
}

function centreDistanceM(a: SegmentTable, p: number, b: SegmentTable, q: number): number {
  let square = 0;
  const halfP = (a.lengthsM[p] as number) / 2;
  const halfQ = (b.lengthsM[q] as number) / 2;
  for (let axis = 0; axis < 3; axis++) {
    const centreP = (a.startsM[3 * p + axis] as number) + halfP * (a.directions[3 * p + axis] as number);
    const centreQ = (b.startsM[3 * q + axis] as number) + halfQ * (b.directions[3 * q + axis] as number);
    square += (centreP - centreQ) ** 2;
  }
  return Math.sqrt(square);
}

/** Whether two segments lie on one straight line and are equally thick. */
function areOneTube(a: SegmentTable, p: number, b: SegmentTable, q: number): boolean {
  const radius = a.radiiM[p] as number;
  if (Math.abs(radius - (b.radiiM[q] as number)) > 1e-9 * radius) return false;
  let cosine = 0;
  let offAxis = 0;
  let square = 0;
  for (let axis = 0; axis < 3; axis++) {
    const way = (b.startsM[3 * q + axis] as number) - (a.startsM[3 * p + axis] as number);
    const direction = a.directions[3 * p + axis] as number;
    cosine += direction * (b.directions[3 * q + axis] as number);
    offAxis += way * direction;
    square += way * way;
  }
  return Math.abs(cosine) > 1 - 1e-9 && square - offAxis * offAxis < 1e-6 * radius * radius + 1e-12 * square;
}

function farMoments(
  a: SegmentTable,
  p: number,
  b: SegmentTable,
  q: number,
  wavenumber: number,
  radius: number,
  { points, weights }: QuadratureRule,
  out: Moments,
): void {
  const lengthP = a.lengthsM[p] as number;
  const lengthQ = b.lengthsM[q] as number;
  const dx = a.directions[3 * p] as number;
  const dy = a.directions[3 * p + 1] as number;
  const dz = a.directions[3 * p + 2] as number;
  const ex = b.directions[3 * q] as number;
  const ey = b.directions[3 * q + 1] as number;
  const ez = b.directions[3 * q + 2] as number;
  const wayX = (a.startsM[3 * p] as number) - (b.startsM[3 * q] as number);
  const wayY = (a.startsM[3 * p + 1] as number) - (b.startsM[3 * q + 1] as number);
  const wayZ = (a.startsM[3 * p + 2] as number) - (b.startsM[3 * q + 2] as number);
  for (let i = 0; i < points.length; i++) {
    const t = points[i] as number;
    const s = t * lengthP;
    const x = wayX + s * dx;
    const y = wayY + s * dy;
    const z = wayZ + s * dz;
    for (let j = 0; j < points.length; j++) {
      const u = points[j] as number;
      const r = u * lengthQ;
      const distance = Math.sqrt((x - r * ex) ** 2 + (y - r * ey) ** 2 + (z - r * ez) ** 2 + radius * radius);
      const size = ((weights[i] as number) * (weights[j] as number) * lengthP * lengthQ) / distance;
      const phase = wavenumber * distance;
      addMoments(out, t, u, size * Math.cos(phase), -size * Math.sin(phase));
    }
  }
}

function addMoments(out: Moments, t: number, u: number, real: number, imaginary: number): void {
  out[0] = (out[0] as number) + real;
  out[1] = (out[1] as number) + imaginary;
  out[2] = (out[2] as number) + t * real;
  out[3] = (out[3] as number) + t * imaginary;
  out[4] = (out[4] as number) + u * real;
  out[5] = (out[5] as number) + u * imaginary;
  out[6] = (out[6] as number) + t * u * real;
  out[7] = (out[7] as number) + t * u * imaginary;
}

/**
 * Near segments: 1/R along q is integrated in closed form, averaged around the tube where both lie on one; what is left of the
 * kernel, (e^(-jkR) - 1)/R, is smooth and goes by points.
 */
function nearMoments(
  a: SegmentTable,
  p: number,
  b: SegmentTable,
  q: number,
  wavenumber: number,
  radius: number,
  around: Float64Array,
  { outer, inner }: MomentRules,
  out: Moments,
): void {
  const lengthP = a.lengthsM[p] as number;
  const lengthQ = b.lengthsM[q] as number;
  for (let i = 0; i < outer.points.length; i++) {
    const t = outer.points[i] as number;
    const weight = (outer.weights[i] as number) * lengthP;
    // The point in the frame of q: how far along its axis, and the square of the way off it.
    let foot = 0;
    let square = 0;
    for (let axis = 0; axis < 3; axis++) {
      const way =
        (a.startsM[3 * p + axis] as number) +
        t * lengthP * (a.directions[3 * p + axis] as number) -
        (b.startsM[3 * q + axis] as number);
      foot += way * (b.directions[3 * q + axis] as number);
      square += way * way;
    }
    const offAxis = Math.max(0, square - foot * foot);
    const rest = lengthQ - foot;
    for (let k = 0; k < around.length; k++) {
      const h = Math.sqrt(offAxis + radius * radius * (around[k] as number));
      const plain = (weight / around.length) * (Math.asinh(rest / h) + Math.asinh(foot / h));
      const ends = (weight / around.length) * (Math.hypot(rest, h) - Math.hypot(foot, h));
      const first = (ends + foot * plain) / lengthQ;
      out[0] = (out[0] as number) + plain;
      out[2] = (out[2] as number) + t * plain;
      out[4] = (out[4] as number) + first;
      out[6] = (out[6] as number) + t * first;
    }
    for (let j = 0; j < inner.points.length; j++) {
      const u = inner.points[j] as number;
      const distance = Math.sqrt((u * lengthQ - foot) ** 2 + offAxis + radius * radius);
      const size = (weight * (inner.weights[j] as number) * lengthQ) / distance;
      const half = Math.sin((wavenumber * distance) / 2);
      addMoments(out, t, u, -2 * size * half * half, -size * Math.sin(wavenumber * distance));
    }
  }
}
