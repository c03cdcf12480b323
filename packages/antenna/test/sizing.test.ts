import { impedanceToReflection, wavelengthM } from '@finial/radio';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import reference from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  collinear,
  dipole,
  fiveEighths,
  groundPlane,
  type JPole,
  jPole,
  monopole,
  sleeveDipole,
  solveWires,
} from '../src/index.js';

const { nec2, thinDipoleTheory, otherAntennas } = reference;
const frequencyHz = 868.1e6;

/** Cases at resonance of one kind: thin ones apart, since they hold for 300 MHz. */
const resonant = nec2.cases.flatMap((row) =>
  'resonantLengthMm' in row && row.resonantLengthMm !== undefined
    ? [{ ...row, resonantLengthMm: row.resonantLengthMm }]
    : [],
);
const ofKind = (kind: string) =>
  resonant.filter((row) => row.kind === kind).map((row) => [row.id, row] as const);
type Row = (typeof resonant)[number];

const questionOf = ({ frequencyMHz, wireDiameterMm }: Row) => ({
  frequencyHz: frequencyMHz * 1e6,
  elementDiameterM: wireDiameterMm / 1000,
});

interface Sized {
  readonly resonantLengthM: number;
  readonly resistanceOhm: number;
  readonly maximumGainDbi: number;
  readonly horizonGainDbi: number;
}

function differences(got: Sized, row: Row) {
  return {
    length: Math.abs((got.resonantLengthM * 1000) / row.resonantLengthMm - 1),
    resistance: Math.abs(got.resistanceOhm / row.Rcorrected - 1),
    maximumDb: Math.abs(got.maximumGainDbi - row.maxGainCorrectedDbi),
    horizonDb: Math.abs(got.horizonGainDbi - row.horizonGainCorrectedDbi),
  };
}

describe(`against ${nec2.meta.solver}`, () => {
  test('the file still holds its cases', () => {
    expect(ofKind('gp-resonant')).toHaveLength(48);
    expect(ofKind('dipole-resonant')).toHaveLength(9);
    expect(ofKind('mono-resonant')).toHaveLength(6);
  });

  // Measured at most: 1.2 % of length, 3.1 % of resistance, 0.02 dB.
  test.each(ofKind('gp-resonant'))('%s: length 2 %, resistance 8 %, gain 0.15 dB', (_, row) => {
    const got = groundPlane({
      ...questionOf(row),
      droopDeg: row.droop ?? 0,
      radials: 4,
      ...(row.rad === 'equal' ? { radialRatio: 1 } : {}),
    });
    const off = differences(got, row);
    expect(off.length).toBeLessThan(0.02);
    expect(off.resistance).toBeLessThan(0.08);
    expect(off.maximumDb).toBeLessThan(0.15);
    expect(off.horizonDb).toBeLessThan(0.15);
    expect(Math.abs(got.reactanceOhm)).toBeLessThan(0.05);
    expect(got.cutLengthM).toBeGreaterThan(row.resonantLengthMm / 1000);
  });

  // Measured at most: 0.3 % of length, 1.3 % of resistance, 0.01 dB.
  test.each(ofKind('dipole-resonant'))('%s: length 0.5 %, resistance 5 %, gain 0.1 dB', (_, row) => {
    const off = differences(dipole(questionOf(row)), row);
    expect(off.length).toBeLessThan(0.005);
    expect(off.resistance).toBeLessThan(0.05);
    expect(off.maximumDb).toBeLessThan(0.1);
  });

  // NEC-2 puts the source half a segment above the ground; its monopoles are up to 0.35 % shorter than half of its dipoles.
  test.each(ofKind('mono-resonant'))('%s: length 0.6 %, resistance 5 %, gain 0.1 dB', (_, row) => {
    const off = differences(monopole(questionOf(row)), row);
    expect(off.length).toBeLessThan(0.006);
    expect(off.resistance).toBeLessThan(0.05);
    expect(off.maximumDb).toBeLessThan(0.1);
  });

  test.each(ofKind('dipole-resonant').filter(([id]) => !id.startsWith('thin')))(
    '%s: half of it is a monopole, within 0.5 %',
    (_, row) => {
      const rod = monopole(questionOf(row)).resonantLengthM * 1000;
      expect(Math.abs(rod / (row.resonantLengthMm / 2) - 1)).toBeLessThan(0.005);
    },
  );
});

