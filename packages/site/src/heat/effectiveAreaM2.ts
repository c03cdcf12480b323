import { checkObject, checkOneOf, checkRange } from '@finial/units';

/** Outside measures of a box and how it stands. */
export interface BoxShape {
  /** Width in metres, 0.02 to 5. */
  readonly widthM: number;
  /** Height in metres, 0.02 to 5. */
  readonly heightM: number;
  /** Depth in metres, 0.02 to 5. */
  readonly depthM: number;
  /** Whether all sides are free, or the back lies on a wall. */
  readonly mounting: 'free-standing' | 'wall';
}

/**
 * Area of a box that counts for shedding heat, by the weighting of faces in the switchgear standards, in square metres.
 *
 * @returns area; the weights are from memory and unverified, the arithmetic is exact
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source IEC TR 60890, DIN 57660-500 (from memory)
 * @example
 * ```ts
 * import { effectiveAreaM2 } from '@finial/site';
 *
 * effectiveAreaM2({ widthM: 0.2, heightM: 0.2, depthM: 0.1, mounting: 'free-standing' }); // ≈ 0.136
 * ```
 */
export function effectiveAreaM2(shape: BoxShape): number {
  const { widthM, heightM, depthM, mounting } = checkedShape(shape, 'shape');
  if (mounting === 'wall') return 1.4 * widthM * (heightM + depthM) + 1.8 * heightM * depthM;
  return 1.8 * heightM * (widthM + depthM) + 1.4 * widthM * depthM;
}

/** The measures of a box, each within its range. */
export function checkedShape<Shape extends BoxShape>(shape: Shape, argument: string): Shape {
  checkObject(shape, argument);
  for (const side of ['widthM', 'heightM', 'depthM'] as const) {
    checkRange(shape[side], `${argument}.${side}`, { min: 0.02, max: 5, unit: 'metres' });
  }
  checkOneOf(shape.mounting, `${argument}.mounting`, ['free-standing', 'wall']);
  return shape;
}
