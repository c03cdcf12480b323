import { checkObject, checkRange } from '@finial/units';
import { checkWithinTable, interpolatePattern } from './interpolatePattern.js';
import { azimuthBounds, checkPattern, elevationBounds, type PatternTable } from './PatternTable.js';

/** A pattern, and where to look. */
export interface PatternDirection {
  /** Gain over directions. For solved wires use {@link elevationPattern} first, or {@link farFieldGainDbi} for a single direction. */
  readonly pattern: PatternTable;
  /** Elevation in degrees above the horizon, -90 to 90, within what the pattern covers. */
  readonly elevationDeg: number;
  /**
   * Azimuth in degrees, -360 to 360. Without azimuths in the pattern it plays no part.
   *
   * @defaultValue 0
   */
  readonly azimuthDeg?: number | undefined;
}

/**
 * Gain of a tabulated pattern in one direction, in dBi.
 *
 * Between the angles of the table the gain runs in a straight line in decibels, first over elevation, then over azimuth, across
 * north too. A table too coarse for its nulls makes them narrower and less deep; beyond the ends of the table nothing is guessed.
 *
 * @returns gain in dBi, exactly the table's at its own angles
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source linear interpolation in decibels: common practice, no source
 * @example From a data sheet with three gains
 * ```ts
 * import { gainTowardsDbi } from '@finial/antenna';
 *
 * const pattern = { elevationDeg: [-90, 0, 90], gainDbi: [-20, 5, -20] };
 * gainTowardsDbi({ pattern, elevationDeg: -18 }); // ≈ 0
 * ```
 */
export function gainTowardsDbi(direction: PatternDirection): number {
  checkObject(direction, 'direction');
  const pattern = checkPattern(direction.pattern, 'pattern');
  const elevationDeg = checkRange(direction.elevationDeg, 'elevationDeg', elevationBounds);
  const { azimuthDeg = 0 } = direction;
  checkRange(azimuthDeg, 'azimuthDeg', azimuthBounds);
  checkWithinTable(pattern, elevationDeg, 'elevationDeg');
  return interpolatePattern(pattern, elevationDeg, azimuthDeg);
}
