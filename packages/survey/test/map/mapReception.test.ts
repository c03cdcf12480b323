import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  krige,
  mapReception,
  type PredictedPower,
  planeOffset,
  planePosition,
  type ReceptionSpot,
} from '../../src/index.js';
import { belowBound, solveWithBounds } from '../../src/map/censoredSites.js';
import { meanAt, seePlace, varianceAt } from '../../src/map/kriging.js';
import truncated from '../vectors/truncatedField.json' with { type: 'json' };
import { gaussianField, seeded } from './gaussianField.js';

const origin = { latitudeDeg: 50, longitudeDeg: 16 };
const shadowing = { shadowingDb: 7, decorrelationM: 300, nuggetDb: 3 };
const dataRates = [
  { name: 'SF12', requiredPowerDbm: -137 },
  { name: 'SF7', requiredPowerDbm: -123 },
];

function flat(size: number, cellM: number, powerDbm = -120): PredictedPower {
  return { columns: size, rows: size, cellM, origin, powerDbm: new Float32Array(size * size).fill(powerDbm) };
}

function spot(eastM: number, northM: number, rest: Partial<ReceptionSpot>): ReceptionSpot {
  return { ...planePosition({ origin, place: { eastM, northM } }), ...rest };
}

describe('spots that heard nothing', () => {
  test(`agree with ${truncated.source}`, () => {
    const { samples, targets, shadowing: model } = truncated;
    const solved = solveWithBounds(
      {
        eastM: Float64Array.from(samples, ({ eastM }) => eastM),
        northM: Float64Array.from(samples, ({ northM }) => northM),
        levelsDb: Float64Array.from(samples, ({ levelDb }) => levelDb ?? 0),
        noiseDb2: new Float64Array(samples.length).fill(model.nuggetDb ** 2),
        trend: [],
        model,
      },
      Float64Array.from(samples, ({ belowDb }) => belowDb ?? Number.NaN),
    );
    if (solved === undefined) throw new Error('unsolved');
    const { kriging, isSettled } = solved;
    expect(isSettled).toBe(true);
    expect(truncated.keptDraws).toBeGreaterThan(100_000);
    for (const { eastM, northM, mean, deviation } of targets) {
      const seen = seePlace(kriging, eastM, northM, new Float64Array(0));
      // Sampling error of the vectors: 0.012 dB; the rest is that of the method with three bounds.
      expect(Math.abs(meanAt(kriging, seen, new Float64Array(0)) - mean)).toBeLessThan(0.05);
      expect(Math.abs(Math.sqrt(varianceAt(kriging, seen)) - deviation)).toBeLessThan(0.05);
    }
  });

  // Standard normal truncated above at 0: mean -sqrt(2/pi), variance 1 - 2/pi (a closed form).
  test('a normal number below its mean', () => {
    const { mean, variance } = belowBound(0, 1, 0);
    expect(mean).toBeCloseTo(-Math.sqrt(2 / Math.PI), 14);
    expect(variance).toBeCloseTo(1 - 2 / Math.PI, 14);
    const far = belowBound(0, 1, -2e4);
    expect(far.mean).toBeCloseTo(-2e4, 3);
    expect(far.variance * 4e8).toBeCloseTo(1, 6);
  });

  test('pull the map down less than far, and more than leaving them out', () => {
    const heard = [spot(-400, 0, { residualDb: 1 }), spot(-600, 100, { residualDb: -1 })];
    const deaf = spot(400, 0, { residualBelowDb: -6, frames: 10 });
    const at = (spots: readonly ReceptionSpot[]) =>
      mapReception({ prediction: flat(9, 100), spots, shadowing, dataRates }).powerDbm[4 * 9 + 8] as number;
    const without = at(heard);
    const withBound = at([...heard, deaf]);
    // Putting the bound in the place of a level is what makes maps too good.
    const asLevel = at([...heard, spot(400, 0, { residualDb: -6, frames: 10 })]);
    expect(withBound).toBeLessThan(asLevel - 0.5);
    expect(asLevel).toBeLessThan(without);
  });

  test('settle, whatever the bounds, and leave no hole in the map', () => {
    const place = fc.double({ min: -900, max: 900, noNaN: true });
    const bound = fc.double({ min: -60, max: 60, noNaN: true });
    const deaf = fc.array(fc.tuple(place, place, bound), { minLength: 1, maxLength: 8 });
    const heard = [spot(-400, 0, { residualDb: 1 }), spot(-600, 100, { residualDb: -1 })];
    fc.assert(
      fc.property(deaf, fc.constantFrom(0, 0.5, 4), (walk, nuggetDb) => {
        const spots = walk.map(([eastM, northM, residualBelowDb]) =>
          spot(eastM, northM, { residualBelowDb }),
        );
        const map = mapReception({
          prediction: flat(5, 300),
          spots: [...heard, ...spots],
          shadowing: { ...shadowing, nuggetDb },
          dataRates,
        });
        expect(map.powerDbm.every(Number.isFinite)).toBe(true);
        expect(map.standardDeviationDb.every(Number.isFinite)).toBe(true);
        expect(map.warnings.join()).not.toMatch(/not settled/);
      }),
      { numRuns: 200 },
    );
  });

  test('at the place of a spot that was heard, without nugget, add nothing', () => {
    const heard = [spot(-400, 0, { residualDb: 1 }), spot(200, 100, { residualDb: -1 })];
    const bare = { ...shadowing, nuggetDb: 0 };
    const both = [...heard, spot(200, 100, { residualBelowDb: -9 })];
    const ask = (spots: readonly ReceptionSpot[]) =>
      mapReception({ prediction: flat(5, 300), spots, shadowing: bare, dataRates }).powerDbm;
    expect(Math.abs((ask(both)[13] as number) - (ask(heard)[13] as number))).toBeLessThan(0.01);
  });

  test('a bound far above what is likely says nothing', () => {
    const heard = [spot(-400, 0, { residualDb: 1 }), spot(200, 100, { residualDb: -1 })];
    const loose = [...heard, spot(300, 0, { residualBelowDb: 200 })];
    const map = (spots: readonly ReceptionSpot[]) =>
      mapReception({ prediction: flat(9, 100), spots, shadowing, dataRates });
    const [a, b] = [map(heard), map(loose)];
    a.powerDbm.forEach((power, i) => {
      expect(Math.abs(power - (b.powerDbm[i] as number))).toBeLessThan(1e-3);
    });
    expect(b.boundedSpotCount).toBe(1);
  });
});

