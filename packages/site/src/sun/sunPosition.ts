import { checkObject, checkRange, degreesToRadians, radiansToDegrees } from '@finial/units';

/** When and where the sun is looked at. */
export interface SunSighting {
  /** Time in seconds of UTC since 1970-01-01, -2208988800 (year 1900) to 4102444800 (year 2100). */
  readonly timeSeconds: number;
  /** Latitude in degrees, -90 to 90, north positive. */
  readonly latitudeDeg: number;
  /** Longitude in degrees, -180 to 180, east positive. */
  readonly longitudeDeg: number;
}

/** Where the sun stands. */
export interface SunPosition {
  /** Elevation of the sun's centre above the horizon in degrees, without refraction; negative at night. */
  readonly elevationDeg: number;
  /** Azimuth in degrees, clockwise from true north, 0 to below 360. */
  readonly azimuthDeg: number;
  /** Apparent declination in degrees. */
  readonly declinationDeg: number;
  /** Apparent right ascension in degrees, 0 to below 360. */
  readonly rightAscensionDeg: number;
  /** Apparent solar time less mean solar time, in seconds. */
  readonly equationOfTimeSeconds: number;
}

const earliestSeconds = -2208988800;
const latestSeconds = 4102444800;
/** 2000-01-01 12:00, from which the series count. */
const epochSeconds = 946728000;
const centurySeconds = 36525 * 86400;

/**
 * Where the sun stands at a time and a place, by the low-accuracy solar series.
 *
 * Refraction is left out: it lifts the sun by about 0.5 degrees at the horizon and by less than 0.1 above 10 degrees. UTC is taken for
 * terrestrial time; the minute between them moves the sun along its path by less than 0.001 degrees. At a pole the azimuth means nothing.
 *
 * @returns angles within 0.02 degrees from 1900 to 2100
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source J. Meeus, Astronomical Algorithms, 2nd edition (1998), chapters 25 (low accuracy), 28 and 13: the series of the NOAA solar calculator
 * @example Half past noon by the clock in Colorado, 17 October 2003
 * ```ts
 * import { sunPosition } from '@finial/site';
 *
 * const sun = sunPosition({ timeSeconds: 1066419030, latitudeDeg: 39.742476, longitudeDeg: -105.1786 });
 * sun.elevationDeg; // ≈ 39.9
 * sun.azimuthDeg; // ≈ 194.3
 * ```
 */
export function sunPosition(sighting: SunSighting): SunPosition {
  const { timeSeconds, latitudeDeg, longitudeDeg } = checkObject(sighting, 'sighting');
  checkRange(timeSeconds, 'sighting.timeSeconds', {
    min: earliestSeconds,
    max: latestSeconds,
    unit: 'seconds since 1970',
  });
  checkRange(latitudeDeg, 'sighting.latitudeDeg', { min: -90, max: 90, unit: 'degrees' });
  checkRange(longitudeDeg, 'sighting.longitudeDeg', { min: -180, max: 180, unit: 'degrees' });

  const { declination, rightAscension, meanRightAscensionDeg } = equatorial(
    (timeSeconds - epochSeconds) / centurySeconds,
  );
  // How far the sun's right ascension is ahead of that of the mean sun, brought to within half a turn.
  const lagDeg = wrapped(radiansToDegrees(rightAscension) - meanRightAscensionDeg + 180) - 180;
  const equationOfTimeSeconds = -lagDeg * 240;
  const hourAngle = degreesToRadians(
    wrapped(((timeSeconds % 86400) + equationOfTimeSeconds) / 240 + longitudeDeg - 180),
  );
  const latitude = degreesToRadians(latitudeDeg);
  const sine =
    Math.sin(latitude) * Math.sin(declination) +
    Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle);
  const azimuth = Math.atan2(
    -Math.cos(declination) * Math.sin(hourAngle),
    Math.sin(declination) * Math.cos(latitude) -
      Math.cos(declination) * Math.sin(latitude) * Math.cos(hourAngle),
  );
  return {
    elevationDeg: radiansToDegrees(Math.asin(Math.min(1, Math.max(-1, sine)))),
    azimuthDeg: wrapped(radiansToDegrees(azimuth)),
    declinationDeg: radiansToDegrees(declination),
    rightAscensionDeg: wrapped(radiansToDegrees(rightAscension)),
    equationOfTimeSeconds,
  };
}

/** Apparent place of the sun, in radians, and the right ascension of the mean sun, a number of Julian centuries after 2000. */
function equatorial(centuries: number): {
  declination: number;
  rightAscension: number;
  meanRightAscensionDeg: number;
} {
  const t = centuries;
  const meanLongitudeDeg = wrapped(280.46646 + t * (36000.76983 + t * 0.0003032));
  const anomaly = degreesToRadians(wrapped(357.52911 + t * (35999.05029 - t * 0.0001537)));
  const centreDeg =
    (1.914602 - t * (0.004817 + t * 0.000014)) * Math.sin(anomaly) +
    (0.019993 - 0.000101 * t) * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly);
  const node = degreesToRadians(wrapped(125.04 - 1934.136 * t));
  const nutationDeg = -0.00478 * Math.sin(node);
  const longitude = degreesToRadians(meanLongitudeDeg + centreDeg - 0.00569 + nutationDeg);
  const obliquity = degreesToRadians(23.4392911 - 0.0130042 * t + 0.00256 * Math.cos(node));
  return {
    declination: Math.asin(Math.sin(obliquity) * Math.sin(longitude)),
    rightAscension: Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude)),
    meanRightAscensionDeg: meanLongitudeDeg - 0.0057183 + nutationDeg * Math.cos(obliquity),
  };
}

/** Into 0 to below 360 degrees. */
function wrapped(angleDeg: number): number {
  const rest = ((angleDeg % 360) + 360) % 360;
  return rest === 360 ? 0 : rest;
}
