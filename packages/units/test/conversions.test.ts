import {
  celsiusToFahrenheit,
  celsiusToKelvin,
  dbdToDbi,
  dbiToDbd,
  degreesToRadians,
  fahrenheitToCelsius,
  feetToMetres,
  fieldStrengthDbuvPerM,
  kelvinToCelsius,
  metresToFeet,
  metresToMiles,
  milesPerHourToMetresPerSecond,
  milesToMetres,
  radiansToDegrees,
} from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import hardware from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };

describe('published values', () => {
  // NIST Special Publication 811 (2008), appendix B.8; the foot and the mile also in NBS AMS 55 (1964), table 2.5.
  test('lengths and speeds', () => {
    expect(feetToMetres(1)).toBe(0.3048);
    expect(milesToMetres(1)).toBe(1609.344);
    expect(milesPerHourToMetresPerSecond(1)).toBe(0.44704);
    expect(metresToFeet(0.3048)).toBe(1);
    expect(metresToMiles(1609.344)).toBe(1);
  });

  // The mile is 5280 feet (NIST Handbook 44, appendix C).
  test('a mile of feet', () => {
    expect(feetToMetres(5280)).toBeCloseTo(milesToMetres(1), 10);
  });

  // tests/reference/hardware-vectors.json, `awg`: published ohms per 1000 ft and per km of the same wire, each rounded (NBS Circular 31).
  test.each(hardware.awg)(
    'resistance of $awg AWG per 1000 ft and per km',
    ({ publishedOhmPer1000ft, publishedOhmPerKm }) => {
      const perKm = (publishedOhmPer1000ft / feetToMetres(1000)) * 1000;
      expect(Math.abs(perKm / publishedOhmPerKm - 1)).toBeLessThan(5e-4);
    },
  );

  // Defining fixed points of the International Temperature Scale of 1990 (Preston-Thomas, Metrologia 27 (1990) 3–10, table 1:
  // kelvin and degrees Celsius); degrees Fahrenheit from the summary table published with it, to four or fewer decimals.
  test.each([
    ['neon, triple point', 24.5561, -248.5939, -415.469],
    ['argon, triple point', 83.8058, -189.3442, -308.8196],
    ['mercury, triple point', 234.3156, -38.8344, -37.9019],
    ['water, triple point', 273.16, 0.01, 32.018],
    ['gallium, melting', 302.9146, 29.7646, 85.5763],
    ['tin, freezing', 505.078, 231.928, 449.47],
    ['copper, freezing', 1357.77, 1084.62, 1984.32],
  ])('%s', (_, kelvin, celsius, fahrenheit) => {
    expect(celsiusToKelvin(celsius)).toBeCloseTo(kelvin, 9);
    expect(kelvinToCelsius(kelvin)).toBeCloseTo(celsius, 9);
    const digits = (String(fahrenheit).split('.')[1] ?? '').length;
    expect(celsiusToFahrenheit(celsius)).toBeCloseTo(fahrenheit, digits);
    expect(fahrenheitToCelsius(fahrenheit)).toBeCloseTo(celsius, digits);
  });

  // The two conventional points of the Fahrenheit scale (ice 32, steam 212) and the value at which both scales agree.
  test.each([
    [0, 32],
    [100, 212],
    [-40, -40],
    [37, 98.6],
  ])('%d degrees Celsius is %d degrees Fahrenheit', (celsius, fahrenheit) => {
    expect(celsiusToFahrenheit(celsius)).toBeCloseTo(fahrenheit, 12);
    expect(fahrenheitToCelsius(fahrenheit)).toBeCloseTo(celsius, 12);
  });

  // SI Brochure, 9th edition (2019), section 2.3.1: 0 K is −273.15 °C.
  test('absolute zero is the least accepted temperature on every scale', () => {
    expect(kelvinToCelsius(0)).toBe(-273.15);
    expect(celsiusToKelvin(-273.15)).toBe(0);
    expect(fahrenheitToCelsius(-459.67)).toBeCloseTo(-273.15, 12);
    expect(celsiusToFahrenheit(-273.15)).toBeCloseTo(-459.67, 12);
  });

  // NBS AMS 55 (1964), table 1.1: 1 degree is 0.01745 32925 radian; 1 radian is 57.29577 95131 degrees.
  test('angles', () => {
    expect(degreesToRadians(1)).toBeCloseTo(0.0174532925, 10);
    expect(radiansToDegrees(1)).toBeCloseTo(57.2957795131, 10);
  });

  // Recommendation ITU-R BS.561-2, section 1: 2.15 dB between e.i.r.p. and e.r.p.; the gain of the thin half-wave dipole is 2.15 dBi.
  test('gain over a dipole', () => {
    expect(dbdToDbi(0)).toBe(2.15);
    expect(dbiToDbd(2.15)).toBe(0);
  });

  test.each([
    // 47 CFR 15.249(a): 50 mV/m at 3 m. 20 lg 50 000 = 93.979; the level −1.25 dBm is tests/reference's page on the 915 MHz rules.
    { eirpDbm: -1.25, distanceM: 3, millivoltsPerM: 50, withinDb: 0.02 },
    // Recommendation ITU-R P.525, Annex 1, equation (2): e = 173 √p / d, in mV/m, kW and km. 1 kW at 1 km; 4 kW at 10 km.
    { eirpDbm: 60, distanceM: 1e3, millivoltsPerM: 173, withinDb: 0.03 },
    { eirpDbm: 66.0206, distanceM: 10e3, millivoltsPerM: 34.6, withinDb: 0.03 },
    // Recommendation ITU-R P.1546, maximum field of 1 kW e.r.p. on land: 106.9 − 20 lg d dB(µV/m), d in km (from memory).
    { eirpDbm: 62.15, distanceM: 1e3, millivoltsPerM: 10 ** ((106.9 - 60) / 20), withinDb: 0.03 },
    // 47 CFR 15.209(a): 200 µV/m at 3 m, which laboratories use as −49.2 dBm e.i.r.p. (from memory).
    { eirpDbm: -49.2, distanceM: 3, millivoltsPerM: 0.2, withinDb: 0.05 },
  ])('$eirpDbm dBm makes $millivoltsPerM mV/m at $distanceM m', (row) => {
    const published = 20 * Math.log10(row.millivoltsPerM * 1000);
    expect(Math.abs(fieldStrengthDbuvPerM(row) - published)).toBeLessThan(row.withinDb);
  });
});

