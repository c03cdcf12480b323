import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  attenuationDb,
  attenuationFit,
  type Cable,
  cableLoss,
  cableNamed,
  coaxialCables,
} from '../src/index.js';

// Expected values: tests/reference/hardware-vectors.json (hardware reference, sections 1.1 and 1.2), fitted there by another program.

/** Rows of the reference are named by size classes that this package does not use as names. */
const renamed: Readonly<Record<string, string>> = {
  '100-class': 'low-loss 3 mm class',
  '200-class': 'low-loss 5 mm class',
  '240-class': 'low-loss 6 mm class',
  '400-class': 'low-loss 10 mm class',
  '600-class': 'low-loss 15 mm class',
  'micro-coax 1.13 mm': 'micro-coax 1.13 mm class',
};

interface ReferenceRow {
  readonly impedanceOhm: number;
  readonly velocityFactor: number;
  readonly outerDiameterMm: number;
  readonly minBendRadiusMmSingle: number;
  readonly attenuationDbPer100m: Readonly<Record<string, number>>;
  readonly fit?: { readonly k1: number; readonly k2: number; readonly maxRelativeResidual?: number };
}

const reference = Object.entries(vectors.coax as unknown as Record<string, ReferenceRow>).map(
  ([name, row]) => ({ name: renamed[name] ?? name, row }),
);

function near(got: number, want: number, tolerance: number): void {
  expect(Math.abs(got - want), `got ${got}, want ${want}`).toBeLessThanOrEqual(tolerance);
}

/** A cable of the constants k1, k2 as tables print them: dB per 100 m, frequency in MHz. */
function cableOf(k1: number, k2: number, megahertz: readonly number[]): Cable {
  const attenuation = megahertz.map((f) => ({
    frequencyHz: f * 1e6,
    attenuationDbPerM: (k1 * Math.sqrt(f) + k2 * f) / 100,
  }));
  return { ...cableNamed('RG-213/U'), designation: 'of two constants', attenuation };
}

describe('the rows and their fits against the reference table', () => {
  test('the file still holds its cables', () => expect(reference).toHaveLength(20));

  test.each(reference)('$name', ({ name, row }) => {
    const cable = cableNamed(name);
    expect(cable.impedanceOhm).toBe(row.impedanceOhm);
    expect(cable.velocityFactor).toBe(row.velocityFactor);
    near(cable.outerDiameterM, row.outerDiameterMm / 1000, 1e-9);
    near(cable.bendRadiusM, row.minBendRadiusMmSingle / 1000, 1e-9);
    expect(
      cable.attenuation.map(({ frequencyHz, attenuationDbPerM }) => [
        frequencyHz / 1e6,
        Number((attenuationDbPerM * 100).toFixed(6)),
      ]),
    ).toEqual(Object.entries(row.attenuationDbPer100m).map(([megahertz, loss]) => [Number(megahertz), loss]));
    if (row.fit === undefined) return;
    const fit = attenuationFit(cable);
    // k1 is printed to 5 decimals and k2 to 6. Size classes were made from their constants and rounded to 0.001 dB per 100 m, which
    // moves the constants by up to 3 parts in 10000 of the loss at 50 MHz.
    const isClass = row.fit.maxRelativeResidual === undefined;
    const conductor = (row.fit.k1 * Math.sqrt(1000)) / 100;
    near(fit.conductorAtOneGigahertzDbPerM, conductor, isClass ? 3e-4 * conductor : 1.6e-6);
    near(fit.dielectricAtOneGigahertzDbPerM, (row.fit.k2 * 1000) / 100, isClass ? 3e-4 * conductor : 5.1e-6);
    near(fit.greatestResidualRatio, row.fit.maxRelativeResidual ?? 0, 0.0006);
  });

  test('one table of 868.1 and 915 MHz, dB per 100 m', () => {
    // Hardware reference, section 1.2, printed to 0.1 dB.
    const printed = {
      'RG-58C/U': [63.4, 65.8],
      'RG-316/U': [84.0, 86.4],
      'low-loss 6 mm class': [24.3, 25.0],
    };
    for (const [cable, [european, american]] of Object.entries(printed)) {
      near(attenuationDb({ cable, lengthM: 100, frequencyHz: 868.1e6 }), european as number, 0.051);
      near(attenuationDb({ cable, lengthM: 100, frequencyHz: 915e6 }), american as number, 0.051);
    }
  });
});

