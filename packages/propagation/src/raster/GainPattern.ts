import { checkObject, checkRange, InputError, type RangeBounds } from '@finial/units';

/**
 * Gain of an antenna over directions, as plain data. It has the shape of the pattern tables of `@finial/antenna`, so that one of those
 * can be handed over as it is.
 */
export interface GainPattern {
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

/** Gain in dBi towards an elevation and an azimuth in degrees. */
export type GainTowards = (elevationDeg: number, azimuthDeg: number) => number;

/**
 * Checks a pattern and prepares it for a million directions. Linear in decibels between the angles of the table, first over elevation,
 * then over azimuth, across north too; NaN beyond its elevations, where nothing is known.
 */
export function gainTowards(pattern: GainPattern, argument: string): GainTowards {
  checkObject(pattern, argument);
  const elevations = rising(
    pattern.elevationDeg,
    `${argument}.elevationDeg`,
    { min: -90, max: 90, unit: 'degrees' },
    2,
  );
  const azimuths =
    pattern.azimuthDeg === undefined
      ? Float64Array.of(0)
      : rising(
          pattern.azimuthDeg,
          `${argument}.azimuthDeg`,
          { min: 0, max: 359.999_999, unit: 'degrees' },
          1,
        );
  const gains = series(pattern.gainDbi, `${argument}.gainDbi`, { min: -200, max: 100, unit: 'dBi' });
  if (gains.length !== elevations.length * azimuths.length) {
    throw new InputError({
      code: 'out-of-range',
      argument: `${argument}.gainDbi`,
      received: gains.length,
      expected: `${elevations.length * azimuths.length} gains (${elevations.length} elevations for each of ${azimuths.length} azimuths)`,
    });
  }
  // The first azimuth once more, one turn on: then the seam of the circle is an interval like any other.
  const round = Float64Array.of(...azimuths, (azimuths[0] as number) + 360);
  const first = round[0] as number;

  return (elevationDeg, azimuthDeg) => {
    const low = intervalOf(elevations, elevationDeg);
    const [from, to] = [elevations[low] as number, elevations[low + 1] as number];
    if (!(elevationDeg >= (elevations[0] as number) && elevationDeg <= (elevations.at(-1) as number)))
      return Number.NaN;
    const share = (elevationDeg - from) / (to - from);
    const turned = first + ((((azimuthDeg - first) % 360) + 360) % 360);
    const left = intervalOf(round, turned);
    const shareOfTurn =
      (turned - (round[left] as number)) / ((round[left + 1] as number) - (round[left] as number));
    const right = (left + 1) % azimuths.length;
    return (1 - shareOfTurn) * along(left, low, share) + shareOfTurn * along(right, low, share);
  };

  function along(azimuth: number, low: number, share: number): number {
    const start = azimuth * elevations.length + low;
    return (1 - share) * (gains[start] as number) + share * (gains[start + 1] as number);
  }
}

/** The interval of rising angles that holds an angle; the first or last where it lies beyond. */
function intervalOf(angles: Float64Array, angleDeg: number): number {
  let [low, high] = [0, angles.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((angles[middle] as number) <= angleDeg) low = middle;
    else high = middle;
  }
  return low;
}

function rising(
  angles: GainPattern['gainDbi'],
  argument: string,
  bounds: RangeBounds,
  least: number,
): Float64Array {
  const checked = series(angles, argument, bounds);
  if (checked.length < least) {
    throw new InputError({
      code: 'missing',
      argument,
      received: checked.length,
      expected: `${least} or more angles`,
    });
  }
  const fall = checked.findIndex((angle, index) => index > 0 && angle <= (checked[index - 1] as number));
  if (fall < 0) return checked;
  throw new InputError({
    code: 'out-of-range',
    argument: `${argument}[${fall}]`,
    received: checked[fall],
    expected: `more than ${checked[fall - 1]} degrees: angles of a pattern rise`,
  });
}

function series(numbers: GainPattern['gainDbi'], argument: string, bounds: RangeBounds): Float64Array {
  if (!(numbers instanceof Float64Array) && !Array.isArray(numbers)) {
    throw new InputError({ code: 'wrong-type', argument, received: numbers, expected: 'a list of numbers' });
  }
  return Float64Array.from(numbers, (value, index) => checkRange(value, `${argument}[${index}]`, bounds));
}
