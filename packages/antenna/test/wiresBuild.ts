import type { Point, SolveWiresSettings, Wire } from '../src/index.js';

/** Wires and settings as `solveWires` takes them. */
export interface Built {
  readonly wires: readonly Wire[];
  readonly settings: SolveWiresSettings;
}

export const speedOfLightMPerS = 299_792_458;

export function point(xM: number, yM: number, zM: number): Point {
  return { xM, yM, zM };
}

/** What the cases of the reference file state. */
export interface RodQuestion {
  readonly frequencyHz: number;
  readonly lengthM: number;
  readonly radiusM: number;
  readonly segments?: number | undefined;
}

export function verticalDipole({ frequencyHz, lengthM, radiusM, segments }: RodQuestion): Built {
  return {
    wires: [{ start: point(0, 0, 0), end: point(0, 0, lengthM), radiusM, segments }],
    settings: { frequencyHz, source: { wire: 0, positionRatio: 0.5 } },
  };
}

export function monopole({ frequencyHz, lengthM, radiusM, segments }: RodQuestion, positionRatio = 0): Built {
  return {
    wires: [{ start: point(0, 0, 0), end: point(0, 0, lengthM), radiusM, segments }],
    settings: { frequencyHz, ground: 'perfect', source: { wire: 0, positionRatio } },
  };
}

/** A vertical rod on four radials that droop below the horizontal. */
export function groundPlaneWires(
  rod: RodQuestion & { readonly radialM: number; readonly droopDeg: number },
  positionRatio = 0,
): Built {
  const { frequencyHz, lengthM, radiusM, segments, radialM, droopDeg } = rod;
  const droop = (droopDeg * Math.PI) / 180;
  const radials = [point(1, 0, 0), point(0, 1, 0), point(-1, 0, 0), point(0, -1, 0)].map(({ xM, yM }) => ({
    start: point(0, 0, 0),
    end: point(radialM * Math.cos(droop) * xM, radialM * Math.cos(droop) * yM, -radialM * Math.sin(droop)),
    radiusM,
    segments,
  }));
  const up = { start: point(0, 0, 0), end: point(0, 0, lengthM), radiusM, segments };
  return { wires: [up, ...radials], settings: { frequencyHz, source: { wire: 0, positionRatio } } };
}
