import type { CurrentBasis } from './currentBasis.js';
import { mirrored, type SegmentTable } from './SegmentTable.js';
import { type MomentRules, momentRules, segmentMoments } from './segmentMoments.js';
import { type ImpedancePerMetre, waveImpedanceOhm } from './surfaceImpedance.js';

/** What the matrix is made from. */
export interface MatrixProblem {
  readonly segments: SegmentTable;
  readonly basis: CurrentBasis;
  readonly wavelengthM: number;
  readonly hasGround: boolean;
  /** Impedance per metre of each wire, or undefined for a perfect conductor. */
  readonly surface: readonly ImpedancePerMetre[] | undefined;
}

/**
 * Voltages on the wires for unit currents: the mixed-potential form of the electric field, tested with the same functions that
 * carry the current (Galerkin), so that the matrix is symmetric. Row after row, real and imaginary parts in turn.
 *
 * Source: R. F. Harrington, Field Computation by Moment Methods (1968), chapter 4, from memory, with straight-line functions in
 * place of steps.
 */
export function impedanceMatrix(problem: MatrixProblem): Float64Array {
  const { segments, basis, wavelengthM, hasGround, surface } = problem;
  const matrix = new Float64Array(2 * basis.unknownsCount * basis.unknownsCount);
  const wavenumber = (2 * Math.PI) / wavelengthM;
  const rules = momentRules();
  const sameWire = momentsWithinWires(segments, wavenumber, rules);
  const images = hasGround ? mirrored(segments) : undefined;
  const moments = new Float64Array(8);
  const block = new Float64Array(8);
  for (let p = 0; p < segments.count; p++) {
    for (let q = p; q < segments.count; q++) {
      block.fill(0);
      const within =
        segments.wires[p] === segments.wires[q] ? sameWire[segments.wires[p] as number] : undefined;
      if (within === undefined) segmentMoments(segments, p, segments, q, wavenumber, rules, moments);
      else moments.set(within.subarray(8 * (q - p), 8 * (q - p) + 8));
      addBlock(block, moments, segments, p, segments, q, wavenumber, 1);
      if (images !== undefined) {
        segmentMoments(segments, p, images, q, wavenumber, rules, moments);
        addBlock(block, moments, segments, p, images, q, wavenumber, -1);
      }
      if (p === q) addSurface(block, surface?.[segments.wires[p] as number], segments.lengthsM[p] as number);
      scatter(matrix, block, basis, p, q);
    }
  }
  return matrix;
}

/** Between equal pieces of one straight wire only their distance counts: one row per wire, eight numbers per distance. */
function momentsWithinWires(
  segments: SegmentTable,
  wavenumber: number,
  rules: MomentRules,
): readonly Float64Array[] {
  return segments.firstOfWire.slice(0, -1).map((first, wire) => {
    const count = (segments.firstOfWire[wire + 1] as number) - first;
    const row = new Float64Array(8 * count);
    for (let away = 0; away < count; away++) {
      const part = row.subarray(8 * away, 8 * away + 8);
      segmentMoments(segments, first, segments, first + away, wavenumber, rules, part);
    }
    return row;
  });
}

/** The four voltages between the end values of p and q: start-start, start-end, end-start, end-end. */
function addBlock(
  block: Float64Array,
  moments: Float64Array,
  a: SegmentTable,
  p: number,
  b: SegmentTable,
  q: number,
  wavenumber: number,
  sign: number,
): void {
  const cosine =
    (a.directions[3 * p] as number) * (b.directions[3 * q] as number) +
    (a.directions[3 * p + 1] as number) * (b.directions[3 * q + 1] as number) +
    (a.directions[3 * p + 2] as number) * (b.directions[3 * q + 2] as number);
  const scale = (sign * waveImpedanceOhm) / (4 * Math.PI);
  const magnetic = scale * wavenumber * cosine;
  const electric = scale / (wavenumber * (a.lengthsM[p] as number) * (b.lengthsM[q] as number));
  for (let part = 0; part < 2; part++) {
    const one = moments[part] as number;
    const t = moments[2 + part] as number;
    const u = moments[4 + part] as number;
    const tu = moments[6 + part] as number;
    // Times j: the real part of a moment goes to the imaginary part of the voltage, and back with a minus.
    const at = 1 - part;
    const turn = part === 0 ? 1 : -1;
    block[at] = (block[at] as number) + turn * (magnetic * (one - t - u + tu) - electric * one);
    block[2 + at] = (block[2 + at] as number) + turn * (magnetic * (u - tu) + electric * one);
    block[4 + at] = (block[4 + at] as number) + turn * (magnetic * (t - tu) + electric * one);
    block[6 + at] = (block[6 + at] as number) + turn * (magnetic * tu - electric * one);
  }
}

function addSurface(block: Float64Array, surface: ImpedancePerMetre | undefined, lengthM: number): void {
  if (surface === undefined) return;
  for (let entry = 0; entry < 4; entry++) {
    const share = entry === 0 || entry === 3 ? lengthM / 3 : lengthM / 6;
    block[2 * entry] = (block[2 * entry] as number) + share * surface.resistanceOhmPerM;
    block[2 * entry + 1] = (block[2 * entry + 1] as number) + share * surface.reactanceOhmPerM;
  }
}

/** Adds a block to every unknown that its end values are made of, and the mirrored block where p and q differ. */
function scatter(matrix: Float64Array, block: Float64Array, basis: CurrentBasis, p: number, q: number): void {
  const { terms, unknownsCount } = basis;
  for (let entry = 0; entry < 4; entry++) {
    const rows = terms[2 * p + (entry >> 1)] ?? [];
    const columns = terms[2 * q + (entry & 1)] ?? [];
    const real = block[2 * entry] as number;
    const imaginary = block[2 * entry + 1] as number;
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i] as (typeof rows)[number];
      for (let j = 0; j < columns.length; j++) {
        const column = columns[j] as (typeof columns)[number];
        const factor = row.factor * column.factor;
        add(matrix, 2 * (row.unknown * unknownsCount + column.unknown), factor * real, factor * imaginary);
        if (p === q) continue;
        add(matrix, 2 * (column.unknown * unknownsCount + row.unknown), factor * real, factor * imaginary);
      }
    }
  }
}

function add(matrix: Float64Array, at: number, real: number, imaginary: number): void {
  matrix[at] = (matrix[at] as number) + real;
  matrix[at + 1] = (matrix[at + 1] as number) + imaginary;
}