describe('properties', () => {
  const size = fc.double({ min: -1e12, max: 1e12, noNaN: true });
  const warm = fc.double({ min: -273.15, max: 1e6, noNaN: true });
  // The last term is for the smallest doubles, which have too few digits left for a relative error.
  const closeTo = (actual: number, wanted: number, scale = Math.abs(wanted)) =>
    expect(Math.abs(actual - wanted)).toBeLessThanOrEqual(1e-12 * scale + 1e-300);

  test('pairs are inverse to each other', () => {
    fc.assert(
      fc.property(size, (value) => {
        closeTo(metresToFeet(feetToMetres(value)), value);
        closeTo(metresToMiles(milesToMetres(value)), value);
        closeTo(radiansToDegrees(degreesToRadians(value)), value);
        closeTo(dbiToDbd(dbdToDbi(value)), value, Math.abs(value) + 3);
      }),
    );
    fc.assert(
      fc.property(warm, (value) => {
        closeTo(kelvinToCelsius(celsiusToKelvin(value)), value, Math.abs(value) + 300);
        closeTo(fahrenheitToCelsius(celsiusToFahrenheit(value)), value, Math.abs(value) + 300);
      }),
    );
  });

  test('more in is more out', () => {
    const warmCalls = [celsiusToKelvin, celsiusToFahrenheit];
    const sizeCalls = [feetToMetres, metresToFeet, milesToMetres, metresToMiles, degreesToRadians, dbdToDbi];
    fc.assert(
      fc.property(size, size, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-3);
        for (const call of sizeCalls) expect(Math.sign(call(a) - call(b))).toBe(Math.sign(a - b));
      }),
    );
    fc.assert(
      fc.property(warm, warm, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        for (const call of warmCalls) expect(Math.sign(call(a) - call(b))).toBe(Math.sign(a - b));
      }),
    );
  });

  test('an hour at a speed is its miles', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (speedMph) => {
        closeTo(3600 * milesPerHourToMetresPerSecond(speedMph), milesToMetres(speedMph));
      }),
    );
  });

  test('ten times the distance takes 20 dB from the field, and 1 dB of power gives 1 dB of field', () => {
    const distance = fc.double({ min: 1e-3, max: 1e8, noNaN: true });
    const power = fc.double({ min: -200, max: 100, noNaN: true });
    fc.assert(
      fc.property(power, distance, (eirpDbm, distanceM) => {
        const here = fieldStrengthDbuvPerM({ eirpDbm, distanceM });
        closeTo(fieldStrengthDbuvPerM({ eirpDbm, distanceM: 10 * distanceM }), here - 20, 1e3);
        closeTo(fieldStrengthDbuvPerM({ eirpDbm: eirpDbm + 1, distanceM }), here + 1, 1e3);
      }),
    );
  });

  test('the greatest accepted sizes still give finite numbers', () => {
    for (const call of [
      feetToMetres,
      metresToFeet,
      milesToMetres,
      metresToMiles,
      degreesToRadians,
      radiansToDegrees,
    ]) {
      expect(call(1e300)).toBeGreaterThan(0);
      expect(Number.isFinite(call(1e300))).toBe(true);
      expect(Number.isFinite(call(-1e300))).toBe(true);
      expect(() => call(1.1e300)).toThrow(expect.objectContaining({ code: 'out-of-range' }));
    }
  });
});

