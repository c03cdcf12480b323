import { areJoined } from './checkClearances.js';
import { distanceM } from './geometry.js';
import type { PreparedWire } from './prepareWires.js';
import type { Point, WireGround } from './Wire.js';

/**
 * The unknown currents. Along each segment the current runs straight from its value at the start to its value at the end; each
 * such end value is a sum of unknowns with factors. That makes the current continuous, zero at open ends, and at a joint the
 * currents of all wires add to zero.
 */
export interface CurrentBasis {
  readonly unknownsCount: number;
  /** Unknowns of end value 2·segment (its start) and 2·segment + 1 (its end). */
  readonly terms: readonly (readonly BasisTerm[])[];
}

/** One unknown in an end value. */
export interface BasisTerm {
  readonly unknown: number;
  readonly factor: number;
}

interface WireEnd {
  readonly point: Point;
  readonly radiusM: number;
  /** Which end value of which segment. */
  readonly endValue: number;
  /** 1 where the current counts positive away from the end, into the wire; -1 at the end of a wire. */
  readonly outward: number;
}

/** Numbers the unknowns: nodes inside wires, then joints. */
export function currentBasis(
  wires: readonly PreparedWire[],
  firstOfWire: readonly number[],
  ground: WireGround,
): CurrentBasis {
  const terms: BasisTerm[][] = Array.from({ length: 2 * (firstOfWire.at(-1) as number) }, () => []);
  let unknownsCount = 0;
  const ends: WireEnd[] = [];
  for (const [index, { start, end, radiusM, segments }] of wires.entries()) {
    const first = firstOfWire[index] as number;
    for (let node = 1; node < segments; node++) {
      const unknown = unknownsCount++;
      terms[2 * (first + node) - 1]?.push({ unknown, factor: 1 });
      terms[2 * (first + node)]?.push({ unknown, factor: 1 });
    }
    ends.push({ point: start, radiusM, endValue: 2 * first, outward: 1 });
    ends.push({ point: end, radiusM, endValue: 2 * (first + segments) - 1, outward: -1 });
  }
  for (const joint of joints(ends)) {
    const isGrounded = ground === 'perfect' && joint[0]?.point.zM === 0;
    // Into the ground each wire may lead its own current; elsewhere the last wire takes what the others bring.
    const free = isGrounded ? joint : joint.slice(0, -1);
    const last = isGrounded ? undefined : joint.at(-1);
    for (const { endValue, outward } of free) {
      const unknown = unknownsCount++;
      terms[endValue]?.push({ unknown, factor: outward });
      if (last !== undefined) terms[last.endValue]?.push({ unknown, factor: -last.outward });
    }
  }
  return { unknownsCount, terms };
}

/** Wire ends that lie on one another, group by group; an open end is a group of its own. */
function joints(ends: readonly WireEnd[]): readonly (readonly WireEnd[])[] {
  const groups: WireEnd[][] = [];
  for (const end of ends) {
    const group = groups.find(([first]) => first !== undefined && isOneJoint(first, end));
    if (group === undefined) groups.push([end]);
    else group.push(end);
  }
  return groups;
}

function isOneJoint(a: WireEnd, b: WireEnd): boolean {
  return distanceM(a.point, b.point) === 0 || areJoined(a.point, b.point, Math.min(a.radiusM, b.radiusM));
}
