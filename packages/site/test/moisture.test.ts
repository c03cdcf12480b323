import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { enclosureDay } from '../src/heat/enclosureDay.js';
import { absoluteHumidityKgPerM3 } from '../src/moisture/absoluteHumidityKgPerM3.js';
import { type BoxInDamp, boxMoisture } from '../src/moisture/boxMoisture.js';
import { desiccantUnits } from '../src/moisture/desiccantUnits.js';
import { dewPointC } from '../src/moisture/dewPointC.js';
import { magnusPressurePa } from '../src/moisture/magnusPressurePa.js';
import { saturationPressurePa } from '../src/moisture/saturationPressurePa.js';

const vectors = JSON.parse(
  readFileSync(new URL('../../../tests/reference/hardware-vectors.json', import.meta.url), 'utf8'),
);
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

// tests/reference/hardware-vectors.json, saturationPressureHpa: IAPWS and WMO-No. 8 annex 4.B.
describe('saturation', () => {
  test.each(Object.entries(vectors.saturationPressureHpa.iapws as Record<string, number>))(
    'IAPWS %s °C',
    (at, hPa) => {
      expect(saturationPressurePa(Number(at)) / 100).toBeCloseTo(hPa, 2);
    },
  );
  test.each(Object.entries(vectors.saturationPressureHpa.magnusWmo as Record<string, number>))(
    'WMO %s °C',
    (at, hPa) => {
      expect(magnusPressurePa(Number(at)) / 100).toBeCloseTo(hPa, 2);
    },
  );
  // Normal boiling point of water, 99.974 degrees C at 101325 Pa (IAPWS-95).
  test('boils at one atmosphere', () => {
    expect(saturationPressurePa(99.974) / 101325).toBeCloseTo(1, 4);
  });
  test('grows, and both agree within 0.6 %', () => {
    fc.assert(
      fc.property(real(0.01, 59), real(0.01, 1), (temperatureC, moreC) => {
        const full = saturationPressurePa(temperatureC);
        expect(saturationPressurePa(temperatureC + moreC)).toBeGreaterThan(full);
        expect(Math.abs(magnusPressurePa(temperatureC) / full - 1)).toBeLessThan(0.006);
      }),
    );
  });
});

test('absolute humidity goes with the relative, and warm air holds more', () => {
  fc.assert(
    fc.property(real(0, 55), real(1, 50), (temperatureC, relativeHumidityPercent) => {
      const damp = absoluteHumidityKgPerM3({ temperatureC, relativeHumidityPercent });
      const double = { temperatureC, relativeHumidityPercent: 2 * relativeHumidityPercent };
      expect(absoluteHumidityKgPerM3(double) / damp).toBeCloseTo(2, 9);
      const warmer = { temperatureC: temperatureC + 1, relativeHumidityPercent };
      expect(absoluteHumidityKgPerM3(warmer)).toBeGreaterThan(damp);
    }),
  );
});

describe('dewPointC', () => {
  type Row = { temperatureC: number; rhPercent: number; dewPointMagnusC: number; dewPointIapwsC: number };
  test.each(vectors.dewPoint as Row[])('$temperatureC °C, $rhPercent %', (row) => {
    const air = { temperatureC: row.temperatureC, relativeHumidityPercent: row.rhPercent };
    expect(dewPointC(air)).toBeCloseTo(row.dewPointMagnusC, 2);
    expect(dewPointC({ ...air, formula: 'iapws' })).toBeCloseTo(row.dewPointIapwsC, 2);
  });
  test('full air is at its dew point; drier air is above it', () => {
    fc.assert(
      fc.property(real(0, 60), real(10, 99), (temperatureC, relativeHumidityPercent) => {
        expect(dewPointC({ temperatureC, relativeHumidityPercent: 100 })).toBeCloseTo(temperatureC, 6);
        expect(dewPointC({ temperatureC, relativeHumidityPercent })).toBeLessThan(temperatureC);
      }),
    );
  });
  test('refuses a dew point beyond the formula', () => {
    expect(() => dewPointC({ temperatureC: -40, relativeHumidityPercent: 5 })).toThrow(
      /relativeHumidityPercent/,
    );
    expect(() => dewPointC({ temperatureC: 5, relativeHumidityPercent: 20, formula: 'iapws' })).toThrow(
      /0\.01/,
    );
  });
});