describe('refusals', () => {
  const calls: readonly (readonly [string, (value: number) => number])[] = [
    ['lengthFt', feetToMetres],
    ['lengthM', metresToFeet],
    ['distanceMi', milesToMetres],
    ['distanceM', metresToMiles],
    ['temperatureC', celsiusToKelvin],
    ['temperatureK', kelvinToCelsius],
    ['temperatureF', fahrenheitToCelsius],
    ['temperatureC', celsiusToFahrenheit],
    ['angleDeg', degreesToRadians],
    ['angleRad', radiansToDegrees],
    ['speedMph', milesPerHourToMetresPerSecond],
    ['gainDbd', dbdToDbi],
    ['gainDbi', dbiToDbd],
    ['eirpDbm', (eirpDbm) => fieldStrengthDbuvPerM({ eirpDbm, distanceM: 3 })],
    ['distanceM', (distanceM) => fieldStrengthDbuvPerM({ eirpDbm: 0, distanceM })],
  ];

  test.each(calls)('%s is refused by name (%o)', (argument, call) => {
    for (const value of [NaN, Infinity, -Infinity, '3', null, undefined, {}, [3]]) {
      expect(() => call(value as number)).toThrow(
        expect.objectContaining({
          name: 'InputError',
          code: 'not-a-finite-number',
          argument,
          received: value,
        }),
      );
    }
  });

  test.each([
    ['temperatureC', celsiusToKelvin, -273.16],
    ['temperatureC', celsiusToFahrenheit, -273.16],
    ['temperatureF', fahrenheitToCelsius, -459.68],
    ['temperatureK', kelvinToCelsius, -1e-9],
    ['speedMph', milesPerHourToMetresPerSecond, -0.1],
  ] as const)('%s below its least value', (argument, call, value) => {
    expect(() => call(value)).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'out-of-range', argument }),
    );
  });

  test.each([0, -3, 1e-4, 1e10])('a field at %d m', (distanceM) => {
    expect(() => fieldStrengthDbuvPerM({ eirpDbm: 0, distanceM })).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'out-of-range', argument: 'distanceM' }),
    );
  });
});
