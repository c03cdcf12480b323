import { isInputError } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RadioPath } from '../src/index.js';
import * as itm from '../src/itm/index.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const siting = fc.constantFrom<itm.Siting>('random', 'careful', 'very-careful');

const settings = fc.record({
  climate: fc.constantFrom<itm.Climate>(
    'equatorial',
    'continental-subtropical',
    'maritime-subtropical',
    'desert',
    'continental-temperate',
    'maritime-temperate-land',
    'maritime-temperate-sea',
  ),
  seaLevelRefractivity: between(260, 390),
  ground: fc.record({ permittivity: between(2, 81), conductivitySPerM: between(1e-4, 5) }),
  timePercent: between(1, 99),
  locationPercent: between(1, 99),
  situationPercent: between(1, 99),
  variabilityMode: fc.constantFrom<itm.VariabilityMode>(
    'single-message',
    'accidental',
    'mobile',
    'broadcast',
  ),
  withoutLocationVariability: fc.boolean(),
  withoutSituationVariability: fc.boolean(),
});
const ends = {
  frequencyHz: between(20e6, 20e9),
  transmitterHeightM: between(0.5, 3000),
  receiverHeightM: between(0.5, 3000),
  polarisation: fc.constantFrom('horizontal', 'vertical'),
} as const;
const areas: fc.Arbitrary<itm.AreaSettings> = fc
  .tuple(
    settings,
    fc.record({
      ...ends,
      distanceM: between(1e3, 2000e3),
      terrainIrregularityM: between(0, 500),
      transmitterSiting: siting,
      receiverSiting: siting,
    }),
  )
  .map(([statistics, place]) => ({ ...statistics, ...place }));
const paths: fc.Arbitrary<RadioPath> = fc
  .tuple(fc.record(ends), fc.array(between(0, 1500), { minLength: 2, maxLength: 300 }), between(1e3, 500e3))
  .map(([antennas, heightM, lengthM]) => ({
    ...antennas,
    heightM,
    distanceM: heightM.map((_, index) => (lengthM * index) / (heightM.length - 1)),
  }));

const temperate: itm.ItmSettings = { climate: 'continental-temperate', seaLevelRefractivity: 301 };

function flatPath(transmitterHeightM: number, receiverHeightM: number, lengthM: number): RadioPath {
  const distanceM = Array.from({ length: 101 }, (_, index) => (lengthM * index) / 100);
  return {
    frequencyHz: 868e6,
    distanceM,
    heightM: distanceM.map(() => 0),
    transmitterHeightM,
    receiverHeightM,
  };
}

describe('over an area', () => {
  test('the ends may be swapped', () => {
    fc.assert(
      fc.property(areas, (there) => {
        const back = itm.area({
          ...there,
          transmitterHeightM: there.receiverHeightM,
          receiverHeightM: there.transmitterHeightM,
          transmitterSiting: there.receiverSiting,
          receiverSiting: there.transmitterSiting,
        });
        expect(back.lossDb).toBeCloseTo(itm.area(there).lossDb, 6);
      }),
    );
  });

  test('the parts sum to the loss, and the median is never below free space', () => {
    fc.assert(
      fc.property(areas, (given) => {
        const loss = itm.area(given);
        expect(loss.freeSpaceLossDb + loss.referenceAttenuationDb + loss.variabilityDb).toBeCloseTo(
          loss.lossDb,
          9,
        );
        expect(loss.referenceAttenuationDb).toBeGreaterThanOrEqual(0);
        expect(loss.lossDb).toBeGreaterThan(loss.freeSpaceLossDb - 30);
      }),
    );
  });

  test.each(['timePercent', 'locationPercent', 'situationPercent'] as const)(
    'a greater %s never asks for less loss',
    (name) => {
      fc.assert(
        fc.property(areas, between(1, 99), between(1, 99), (given, one, other) => {
          const lossDb = (percent: number) =>
            itm.area({
              ...given,
              variabilityMode: 'broadcast',
              timePercent: 50,
              locationPercent: 50,
              situationPercent: 50,
              [name]: percent,
            }).lossDb;
          // The approximation of the normal deviate is not quite even: 1e-3 dB.
          expect(lossDb(Math.max(one, other))).toBeGreaterThan(lossDb(Math.min(one, other)) - 1e-3);
        }),
      );
    },
  );

  // Free space goes as the square of the distance, whatever the ground does.
  test('ten times as far costs 20 dB of free space', () => {
    fc.assert(
      fc.property(areas, between(1e3, 200e3), (given, distanceM) => {
        const near = itm.area({ ...given, distanceM }).freeSpaceLossDb;
        expect(itm.area({ ...given, distanceM: 10 * distanceM }).freeSpaceLossDb - near).toBeCloseTo(20, 9);
      }),
    );
  });

  test('behind the horizon, farther is never better', () => {
    fc.assert(
      fc.property(areas, between(1, 2), (given, ratio) => {
        const near = itm.area(given);
        const far = itm.area({ ...given, distanceM: Math.min(ratio * given.distanceM, 2000e3) });
        fc.pre(near.mode !== 'line-of-sight');
        expect(far.referenceAttenuationDb).toBeGreaterThan(near.referenceAttenuationDb - 1e-6);
      }),
    );
  });

  test('a place chosen with care raises the antenna, and never one on level ground by much', () => {
    const heights = (['random', 'careful', 'very-careful'] as const).map(
      (transmitterSiting) =>
        itm.area({
          ...temperate,
          frequencyHz: 868e6,
          distanceM: 20e3,
          transmitterHeightM: 10,
          receiverHeightM: 2,
          terrainIrregularityM: 90,
          transmitterSiting,
        }).transmitterEffectiveHeightM,
    );
    // Algorithm, equation 3.2, by hand: 10 + (1 + 4) exp(-20/90), and with 9 in place of 4.
    expect(heights[0]).toBe(10);
    expect(heights[1]).toBeCloseTo(14.0037, 4);
    expect(heights[2]).toBeCloseTo(18.0074, 4);
  });
});