describe('against handbooks (from memory)', () => {
  // The K curve, read to ±0.005, runs above every moment method for fat elements: 2.4 % at 80 diameters per half wave.
  test.each(thinDipoleTheory.antennaHandbookK.filter((row) => row.halfWaveToDiameter >= 50))(
    'K at $halfWaveToDiameter diameters per half wave: never above K, and within 3.5 %',
    ({ halfWaveToDiameter, K }) => {
      const got = dipole({
        frequencyHz,
        elementDiameterM: wavelengthM(frequencyHz) / 2 / halfWaveToDiameter,
      });
      expect(got.resonantLengthFactor).toBeLessThan(K + 0.005);
      expect(got.resonantLengthFactor).toBeGreaterThan(K * 0.965 - 0.005);
    },
  );

  test.each(thinDipoleTheory.shorteningTextbook.filter((row) => row.lengthToDiameter >= 50))(
    'textbook length at $lengthToDiameter diameters: the same within 4 %',
    ({ lengthToDiameter, resonantLengthOverLambda }) => {
      const lambdaM = wavelengthM(frequencyHz);
      const elementDiameterM = (resonantLengthOverLambda * lambdaM) / lengthToDiameter;
      const got = dipole({ frequencyHz, elementDiameterM }).resonantLengthM / lambdaM;
      expect(Math.abs(got / resonantLengthOverLambda - 1)).toBeLessThan(0.04);
    },
  );

  test('the directivity of the sinusoidal current, within 0.02 dB for a hair-thin wire', () => {
    const got = dipole({ frequencyHz, elementDiameterM: 1e-6 }).maximumGainDbi;
    expect(Math.abs(got - thinDipoleTheory.inducedEmfHalfWave.directivityDbi)).toBeLessThan(0.02);
  });
});

describe('5/8-wave vertical against NEC-2', () => {
  const named = (start: string) => {
    const found = otherAntennas.find(({ name }) => name.startsWith(start));
    if (found === undefined) throw new Error(`no case ${start}`);
    return found;
  };

  test('over perfect ground: gain within 0.2 dB, impedance as half of a 1.25-wave dipole', () => {
    const got = fiveEighths({ frequencyHz, elementDiameterM: 0.002, ground: 'perfect' });
    expect(Math.abs(got.maximumGainDbi - 7.88)).toBeLessThan(0.2);
    // The direct case has its source half a segment up, where there is less current, and reads 57.97 Ω instead of 49.07.
    const whole = named('1.25 lambda');
    expect(Math.abs(got.resistanceOhm / ((whole.R ?? 0) / 2) - 1)).toBeLessThan(0.15);
    expect(Math.abs(got.reactanceOhm / ((whole.X ?? 0) / 2) - 1)).toBeLessThan(0.1);
    expect(got.findings[0]?.rule).toBe('antenna-endless-ground');
  });

  test.each([
    [0, named('5/8-wave vertical on 4 quarter-wave radials at 0 deg')],
    [45, named('5/8-wave vertical on 4 quarter-wave radials at 45 deg')],
  ] as const)('radials at %s°: the beam leaves the horizon', (droopDeg, row) => {
    const got = fiveEighths({ frequencyHz, elementDiameterM: 0.003, droopDeg });
    expect(Math.abs(got.maximumGainDbi - row.gainDbi)).toBeLessThan(0.2);
    expect(Math.abs(got.horizonGainDbi - (row.horizonDbi ?? 0))).toBeLessThan(0.2);
    expect(Math.abs(got.elevationOfMaximumDeg - (row.elevationOfMaxDeg ?? 0))).toBeLessThanOrEqual(2);
    expect(got.findings[0]?.rule).toBe('antenna-beam-upward');
  });

  test('the coil takes the reactance away', () => {
    const got = fiveEighths({ frequencyHz, elementDiameterM: 0.003, droopDeg: 45 });
    expect(2 * Math.PI * frequencyHz * got.seriesInductanceH + got.reactanceOhm).toBeCloseTo(0, 9);
    expect(got.matchedVswr).toBeLessThan(got.vswr);
    expect(got.matchedVswr).toBeCloseTo(Math.max(50 / got.resistanceOhm, got.resistanceOhm / 50), 9);
  });
});

