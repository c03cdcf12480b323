import { describe, expect, test } from 'vitest';
import { supplyAndHeat } from '../../docs/worksheets/supply-and-heat/supplyAndHeat.js';
import { askSheet, checkCode, codeFaults, fact, numberIn, refusedField } from './askSheet.js';

const rowsOf = (outcome: Awaited<ReturnType<typeof askSheet>>, place = 0) =>
  outcome.tables?.[place]?.rows ?? [];
const volts = (row: readonly string[] | undefined) => Number.parseFloat(row?.[1] ?? '');

describe('what voltage arrives', () => {
  test.each([
    // tests/reference/hardware-vectors.json, voltageDrop and voltageDropConstantPower, computed outside this project.
    [{ load: 'current', supplyV: 5.1, leastLoadV: 4.75, wire: '1 mm2', lengthM: 5, bootA: 2.5 }, 4.6125],
    [{ load: 'current', supplyV: 5.1, leastLoadV: 4.75, wire: '1.5 mm2', lengthM: 10, bootA: 1.2 }, 4.7808],
    [{ supplyV: 12, wire: '1.5 mm2', lengthM: 20, bootW: 8 }, 11.6342],
    [{ supplyV: 48, wire: 'measured', wireOhmPerM: 0.0842, lengthM: 50, bootW: 8 }, 46.553],
  ])('%j', async (values, wantedV) => {
    const outcome = await askSheet(supplyAndHeat, { question: 'supply', connectorsOhm: 0, ...values });
    expect(Math.abs(volts(rowsOf(outcome)[2]) - wantedV)).toBeLessThanOrEqual(0.0051);
    expect(outcome.pictures?.[0]?.svg).not.toMatch(/NaN|Infinity/);
    await checkCode(outcome.code);
  });

  test('two data pairs carry a quarter of the drop further than one wire', async () => {
    const line = { question: 'supply', wire: '24 AWG', connectorsOhm: 0, load: 'current' };
    const one = numberIn(await askSheet(supplyAndHeat, line), 'Resistance of the whole loop');
    const four = numberIn(
      await askSheet(supplyAndHeat, { ...line, conductorsCount: '4' }),
      'Resistance of the whole loop',
    );
    expect(one / four).toBeCloseTo(4, 1);
  });

  test('a line on which no voltage holds is said to be one', async () => {
    const values = { question: 'supply', supplyV: 5, leastLoadV: 4.75, wire: '0.14 mm2', lengthM: 50 };
    const outcome = await askSheet(supplyAndHeat, values);
    expect(outcome.lead).toContain('no voltage holds');
    expect(fact(outcome, 'Lowest voltage that would do, with a converter in the box')).toMatch(/V$/);
    expect(outcome.pictures?.[0]?.svg).not.toMatch(/NaN|Infinity/);
    await checkCode(outcome.code);
  });

  test.each([
    [{ lengthM: 0 }, 'lengthM'],
    [{ supplyV: Number.NaN }, 'supplyV'],
    [{ bootW: -1 }, 'bootW'],
    [{ load: 'current', idleA: Number.NaN }, 'idleA'],
    [{ wire: 'measured', wireOhmPerM: 40 }, 'wireOhmPerM'],
    [{ wireTemperatureC: 999 }, 'wireTemperatureC'],
    [{ connectorsOhm: -1 }, 'connectorsOhm'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(supplyAndHeat, { question: 'supply', ...values })).toBe(field);
  });
});

describe('how hot the box gets', () => {
  test('the sun decides, and an awning takes most of it off', async () => {
    const dark = await askSheet(supplyAndHeat);
    const white = await askSheet(supplyAndHeat, { colour: 'white' });
    const shaded = await askSheet(supplyAndHeat, { shadeRatio: 1 });
    const [hot, cool, shade] = [dark, white, shaded].map((outcome) => numberIn(outcome, 'Hottest inside'));
    expect(hot).toBeGreaterThan(cool ?? Number.NaN);
    // Only 4 W are left: sealed-box handbooks give P / (U A) = 4 / (3.5 · 0.16) = 7 K, to 30 %.
    expect((shade ?? 0) - 33).toBeGreaterThan(3);
    expect((shade ?? 0) - 33).toBeLessThan(11);
    expect(rowsOf(dark).map(([change]) => change)).toContain('awning');
    await checkCode(dark.code);
  });

  test('the sun is over the horizon from six to six at the equinox', async () => {
    const outcome = await askSheet(supplyAndHeat, {
      month: '03',
      day: 20,
      colour: 'stated',
      ventAreaM2: 0.001,
    });
    const hours = rowsOf(outcome, 2);
    expect(hours.find(([hour]) => hour === '5:00')?.[4]).toBe('below');
    expect(hours.find(([hour]) => hour === '19:00')?.[4]).toBe('below');
    // Noon height at the equinox is 90° less the latitude, 48.8°.
    expect(
      Math.abs(Number.parseFloat(hours.find(([hour]) => hour === '12:00')?.[4] ?? '') - 48.8),
    ).toBeLessThan(1);
    await checkCode(outcome.code);
  });

  test.each([
    [{ widthM: 0 }, 'widthM'],
    [{ day: 32 }, 'day'],
    [{ month: '02', day: 30 }, 'day'],
    [{ highestAirC: 10 }, 'highestAirC'],
    [{ latitudeDeg: 91 }, 'latitudeDeg'],
    [{ colour: 'stated', absorptivityRatio: 1.5 }, 'absorptivityRatio'],
    [{ shadeRatio: Number.NaN }, 'shadeRatio'],
    [{ powerW: -4 }, 'powerW'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(supplyAndHeat, values)).toBe(field);
  });
});