describe('over a profile', () => {
  test('any ground gives a finite loss, or a refusal that says why', () => {
    fc.assert(
      fc.property(paths, settings, (path, given) => {
        try {
          const loss = itm.pointToPoint(path, given);
          expect(Number.isFinite(loss.lossDb)).toBe(true);
          expect(loss.terrainIrregularityM).toBeGreaterThanOrEqual(0);
          expect(loss.transmitterEffectiveHeightM).toBeGreaterThanOrEqual(path.transmitterHeightM);
          expect(loss.receiverEffectiveHeightM).toBeGreaterThanOrEqual(path.receiverHeightM);
        } catch (error) {
          expect(isInputError(error) && error.code).toBe('outside-validity');
        }
      }),
      { numRuns: 500 },
    );
  });

  test('on level ground the antennas may be swapped', () => {
    fc.assert(
      fc.property(between(0.5, 300), between(0.5, 300), between(1e3, 300e3), (one, other, lengthM) => {
        const there = itm.pointToPoint(flatPath(one, other, lengthM), temperate).lossDb;
        expect(itm.pointToPoint(flatPath(other, one, lengthM), temperate).lossDb).toBeCloseTo(there, 6);
      }),
    );
  });

  test('raising all the ground changes only the refractivity', () => {
    const path = flatPath(30, 2, 20e3);
    const raised = itm.pointToPoint(
      { ...path, heightM: path.distanceM.map(() => 946) as number[] },
      temperate,
    );
    // NBS Technical Note 101, equation 4.3, by hand: 301 exp(-0.1).
    expect(raised.surfaceRefractivity).toBeCloseTo(272.356, 3);
    expect(raised.terrainIrregularityM).toBe(0);
    expect(raised.transmitterEffectiveHeightM).toBeCloseTo(30, 9);
  });

  // Irregularity is counted about the trend: of a ramp nothing is left.
  test('a steady slope is no irregularity', () => {
    const path = flatPath(30, 2, 20e3);
    const ramp = { ...path, heightM: (path.distanceM as number[]).map((distance) => distance / 100) };
    expect(itm.pointToPoint(ramp, temperate).terrainIrregularityM).toBeCloseTo(0, 9);
  });

  test('a ridge that rises never lowers the loss once it hides the receiver', () => {
    const path = flatPath(20, 2, 30e3);
    const losses = [100, 200, 300, 400].map(
      (ridgeM) =>
        itm.pointToPoint(
          { ...path, heightM: (path.heightM as number[]).map((_, i) => (i === 50 ? ridgeM : 0)) },
          temperate,
        ).lossDb,
    );
    expect(losses).toEqual([...losses].sort((a, b) => a - b));
  });

  // The pitfall of the name: the mode divides distances, and says nothing of hills.
  test('the mode is line of sight even behind a ridge, and the loss knows better', () => {
    const path = flatPath(30, 2, 10e3);
    const hidden = { ...path, heightM: (path.heightM as number[]).map((_, i) => (i === 50 ? 200 : 0)) };
    const behind = itm.pointToPoint(hidden, temperate);
    expect(behind.mode).toBe('line-of-sight');
    expect(behind.transmitterHorizonDistanceM).toBe(5000);
    expect(behind.lossDb).toBeGreaterThan(itm.pointToPoint(path, temperate).lossDb + 10);
  });

  test('clutter is left out and said so', () => {
    const path = flatPath(30, 2, 20e3);
    const houses = { ...path, clutterHeightM: path.distanceM.map(() => 10) as number[] };
    const got = itm.pointToPoint(houses, temperate);
    expect(got.lossDb).toBe(itm.pointToPoint(path, temperate).lossDb);
    expect(got.warnings.join()).toMatch(/clutter/);
  });

  test('the settings of a model are fixed, and its terms sum to the loss', () => {
    const changing = { ...temperate };
    const model = itm.model(changing);
    const path = flatPath(30, 2, 20e3);
    const before = model(path);
    Object.assign(changing, { climate: 'equatorial' });
    expect(model(path)).toEqual(before);
    expect(Object.values(before.terms).reduce((sum, term) => sum + term)).toBeCloseTo(before.lossDb, 9);
    expect(before.lossDb).toBe(itm.pointToPoint(path, temperate).lossDb);
  });
});

