import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  areaByClass,
  bestDataRate,
  coverageMarginDb,
  layerStatistics,
  receivedPowerDbm,
  receptionProbability,
} from '../src/index.js';
import { plain, rasterOf } from './rasterSupport.js';

const level = rasterOf(() => 120);
const next = 10 * 21 + 11; // the cell east of the gateway

describe('receivedPowerDbm', () => {
  test('adds gains and takes losses off, and leaves what is not known unknown', () => {
    const link = {
      conductedPowerDbm: 14,
      feedlineLossDb: 1.5,
      gatewayGainDbi: 5,
      nodeGainDbi: 2,
      otherLossDb: 10,
    };
    const powerDbm = receivedPowerDbm(level, link);
    expect(powerDbm[next]).toBeCloseTo(14 - 1.5 + 5 + 2 - 10 - 120, 4);
    expect(powerDbm[0]).toBeNaN();
    expect(powerDbm[10 * 21 + 10]).toBeNaN();
  });

  test('a pattern that is the same everywhere is a plain gain', () => {
    const pattern = { elevationDeg: [-90, 90], gainDbi: [5, 5] };
    const link = { conductedPowerDbm: 14, elevation: plain(level.origin) };
    expect(receivedPowerDbm(level, { ...link, pattern })).toEqual(
      receivedPowerDbm(level, { conductedPowerDbm: 14, gatewayGainDbi: 5 }),
    );
  });

  test('takes the gain at the elevation of the node: one degree, one decibel', () => {
    // Gain equal to the elevation. A node at 1.5 m, a kilometre from an antenna at 30 m: -28.5 m and the bulge over 4/3 of 6371 km.
    const pattern = { elevationDeg: [-90, 90], gainDbi: [-90, 90] };
    const powerDbm = receivedPowerDbm(level, {
      conductedPowerDbm: 120 - 20,
      pattern,
      elevation: plain(level.origin),
    });
    const dropM = 1000 ** 2 / ((2 * 4 * 6371e3) / 3);
    const elevationDeg = (Math.atan2(-28.5 - dropM, 1000) * 180) / Math.PI;
    expect(powerDbm[10 * 21 + 20]).toBeCloseTo(-20 + elevationDeg, 4);
    expect(powerDbm[20]).toBeNaN();
  });

  test('a model with a gradient of its own bends the ray by it', () => {
    const pattern = { elevationDeg: [-90, 90], gainDbi: [-90, 90] };
    const bent = rasterOf(() => 100, { model: { kind: 'p526', deltaN: 100 } });
    const powerDbm = receivedPowerDbm(bent, {
      conductedPowerDbm: 100,
      pattern,
      elevation: plain(bent.origin),
    });
    const dropM = 1000 ** 2 / ((2 * 157 * 6371e3) / (157 - 100));
    expect(powerDbm[10 * 21 + 20]).toBeCloseTo((Math.atan2(-28.5 - dropM, 1000) * 180) / Math.PI, 4);
  });

  test('azimuths run clockwise from north, turned by the bearing', () => {
    const pattern = {
      azimuthDeg: [0, 90, 180, 270],
      elevationDeg: [-90, 90],
      gainDbi: [0, 0, 10, 10, 20, 20, 30, 30],
    };
    const link = { conductedPowerDbm: 100, pattern, elevation: plain(level.origin) };
    const around = [9 * 21 + 10, 10 * 21 + 11, 11 * 21 + 10, 10 * 21 + 9, 9 * 21 + 9];
    const gains = (patternBearingDeg: number) => {
      const powerDbm = receivedPowerDbm(level, { ...link, patternBearingDeg });
      return around.map((cell) => (powerDbm[cell] as number) + 20);
    };
    // The last lies to the north-west: half-way from 30 back to 0, across the seam.
    for (const [place, gain] of [0, 10, 20, 30, 15].entries()) expect(gains(0)[place]).toBeCloseTo(gain, 4);
    for (const [place, gain] of [30, 0, 10, 20, 25].entries()) expect(gains(90)[place]).toBeCloseTo(gain, 4);
    expect(gains(-270)).toEqual(gains(90));
  });

  test.each([
    ['no gain at all', {}, 'gatewayGainDbi'],
    [
      'two gains',
      { gatewayGainDbi: 2, pattern: { elevationDeg: [-90, 90], gainDbi: [0, 0] } },
      'gatewayGainDbi',
    ],
    ['a pattern without ground', { pattern: { elevationDeg: [-90, 90], gainDbi: [0, 0] } }, 'elevation'],
    [
      'a pattern that ends above the cells',
      { pattern: { elevationDeg: [0, 90], gainDbi: [0, 0] }, elevation: plain(level.origin) },
      'pattern.elevationDeg',
    ],
    [
      'a pattern that falls',
      { pattern: { elevationDeg: [90, -90], gainDbi: [0, 0] }, elevation: plain(level.origin) },
      'pattern.elevationDeg[1]',
    ],
    ['a feedline that amplifies', { gatewayGainDbi: 2, feedlineLossDb: -1 }, 'feedlineLossDb'],
  ])('%s is refused', (_, changes, argument) => {
    expect(() => receivedPowerDbm(level, { conductedPowerDbm: 14, ...changes })).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

// Sensitivities as the formula of the radio modules' application notes gives them (noise figure 6 dB, 125 kHz): SF12 with -20 dB
// -137 dBm, SF7 with -7.5 dB -124.5 dBm.
const rows = [
  { dataRate: 0, requiredSnrDb: -20, bandwidthHz: 125e3 },
  { dataRate: 5, requiredSnrDb: -7.5, bandwidthHz: 125e3 },
];
const toPower = (powerDbm: number) => level.lossDb.map((loss) => loss + powerDbm - 120);

test('every decibel of a link counts once', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(real(-30, 40), real(-10, 20), real(-10, 20), real(0, 20), real(0, 40), (p, g, n, f, o) => {
      const link = {
        conductedPowerDbm: p,
        gatewayGainDbi: g,
        nodeGainDbi: n,
        feedlineLossDb: f,
        otherLossDb: o,
      };
      // Single precision keeps 1e-5 dB.
      expect(receivedPowerDbm(level, link)[next]).toBeCloseTo(p + g + n - f - o - 120, 4);
    }),
  );
});

test('reception at a margin and at its opposite are one together, and grow with the margin', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(real(0, 40), real(0.5, 20), real(0, 20), (marginDb, locationSigmaDb, modelErrorDb) => {
      const of = (margin: number) =>
        receptionProbability(level, {
          marginDb: level.lossDb.map((loss) => loss - 120 + margin),
          locationSigmaDb,
          modelErrorDb,
        })[next] as number;
      expect(of(marginDb) + of(-marginDb)).toBeCloseTo(1, 5);
      expect(of(marginDb + 1)).toBeGreaterThanOrEqual(of(marginDb));
    }),
  );
});