describe('how ground planes behave', () => {
  const few = { numRuns: 12 };
  const droop = fc.double({ min: 0, max: 50, noNaN: true });
  const diameter = fc.double({ min: 0.0005, max: 0.004, noNaN: true });

  test('half the wavelength and half the diameter: half of every length', () => {
    fc.assert(
      fc.property(droop, diameter, (droopDeg, elementDiameterM) => {
        const large = groundPlane({ frequencyHz, elementDiameterM, droopDeg });
        const small = groundPlane({
          frequencyHz: 2 * frequencyHz,
          elementDiameterM: elementDiameterM / 2,
          droopDeg,
        });
        expect(small.resonantLengthM / large.resonantLengthM).toBeCloseTo(0.5, 4);
        expect(small.radialLengthM / large.radialLengthM).toBeCloseTo(0.5, 9);
        expect(small.resistanceOhm / large.resistanceOhm).toBeCloseTo(1, 3);
      }),
      few,
    );
  });

  test('thicker is shorter', () => {
    fc.assert(
      fc.property(droop, diameter, (droopDeg, elementDiameterM) => {
        const thin = groundPlane({ frequencyHz, elementDiameterM, droopDeg });
        const thick = groundPlane({ frequencyHz, elementDiameterM: 1.4 * elementDiameterM, droopDeg });
        expect(thick.resonantLengthM).toBeLessThan(thin.resonantLengthM);
      }),
      few,
    );
  });

  test('droop raises the resistance and shortens the vertical', () => {
    fc.assert(
      fc.property(droop, diameter, (droopDeg, elementDiameterM) => {
        const flat = groundPlane({ frequencyHz, elementDiameterM, droopDeg });
        const steep = groundPlane({ frequencyHz, elementDiameterM, droopDeg: droopDeg + 10 });
        expect(steep.resistanceOhm).toBeGreaterThan(flat.resistanceOhm);
        expect(steep.resonantLengthM).toBeLessThan(flat.resonantLengthM);
      }),
      few,
    );
  });

  test('insulation shortens every length by its factor', () => {
    const bare = groundPlane({ frequencyHz, elementDiameterM: 0.002, droopDeg: 45 });
    const wire = groundPlane({
      frequencyHz,
      elementDiameterM: 0.002,
      droopDeg: 45,
      insulationVelocityFactor: 0.95,
    });
    expect(wire.resonantLengthM / bare.resonantLengthM).toBeCloseTo(0.95, 9);
    expect(wire.radialLengthM / bare.radialLengthM).toBeCloseTo(0.95, 9);
    expect(wire.lengthErrorRatio).toBeGreaterThan(bare.lengthErrorRatio);
    expect(wire.warnings.join()).toContain('Insulation');
  });

  test('a longer radial takes from the vertical, and radials of its own length are of its own length', () => {
    const question = { frequencyHz, elementDiameterM: 0.002, droopDeg: 45 };
    const short = groundPlane({ ...question, radialLengthM: 0.08 });
    const long = groundPlane({ ...question, radialLengthM: 0.095 });
    expect(long.resonantLengthM).toBeLessThan(short.resonantLengthM);
    const equal = groundPlane({ ...question, radialRatio: 1 });
    expect(equal.radialLengthM).toBeCloseTo(equal.resonantLengthM, 12);
    const same = groundPlane({ ...question, radialLengthM: equal.radialLengthM });
    // Not the same to the last digit: the radials are cut into another count of pieces.
    expect(Math.abs(same.resonantLengthM / equal.resonantLengthM - 1)).toBeLessThan(1e-3);
  });

  test('flat radials are called a poor match, those at 45° are not', () => {
    const question = { frequencyHz, elementDiameterM: 0.002 };
    const rules = (droopDeg: number) =>
      groundPlane({ ...question, droopDeg }).findings.map(({ rule }) => rule);
    expect(rules(0)).toContain('antenna-match');
    expect(rules(45)).not.toContain('antenna-match');
    expect(rules(45)).toContain('antenna-work-safety');
  });

  test('the allowance is what was asked for', () => {
    const got = groundPlane({ frequencyHz, elementDiameterM: 0.002, droopDeg: 45, allowanceRatio: 0.1 });
    expect(got.cutLengthM / got.resonantLengthM).toBeCloseTo(1.1, 12);
    expect(got.cutLengthM - got.resonantLengthM).toBeCloseTo(got.trimAllowanceM, 12);
  });
});