describe('refusals', () => {
  const path = flatPath(30, 2, 20e3);
  const refuses = (call: () => unknown, code: string, argument: string) =>
    expect(call).toThrow(expect.objectContaining({ name: 'InputError', code, argument }));

  test.each([
    ['climate', 'temperate', 'unknown-option', 'climate'],
    ['seaLevelRefractivity', 200, 'out-of-range', 'seaLevelRefractivity'],
    ['timePercent', 0, 'out-of-range', 'timePercent'],
    ['locationPercent', 100, 'out-of-range', 'locationPercent'],
    ['situationPercent', Number.NaN, 'not-a-finite-number', 'situationPercent'],
    ['variabilityMode', 3, 'unknown-option', 'variabilityMode'],
    ['withoutLocationVariability', 1, 'wrong-type', 'withoutLocationVariability'],
    ['ground', { permittivity: 1, conductivitySPerM: 0.1 }, 'out-of-range', 'ground.permittivity'],
    ['ground', { permittivity: 15, conductivitySPerM: 0 }, 'out-of-range', 'ground.conductivitySPerM'],
    ['outsideValidity', 'maybe', 'unknown-option', 'outsideValidity'],
  ])('%s %s', (name, value, code, argument) => {
    refuses(() => itm.pointToPoint(path, { ...temperate, [name]: value }), code, argument);
    refuses(() => itm.model({ ...temperate, [name]: value }), code, argument);
  });

  test('no settings', () => refuses(() => itm.model(undefined as never), 'wrong-type', 'settings'));

  test('points that are not evenly spaced', () => {
    const uneven = (path.distanceM as number[]).map((distance, index) => distance + (index === 7 ? 20 : 0));
    refuses(
      () => itm.pointToPoint({ ...path, distanceM: uneven }, temperate),
      'out-of-range',
      'path.distanceM[7]',
    );
  });

  test('half a kilometre, unless it is allowed', () => {
    const short = flatPath(30, 2, 500);
    refuses(() => itm.pointToPoint(short, temperate), 'outside-validity', 'path.distanceM[100]');
    const allowed = itm.pointToPoint(short, { ...temperate, outsideValidity: 'allow' });
    expect(allowed.warnings.join()).toMatch(/500: expected 1000 to 2000000 metres/);
  });

  test('ground too high for the model', () => {
    const high = { ...path, heightM: path.distanceM.map(() => 8000) as number[] };
    refuses(() => itm.pointToPoint(high, temperate), 'outside-validity', 'path.heightM');
  });

  test('a tall mast right behind a cliff, where diffraction has no value', () => {
    const distanceM = Array.from({ length: 1001 }, (_, index) => index * 10);
    const heightM = distanceM.map((distance) => (distance === 10 ? 3100 : 0));
    const cliff = { ...path, distanceM, heightM, transmitterHeightM: 3000 };
    refuses(() => itm.pointToPoint(cliff, temperate), 'outside-validity', 'path');
  });

  test('a frequency in megahertz', () => {
    expect(() => itm.pointToPoint({ ...path, frequencyHz: 868 }, temperate)).toThrow(/megahertz\?/);
  });
});