describe('values that no fit has seen', () => {
  // Each published point left out in turn and foretold from the others. Inner points only: an end is an extrapolation.
  const tolerance: Readonly<Record<string, number>> = { 'RG-213/U': 0.12, 'RG-8X (foam)': 0.16 };
  test.each(
    coaxialCables
      .filter(({ attenuation }) => attenuation.length > 4)
      .map((cable) => [cable.designation, cable] as const),
  )('%s', (_, cable) => {
    for (const left of cable.attenuation.slice(1, -1)) {
      const others = cable.attenuation.filter((point) => point !== left);
      expect(others).toHaveLength(cable.attenuation.length - 1);
      const frequencyHz = left.frequencyHz;
      const got = attenuationDb({ cable: { ...cable, attenuation: others }, lengthM: 1, frequencyHz });
      near(got / left.attenuationDbPerM, 1, tolerance[cable.designation] ?? 0.08);
    }
  });

  test.each([
    // Appendix H of a radio maker's repeater guide (read), dB per 100 m at 150 MHz.
    ['RG-58C/U', vectors.coaxSecondSource.rows['RG-58C/U']['150'], 0.2],
    ['RG-213/U', vectors.coaxSecondSource.rows['RG-213/U']['150'], 0.12],
  ] as const)('%s at 150 MHz in a second source', (cable, printed, share) => {
    near(attenuationDb({ cable, lengthM: 100, frequencyHz: 150e6 }) / printed, 1, share);
  });

  test.each([
    // A county radio-service cable table (read), dB per 100 ft, printed to 0.1 dB. Its 10 MHz column needs an extrapolation.
    ['low-loss 6 mm class', 'crossCheckReadDbPer100ft', '240-class'],
    ['low-loss 10 mm class', 'crossCheckReadDbPer100ft', '400-class'],
    ['low-loss 15 mm class', 'crossCheckReadDbPer100ft', '600-class'],
  ] as const)('%s in a county table', (cable, column, name) => {
    const printed = Object.entries(vectors.coax[name][column]);
    expect(printed).toHaveLength(3);
    for (const [megahertz, lossDb] of printed) {
      const frequencyHz = Number(megahertz) * 1e6;
      const got = attenuationDb({ cable, lengthM: 30.48, frequencyHz, outsideValidity: 'allow' });
      near(got, lossDb as number, 0.1);
    }
  });

  test('specification maxima lie above the rows', () => {
    // MIL-C-17 maxima quoted in a public list post: RG-58 4 and 28, RG-213 9 dB per 100 ft at 50 MHz and 1 GHz.
    const per100ft = (cable: string, frequencyHz: number) =>
      attenuationDb({ cable, lengthM: 30.48, frequencyHz });
    expect(per100ft('RG-58C/U', 50e6)).toBeLessThan(4);
    expect(per100ft('RG-58C/U', 1e9)).toBeLessThan(28);
    expect(per100ft('RG-213/U', 1e9)).toBeLessThan(9);
    const checked = coaxialCables.flatMap(({ designation, specificationMaxima = [] }) =>
      specificationMaxima.map(({ frequencyHz, attenuationDbPerM }) => {
        const got = attenuationDb({ cable: designation, lengthM: 1, frequencyHz });
        return [designation, frequencyHz, got <= attenuationDbPerM];
      }),
    );
    // The one contradiction, which the row's note states: the two sources differ by more than the maximum allows.
    expect(checked.filter(([, , isBelow]) => isBelow === false)).toEqual([['RG-213/U', 50e6, false]]);
    expect(checked).toHaveLength(6);
  });
});