describe('limits and refusals', () => {
  const thick = { frequencyHz, elementDiameterM: 0.009 };

  test('a rod too thick is refused, or allowed with a warning', () => {
    expect(() => dipole(thick)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'elementDiameterM' }),
    );
    expect(dipole({ ...thick, outsideValidity: 'allow' }).warnings.join()).toContain('0.02 of a wavelength');
  });

  test('radials so long that no vertical is resonant are refused by name', () => {
    const question = { frequencyHz, elementDiameterM: 0.0069, droopDeg: 30, radialLengthM: 0.138 };
    expect(() => groundPlane(question)).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'radialLengthM', received: 0.138 }),
    );
  });

  test('megahertz and millimetres are recognised', () => {
    expect(() => dipole({ frequencyHz: 868.1, elementDiameterM: 0.002 })).toThrow(/megahertz\?/);
    expect(() => dipole({ frequencyHz, elementDiameterM: 2 })).toThrow(/millimetres\?/);
  });

  test('two ways to say one length are one too many', () => {
    const both = { frequencyHz, elementDiameterM: 0.002, droopDeg: 45, radialLengthM: 0.086, radialRatio: 1 };
    expect(() => groundPlane(both)).toThrow(expect.objectContaining({ argument: 'radialRatio' }));
    const spacings = { frequencyHz, elements: 2, spacingM: 0.2, spacingWavelengths: 0.6 };
    expect(() => collinear(spacings)).toThrow(expect.objectContaining({ argument: 'spacingWavelengths' }));
  });
});

describe('J-pole', () => {
  // Handbook practice, from memory: three quarters and one quarter of a wave, each some 5 % shorter.
  test('long rod and stub are three and one quarter waves, less 5 %, and the figures are called unverified', () => {
    const got = jPole({ frequencyHz, elementDiameterM: 0.002 });
    expect(got.longRodLengthM / wavelengthM(frequencyHz)).toBeCloseTo(0.75 * 0.95, 9);
    expect(got.stubLengthM / wavelengthM(frequencyHz)).toBeCloseTo(0.25 * 0.95, 9);
    expect(got.longRodCutLengthM).toBeGreaterThan(got.longRodLengthM);
    expect(got.findings[0]).toMatchObject({
      severity: 'note',
      message: expect.stringContaining('unverified'),
    });
    expect(Math.abs(got.maximumGainDbi - 2.15)).toBeLessThan(0.01);
  });
});

/** The feed of a J-pole of these lengths, fed across its rods at a height, by the moment method. */
function vswrOfJPole(lengths: JPole, elementDiameterM: number, feedHeightM: number): number {
  const { rodSpacingM, stubLengthM, longRodLengthM } = lengths;
  const at = (xM: number, zM: number) => ({ xM, yM: 0, zM });
  const wire = (start: ReturnType<typeof at>, end: ReturnType<typeof at>) => {
    const lengthM = Math.hypot(end.xM - start.xM, end.zM - start.zM);
    const segments = Math.max(1, Math.min(40, Math.floor(lengthM / (1.7 * elementDiameterM))));
    return { start, end, radiusM: elementDiameterM / 2, segments };
  };
  const { feed } = solveWires(
    [
      wire(at(0, 0), at(0, feedHeightM)),
      wire(at(0, feedHeightM), at(0, longRodLengthM)),
      wire(at(rodSpacingM, 0), at(rodSpacingM, feedHeightM)),
      wire(at(rodSpacingM, feedHeightM), at(rodSpacingM, stubLengthM)),
      wire(at(0, 0), at(rodSpacingM, 0)),
      { ...wire(at(0, feedHeightM), at(rodSpacingM, feedHeightM)), segments: 2 },
    ],
    { frequencyHz, source: { wire: 5, positionRatio: 0.5 } },
  );
  return impedanceToReflection(feed).vswr;
}

describe('J-pole by the moment method', () => {
  // Rod lengths come from handbooks; the feed was placed with the solver, so that only the lengths are checked from outside here.
  test.each([0.002, 0.003])(
    '%f m rods: a match of 1.6 or better within a slide of the feed',
    (elementDiameterM) => {
      const lengths = jPole({ frequencyHz, elementDiameterM });
      const slides = [0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3];
      const best = Math.min(
        ...slides.map((ratio) => vswrOfJPole(lengths, elementDiameterM, ratio * lengths.feedHeightM)),
      );
      expect(best).toBeLessThan(1.6);
    },
  );
});