describe('mapReception', () => {
  test('puts north up, east right, and the figures of krige on the prediction', () => {
    const prediction = flat(5, 200);
    prediction.powerDbm[0] = Number.NaN;
    const spots = [
      spot(390, 410, { residualDb: 9, frames: 20 }),
      spot(-300, -500, { residualDb: -3, frames: 5 }),
    ];
    const map = mapReception({ prediction, spots, shadowing, dataRates });
    const samples = spots.map((each) => ({
      ...planeOffset({ origin, position: each }),
      levelDb: each.residualDb as number,
      frames: each.frames,
    }));
    const targets = [{ eastM: 400, northM: 400 }];
    const want = krige(samples, { shadowing, targets });
    const northEast = 4;
    expect(map.powerDbm[northEast]).toBeCloseTo(-120 + (want.levelsDb[0] as number), 4);
    expect(map.standardDeviationDb[northEast]).toBeCloseTo(want.standardDeviationsDb[0] as number, 4);
    expect([map.powerDbm[0], map.standardDeviationDb[0], map.dataRates[0]?.probability[0]]).toEqual([
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
    expect(map.offsetDb).toBeCloseTo(want.trendCoefficientsDb[0] as number, 12);
    expect(map.warnings.join()).toMatch(/^2 spots: most of the map/);
  });

  test('far from all spots the map is the prediction and the offset, with the whole shadowing', () => {
    const spots = [
      spot(0, 300, { residualDb: 4, frames: 10 }),
      spot(0, -3000, { residualDb: 8, frames: 10 }),
    ];
    const prediction = flat(3, 10_000);
    const map = mapReception({ prediction, spots, shadowing, dataRates });
    // Two spots far apart: the mean of both; variances 49 + 9/10 each (closed form).
    expect(map.offsetDb).toBeCloseTo(6, 3);
    expect(map.offsetStandardErrorDb).toBeCloseTo(Math.sqrt(49.9 / 2), 3);
    expect(map.powerDbm[5]).toBeCloseTo(-114, 3);
    expect(map.standardDeviationDb[5]).toBeCloseTo(Math.sqrt(49 + 49.9 / 2), 3);
    const known = mapReception({ prediction, spots, shadowing, dataRates, trend: 'known' });
    expect(known.powerDbm[5]).toBeCloseTo(-120, 4);
    expect(known.standardDeviationDb[5]).toBeCloseTo(7, 4);
    // Margin of 17 dB over sqrt(49 + 9) dB: Phi(2.2322) = 0.98720, as tables of the normal distribution have it.
    expect(known.dataRates[0]?.probability[5]).toBeCloseTo(0.9872, 4);
    expect(mapReception({ prediction, spots: [], shadowing, dataRates, trend: 'known' }).spotCount).toBe(0);
  });

  test('better residuals, better odds; the slower data rate never does worse', () => {
    const residual = fc.double({ min: -20, max: 20, noNaN: true });
    const place = fc.double({ min: -900, max: 900, noNaN: true });
    const spots = fc.array(fc.tuple(place, place, residual), { minLength: 2, maxLength: 6 });
    const lift = fc.double({ min: 0.1, max: 10, noNaN: true });
    fc.assert(
      fc.property(spots, lift, (walk, liftDb) => {
        const ask = (liftedDb: number) =>
          mapReception({
            prediction: flat(5, 300, -128),
            spots: walk.map(([eastM, northM, residualDb]) =>
              spot(eastM, northM, { residualDb: residualDb + liftedDb }),
            ),
            shadowing,
            dataRates,
          });
        const [plain, better] = [ask(0), ask(liftDb)];
        plain.dataRates[0]?.probability.forEach((slow, i) => {
          expect(slow).toBeGreaterThanOrEqual(plain.dataRates[1]?.probability[i] as number);
          expect(better.dataRates[0]?.probability[i]).toBeGreaterThanOrEqual(slow);
          expect(slow >= 0 && slow <= 1).toBe(true);
        });
      }),
      { numRuns: 40 },
    );
  });

  test('its intervals hold the truth as often as they say', () => {
    // Fields drawn from the very model: of 90 % intervals about the mean, nine in ten must hold.
    const random = seeded(5);
    const cells = Array.from({ length: 121 }, (_, i) => ({
      eastM: ((i % 11) - 5) * 150,
      northM: (5 - Math.floor(i / 11)) * 150,
    }));
    const draw = gaussianField(cells, shadowing);
    let [inside, all] = [0, 0];
    for (let round = 0; round < 60; round += 1) {
      const truth = draw(random);
      const offset = 4 * random.normal();
      const spots = Array.from({ length: 15 }, () => {
        const cell = Math.floor(random.uniform() * cells.length);
        const noise = (shadowing.nuggetDb / Math.sqrt(5)) * random.normal();
        const { eastM, northM } = cells[cell] as (typeof cells)[number];
        return spot(eastM, northM, { residualDb: offset + (truth[cell] as number) + noise, frames: 5 });
      });
      const map = mapReception({ prediction: flat(11, 150), spots, shadowing, dataRates });
      truth.forEach((level, i) => {
        const error = -120 + offset + level - (map.powerDbm[i] as number);
        if (Math.abs(error) < 1.6449 * (map.standardDeviationDb[i] as number)) inside += 1;
        all += 1;
      });
    }
    expect(inside / all).toBeGreaterThan(0.88);
    expect(inside / all).toBeLessThan(0.92);
  });

  test.each([
    ['two kinds of residual', { residualDb: 1, residualBelowDb: 2 }, /either residualDb or/],
    ['no residual', {}, /residualDb/],
  ])('%s are refused', (_, rest, message) => {
    const spots = [spot(0, 0, { residualDb: 1 }), spot(0, 100, { residualDb: 1 }), spot(100, 0, rest)];
    expect(() => mapReception({ prediction: flat(3, 100), spots, shadowing, dataRates })).toThrow(message);
  });

  test('latitude and longitude changed over are refused', () => {
    const astray = { latitudeDeg: 16, longitudeDeg: 50, residualDb: 1 };
    const spots = [spot(0, 0, { residualDb: 1 }), spot(9, 0, { residualDb: 1 }), astray];
    expect(() => mapReception({ prediction: flat(3, 100), spots, shadowing, dataRates })).toThrow(
      /spots\[2\].*changed over/,
    );
  });

  test('an even raster and a wrong length are refused', () => {
    const spots = [spot(0, 0, { residualDb: 1 }), spot(9, 0, { residualDb: 1 })];
    const ask = (prediction: PredictedPower) => () =>
      mapReception({ prediction, spots, shadowing, dataRates });
    expect(ask(flat(4, 100))).toThrow(/odd number of columns/);
    expect(ask({ ...flat(3, 100), powerDbm: new Float32Array(8) })).toThrow(/9 powers/);
    expect(ask({ ...flat(3, 100), powerDbm: new Float32Array(9).fill(Infinity) })).toThrow(/powerDbm\[0\]/);
  });
});
