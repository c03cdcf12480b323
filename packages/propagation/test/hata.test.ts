import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cost231Hata, type HataSurroundings, model, okumuraHata } from '../src/hata/index.js';

// Computed apart from this package from Hata's formulas (IEEE Trans. VT-29, 1980) as three public copies give them.
describe('okumuraHata against values computed apart', () => {
  test.each([
    [868e6, 30, 1000, 125.993, 126.009, 116.145, 97.642],
    [868e6, 30, 5000, 150.615, 150.63, 140.766, 122.263],
    [915e6, 50, 10_000, 157.296, 157.314, 147.31, 128.718],
    [434e6, 30, 2000, 128.749, 128.738, 120.516, 102.903],
  ])('%d Hz, base %d m, %d m', (frequencyHz, baseHeightM, distanceM, small, large, suburban, open) => {
    const of = (surroundings: HataSurroundings) =>
      okumuraHata({ frequencyHz, baseHeightM, mobileHeightM: 1.5, distanceM, surroundings }).lossDb;
    expect(of('small-city')).toBeCloseTo(small, 3);
    expect(of('large-city')).toBeCloseTo(large, 3);
    expect(of('suburban')).toBeCloseTo(suburban, 3);
    expect(of('open')).toBeCloseTo(open, 3);
  });

  // The textbook case of T. S. Rappaport, Wireless Communications (from memory): 900 MHz, 100 m base, 2 m mobile, 4 km, large city 137.29 dB.
  test('the textbook case at 900 MHz', () => {
    const { lossDb } = okumuraHata({
      frequencyHz: 900e6,
      baseHeightM: 100,
      mobileHeightM: 2,
      distanceM: 4000,
      surroundings: 'large-city',
    });
    expect(lossDb).toBeCloseTo(137.29, 1);
  });
});

// Computed apart from the formula of the COST 231 final report, section 4.4.
test.each([
  [1000, 'medium-city', 136.197],
  [5000, 'metropolitan', 163.818],
] as const)('cost231Hata at %d m, %s', (distanceM, surroundings, lossDb) => {
  const path = { frequencyHz: 1800e6, baseHeightM: 30, mobileHeightM: 1.5, distanceM, surroundings };
  expect(cost231Hata(path).lossDb).toBeCloseTo(lossDb, 3);
});

describe('shape', () => {
  const path = {
    frequencyHz: fc.double({ min: 150e6, max: 1500e6, noNaN: true }),
    baseHeightM: fc.double({ min: 30, max: 200, noNaN: true }),
    mobileHeightM: fc.double({ min: 1, max: 10, noNaN: true }),
    distanceM: fc.double({ min: 1000, max: 10_000, noNaN: true }),
  };

  test('farther loses more, by the slope; a higher base loses less; towns lose most', () => {
    fc.assert(
      fc.property(fc.record(path), (record) => {
        const near = okumuraHata({ ...record, surroundings: 'small-city' });
        const far = okumuraHata({ ...record, distanceM: record.distanceM * 2, surroundings: 'small-city' });
        expect(far.lossDb - near.lossDb).toBeCloseTo(near.perDecadeDb * Math.log10(2), 9);
        const higher = okumuraHata({ ...record, baseHeightM: 200, surroundings: 'small-city' });
        expect(higher.lossDb).toBeLessThanOrEqual(near.lossDb + 1e-9);
        const suburb = okumuraHata({ ...record, surroundings: 'suburban' }).lossDb;
        expect(suburb).toBeLessThan(near.lossDb);
        expect(okumuraHata({ ...record, surroundings: 'open' }).lossDb).toBeLessThan(suburb);
      }),
    );
  });

  test('the parts add up', () => {
    fc.assert(
      fc.property(fc.record(path), (record) => {
        const loss = okumuraHata({ ...record, surroundings: 'open' });
        const sum =
          loss.lossAtOneKilometreDb -
          loss.mobileHeightGainDb +
          loss.perDecadeDb * Math.log10(record.distanceM / 1000) +
          loss.surroundingsDb;
        expect(loss.lossDb).toBeCloseTo(sum, 9);
      }),
    );
  });

  test('as a model of paths it loses the same both ways, and its terms add up', () => {
    const suburb = model({ surroundings: 'suburban' });
    fc.assert(
      fc.property(fc.record(path), ({ frequencyHz, baseHeightM, mobileHeightM, distanceM }) => {
        const common = { frequencyHz, distanceM: [0, distanceM], heightM: [5, 40] };
        const up = suburb({ ...common, transmitterHeightM: mobileHeightM, receiverHeightM: baseHeightM });
        const down = suburb({ ...common, transmitterHeightM: baseHeightM, receiverHeightM: mobileHeightM });
        expect(up).toEqual(down);
        expect(Object.values(up.terms).reduce((sum, term) => sum + term, 0)).toBeCloseTo(up.lossDb, 9);
      }),
    );
  });
});

