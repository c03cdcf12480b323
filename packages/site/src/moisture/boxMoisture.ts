import {
  celsiusToKelvin,
  checkInteger,
  checkList,
  checkObject,
  checkOneOf,
  checkRange,
  type Finding,
  InputError,
} from '@finial/units';
import { vapourDensity } from './absoluteHumidityKgPerM3.js';
import { desiccantByHumidity, desiccantUnits } from './desiccantUnits.js';
import { dewPointC } from './dewPointC.js';
import { magnusPressurePa } from './magnusPressurePa.js';
import { moistureFindings } from './moistureFindings.js';

/** One moment of a day, evenly spaced from the next; an `EnclosureHour` is one. */
export interface BoxMoment {
  /** Temperature of the walls in degrees C, -60 to 200. */
  readonly skinC: number;
  /** Temperature of the air inside in degrees C, -60 to 200. */
  readonly insideC: number;
}

/** A box, its day and the damp around it. */
export interface BoxInDamp {
  /** The day in equal steps, 2 to 1440 of them: the `hours` of an `EnclosureDay`. */
  readonly hours: readonly BoxMoment[];
  /** Temperature of the outside air in degrees C at which its humidity is stated, -45 to 60. */
  readonly airC: number;
  /** Relative humidity of the outside air at that temperature in per cent, 1 to 100; with a dew point of -45 degrees C or above. */
  readonly relativeHumidityPercent: number;
  /** Volume of air in the box in cubic metres, 0.00001 to 10. */
  readonly volumeM3: number;
  /** Surface of the box in square metres, 0.001 to 100. */
  readonly wallAreaM2: number;
  /** Whether the box is closed with gaskets and glands (and breathes a little every day), or has a membrane or open vent. */
  readonly breathing: 'gasketed' | 'vented';
  /**
   * Vapour through the walls in kilograms per square metre and day, 0 to 0.1.
   *
   * @defaultValue 0.0004
   */
  readonly wallVapourKgPerM2Day?: number | undefined;
  /**
   * Units of desiccant in the box, 0 to 1000.
   *
   * @defaultValue 0
   */
  readonly desiccantUnitsCount?: number | undefined;
  /**
   * How long until the next visit in days, 1 to 3650.
   *
   * @defaultValue 365
   */
  readonly serviceDays?: number | undefined;
  /** Whether every cable enters from below; leave out where unknown. */
  readonly glandsFaceDown?: boolean | undefined;
  /** Whether every cable hangs in a loop below its entry, so that water drips off; leave out where unknown. */
  readonly dripLoops?: boolean | undefined;
  /** Whether there is a drain at the lowest point; leave out where unknown. */
  readonly hasDrain?: boolean | undefined;
}

/** What damp does in a box. */
export interface BoxMoisture {
  /** Dew point of the outside air in degrees C; the air in an undried box comes to it within days. */
  readonly dewPointC: number;
  /** Time in seconds of a day during which the walls are colder than that. */
  readonly condensationSeconds: number;
  /** Coldest wall less dew point, in kelvin; negative where it grows wet. */
  readonly drynessMarginK: number;
  /** Most water in kilograms that the air shut in can drop on the walls in one night. */
  readonly condensateKg: number;
  /** Air in cubic metres that a closed box breathes in and out each day as it warms and cools. */
  readonly breathedM3: number;
  /** Water in kilograms that this air brings in a day while the box is dry. */
  readonly breathedWaterKg: number;
  /** Water in kilograms through the walls in a day, while the box is dry. */
  readonly wallWaterKg: number;
  /** Units of desiccant to hold 40 % to the next visit; not there for a vented box, which no bag can dry. */
  readonly neededUnitsCount?: number | undefined;
  /** Days that the desiccant in the box lasts, 36 500 at most; not there for a vented box. */
  readonly desiccantLifeDays?: number | undefined;
  /** What to mend and mind. */
  readonly findings: readonly Finding[];
}

const finalHumidity = 40;
const longestDays = 36500;

/**
 * Dew point, hours of condensation, and desiccant of an outdoor box through a day.
 *
 * The air in a box that nothing dries takes the dew point of the air outside, so its walls grow wet whenever they are colder; under a clear sky they fall
 * below the air. A closed box breathes the volume by which its air swells, all of it through its leaks. Rain that a gland sucks in, and water left inside, are
 * not counted: one wet gland outdoes any bag.
 *
 * @returns dew point within 0.1 K; condensation hours within about 2 where the margin is near zero; breathed water within a factor of 2
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number`, `out-of-range` or `outside-validity`
 * @source WMO-No. 8, annex 4.B (dew point); ideal-gas law (breathing, own derivation); DIN 55474 (desiccant)
 * @example A night that cools the walls below the dew point for half the time
 * ```ts
 * import { boxMoisture } from '@finial/site';
 *
 * const hours = [{ skinC: 10, insideC: 12 }, { skinC: 30, insideC: 35 }];
 * const damp = boxMoisture({ hours, airC: 27.76, relativeHumidityPercent: 60, volumeM3: 0.004, wallAreaM2: 0.16, breathing: 'gasketed' });
 * damp.dewPointC; // ≈ 19.3
 * damp.condensationSeconds / 3600; // ≈ 11
 * damp.findings.some(({ rule }) => rule === 'condensation'); // → true
 * ```
 */