test('the statistics of a layer are in order, and move and stretch with it', () => {
  fc.assert(
    fc.property(fc.integer({ min: -50, max: 50 }), fc.integer({ min: 1, max: 7 }), (shift, seed) => {
      const layer = rasterOf((eastM, northM) => ((eastM * seed + northM * 3) / 100) % 17);
      const of = (figures: Float32Array) =>
        layerStatistics({ raster: layer, figures, quantiles: [0.1, 0.9] });
      const got = of(layer.lossDb);
      const [low = 0, high = 0] = got.quantileFigures;
      const ordered = [got.leastFigure, low, got.medianFigure, high, got.greatestFigure];
      expect(ordered).toEqual(ordered.toSorted((a, b) => a - b));
      const moved = of(layer.lossDb.map((figure) => 2 * figure + shift));
      expect(moved.medianFigure).toBeCloseTo(2 * got.medianFigure + shift, 4);
      expect(moved.meanFigure).toBeCloseTo(2 * got.meanFigure + shift, 4);
      expect(moved.deviationFigure).toBeCloseTo(2 * got.deviationFigure, 4);
    }),
  );
});

describe('coverageMarginDb and bestDataRate', () => {
  // Sensitivities of the application notes, as above.
  test.each([
    [-20, -137],
    [-7.5, -124.5],
  ])('%s dB need %s dBm, to the half decibel that the sources print', (requiredSnrDb, sensitivityDbm) => {
    const settings = { powerDbm: toPower(-100), noiseFigureDb: 6, requiredSnrDb, bandwidthHz: 125e3 };
    expect(
      Math.abs((coverageMarginDb(level, settings)[next] as number) - (-100 - sensitivityDbm)),
    ).toBeLessThan(0.25);
  });

  test.each([
    [-124, 5],
    [-125, 0],
    [-136.7, 0],
    [-137.5, -1],
  ])('at %s dBm data rate %s', (powerDbm, dataRate) => {
    const rates = bestDataRate(level, { powerDbm: toPower(powerDbm), noiseFigureDb: 6, rows });
    expect(rates[next]).toBe(dataRate);
    expect(rates[0]).toBeNaN();
  });

  test('noise and wanted margin count alike', () => {
    const powerDbm = rasterOf((eastM, northM) => 100 + Math.hypot(eastM, northM) / 20).lossDb.map(
      (loss) => -loss,
    );
    const noisy = bestDataRate(level, { powerDbm, noiseFigureDb: 6, noiseRiseDb: 3, rows });
    expect(
      bestDataRate(level, { powerDbm, noiseFigureDb: 6, wantedMarginDb: 3, rows: rows.toReversed() }),
    ).toEqual(noisy);
    expect(new Set(noisy)).toEqual(new Set([Number.NaN, 0, 5, -1]));
  });

  test('a data rate holds exactly where its margin is not negative', () => {
    fc.assert(
      fc.property(fc.double({ min: -150, max: -110, noNaN: true }), (power) => {
        const powerDbm = toPower(power);
        const rate = bestDataRate(level, { powerDbm, noiseFigureDb: 6, rows })[next] as number;
        const margins = rows.map(
          (row) => coverageMarginDb(level, { powerDbm, noiseFigureDb: 6, ...row })[next] as number,
        );
        expect(rate).toBe((margins[1] as number) >= 0 ? 5 : (margins[0] as number) >= 0 ? 0 : -1);
      }),
    );
  });

  test.each([
    ['no rows', { rows: [] }, 'rows'],
    ['a data rate twice', { rows: [...rows, rows[0]] }, 'rows[2].dataRate'],
    ['a data rate that is none', { rows: [{ ...rows[0], dataRate: 16 }] }, 'rows[0].dataRate'],
    ['a bandwidth of none', { rows: [{ ...rows[0], bandwidthHz: 0 }] }, 'rows[0].bandwidthHz'],
    ['figures of another raster', { powerDbm: new Float32Array(9) }, 'powerDbm'],
    ['a list', { powerDbm: [1] }, 'powerDbm'],
  ])('%s: refused', (_, changes, argument) => {
    const settings = { powerDbm: toPower(-100), noiseFigureDb: 6, rows, ...changes } as never;
    expect(() => bestDataRate(level, settings)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('receptionProbability', () => {
  // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964), table 26.1: the normal distribution at 0, 1 and 2.
  test.each([
    [0, 0.5],
    [10, 0.841344746],
    [-10, 1 - 0.841344746],
    [20, 0.977249868],
  ])('%s dB with a spread of 6 and 8 dB', (margin, probability) => {
    const marginDb = level.lossDb.map((loss) => loss - 120 + margin);
    const got = receptionProbability(level, { marginDb, locationSigmaDb: 6, modelErrorDb: 8 });
    expect(got[next]).toBeCloseTo(probability, 6);
    expect(got[0]).toBeNaN();
  });

  test('a coverage of 90 % of the locations has its spread counted already', () => {
    const model = {
      kind: 'p1812',
      deltaN: 45,
      surfaceRefractivity: 325,
      locationPercent: 90,
      locationSigmaDb: 5,
    } as const;
    const swept = rasterOf(() => 120, { model });
    expect(() => receptionProbability(swept, { marginDb: swept.lossDb, locationSigmaDb: 5 })).toThrow(
      expect.objectContaining({ argument: 'raster.question.model.locationPercent' }),
    );
    const median = rasterOf(() => 120, { model: { ...model, locationPercent: 50 } });
    expect(receptionProbability(median, { marginDb: median.lossDb, locationSigmaDb: 5 })[next]).toBeCloseTo(
      1,
      6,
    );
  });
});

describe('areas and statistics', () => {
  // Points with whole coordinates in a circle, A000328 of the On-Line Encyclopedia of Integer Sequences.
  test.each([
    [1, 5],
    [5, 81],
    [10, 317],
  ])('a circle of %s cells holds %s cells', (radiusCells, cells) => {
    const raster = rasterOf(() => 1, { radiusCells });
    const areas = areaByClass({ raster, figures: raster.lossDb, classes: [{ name: 'all', leastFigure: 0 }] });
    expect(areas.knownM2).toBe((cells - 1) * 1e4);
    expect(areas.missingM2).toBe(1e4);
    expect(areas.classes[0]).toMatchObject({ cellCount: cells - 1, shareRatio: 1 });
  });

  test('classes leave nothing out and count nothing twice', () => {
    const figures = rasterOf((eastM, northM) => eastM + northM);
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: -1500, max: 1500 }), { minLength: 1, maxLength: 6 }),
        (bounds) => {
          const classes = bounds.map((leastFigure) => ({ name: `from ${leastFigure}`, leastFigure }));
          const areas = areaByClass({ raster: figures, figures: figures.lossDb, classes });
          const sum = areas.classes.reduce((all, { areaM2 }) => all + areaM2, areas.belowM2);
          expect(sum).toBe(areas.knownM2);
          expect(areas.classes.at(-1)?.areaAndAboveM2).toBe(areas.knownM2 - areas.belowM2);
        },
      ),
    );
  });

  test('quantiles of 1 to 10 as the default of the language R prints them: 1.00 3.25 5.50 7.75 10.00', () => {
    const raster = rasterOf(() => 1, { radiusCells: 2 });
    let count = 0;
    const figures = raster.lossDb.map((loss) => (Number.isNaN(loss) || count === 10 ? Number.NaN : ++count));
    const { quantileFigures, medianFigure, meanFigure, cellCount } = layerStatistics({
      raster,
      figures,
      quantiles: [0, 0.25, 0.5, 0.75, 1],
    });
    expect(quantileFigures).toEqual([1, 3.25, 5.5, 7.75, 10]);
    expect([medianFigure, meanFigure, cellCount]).toEqual([5.5, 5.5, 10]);
  });

  test('without any data there is no statistic', () => {
    const figures = new Float32Array(441).fill(Number.NaN);
    expect(() => layerStatistics({ raster: level, figures })).toThrow(
      expect.objectContaining({ code: 'missing' }),
    );
  });
});
