import { checkList, checkObject, checkRange, InputError } from '@finial/units';

/** One frame of a fixed beacon that the gateway received. */
export interface BeaconReading {
  /** When it was received, in seconds of any epoch, -4e9 to 4e9; later than the reading before. */
  readonly timeSeconds: number;
  /** Level in dBm, -250 to 20; best the signal's own power, see `effectiveSignalPowerDbm`. */
  readonly levelDbm: number;
  /** Air temperature in degrees Celsius, -90 to 90, at the gateway or the beacon, the same place always. */
  readonly temperatureC?: number | undefined;
}

/** Refuses a series that is not in order of time, or whose numbers no beacon could give. */
export function checkSeries(series: readonly BeaconReading[]): readonly BeaconReading[] {
  let before = -Infinity;
  checkList(series, 'series').forEach((reading, index) => {
    const path = `series[${index}]`;
    checkObject(reading, path);
    const timeSeconds = checkRange(reading.timeSeconds, `${path}.timeSeconds`, {
      min: -4e9,
      max: 4e9,
      unit: 'seconds',
    });
    checkRange(reading.levelDbm, `${path}.levelDbm`, { min: -250, max: 20, unit: 'dBm' });
    if (reading.temperatureC !== undefined) {
      checkRange(reading.temperatureC, `${path}.temperatureC`, {
        min: -90,
        max: 90,
        unit: 'degrees Celsius',
      });
    }
    if (timeSeconds <= before) {
      throw new InputError({
        code: 'out-of-range',
        argument: `${path}.timeSeconds`,
        received: timeSeconds,
        expected: `more than ${before}, the time of the reading before`,
      });
    }
    before = timeSeconds;
  });
  return series;
}