describe('absoluteHumidityKgPerM3', () => {
  type Row = { temperatureC: number; rhPercent: number; gPerM3: number };
  test.each(vectors.absoluteHumidityGm3 as Row[])('$temperatureC °C, $rhPercent %', (row) => {
    const air = {
      temperatureC: row.temperatureC,
      relativeHumidityPercent: row.rhPercent,
      formula: 'iapws',
    } as const;
    expect(Math.abs(absoluteHumidityKgPerM3(air) * 1000 - row.gPerM3)).toBeLessThan(0.02);
  });
});

// DIN 55474: tests/reference/hardware-vectors.json, desiccantExamples. The second has no build-up factor (e = 1), which ours always applies.
describe('desiccantUnits', () => {
  const [box, crate] = vectors.desiccantExamples;
  test('a 4 litre box for a year', () => {
    const need = desiccantUnits({
      volumeM3: box.volumeM3,
      wallAreaM2: box.areaM2,
      wallVapourKgPerM2Day: box.permeabilityGm2d / 1000,
      durationDays: box.days,
      finalHumidityPercent: 40,
    });
    expect(need.exactUnitsCount).toBeCloseTo(box.units, 3);
    expect(need.unitsCount).toBe(3);
  });
  test('a crate with packing', () => {
    const need = desiccantUnits({
      volumeM3: 0,
      packingKg: crate.massKg,
      packingWaterRatio: crate.c / 1000,
      wallAreaM2: crate.areaM2 / 0.7,
      wallVapourKgPerM2Day: crate.permeabilityGm2d / 1000,
      durationDays: crate.days,
      finalHumidityPercent: 40,
    });
    expect(need.exactUnitsCount).toBeCloseTo(crate.units, 6);
    expect(need.unitsCount).toBe(40);
  });
  test('twice of everything takes twice the units', () => {
    fc.assert(
      fc.property(
        real(0, 1),
        real(0, 10),
        real(0, 0.01),
        real(0, 1000),
        fc.constantFrom(20, 40, 60),
        (volumeM3, wallAreaM2, wallVapourKgPerM2Day, durationDays, finalHumidityPercent) => {
          const task = {
            volumeM3,
            wallAreaM2,
            wallVapourKgPerM2Day,
            durationDays,
            finalHumidityPercent: finalHumidityPercent as 20 | 40 | 60,
          };
          const one = desiccantUnits(task);
          const two = desiccantUnits({ ...task, volumeM3: 2 * volumeM3, wallAreaM2: 2 * wallAreaM2 });
          expect(two.exactUnitsCount).toBeCloseTo(2 * one.exactUnitsCount, 6);
          const waterKg = one.airWaterKg + one.packingWaterKg + one.wallWaterKg + one.ingressKg;
          expect(one.unitsCount * one.unitCapacityKg).toBeGreaterThan(waterKg - 1e-8);
        },
      ),
    );
  });
});

