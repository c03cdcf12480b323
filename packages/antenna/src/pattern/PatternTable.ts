import { checkObject, checkRange, InputError, type RangeBounds } from '@finial/units';

/**
 * Gain of an antenna over directions, as plain data: for drawing, for storing, and for a calculation that asks for thousands of
 * directions. Without azimuths the antenna is the same all around.
 */
export interface PatternTable {
  /** Elevations in degrees above the horizon, rising, within -90 to 90; at least two. */
  readonly elevationDeg: Float64Array | readonly number[];
  /**
   * Gain in dBi, -200 to 100: one for each elevation, or, where there are azimuths, all elevations of the first azimuth, then all of the
   * next.
   */
  readonly gainDbi: Float64Array | readonly number[];
  /**
   * Azimuths in degrees, rising, from 0 to below 360. The last is followed by the first.
   *
   * @defaultValue none: the same gain all around
   */
  readonly azimuthDeg?: Float64Array | readonly number[] | undefined;
}

/** Numbers in a row: a typed array, or a list as JSON gives it. */
export type NumberSeries = PatternTable['gainDbi'];

/**
 * The least gain in dBi that patterns of this package state. On paper a null is infinitely deep; on a mast, reflections and the mast
 * itself fill it long before.
 */
export const patternFloorDbi = -60;

export const elevationBounds: RangeBounds = {
  min: -90,
  max: 90,
  unit: 'degrees above the horizon (below it is negative)',
};
export const azimuthBounds: RangeBounds = { min: -360, max: 360, unit: 'degrees' };
const gainBounds: RangeBounds = { min: -200, max: 100, unit: 'dBi' };
const tableAzimuthBounds: RangeBounds = { min: 0, max: 359.999_999, unit: 'degrees' };

/** A gain in dBi from a ratio of powers, with the stated floor: a null has no logarithm. */
export function gainDbiOfRatio(ratio: number): number {
  return ratio > 10 ** (patternFloorDbi / 10) ? 10 * Math.log10(ratio) : patternFloorDbi;
}

/** Refuses a table that is not one. */
export function checkPattern(pattern: PatternTable, argument: string): PatternTable {
  checkObject(pattern, argument);
  const elevations = checkRising(pattern.elevationDeg, `${argument}.elevationDeg`, elevationBounds, 2);
  const azimuths =
    pattern.azimuthDeg === undefined
      ? 1
      : checkRising(pattern.azimuthDeg, `${argument}.azimuthDeg`, tableAzimuthBounds, 1);
  checkSeries(pattern.gainDbi, `${argument}.gainDbi`, gainBounds);
  const wanted = elevations * azimuths;
  if (pattern.gainDbi.length !== wanted) {
    throw new InputError({
      code: 'out-of-range',
      argument: `${argument}.gainDbi`,
      received: pattern.gainDbi.length,
      expected: `${wanted} gains (${elevations} elevations for each of ${azimuths} azimuths)`,
    });
  }
  return pattern;
}

function checkRising(series: NumberSeries, argument: string, bounds: RangeBounds, least: number): number {
  checkSeries(series, argument, bounds);
  if (series.length < least) {
    throw new InputError({
      code: 'missing',
      argument,
      received: series.length,
      expected: `${least} or more angles`,
    });
  }
  for (let index = 1; index < series.length; index++) {
    const [before, here] = [series[index - 1] as number, series[index] as number];
    if (here > before) continue;
    throw new InputError({
      code: 'out-of-range',
      argument: `${argument}[${index}]`,
      received: here,
      expected: `more than ${before} degrees: angles of a pattern rise`,
    });
  }
  return series.length;
}

function checkSeries(series: NumberSeries, argument: string, bounds: RangeBounds): void {
  if (!(series instanceof Float64Array) && !Array.isArray(series)) {
    throw new InputError({ code: 'wrong-type', argument, received: series, expected: 'a list of numbers' });
  }
  for (let index = 0; index < series.length; index++) {
    checkRange(series[index], `${argument}[${index}]`, bounds);
  }
}
