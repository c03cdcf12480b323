import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { effectiveAreaM2 } from '../src/heat/effectiveAreaM2.js';
import { enclosureBalance } from '../src/heat/enclosureBalance.js';
import { enclosureDay } from '../src/heat/enclosureDay.js';
import { enclosureRiseK } from '../src/heat/enclosureRiseK.js';
import { surfaceConvectionWPerM2K } from '../src/heat/surfaceConvection.js';

const vectors = JSON.parse(
  readFileSync(new URL('../../../tests/reference/hardware-vectors.json', import.meta.url), 'utf8'),
);
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const box = {
  widthM: 0.2,
  heightM: 0.25,
  depthM: 0.1,
  mounting: 'free-standing',
  faceAzimuthDeg: 180,
  powerW: 5,
  absorptivityRatio: 0.85,
} as const;
const still = { airC: 35, sunElevationDeg: 50, sunAzimuthDeg: 230 };
const summer = {
  date: '2026-07-15',
  latitudeDeg: 38,
  longitudeDeg: 23.7,
  highestAirC: 42,
  lowestAirC: 28,
};

// Handbook balance: tests/reference/hardware-vectors.json, heatExamples.
describe('enclosureRiseK', () => {
  type Row = {
    P: number;
    alpha: number;
    G: number;
    sunAreaM2: number;
    U: number;
    areaM2: number;
    riseK: number;
  };
  test.each(vectors.heatExamples as Row[])('$P W, absorptivity $alpha, $G W/m²', (row) => {
    const rise = enclosureRiseK({
      powerW: row.P,
      absorptivityRatio: row.alpha,
      irradianceWPerM2: row.G,
      sunlitAreaM2: row.sunAreaM2,
      transferWPerM2K: row.U,
      areaM2: row.areaM2,
    });
    expect(rise).toBeCloseTo(row.riseK, 2);
  });
});

// IEC TR 60890: 1.4 times a horizontal top, 1.8 times the sides of a free box (from memory); a 2 m by 0.6 m by 0.4 m cabinet by hand.
test('effectiveAreaM2', () => {
  const shape = { widthM: 0.6, heightM: 2, depthM: 0.4 };
  expect(effectiveAreaM2({ ...shape, mounting: 'free-standing' })).toBeCloseTo(3.936, 6);
  expect(effectiveAreaM2({ ...shape, mounting: 'wall' })).toBeCloseTo(3.456, 6);
});

test('a box twice as large in every measure has four times the area; a wall takes some away', () => {
  const side = real(0.02, 2.5);
  fc.assert(
    fc.property(side, side, side, (widthM, heightM, depthM) => {
      const free = effectiveAreaM2({ widthM, heightM, depthM, mounting: 'free-standing' });
      const large = { widthM: 2 * widthM, heightM: 2 * heightM, depthM: 2 * depthM };
      expect(effectiveAreaM2({ ...large, mounting: 'free-standing' }) / free).toBeCloseTo(4, 9);
      expect(effectiveAreaM2({ widthM, heightM, depthM, mounting: 'wall' })).toBeLessThan(free);
    }),
  );
});

test('heats add up, and more surface or transfer is less rise', () => {
  fc.assert(
    fc.property(
      real(0, 100),
      real(0, 1),
      real(0, 1200),
      real(0.1, 20),
      (powerW, absorptivityRatio, irradianceWPerM2, transferWPerM2K) => {
        const one = { absorptivityRatio, irradianceWPerM2, sunlitAreaM2: 0.1, transferWPerM2K, areaM2: 0.3 };
        const whole = enclosureRiseK({ ...one, powerW });
        const power = enclosureRiseK({ ...one, powerW, irradianceWPerM2: 0 });
        const sun = enclosureRiseK({ ...one, powerW: 0 });
        expect(power + sun).toBeCloseTo(whole, 6);
        expect(enclosureRiseK({ ...one, powerW, areaM2: 0.6 })).toBeCloseTo(whole / 2, 6);
      },
    ),
  );
});