describe('whether water condenses', () => {
  test.each([
    // tests/reference/hardware-vectors.json, dewPoint (WMO-No. 8, Magnus).
    [30, 70, 23.927],
    [35, 40, 19.384],
    [25, 60, 16.693],
  ])('%d °C and %d %%', async (highestAirC, relativeHumidityPercent, wantedC) => {
    const values = { question: 'damp', highestAirC, relativeHumidityPercent, lowestAirC: 15 };
    const outcome = await askSheet(supplyAndHeat, values);
    expect(Math.abs(numberIn(outcome, 'Dew point of the air outside') - wantedC)).toBeLessThanOrEqual(0.0501);
    await checkCode(outcome.code);
  });

  test('no bag dries a vented box', async () => {
    const outcome = await askSheet(supplyAndHeat, { question: 'damp', breathing: 'vented' });
    expect(fact(outcome, 'Desiccant to the next visit')).toBe('no bag can dry a vented box');
    await checkCode(outcome.code);
  });

  test.each([
    [{ relativeHumidityPercent: 0 }, 'relativeHumidityPercent'],
    [{ desiccantUnitsCount: -1 }, 'desiccantUnitsCount'],
    [{ serviceDays: Number.NaN }, 'serviceDays'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(supplyAndHeat, { question: 'damp', ...values })).toBe(field);
  });
});

describe('what the wind does', () => {
  test('100 mph in open country press as in a public worked case', async () => {
    // 0.00256 · 0.98 · 100² psf at 30 ft (Kz of ASCE 7-05 table 6-3) = 25.1 psf = 1201 Pa.
    const values = { question: 'wind', code: 'asce-7', gustSpeedMPerS: 44.704, heightAboveGroundM: 9.144 };
    const outcome = await askSheet(supplyAndHeat, values);
    expect(Math.abs(numberIn(outcome, 'Pressure of the wind') / 1201 - 1)).toBeLessThan(0.005);
    await checkCode(outcome.code);
  });

  test('force, moment and ballast follow from pressure by statics', async () => {
    const outcome = await askSheet(supplyAndHeat, { question: 'wind', hasPlate: true });
    const pressurePa = numberIn(outcome, 'Pressure of the wind');
    // Drag 1.2 on round parts and 2 on a plate; areas times middles.
    const momentNm = pressurePa * (1.2 * 0.042 * 2 * 1 + 1.2 * 0.02 * 0.4 * 2.2 + 2 * 0.35 * 0.3 * 0.4);
    const forceN = pressurePa * (1.2 * 0.042 * 2 + 1.2 * 0.02 * 0.4 + 2 * 0.35 * 0.3);
    expect(outcome.lead).toContain(
      `pushes with ${forceN.toFixed(0)} N and tips with ${momentNm.toFixed(0)} N·m`,
    );
    expect(numberIn(outcome, 'Ballast against tipping')).toBeCloseTo(
      Math.ceil((1.5 * momentNm) / (9.80665 * 0.45)),
      -0.3,
    );
    expect(numberIn(outcome, 'Ballast against sliding')).toBeCloseTo(
      Math.ceil((1.5 * forceN) / (9.80665 * 0.4)),
      -0.3,
    );
    await checkCode(outcome.code);
  });

  test('a fixed foot passes force and moment on', async () => {
    const outcome = await askSheet(supplyAndHeat, { question: 'wind', foot: 'fixed', iceM: 0.01 });
    expect(outcome.lead).toContain('what the mast is fixed to must bear that');
    await checkCode(outcome.code);
  });

  test.each([
    [{ meanSpeedMPerS: 0 }, 'meanSpeedMPerS'],
    [{ code: 'asce-7', gustSpeedMPerS: Number.NaN }, 'gustSpeedMPerS'],
    [{ heightAboveGroundM: -1 }, 'heightAboveGroundM'],
    [{ tubeDiameterM: 0 }, 'tubeDiameterM'],
    [{ tubeWallM: 0.05 }, 'tubeWallM'],
    [{ tubeSupportM: 5 }, 'tubeSupportM'],
    [{ antennaLengthM: Number.NaN }, 'antennaLengthM'],
    [{ hasPlate: true, plateCentreM: 0.1 }, 'plateCentreM'],
    [{ tippingArmM: 0 }, 'tippingArmM'],
    [{ frictionRatio: 4 }, 'frictionRatio'],
    [{ ballastKg: -1 }, 'ballastKg'],
    [{ footAreaM2: 0 }, 'footAreaM2'],
    [{ iceM: 1 }, 'iceM'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(supplyAndHeat, { question: 'wind', ...values })).toBe(field);
  });
});

test('the code that was shown compiles', () => {
  expect(codeFaults()).toEqual([]);
});