describe('boxMoisture', () => {
  const damp: BoxInDamp = {
    hours: [
      { skinC: 5, insideC: 7 },
      { skinC: 35, insideC: 40 },
    ],
    airC: 20,
    relativeHumidityPercent: 100,
    volumeM3: 0.004,
    wallAreaM2: 0.13,
    breathing: 'gasketed',
  };

  // By hand: straight between 5 and 35 degrees, 20 is crossed half way both times: half of the day.
  test('hours below the dew point', () => {
    expect(boxMoisture(damp).condensationSeconds).toBeCloseTo(43200, 0);
    expect(boxMoisture(damp).drynessMarginK).toBeCloseTo(-15, 6);
  });

  // By hand: 4 l swell by (313.15 - 280.15) / 313.15 = 10.54 %; 17.29 g/m³ at 20 degrees C (absoluteHumidityGm3 of the vectors, IAPWS).
  test('water breathed in a day', () => {
    const { breathedM3, breathedWaterKg } = boxMoisture(damp);
    expect(breathedM3).toBeCloseTo(0.004 * 0.10538, 8);
    expect(Math.abs(breathedWaterKg / (breathedM3 * 0.01729) - 1)).toBeLessThan(0.005);
  });

  test('desiccant lasts in proportion, and the need fits its life', () => {
    const life = (desiccantUnitsCount: number) =>
      boxMoisture({ ...damp, desiccantUnitsCount }).desiccantLifeDays ?? 0;
    expect(life(0)).toBe(0);
    // The air shut in takes the same share of each supply, so equal steps add equal days.
    expect(life(4) - life(3)).toBeCloseTo(life(3) - life(2), 6);
    const needed = boxMoisture(damp).neededUnitsCount ?? 0;
    expect(life(needed)).toBeGreaterThanOrEqual(365);
    expect(life(needed - 1)).toBeLessThan(365);
  });

  test('drier air wets for less time', () => {
    fc.assert(
      fc.property(real(5, 99), real(0.01, 1), (relativeHumidityPercent, more) => {
        const dry = boxMoisture({ ...damp, relativeHumidityPercent });
        const wet = boxMoisture({ ...damp, relativeHumidityPercent: relativeHumidityPercent + more });
        expect(wet.condensationSeconds).toBeGreaterThanOrEqual(dry.condensationSeconds);
        expect(wet.condensateKg).toBeGreaterThanOrEqual(dry.condensateKg);
        expect(dry.condensateKg).toBeLessThanOrEqual(0.004 * 0.0175);
      }),
    );
  });

  test('says what is wrong with the box', () => {
    const rules = (change: Partial<BoxInDamp>) =>
      boxMoisture({ ...damp, ...change }).findings.map(({ rule, severity }) => `${rule} ${severity}`);
    expect(rules({})).toEqual(['condensation fix', 'membrane-vent note']);
    expect(rules({ breathing: 'vented', hasDrain: true })).toEqual(['condensation note']);
    expect(rules({ breathing: 'vented', hasDrain: true, relativeHumidityPercent: 10 })).toEqual([]);
    expect(rules({ desiccantUnitsCount: 1 })).toContain('desiccant-life fix');
    expect(rules({ breathing: 'vented', desiccantUnitsCount: 1 })).toContain('desiccant-vented note');
    expect(rules({ glandsFaceDown: false, dripLoops: false, hasDrain: false })).toEqual(
      expect.arrayContaining(['glands-face-down fix', 'drip-loop fix', 'drain note']),
    );
  });

  test('takes the hours of a day as they come; power inside keeps the walls dry', () => {
    const wetTime = (powerW: number) => {
      const { hours } = enclosureDay({
        widthM: 0.2,
        heightM: 0.2,
        depthM: 0.1,
        mounting: 'free-standing',
        faceAzimuthDeg: 180,
        powerW,
        colour: 'white',
        date: '2026-10-10',
        latitudeDeg: 48,
        longitudeDeg: 11,
        highestAirC: 18,
        lowestAirC: 6,
      });
      return boxMoisture({ ...damp, hours, airC: 6, relativeHumidityPercent: 90 }).condensationSeconds;
    };
    expect(wetTime(0)).toBeGreaterThan(3600);
    expect(wetTime(10)).toBe(0);
  });

  test('refuses a list that is none', () => {
    expect(() => boxMoisture({ ...damp, hours: [] })).toThrow(/box\.hours/);
    expect(() =>
      boxMoisture({
        ...damp,
        hours: [
          { skinC: Number.NaN, insideC: 1 },
          { skinC: 1, insideC: 1 },
        ],
      }),
    ).toThrow(/skinC/);
  });
});
