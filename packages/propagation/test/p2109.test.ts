import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BuildingClass, buildingEntryLoss, buildingEntryLossDb } from '../src/p2109/index.js';
import { sharedReference, tableRows } from './sharedReference.js';

const published = sharedReference('p2109.csv');

// Reference values of the workbook for Recommendation ITU-R P.2109-1, printed to 0.001 dB.
describe('against the published reference values of P.2109-1', () => {
  test.skipIf(published === undefined)('every row within the printed digits', () => {
    const rows = tableRows(published ?? '', [
      'frequencyGHz',
      'elevationDeg',
      'buildingClass',
      'probabilityPercent',
      'lossDb',
    ]);
    expect(rows.length).toBeGreaterThan(280);
    const worst = Math.max(
      ...rows.map((row) => {
        const lossDb = buildingEntryLossDb({
          frequencyHz: Number(row.frequencyGHz) * 1e9,
          elevationDeg: Number(row.elevationDeg),
          buildingClass: row.buildingClass === 'traditional' ? 'traditional' : 'thermally-efficient',
          probability: Number(row.probabilityPercent) / 100,
        });
        return Math.abs(lossDb - Number(row.lossDb));
      }),
    );
    expect(worst).toBeLessThanOrEqual(0.001); // measured 0.0005
  });

  // The same reference, four of its rows (28 GHz, horizontal), as facts.
  test.each([
    ['traditional', 1e-7, -0.275],
    ['traditional', 1e-6, 0.074],
    ['traditional', 1e-5, 0.491],
  ] as const)('%s at %d', (buildingClass, probability, lossDb) => {
    expect(
      Math.abs(buildingEntryLossDb({ frequencyHz: 28e9, buildingClass, probability }) - lossDb),
    ).toBeLessThan(0.001);
  });

  // Worked by hand from table 1: L_h at 1 GHz is r, means and sigmas are r, w, u, y; the sum of powers of 12.64, 9.1 and -3 dB.
  test('at 1 GHz the median is the sum of r, w and the floor', () => {
    const house = buildingEntryLoss({ frequencyHz: 1e9, buildingClass: 'traditional', probability: 0.5 });
    expect(house).toMatchObject({
      horizontalLossDb: 12.64,
      firstSigmaDb: 9.6,
      secondMeanDb: 9.1,
      secondSigmaDb: 4.5,
      elevationLossDb: 0,
      warnings: [],
    });
    expect(house.lossDb).toBeCloseTo(10 * Math.log10(18.365 + 8.128 + 0.501), 3);
  });
});

describe('shape', () => {
  const frequencyHz = fc.double({ min: 80e6, max: 100e9, noNaN: true });
  const probability = fc.double({ min: 1e-9, max: 0.999999, noNaN: true });
  const buildingClass = fc.constantFrom<BuildingClass>('traditional', 'thermally-efficient');

  test('more places take more loss, steeper paths too, up and down alike', () => {
    fc.assert(
      fc.property(
        frequencyHz,
        probability,
        buildingClass,
        fc.double({ min: 0, max: 90, noNaN: true }),
        (f, p, c, e) => {
          const of = (share: number, elevationDeg: number) =>
            buildingEntryLossDb({ frequencyHz: f, buildingClass: c, probability: share, elevationDeg });
          expect(of(p + (1 - p) / 2, e)).toBeGreaterThanOrEqual(of(p, e));
          expect(of(p, e)).toBeGreaterThanOrEqual(of(p, 0));
          expect(of(p, -e)).toBe(of(p, e));
          expect(of(p, e)).toBeGreaterThanOrEqual(-3);
        },
      ),
    );
  });
});

test('the median is built from its parts, and is at least the greatest of the three that are summed', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 80e6, max: 100e9, noNaN: true }),
      fc.double({ min: 0, max: 90, noNaN: true }),
      (f, e) => {
        const question = { frequencyHz: f, buildingClass: 'traditional', elevationDeg: e } as const;
        const got = buildingEntryLoss({ ...question, probability: 0.5 });
        expect(got.firstMeanDb).toBeCloseTo(got.horizontalLossDb + got.elevationLossDb, 9);
        expect(got.lossDb).toBe(buildingEntryLossDb({ ...question, probability: 0.5 }));
        // The sum of powers with two others is at least the greatest of the three.
        expect(got.lossDb).toBeGreaterThanOrEqual(Math.max(got.firstMeanDb, got.secondMeanDb, -3) - 1e-9);
      },
    ),
  );
});

describe('range', () => {
  const cellar = { frequencyHz: 50e6, buildingClass: 'traditional', probability: 0.5 } as const;

  test('a frequency outside is refused, or allowed with a warning', () => {
    expect(() => buildingEntryLoss(cellar)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
    expect(buildingEntryLoss({ ...cellar, outsideValidity: 'allow' }).warnings).toHaveLength(1);
    expect(() => buildingEntryLossDb(cellar)).toThrow(expect.objectContaining({ code: 'outside-validity' }));
  });

  test('percent and megahertz are asked after', () => {
    expect(() => buildingEntryLossDb({ ...cellar, frequencyHz: 868 })).toThrow(/megahertz\?/);
    expect(() => buildingEntryLossDb({ ...cellar, frequencyHz: 868e6, probability: 50 })).toThrow(
      /percent\?/,
    );
  });

  test.each([0, 1, -0.1, Number.NaN, '0.5'])('probability %s is refused', (value) => {
    expect(() =>
      buildingEntryLossDb({ ...cellar, frequencyHz: 868e6, probability: value as number }),
    ).toThrow(expect.objectContaining({ name: 'InputError', argument: 'probability' }));
  });
});
