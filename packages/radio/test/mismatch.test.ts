import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  impedanceToReflection,
  reflectionCoefficientToVswr,
  returnLossToMismatchLossDb,
  returnLossToVswr,
  vswrThroughLoss,
  vswrToMismatchLossDb,
  vswrToReflectionCoefficient,
  vswrToReturnLossDb,
} from '../src/index.js';
import { expectNear, half } from './support.js';
import closed from './vectors/closed-forms.json' with { type: 'json' };

const vswr = fc.double({ min: 1.000_001, max: 1000, noNaN: true });

describe('VSWR, return loss, reflection coefficient, mismatch loss', () => {
  test('the files still hold their cases', () => {
    expect(vectors.mismatch).toHaveLength(12);
    expect(closed.mismatch.cases).toHaveLength(5);
  });
  test.each(vectors.mismatch)('VSWR $vswr, reference table', (row) => {
    expectNear(vswrToReflectionCoefficient(row.vswr), row.gamma, half(5));
    expectNear(vswrToReturnLossDb(row.vswr), row.returnLossDb, half(3));
    expectNear(vswrToMismatchLossDb(row.vswr), row.mismatchLossDb, half(4));
    expectNear(100 * vswrToReflectionCoefficient(row.vswr) ** 2, row.reflectedPercent, half(3));
    // Back again: as far as the printed digits of the input reach.
    const spread = (row.vswr + 1) ** 2;
    expectNear(reflectionCoefficientToVswr(row.gamma), row.vswr, half(5) * spread);
    expectNear(returnLossToVswr(row.returnLossDb), row.vswr, half(3) * 0.06 * spread);
    expectNear(returnLossToMismatchLossDb(row.returnLossDb), row.mismatchLossDb, half(4) + half(3) * 3);
  });
  test.each(closed.mismatch.cases)('VSWR $vswr, 40 digits', (row) => {
    expectNear(vswrToReflectionCoefficient(row.vswr), row.reflectionCoefficient, 1e-15);
    expectNear(vswrToReturnLossDb(row.vswr), row.returnLossDb, 1e-10);
    expectNear(vswrToMismatchLossDb(row.vswr), row.mismatchLossDb, closed.mismatch.toleranceDb);
    expectNear(returnLossToMismatchLossDb(row.returnLossDb), row.mismatchLossDb, 1e-10);
    expectNear(returnLossToVswr(row.returnLossDb) / row.vswr, 1, 1e-12);
  });
  test('there and back', () =>
    fc.assert(
      fc.property(vswr, (s) => {
        expectNear(returnLossToVswr(vswrToReturnLossDb(s)) / s, 1, 1e-12);
        expectNear(reflectionCoefficientToVswr(vswrToReflectionCoefficient(s)) / s, 1, 1e-12);
        expectNear(returnLossToMismatchLossDb(vswrToReturnLossDb(s)), vswrToMismatchLossDb(s), 1e-12);
      }),
    ));
  test('reflected and delivered power make the whole', () =>
    fc.assert(
      fc.property(vswr, (s) => {
        const reflected = 10 ** (-vswrToReturnLossDb(s) / 10);
        const delivered = 10 ** (-vswrToMismatchLossDb(s) / 10);
        expectNear(reflected + delivered, 1, 1e-12);
      }),
    ));
  test('a perfect match reflects nothing, but has no return loss', () => {
    expect(vswrToReflectionCoefficient(1)).toBe(0);
    expect(vswrToMismatchLossDb(1)).toBe(0);
    expect(() => vswrToReturnLossDb(1)).toThrow(
      'vswr: expected more than 1 (a perfect match has an infinite return loss), got 1',
    );
  });
  test('total reflection and a return loss of the wrong sign are refused', () => {
    expect(() => reflectionCoefficientToVswr(1)).toThrow(expect.objectContaining({ code: 'out-of-range' }));
    expect(() => returnLossToVswr(0)).toThrow(expect.objectContaining({ code: 'out-of-range' }));
    expect(() => returnLossToVswr(-10)).toThrow(/S11 at -10 dB is a return loss of 10 dB/);
    expect(() => vswrToReturnLossDb(0.5)).toThrow(expect.objectContaining({ argument: 'vswr' }));
  });
});