describe('the law', () => {
  test('worked example in dB per 100 ft', () => {
    const [example] = vectors.attenuationLaw.examples;
    if (example === undefined) throw new Error('no example');
    const cable = cableOf(example.k1, example.k2, [50, 200]);
    near(attenuationDb({ cable, lengthM: 100, frequencyHz: example.fMHz * 1e6 }), example.aDb, 0.0005);
  });

  test.each(Object.entries(vectors.attenuationLaw.temperatureFactorConductorTerm))(
    'conductor part at %s degrees C',
    (degrees, factor) => {
      const at = { cable: 'RG-142/U', lengthM: 10, frequencyHz: 868.1e6 };
      const warm = cableLoss({ ...at, temperatureC: Number(degrees) });
      const cool = cableLoss(at);
      near(warm.conductorLossDb / cool.conductorLossDb, factor, 0.000_051);
      expect(warm.dielectricLossDb).toBe(cool.dielectricLossDb);
    },
  );

  test.each(vectors.chainExamples)('cables of the chain of $totalDb dB', ({ frequencyMHz, parts }) => {
    const cables = parts.filter(({ part }) => part[0] === 'cable');
    expect(cables.length).toBeGreaterThan(0);
    for (const { part, lossDb } of cables) {
      const cable = renamed[String(part[1])] ?? String(part[1]);
      near(
        attenuationDb({ cable, lengthM: Number(part[2]), frequencyHz: frequencyMHz * 1e6 }),
        lossDb,
        0.001,
      );
    }
  });

  test('constants come back from points made of them', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 5, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.05, noNaN: true }),
        (k1, k2) => {
          const fit = attenuationFit(cableOf(k1, k2, [10, 100, 1000, 3000]));
          near((fit.conductorAtOneGigahertzDbPerM * 100) / Math.sqrt(1000) / k1, 1, 1e-9);
          near((fit.dielectricAtOneGigahertzDbPerM * 100) / 1000 / k2, 1, 1e-9);
          expect(fit.terms).toBe('both');
          expect(fit.greatestResidualRatio).toBeLessThan(1e-9);
        },
      ),
    ));

  test('a dielectric part below zero is left out', () => {
    const fit = attenuationFit(cableOf(1, -0.005, [10, 100, 1000]));
    expect(fit).toMatchObject({ terms: 'conductor', dielectricAtOneGigahertzDbPerM: 0 });
    const steep = attenuationFit(cableOf(-0.01, 0.05, [10, 100, 1000]));
    expect(steep).toMatchObject({ terms: 'dielectric', conductorAtOneGigahertzDbPerM: 0 });
  });

  test('a loss that rises faster than frequency is all dielectric, by hand', () => {
    // 1 dB/m at 1 GHz and 3 at 2 GHz. Least squares of the relative error: (1/1 + 2/3) / (1² + (2/3)²) = 15/13 dB per metre and GHz.
    const attenuation = [
      { frequencyHz: 1e9, attenuationDbPerM: 1 },
      { frequencyHz: 2e9, attenuationDbPerM: 3 },
    ];
    const fit = attenuationFit({ ...cableNamed('RG-213/U'), attenuation });
    near(fit.dielectricAtOneGigahertzDbPerM, 15 / 13, 1e-12);
    near(fit.conductorAtOneGigahertzDbPerM, 0, 0);
  });

  test('two points a hundred-thousandth apart count as one: their difference is a matter of rounding', () => {
    const attenuation = [
      { frequencyHz: 1e9, attenuationDbPerM: 0.1 },
      { frequencyHz: 1.000_01e9, attenuationDbPerM: 0.100_01 },
    ];
    const fit = attenuationFit({ ...cableNamed('RG-213/U'), attenuation });
    expect(fit.terms).toBe('conductor');
    near(fit.conductorAtOneGigahertzDbPerM, 0.1, 1e-5);
  });

  test('one point gives the skin effect, and says so', () => {
    const cable = cableOf(1, 0, [400]);
    const loss = cableLoss({ cable, lengthM: 100, frequencyHz: 225e6 });
    near(loss.lossDb, 15, 1e-9);
    expect(loss.warnings).toEqual([expect.stringContaining('one published point')]);
  });
});