describe('collinear array', () => {
  test('total length and spacing in metres agree with wavelengths', () => {
    const byWave = collinear({ frequencyHz, elements: 4, spacingWavelengths: 0.75 });
    const byMetre = collinear({ frequencyHz, elements: 4, spacingM: 0.75 * wavelengthM(frequencyHz) });
    expect(byMetre.maximumGainDbi).toBeCloseTo(byWave.maximumGainDbi, 9);
    expect(byWave.totalLengthM).toBeCloseTo((3 * 0.75 + 0.5) * wavelengthM(frequencyHz), 12);
  });

  // A uniform array's half-power width over its length, for a long one: 50.8°/(L/λ), Balanis (from memory).
  test('the beam of a long array is 50.8° over its length in wavelengths, within 6 %', () => {
    const got = collinear({ frequencyHz, elements: 16, spacingWavelengths: 0.8 });
    expect(Math.abs(got.halfPowerBeamwidthDeg / (50.8 / (16 * 0.8)) - 1)).toBeLessThan(0.06);
    expect(got.findings[0]?.rule).toBe('antenna-narrow-beam');
  });

  test('at its first null the pattern has one', () => {
    const { firstNullElevationDeg: nullDeg = 0, pattern } = collinear({
      frequencyHz,
      elements: 8,
      spacingWavelengths: 0.8,
      downtiltDeg: 2,
    });
    const nearest = pattern.elevationDeg.findIndex((angle) => Math.abs(angle - nullDeg) <= 0.051);
    expect(pattern.gainDbi[nearest]).toBeLessThan(-20);
  });
});

test('at half the frequency everything is twice as long and gains the same', () => {
  const hertz = fc.double({ min: 300e6, max: 2e9, noNaN: true });
  fc.assert(
    fc.property(hertz, fc.double({ min: 0.002, max: 0.006, noNaN: true }), (f, share) => {
      const question = { frequencyHz: f, elementDiameterM: share * wavelengthM(f) };
      const twice = { frequencyHz: f / 2, elementDiameterM: 2 * question.elementDiameterM };
      for (const size of [dipole, monopole]) {
        const one = size(question);
        const other = size(twice);
        expect(other.cutLengthM / one.cutLengthM).toBeCloseTo(2, 4);
        expect(other.maximumGainDbi).toBeCloseTo(one.maximumGainDbi, 4);
      }
      const array = { elements: 3, spacingWavelengths: 0.8 };
      const long = collinear({ ...array, frequencyHz: f / 2 });
      expect(long.totalLengthM / collinear({ ...array, frequencyHz: f }).totalLengthM).toBeCloseTo(2, 9);
    }),
    { numRuns: 5 },
  );
});

describe('sleeveDipole', () => {
  // A sleeve as thin as the rod is a dipole of two equal arms, for which NEC-2 figures are there.
  test.each(ofKind('dipole-resonant').filter(([id]) => !id.startsWith('thin')))(
    '%s: half the length of the NEC-2 dipole within 0.5 %',
    (_, row) => {
      const { frequencyHz: hertz, elementDiameterM } = questionOf(row);
      const got = sleeveDipole({ frequencyHz: hertz, elementDiameterM, sleeveDiameterM: elementDiameterM });
      const whole = dipole({ frequencyHz: hertz, elementDiameterM });
      expect(Math.abs((2 * got.resonantLengthM) / (row.resonantLengthMm / 1000) - 1)).toBeLessThan(0.005);
      expect(Math.abs(got.resistanceOhm / whole.resistanceOhm - 1)).toBeLessThan(0.02);
    },
  );

  test('a thicker sleeve makes both arms shorter, and hardly changes the gain', () => {
    fc.assert(
      fc.property(fc.double({ min: 1.5, max: 3.4, noNaN: true }), (ratio) => {
        const elementDiameterM = 0.002;
        const thin = sleeveDipole({ frequencyHz, elementDiameterM, sleeveDiameterM: elementDiameterM });
        const thick = sleeveDipole({
          frequencyHz,
          elementDiameterM,
          sleeveDiameterM: ratio * elementDiameterM,
        });
        expect(thick.resonantLengthM).toBeLessThan(thin.resonantLengthM);
        expect(Math.abs(thick.maximumGainDbi - thin.maximumGainDbi)).toBeLessThan(0.15);
      }),
      { numRuns: 8 },
    );
  });

  test('a sleeve thinner than the rod, and one in millimetres, are refused', () => {
    const rod = { frequencyHz, elementDiameterM: 0.004 };
    expect(() => sleeveDipole({ ...rod, sleeveDiameterM: 0.003 })).toThrow(
      /sleeveDiameterM: expected at least/,
    );
    expect(() => sleeveDipole({ ...rod, sleeveDiameterM: 10 })).toThrow(/millimetres\?/);
  });
});