test('cost231Hata grows with distance by its slope, and a metropolis costs 3 dB more than a town', () => {
  const path = fc.record({
    frequencyHz: fc.double({ min: 1500e6, max: 2000e6, noNaN: true }),
    baseHeightM: fc.double({ min: 30, max: 200, noNaN: true }),
    mobileHeightM: fc.double({ min: 1, max: 10, noNaN: true }),
    distanceM: fc.double({ min: 1000, max: 10_000, noNaN: true }),
  });
  fc.assert(
    fc.property(path, (record) => {
      const near = cost231Hata({ ...record, surroundings: 'medium-city' });
      const far = cost231Hata({ ...record, distanceM: 2 * record.distanceM, surroundings: 'medium-city' });
      expect(far.lossDb - near.lossDb).toBeCloseTo(near.perDecadeDb * Math.log10(2), 9);
      expect(cost231Hata({ ...record, surroundings: 'metropolitan' }).lossDb).toBeCloseTo(near.lossDb + 3, 9);
    }),
  );
});

describe('range', () => {
  const house = {
    frequencyHz: 868e6,
    baseHeightM: 9,
    mobileHeightM: 1.5,
    distanceM: 3000,
    surroundings: 'suburban',
  } as const;

  test('a gateway on a house is outside: refused, or allowed with a warning', () => {
    expect(() => okumuraHata(house)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'baseHeightM' }),
    );
    expect(okumuraHata({ ...house, outsideValidity: 'allow' }).warnings).toHaveLength(1);
    const path = {
      frequencyHz: 868e6,
      distanceM: [0, 3000],
      heightM: [0, 0],
      transmitterHeightM: 9,
      receiverHeightM: 1.5,
    };
    expect(() => model({ surroundings: 'suburban' })(path)).toThrow(
      expect.objectContaining({ code: 'outside-validity' }),
    );
    expect(model({ surroundings: 'suburban', outsideValidity: 'allow' })(path).warnings).toHaveLength(1);
  });

  test('868 MHz is not for COST 231', () => {
    expect(() => cost231Hata({ ...house, baseHeightM: 30, surroundings: 'medium-city' })).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
  });

  test('kilometres and megahertz typed by mistake', () => {
    expect(() => okumuraHata({ ...house, frequencyHz: 868 })).toThrow(/megahertz\?/);
    expect(() => okumuraHata({ ...house, baseHeightM: 30, distanceM: 3 })).toThrow(
      expect.objectContaining({ argument: 'distanceM' }),
    );
  });
});

test.each([
  undefined,
  null,
  5,
  {},
  { surroundings: 'village' },
  { surroundings: 'open', outsideValidity: null },
])('the model refuses the settings %j', (settings) => {
  expect(() => model(settings as { surroundings: 'open' })).toThrow(
    expect.objectContaining({ name: 'InputError' }),
  );
});

test('the model refuses a bad path by the name of what is wrong', () => {
  const open = model({ surroundings: 'open' });
  const path = {
    frequencyHz: 868e6,
    distanceM: [0, 3000],
    heightM: [0, 0],
    transmitterHeightM: 30,
    receiverHeightM: 1.5,
  };
  expect(() => open({ ...path, frequencyHz: Number.NaN })).toThrow(
    expect.objectContaining({ argument: 'path.frequencyHz' }),
  );
  expect(() => open({ ...path, distanceM: [0, 0] })).toThrow(
    expect.objectContaining({ argument: 'path.distanceM[1]' }),
  );
});