const frequencyHz = fc.double({ min: 30e6, max: 600e6, noNaN: true });
const lengthM = fc.double({ min: 0.01, max: 1000, noNaN: true });
const temperatureC = fc.double({ min: -60, max: 75, noNaN: true });
const broad = coaxialCables.filter((cable) => {
  const { lowestFrequencyHz, highestFrequencyHz } = attenuationFit(cable);
  return lowestFrequencyHz <= 30e6 && highestFrequencyHz >= 600e6;
});
const cable = fc.constantFrom(...broad);

describe('properties', () => {
  test('most cables take part', () => expect(broad.length).toBeGreaterThan(14));
  test('two pieces lose what the whole loses', () =>
    fc.assert(
      fc.property(cable, frequencyHz, lengthM, lengthM, temperatureC, (row, f, a, b, t) => {
        const of = (metres: number) =>
          attenuationDb({ cable: row, frequencyHz: f, lengthM: metres, temperatureC: t });
        near((of(a) + of(b)) / of(a + b), 1, 1e-12);
      }),
    ));
  test('more loss at a higher frequency and on a hotter day', () =>
    fc.assert(
      fc.property(cable, frequencyHz, temperatureC, (row, f, t) => {
        const at = { cable: row, lengthM: 10, frequencyHz: f, temperatureC: t };
        expect(attenuationDb({ ...at, frequencyHz: f * 1.0001 })).toBeGreaterThan(attenuationDb(at));
        expect(attenuationDb({ ...at, temperatureC: t + 0.01 })).toBeGreaterThan(attenuationDb(at));
      }),
    ));
  test('heat changes the loss by less than the resistance of copper', () =>
    fc.assert(
      fc.property(cable, frequencyHz, fc.double({ min: 21, max: 75, noNaN: true }), (row, f, t) => {
        const at = { cable: row, lengthM: 10, frequencyHz: f };
        const ratio = attenuationDb({ ...at, temperatureC: t }) / attenuationDb(at);
        expect(ratio).toBeLessThan(1 + 0.002 * (t - 20));
        expect(ratio).toBeGreaterThan(1);
      }),
    ));
  test('the loss is its two parts, and twice the length is twice of each', () =>
    fc.assert(
      fc.property(cable, frequencyHz, fc.double({ min: 0.1, max: 50, noNaN: true }), (row, f, lengthM) => {
        const one = cableLoss({ cable: row, lengthM, frequencyHz: f });
        const two = cableLoss({ cable: row, lengthM: 2 * lengthM, frequencyHz: f });
        expect(one.conductorLossDb + one.dielectricLossDb).toBeCloseTo(one.lossDb, 12);
        expect(two.lossDb / one.lossDb).toBeCloseTo(2, 12);
        expect(two.lossUncertaintyDb / one.lossUncertaintyDb).toBeCloseTo(2, 12);
      }),
    ));
  test('the uncertainty covers the published points it was fitted to', () => {
    for (const row of coaxialCables) {
      for (const point of row.attenuation) {
        const { lossDb, lossUncertaintyDb } = cableLoss({
          cable: row,
          lengthM: 1,
          frequencyHz: point.frequencyHz,
        });
        near(lossDb, point.attenuationDbPerM, lossUncertaintyDb);
      }
    }
  });
});