export function boxMoisture(box: BoxInDamp): BoxMoisture {
  const {
    hours,
    airC,
    relativeHumidityPercent,
    volumeM3,
    wallAreaM2,
    breathing,
    serviceDays,
    units,
    vapour,
  } = checked(box);
  const dewC = dewPointOf(airC, relativeHumidityPercent);
  const condensationSeconds =
    86400 *
    shareBelow(
      hours.map(({ skinC }) => skinC),
      dewC,
    );
  const coldestC = Math.min(...hours.map(({ skinC }) => skinC));
  const insides = hours.map(({ insideC }) => celsiusToKelvin(insideC));
  const breathedM3 = volumeM3 * (1 - Math.min(...insides) / Math.max(...insides));
  const outsideDensity = vapourDensity(magnusPressurePa(dewC), airC);
  const breathedWaterKg = breathedM3 * outsideDensity;
  const wallWaterKg = wallAreaM2 * vapour;
  const condensateKg =
    volumeM3 * Math.max(0, outsideDensity - densityAt(Math.min(coldestC, dewC), airC, dewC));
  const shared = {
    dewPointC: dewC,
    condensationSeconds,
    drynessMarginK: coldestC - dewC,
    condensateKg,
    breathedM3,
    breathedWaterKg,
    wallWaterKg,
  };
  const desiccant =
    breathing === 'vented'
      ? {}
      : {
          neededUnitsCount: desiccantUnits({
            volumeM3,
            wallAreaM2,
            wallVapourKgPerM2Day: vapour,
            durationDays: serviceDays,
            finalHumidityPercent: finalHumidity,
            ingressKg: Math.min(1000, breathedWaterKg * serviceDays),
          }).unitsCount,
          desiccantLifeDays: lifeDays(units, volumeM3, wallWaterKg, breathedWaterKg),
        };
  const findings = moistureFindings(
    { ...shared, ...desiccant, breathing, serviceDays, unitsCount: units },
    box,
  );
  return { ...shared, ...desiccant, findings };
}

/** How long so many units hold 40 %. */
function lifeDays(units: number, volumeM3: number, wallWaterKg: number, breathedWaterKg: number): number {
  const { capacityKg, ratio } = desiccantByHumidity[finalHumidity];
  const spareKg = units * capacityKg - volumeM3 * 0.015;
  if (spareKg <= 0) return 0;
  const dailyKg = wallWaterKg * ratio + breathedWaterKg;
  return dailyKg * longestDays <= spareKg ? longestDays : spareKg / dailyKg;
}

/** Water left in the air of the box over a wall this cold; below the reach of the Magnus form all of it has dropped. */
function densityAt(wallC: number, airC: number, dewC: number): number {
  if (wallC >= dewC) return vapourDensity(magnusPressurePa(dewC), airC);
  return wallC < -45 ? 0 : vapourDensity(magnusPressurePa(wallC), airC);
}

/** Share of a repeating day during which a quantity, straight between its samples, is below a level. */
function shareBelow(samples: readonly number[], level: number): number {
  let share = 0;
  for (const [at, from] of samples.entries()) {
    const to = samples[(at + 1) % samples.length] ?? from;
    if (from < level && to < level) share += 1;
    else if (from < level) share += (level - from) / (to - from);
    else if (to < level) share += (level - to) / (from - to);
  }
  return share / samples.length;
}

function dewPointOf(temperatureC: number, relativeHumidityPercent: number): number {
  checkRange(temperatureC, 'box.airC', { min: -45, max: 60, unit: 'degrees Celsius' });
  checkRange(relativeHumidityPercent, 'box.relativeHumidityPercent', { min: 1, max: 100, unit: 'per cent' });
  return dewPointC({ temperatureC, relativeHumidityPercent });
}

function checked(box: BoxInDamp) {
  const { hours, airC, relativeHumidityPercent, volumeM3, wallAreaM2, breathing } = checkObject(box, 'box');
  const { wallVapourKgPerM2Day: vapour = 0.0004, desiccantUnitsCount: units = 0, serviceDays = 365 } = box;
  checkList(hours, 'box.hours');
  checkInteger(hours.length, 'box.hours.length', { min: 2, max: 1440, unit: 'steps' });
  const celsius = { min: -60, max: 200, unit: 'degrees Celsius' };
  for (const [at, moment] of hours.entries()) {
    checkObject(moment, `box.hours[${at}]`);
    checkRange(moment.skinC, `box.hours[${at}].skinC`, celsius);
    checkRange(moment.insideC, `box.hours[${at}].insideC`, celsius);
  }
  checkRange(volumeM3, 'box.volumeM3', { min: 1e-5, max: 10, unit: 'cubic metres' });
  checkRange(wallAreaM2, 'box.wallAreaM2', { min: 1e-3, max: 100, unit: 'square metres' });
  checkOneOf(breathing, 'box.breathing', ['gasketed', 'vented']);
  checkRange(vapour, 'box.wallVapourKgPerM2Day', {
    min: 0,
    max: 0.1,
    unit: 'kilograms per square metre and day',
  });
  checkRange(units, 'box.desiccantUnitsCount', { min: 0, max: 1000, unit: 'units' });
  checkRange(serviceDays, 'box.serviceDays', { min: 1, max: 3650, unit: 'days' });
  for (const flag of ['glandsFaceDown', 'dripLoops', 'hasDrain'] as const) {
    const value: unknown = box[flag];
    if (value === undefined || typeof value === 'boolean') continue;
    throw new InputError({
      code: 'wrong-type',
      argument: `box.${flag}`,
      received: value,
      expected: 'true or false',
    });
  }
  return {
    hours,
    airC,
    relativeHumidityPercent,
    volumeM3,
    wallAreaM2,
    breathing,
    serviceDays,
    units,
    vapour,
  };
}
