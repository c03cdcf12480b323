import { checkObject, checkOneOf, checkRange, InputError, type RangeBounds } from '@finial/units';
import type { LinearPolarisation, RadioPath, RadioZone } from './RadioPath.js';

/** Numbers in a row: a typed array, or a list as JSON gives it. */
type NumberSeries = RadioPath['heightM'];

/** What a model can take at all. Outside of it a path is refused; a narrower range of validity is the model's own matter. */
export interface PathLimits {
  readonly frequencyHz: RangeBounds;
  /** For either antenna above its ground. */
  readonly antennaHeightM: RangeBounds;
  /** For the length of the whole path. */
  readonly lengthM: RangeBounds;
  /** Least number of profile points; 2 if left out. */
  readonly leastPoints?: number | undefined;
}

/** A path whose every number is known to be good, copied so that nobody changes it under way. */
export interface CheckedPath {
  readonly frequencyHz: number;
  readonly distanceM: Float64Array;
  /** Bare ground. */
  readonly heightM: Float64Array;
  /** Ground plus clutter, bare at the two ends; the same array as `heightM` where the path has no clutter. */
  readonly obstacleHeightM: Float64Array;
  /** Zone of each point, or `undefined` where the whole path is inland. */
  readonly zone: readonly RadioZone[] | undefined;
  readonly transmitterHeightM: number;
  readonly receiverHeightM: number;
  /** Antennas above sea level. */
  readonly transmitterAltitudeM: number;
  readonly receiverAltitudeM: number;
  readonly lengthM: number;
  readonly polarisation: LinearPolarisation;
}

const groundBounds: RangeBounds = { min: -500, max: 9000, unit: 'metres above sea level' };
const clutterBounds: RangeBounds = { min: 0, max: 200, unit: 'metres above the ground' };
const zones = ['sea', 'coastal-land', 'inland'] as const;

/** Checks a path against the limits of a model. */
export function checkPath(path: RadioPath, limits: PathLimits): CheckedPath {
  checkObject(path, 'path');
  const { polarisation = 'vertical' } = path;
  const frequencyHz = checkRange(path.frequencyHz, 'path.frequencyHz', limits.frequencyHz);
  const distanceM = checkDistances(path.distanceM, limits);
  const count = distanceM.length;
  const heightM = checkSeries(path.heightM, 'path.heightM', count, groundBounds);
  const transmitterHeightM = checkRange(
    path.transmitterHeightM,
    'path.transmitterHeightM',
    limits.antennaHeightM,
  );
  const receiverHeightM = checkRange(path.receiverHeightM, 'path.receiverHeightM', limits.antennaHeightM);
  return {
    frequencyHz,
    distanceM,
    heightM,
    obstacleHeightM: obstacles(heightM, path.clutterHeightM),
    zone: path.zone === undefined ? undefined : checkZones(path.zone, count),
    transmitterHeightM,
    receiverHeightM,
    transmitterAltitudeM: at(heightM, 0) + transmitterHeightM,
    receiverAltitudeM: at(heightM, count - 1) + receiverHeightM,
    lengthM: at(distanceM, count - 1),
    polarisation: checkOneOf(polarisation, 'path.polarisation', ['horizontal', 'vertical']),
  };
}

function checkDistances(series: NumberSeries, { lengthM, leastPoints = 2 }: PathLimits): Float64Array {
  const argument = 'path.distanceM';
  const count = checkIsSeries(series, argument).length;
  if (count < leastPoints) {
    throw new InputError({
      code: 'missing',
      argument,
      received: series,
      expected: `at least ${leastPoints} points`,
    });
  }
  const distanceM = checkSeries(series, argument, count, { ...lengthM, min: 0 });
  if (at(distanceM, 0) !== 0) throw outOfRange(`${argument}[0]`, distanceM[0], '0: the transmitter');
  checkRange(at(distanceM, count - 1), `${argument}[${count - 1}]`, lengthM);
  for (let index = 1; index < count; index += 1) {
    if (!(at(distanceM, index) > at(distanceM, index - 1))) {
      throw outOfRange(
        `${argument}[${index}]`,
        distanceM[index],
        `more than the ${distanceM[index - 1]} metres of the point before`,
      );
    }
  }
  return distanceM;
}

function checkSeries(
  series: NumberSeries,
  argument: string,
  count: number,
  bounds: RangeBounds,
): Float64Array {
  if (checkIsSeries(series, argument).length !== count) {
    throw new InputError({
      code: 'out-of-range',
      argument,
      received: series.length,
      expected: `${count} values, as many as path.distanceM has`,
    });
  }
  // The name of an element is put together for a refusal only: a long profile is checked once for every path.
  return Float64Array.from(series, (value, index) =>
    typeof value === 'number' && value >= bounds.min && value <= bounds.max
      ? value
      : checkRange(value, `${argument}[${index}]`, bounds),
  );
}

function checkIsSeries(series: NumberSeries, argument: string): NumberSeries {
  if (Array.isArray(series) || series instanceof Float64Array) return series;
  throw new InputError({
    code: 'wrong-type',
    argument,
    received: series,
    expected: 'a list of numbers or a Float64Array',
  });
}

function obstacles(heightM: Float64Array, clutter: NumberSeries | undefined): Float64Array {
  if (clutter === undefined) return heightM;
  const last = heightM.length - 1;
  const sum = checkSeries(clutter, 'path.clutterHeightM', heightM.length, clutterBounds);
  for (let index = 0; index <= last; index += 1) {
    // Clutter at the ends would stand in the antennas themselves: it never counts there.
    sum[index] = at(heightM, index) + (index === 0 || index === last ? 0 : at(sum, index));
  }
  return sum;
}

function checkZones(zone: readonly RadioZone[], count: number): readonly RadioZone[] {
  const argument = 'path.zone';
  if (!Array.isArray(zone)) {
    throw new InputError({ code: 'wrong-type', argument, received: zone, expected: 'a list of zones' });
  }
  if (zone.length !== count) {
    const expected = `${count} zones, as many as path.distanceM has points`;
    throw new InputError({ code: 'out-of-range', argument, received: zone.length, expected });
  }
  return Array.from(zone, (name, index) => checkOneOf(name, `${argument}[${index}]`, zones));
}

function outOfRange(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'out-of-range', argument, received, expected });
}

/** A value of a series that is known to be there. */
function at(series: Float64Array, index: number): number {
  return series[index] as number;
}