describe('beyond the points', () => {
  const beyond = { cable: 'RG-8X (foam)', lengthM: 10, frequencyHz: 868.1e6 };
  test('a frequency far from them is refused, and named', () => {
    expect(() => cableLoss(beyond)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
    expect(() => cableLoss(beyond)).toThrow(/10 to 450 MHz/);
    expect(() => attenuationDb({ ...beyond, frequencyHz: 4e6 })).toThrow(/outsideValidity/);
  });
  test('when allowed, it doubles the uncertainty and says so', () => {
    const allowed = cableLoss({ ...beyond, outsideValidity: 'allow' });
    // Hardware reference, section 1.2: 43.6 dB per 100 m, marked as beyond the points.
    near(allowed.lossDb, 4.36, 0.0051);
    expect(allowed.warnings).toEqual([expect.stringContaining('extrapolation')]);
    const inside = cableLoss({ ...beyond, frequencyHz: 450e6 });
    expect(inside.warnings).toEqual([]);
    near(allowed.lossUncertaintyDb / allowed.lossDb, (2 * inside.lossUncertaintyDb) / inside.lossDb, 1e-12);
  });
  test('the limits themselves are inside', () => {
    const { lowestFrequencyHz, highestFrequencyHz } = attenuationFit('RG-58C/U');
    expect([lowestFrequencyHz, highestFrequencyHz]).toEqual([5e6, 1.5e9]);
    for (const f of [5e6, 1.5e9])
      expect(cableLoss({ ...beyond, cable: 'RG-58C/U', frequencyHz: f }).warnings).toEqual([]);
    expect(() => attenuationDb({ ...beyond, cable: 'RG-58C/U', frequencyHz: 1.5001e9 })).toThrow(/outside/);
  });
  test('insulation that is too hot is said, not hidden', () => {
    const at = { ...beyond, cable: 'RG-213/U' };
    expect(cableLoss({ ...at, temperatureC: 80 }).warnings).toEqual([]);
    expect(cableLoss({ ...at, temperatureC: 81 }).warnings).toEqual([
      expect.stringContaining('80 degrees C'),
    ]);
    const { maxTemperatureC: _limit, ...unknown } = cableNamed('RG-213/U');
    expect(cableLoss({ ...beyond, cable: unknown, temperatureC: 120 }).warnings).toEqual([]);
  });
});

describe('refusals', () => {
  const good = { cable: 'RG-213/U', lengthM: 10, frequencyHz: 868.1e6 };
  test.each([
    ['frequencyHz', { frequencyHz: 868.1 }, /megahertz\?/],
    ['frequencyHz', { frequencyHz: Number.NaN }, /hertz/],
    ['lengthM', { lengthM: -1 }, /metres/],
    ['lengthM', { lengthM: '10' }, /metres/],
    ['temperatureC', { temperatureC: 300 }, /degrees C/],
    ['temperatureC', { temperatureC: null }, /degrees C/],
    ['outsideValidity', { outsideValidity: 'yes' }, /'refuse' or 'allow'/],
    ['cable', { cable: 5 }, /object/],
    ['cable', { cable: 'RG-999' }, /RG-213\/U/],
  ])('%s', (argument, change, message) => {
    const call = () => attenuationDb({ ...good, ...change } as never);
    expect(call).toThrow(expect.objectContaining({ name: 'InputError', argument }));
    expect(call).toThrow(message);
  });
  test('no options at all', () => {
    expect(() => attenuationDb(undefined as never)).toThrow(expect.objectContaining({ code: 'wrong-type' }));
  });
  test.each([
    ['cable.attenuation', []],
    ['cable.attenuation[0]', [5]],
    ['cable.attenuation[0].frequencyHz', [{ frequencyHz: 0, attenuationDbPerM: 1 }]],
    ['cable.attenuation[0].attenuationDbPerM', [{ frequencyHz: 1e9, attenuationDbPerM: 0 }]],
    [
      'cable.attenuation[1].frequencyHz',
      [
        { frequencyHz: 1e9, attenuationDbPerM: 1 },
        { frequencyHz: 1e9, attenuationDbPerM: 2 },
      ],
    ],
  ])('%s of points from elsewhere', (argument, attenuation) => {
    const row = { ...cableNamed('RG-213/U'), attenuation } as Cable;
    expect(() => attenuationFit(row)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
  test('the uncertainty of a row from elsewhere', () => {
    for (const attenuationUncertaintyRatio of [-0.1, 1.1, Number.NaN, undefined as never]) {
      const row: Cable = { ...cableNamed('RG-213/U'), attenuationUncertaintyRatio };
      expect(() => attenuationFit(row)).toThrow(
        expect.objectContaining({ argument: 'cable.attenuationUncertaintyRatio' }),
      );
    }
  });
});