describe('surfaceConvectionWPerM2K', () => {
  // Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, example 9.2 (fire screen 0.71 m high, 232 and 23 degrees C: 7.0 W/m²K), from memory.
  test('a hot upright screen', () => {
    const transfer = surfaceConvectionWPerM2K({ surfaceC: 232, airC: 23, heightM: 0.71 });
    expect(Math.abs(transfer / 7 - 1)).toBeLessThan(0.03);
  });

  // McAdams' short form for air, 1.42 (difference / height)^(1/4), from memory; handbooks call it good to 20 %.
  test.each([5, 10, 20, 40])('%d K over still air', (difference) => {
    const transfer = surfaceConvectionWPerM2K({ surfaceC: 30 + difference, airC: 30, heightM: 0.2 });
    expect(Math.abs(transfer / (1.42 * (difference / 0.2) ** 0.25) - 1)).toBeLessThan(0.25);
  });

  test('wind and difference only help', () => {
    fc.assert(
      fc.property(real(0, 60), real(0, 20), real(0.1, 5), (difference, windMPerS, moreMPerS) => {
        const plate = { surfaceC: 20 + difference, airC: 20, heightM: 0.3 };
        const less = surfaceConvectionWPerM2K({ ...plate, windMPerS });
        expect(surfaceConvectionWPerM2K({ ...plate, windMPerS: windMPerS + moreMPerS })).toBeGreaterThan(
          less,
        );
      }),
    );
  });
});

describe('enclosureBalance', () => {
  test('what comes in goes out', () => {
    fc.assert(
      fc.property(
        real(-20, 45),
        real(-20, 90),
        real(0, 30),
        real(0, 15),
        real(0, 1),
        real(0, 0.01),
        (airC, sunElevationDeg, powerW, windMPerS, shadeRatio, ventAreaM2) => {
          const rest = enclosureBalance({
            ...box,
            airC,
            sunElevationDeg,
            sunAzimuthDeg: 180,
            powerW,
            windMPerS,
            shadeRatio,
            ventAreaM2,
          });
          expect(rest.convectionW + rest.radiationW + rest.ventW).toBeCloseTo(rest.absorbedW + powerW, 5);
        },
      ),
    );
  });

  test('power and colour heat; shade, wind and vents cool', () => {
    const inside = (change: object) => enclosureBalance({ ...box, ...still, ...change }).insideC;
    const as = inside({});
    expect(inside({ powerW: 8 })).toBeGreaterThan(as);
    expect(inside({ absorptivityRatio: 0.95 })).toBeGreaterThan(as);
    for (const help of [
      { shadeRatio: 0.8 },
      { windMPerS: 3 },
      { ventAreaM2: 0.002 },
      { absorptivityRatio: 0.25 },
    ]) {
      expect(inside(help)).toBeLessThan(as);
    }
  });

  // Sealed plastic box, still air: handbook coefficient 3.5 W/m²K (from memory), here walls and air inside and out; both ±30 %.
  test('in full shade it agrees with the handbook coefficient', () => {
    const shade = { shadeRatio: 1, sunElevationDeg: -10, sunAzimuthDeg: 0, airC: 25 };
    const { riseK } = enclosureBalance({ ...box, ...shade });
    const handbook = enclosureRiseK({
      powerW: 5,
      absorptivityRatio: 0,
      irradianceWPerM2: 0,
      sunlitAreaM2: 0,
      transferWPerM2K: 3.5,
      areaM2: effectiveAreaM2(box),
    });
    expect(Math.abs(riseK / handbook - 1)).toBeLessThan(0.3);
  });

  test('a box without power under a clear night sky falls below the air', () => {
    const night = enclosureBalance({ ...box, powerW: 0, airC: 10, sunElevationDeg: -30, sunAzimuthDeg: 0 });
    expect(night.skinC).toBeLessThan(9);
    expect(night.insideC).toBeCloseTo(night.skinC, 3);
  });

  test('a furnace is refused', () => {
    expect(() =>
      enclosureBalance({ ...box, ...still, powerW: 200, widthM: 0.05, heightM: 0.05, depthM: 0.05 }),
    ).toThrow(/box\.powerW/);
  });
});

