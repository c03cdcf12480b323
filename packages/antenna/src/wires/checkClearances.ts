import { InputError } from '@finial/units';
import { between, distanceM, dot, type Line, lengthM, lineDistanceM, pointDistanceM } from './geometry.js';
import type { Point } from './Wire.js';

/** A wire as a line with thickness. */
export interface RoundLine extends Line {
  readonly radiusM: number;
}

/** Whether two wire ends are one joint. */
export function areJoined(a: Point, b: Point, radiusM: number): boolean {
  return distanceM(a, b) <= radiusM / 1000;
}

/** Whether a wire over ground comes nearer to it than its radius anywhere but at one end that touches. */
export function lyingOnGround({ start, end, radiusM }: RoundLine): boolean {
  const [low, high] = start.zM < end.zM ? [start.zM, end.zM] : [end.zM, start.zM];
  return high < radiusM || (low > 0 && low < radiusM);
}

/** Refuses wires that touch, cross or overlap anywhere but at a joint of their ends. */
export function checkClearances(wires: readonly RoundLine[]): void {
  for (const [index, wire] of wires.entries()) {
    for (let other = 0; other < index; other++) {
      const fault = faultBetween(wires[other] as RoundLine, wire);
      if (fault === undefined) continue;
      throw new InputError({
        code: 'out-of-range',
        argument: `wires[${index}]`,
        received: wire,
        expected: `a wire that ${fault} wires[${other}]`,
      });
    }
  }
}

function faultBetween(a: RoundLine, b: RoundLine): string | undefined {
  const touching = (a.radiusM + b.radiusM) * (1 - 1e-9);
  const joint = jointOf(a, b);
  if (joint === undefined) {
    if (lineDistanceM(a, b) >= touching) return undefined;
    return 'keeps clear of, or shares an end with,';
  }
  const [fromA, fromB] = joint;
  // From the joint, the far end of the shorter wire must have left the other one, else they lie in each other.
  const awayA = between(fromA.near, fromA.far);
  const awayB = between(fromB.near, fromB.far);
  const isShorterA = lengthM(awayA) < lengthM(awayB);
  const far = isShorterA ? pointDistanceM(fromA.far, b) : pointDistanceM(fromB.far, a);
  if (dot(awayA, awayB) > 0 && far < touching) return 'does not overlap';
  return undefined;
}

interface Joint {
  readonly near: Point;
  readonly far: Point;
}

/** The shared end of two wires, seen from each. */
function jointOf(a: RoundLine, b: RoundLine): readonly [Joint, Joint] | undefined {
  const radiusM = Math.min(a.radiusM, b.radiusM);
  for (const [nearA, farA] of [
    [a.start, a.end],
    [a.end, a.start],
  ] as const) {
    for (const [nearB, farB] of [
      [b.start, b.end],
      [b.end, b.start],
    ] as const) {
      if (areJoined(nearA, nearB, radiusM)) {
        return [
          { near: nearA, far: farA },
          { near: nearB, far: farB },
        ];
      }
    }
  }
  return undefined;
}