describe('vswrThroughLoss', () => {
  test('the files still hold their cases', () => {
    expect(vectors.vswrThroughLoss).toHaveLength(3);
    expect(closed.throughLoss.cases).toHaveLength(4);
  });
  test.each(vectors.vswrThroughLoss)(
    'VSWR $vswrAtAntenna behind $oneWayLossDb dB, reference table',
    (row) => {
      const got = vswrThroughLoss({ vswr: row.vswrAtAntenna, lossDb: row.oneWayLossDb });
      expectNear(got, row.vswrAtRadio, half(4));
    },
  );
  test.each(closed.throughLoss.cases)(
    'VSWR $vswr behind $lossDb dB, 40 digits',
    ({ vswrAtRadio, ...line }) => {
      expectNear(vswrThroughLoss(line), vswrAtRadio, closed.throughLoss.tolerance);
    },
  );
  test('every decibel of loss adds two to the return loss', () =>
    fc.assert(
      fc.property(vswr, fc.double({ min: 0, max: 30, noNaN: true }), (s, lossDb) => {
        const near = vswrThroughLoss({ vswr: s, lossDb });
        fc.pre(near > 1.000_01);
        expectNear(vswrToReturnLossDb(near) - vswrToReturnLossDb(s), 2 * lossDb, 1e-8);
      }),
    ));
});

describe('impedanceToReflection', () => {
  test('the file still holds its cases', () => expect(vectors.impedanceToVswr).toHaveLength(6));
  test.each(vectors.impedanceToVswr)('$R + j$X Ω on $z0 Ω, reference table', (row) => {
    const got = impedanceToReflection({ resistanceOhm: row.R, reactanceOhm: row.X, referenceOhm: row.z0 });
    expectNear(got.vswr, row.vswr, half(4));
    expectNear(got.returnLossDb ?? Number.NaN, row.returnLossDb, half(3));
    expectNear(got.reflectionReal, row.re, half(6));
    expectNear(got.reflectionImaginary, row.im, half(6));
  });
  const load = fc.record({
    resistanceOhm: fc.double({ min: 1, max: 1000, noNaN: true }),
    reactanceOhm: fc.double({ min: -1000, max: 1000, noNaN: true }),
  });
  test('agrees with the conversions', () =>
    fc.assert(
      fc.property(load, (z) => {
        const got = impedanceToReflection(z);
        expectNear(Math.hypot(got.reflectionReal, got.reflectionImaginary), got.reflectionCoefficient, 1e-14);
        expectNear(vswrToReflectionCoefficient(got.vswr), got.reflectionCoefficient, 1e-12);
        expectNear(vswrToMismatchLossDb(got.vswr), got.mismatchLossDb, 1e-9);
        expectNear(got.reflectionCoefficient ** 2, got.reflectedPowerRatio, 1e-14);
        const angleRad = (got.reflectionAngleDeg * Math.PI) / 180;
        expectNear(got.reflectionCoefficient * Math.cos(angleRad), got.reflectionReal, 1e-14);
        expectNear(got.reflectionCoefficient * Math.sin(angleRad), got.reflectionImaginary, 1e-14);
      }),
    ));
  test('the mirror image in the reactance turns the angle only', () =>
    fc.assert(
      fc.property(load, (z) => {
        const a = impedanceToReflection(z);
        const b = impedanceToReflection({ ...z, reactanceOhm: -z.reactanceOhm });
        expectNear(b.vswr, a.vswr, 1e-9);
        expectNear(b.reflectionImaginary, -a.reflectionImaginary, 1e-15);
      }),
    ));
  test('a perfect match has no return loss to state', () => {
    const got = impedanceToReflection({ resistanceOhm: 50, reactanceOhm: 0 });
    expect(got).toMatchObject({ vswr: 1, reflectionCoefficient: 0, mismatchLossDb: 0 });
    expect(got.returnLossDb).toBeUndefined();
  });
  test('75 Ω on 50 Ω is VSWR 1.5, the ratio of the two', () => {
    expectNear(impedanceToReflection({ resistanceOhm: 75, reactanceOhm: 0 }).vswr, 1.5, 1e-12);
  });
});