describe('enclosureDay', () => {
  const day = enclosureDay({ ...box, ...summer, electronicsLimitC: 70 });

  test('24 hours, hottest in the afternoon, and the day repeats with its energy', () => {
    expect(day.hours.map(({ timeOfDaySeconds }) => timeOfDaySeconds / 3600)).toEqual([...Array(24).keys()]);
    expect(day.hottestTimeOfDaySeconds / 3600).toBeGreaterThan(12);
    expect(day.hottestTimeOfDaySeconds / 3600).toBeLessThan(18);
    expect(day.heatOutJ / day.heatInJ).toBeCloseTo(1, 5);
    expect(day.marginK).toBeCloseTo(70 - day.hottestInsideC, 9);
    expect(Math.max(...day.hours.map(({ airC }) => airC))).toBeCloseTo(42, 9);
  });

  test('heavier contents swing less', () => {
    const swing = (contentsJPerK: number) => {
      const insides = enclosureDay({ ...box, ...summer, contentsJPerK }).hours.map(({ insideC }) => insideC);
      return Math.max(...insides) - Math.min(...insides);
    };
    expect(swing(20000)).toBeLessThan(swing(2000));
    expect(swing(2000)).toBeLessThan(swing(200));
  });

  test('almost massless, each hour is the balance of that hour', () => {
    const light = enclosureDay({ ...box, ...summer, wallJPerK: 1, contentsJPerK: 1 });
    const noon = light.hours[12];
    const night = light.hours[2];
    expect(noon?.sunElevationDeg).toBeGreaterThan(70);
    // At night the sun's direction is of no account, so the balance can be had without it.
    const balance = enclosureBalance({
      ...box,
      airC: night?.airC ?? 0,
      sunElevationDeg: -30,
      sunAzimuthDeg: 0,
    });
    expect(Math.abs((night?.insideC ?? 0) - balance.insideC)).toBeLessThan(0.1);
  });

  test('awning, white paint and vents help a dark box; each agrees with a day of its own', () => {
    for (const { change, gainK, hottestInsideC, marginK } of day.remedies) {
      if (change !== 'bigger-box') expect(gainK).toBeGreaterThan(1);
      expect(marginK).toBeCloseTo(70 - hottestInsideC, 9);
    }
    const white = enclosureDay({ ...box, ...summer, absorptivityRatio: 0.25 });
    expect(day.remedies.find(({ change }) => change === 'white-paint')?.hottestInsideC).toBeCloseTo(
      white.hottestInsideC,
      9,
    );
  });

  test('weighs by what the caller stands for: known figures to mend, remembered ones to note', () => {
    const dark = { ...box, ...summer };
    const known = enclosureDay({ ...dark, electronicsLimitC: 50 }).findings;
    expect(known.find(({ rule }) => rule === 'heat-limit')?.severity).toBe('fix');
    const remembered = enclosureDay({
      ...dark,
      powerW: 15,
      absorptivityRatio: undefined,
      colour: 'black',
    }).findings;
    expect(remembered.find(({ rule }) => rule === 'heat-limit')?.severity).toBe('note');
    expect(remembered.find(({ rule }) => rule === 'heat-assumptions')?.message).toContain('unverified');
    const cool = enclosureDay({
      ...dark,
      highestAirC: 10,
      lowestAirC: 0,
      shadeRatio: 1,
      powerW: 1,
      electronicsLimitC: 70,
    });
    expect(cool.findings).toEqual([]);
  });

  test.each(['2026-02-31', '2026-7-1', 'today', '1900-01-01', 20260715, undefined])(
    'refuses the day %s',
    (date) => {
      expect(() => enclosureDay({ ...box, ...summer, date: date as string })).toThrow(/box\.date/);
    },
  );

  test('wants a colour or an absorptivity', () => {
    expect(() => enclosureDay({ ...box, ...summer, absorptivityRatio: undefined })).toThrow(/box\.colour/);
  });
});
