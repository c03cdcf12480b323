import { gaussLegendre } from './gaussLegendre.js';
import { mirrored, type SegmentTable, segmentTable } from './SegmentTable.js';
import { waveImpedanceOhm } from './surfaceImpedance.js';
import type { SolvedWire, WireSolution } from './WireSolution.js';

/** What the far field is summed from. */
export interface FarField {
  readonly wavenumber: number;
  readonly segments: SegmentTable;
  /** The image of the wires in the ground, or undefined. */
  readonly images: SegmentTable | undefined;
  /** Current at the middle of each segment, and half of what it rises from start to end; real and imaginary parts in turn. */
  readonly middlesA: Float64Array;
  readonly risesA: Float64Array;
}

/** Power per steradian in the two polarisations, in watts. */
export interface RadiationIntensity {
  verticalW: number;
  horizontalW: number;
}

type Radiating = Pick<WireSolution, 'wavelengthM' | 'ground'> & { readonly wires: readonly SolvedWire[] };

/** Lays out the currents of a solution for {@link intensityAt}. */
export function farField({ wavelengthM, ground, wires }: Radiating): FarField {
  const segments = segmentTable(wires);
  const middlesA = new Float64Array(2 * segments.count);
  const risesA = new Float64Array(2 * segments.count);
  for (let at = 0; at < segments.count; at++) {
    const wire = segments.wires[at] as number;
    const node = at - (segments.firstOfWire[wire] as number);
    const { currentsRealA, currentsImaginaryA } = wires[wire] as SolvedWire;
    for (const [part, currents] of [currentsRealA, currentsImaginaryA].entries()) {
      const before = currents[node] as number;
      const after = currents[node + 1] as number;
      middlesA[2 * at + part] = (before + after) / 2;
      risesA[2 * at + part] = (after - before) / 2;
    }
  }
  const images = ground === 'perfect' ? mirrored(segments) : undefined;
  return { wavenumber: (2 * Math.PI) / wavelengthM, segments, images, middlesA, risesA };
}

/** Power per steradian that goes in one direction, angles in radians. */
export function intensityAt(
  field: FarField,
  elevationRad: number,
  azimuthRad: number,
  out: RadiationIntensity,
): void {
  const sums = new Float64Array(6);
  const flat = Math.cos(elevationRad);
  const x = flat * Math.cos(azimuthRad);
  const y = flat * Math.sin(azimuthRad);
  const z = Math.sin(elevationRad);
  addMoment(sums, field, field.segments, 1, x, y, z);
  if (field.images !== undefined) addMoment(sums, field, field.images, -1, x, y, z);
  const [sinAzimuth, cosAzimuth] = [Math.sin(azimuthRad), Math.cos(azimuthRad)];
  const scale = (waveImpedanceOhm * field.wavenumber ** 2) / (32 * Math.PI ** 2);
  out.verticalW = 0;
  out.horizontalW = 0;
  for (let part = 0; part < 2; part++) {
    const [sumX, sumY, sumZ] = [sums[part] as number, sums[2 + part] as number, sums[4 + part] as number];
    out.verticalW += scale * (flat * sumZ - z * (cosAzimuth * sumX + sinAzimuth * sumY)) ** 2;
    out.horizontalW += scale * (cosAzimuth * sumY - sinAzimuth * sumX) ** 2;
  }
}

/** Adds the current of every segment times its length and the phase with which it arrives. */
function addMoment(
  sums: Float64Array,
  { wavenumber, middlesA, risesA }: FarField,
  { count, startsM, directions, lengthsM }: SegmentTable,
  sign: number,
  x: number,
  y: number,
  z: number,
): void {
  for (let at = 0; at < count; at++) {
    const dx = directions[3 * at] as number;
    const dy = directions[3 * at + 1] as number;
    const dz = directions[3 * at + 2] as number;
    const lengthM = lengthsM[at] as number;
    const half = (wavenumber * lengthM * (dx * x + dy * y + dz * z)) / 2;
    const phase =
      half +
      wavenumber *
        ((startsM[3 * at] as number) * x +
          (startsM[3 * at + 1] as number) * y +
          (startsM[3 * at + 2] as number) * z);
    // sin(h)/h and (sin(h) - h cos(h))/h² by their series: h stays below a third, or below 1 where the limits were lifted.
    const square = half * half;
    const even = 1 - (square / 6) * (1 - (square / 20) * (1 - (square / 42) * (1 - square / 72)));
    const odd = (half / 3) * (1 - (square / 10) * (1 - (square / 28) * (1 - square / 54)));
    const real = (middlesA[2 * at] as number) * even - (risesA[2 * at + 1] as number) * odd;
    const imaginary = (middlesA[2 * at + 1] as number) * even + (risesA[2 * at] as number) * odd;
    const cosine = sign * lengthM * Math.cos(phase);
    const sine = sign * lengthM * Math.sin(phase);
    const arrivingReal = real * cosine - imaginary * sine;
    const arrivingImaginary = real * sine + imaginary * cosine;
    sums[0] = (sums[0] as number) + dx * arrivingReal;
    sums[1] = (sums[1] as number) + dx * arrivingImaginary;
    sums[2] = (sums[2] as number) + dy * arrivingReal;
    sums[3] = (sums[3] as number) + dy * arrivingImaginary;
    sums[4] = (sums[4] as number) + dz * arrivingReal;
    sums[5] = (sums[5] as number) + dz * arrivingImaginary;
  }
}

/** How far the wires reach from the middle of the box around them, in wavelengths over 2π: along the ground and altogether. */
export function electricalSize({ segments, images, wavenumber }: FarField): {
  readonly flatRadius: number;
  readonly radius: number;
} {
  const halves = [0, 1, 2].map((axis) => {
    let low = Infinity;
    let high = -Infinity;
    for (let at = 0; at < segments.count; at++) {
      const start = segments.startsM[3 * at + axis] as number;
      const end = start + (segments.lengthsM[at] as number) * (segments.directions[3 * at + axis] as number);
      low = Math.min(low, start, end);
      high = Math.max(high, start, end);
    }
    return axis === 2 && images !== undefined ? high : (high - low) / 2;
  }) as [number, number, number];
  return {
    flatRadius: wavenumber * Math.hypot(halves[0], halves[1]),
    radius: wavenumber * Math.hypot(...halves),
  };
}

/** Power through the whole sphere, or through its upper half over ground, in watts. */
export function radiatedPowerW(field: FarField): number {
  const { flatRadius, radius } = electricalSize(field);
  // A field of this size has no finer detail than these rules resolve; the margin takes the rest below 1e-9.
  const rule = gaussLegendre(Math.ceil(1.05 * radius) + 12);
  const turns = Math.ceil(2.1 * flatRadius) + 16;
  const isHalf = field.images !== undefined;
  const at = { verticalW: 0, horizontalW: 0 };
  let sum = 0;
  for (const [index, point] of rule.points.entries()) {
    const elevation = Math.asin(isHalf ? point : 2 * point - 1);
    for (let turn = 0; turn < turns; turn++) {
      intensityAt(field, elevation, (2 * Math.PI * turn) / turns, at);
      sum += (rule.weights[index] as number) * (at.verticalW + at.horizontalW);
    }
  }
  return ((isHalf ? 1 : 2) * 2 * Math.PI * sum) / turns;
}
