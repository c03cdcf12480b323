import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type RidgeClampQuestion, ridgeClamp } from '../../src/index.js';

const clamp: RidgeClampQuestion = {
  springCount: 2,
  springRateNPerM: 10e3,
  springTravelM: 0.05,
  faceAngleDeg: 90,
  frictionRatio: 0.5,
  jawLengthM: 0.3,
  jawSpacingM: 0.2,
  forceN: 50,
  momentNm: 40,
};
const rules = (asked: RidgeClampQuestion) =>
  ridgeClamp(asked).findings.map(({ rule, severity }) => `${rule} ${severity}`);

describe('a clamp round a ridge', () => {
  test('Hooke, and Coulomb on upright faces, by hand', () => {
    const held = ridgeClamp({ ...clamp, settlingM: 0.01 });
    // 2 springs · 10 N/mm · 40 mm; half of it in friction on each of two faces; lever of an even line: a quarter of its length each
    expect(held.preloadN).toBeCloseTo(800, 9);
    expect(held.slideForceN).toBeCloseTo(800, 9);
    expect(held.slipMomentNm).toBeCloseTo(2 * 400 * 0.075, 9);
    expect(held.liftMomentNm).toBeCloseTo(400 * 0.2, 9);
  });

  test('a jaw rides up when its face is flatter than the angle of friction allows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 89, noNaN: true }),
        fc.double({ min: 0.06, max: 1.4, noNaN: true }),
        (faceAngleDeg, frictionRatio) => {
          const frictionDeg = (Math.atan(frictionRatio) * 180) / Math.PI;
          fc.pre(Math.abs(90 - faceAngleDeg - frictionDeg) > 0.01);
          const held = ridgeClamp({ ...clamp, faceAngleDeg, frictionRatio });
          expect(held.ridesUp).toBe(90 - faceAngleDeg > frictionDeg);
          expect(held.liftMomentNm > 0).toBe(!held.ridesUp);
          // A wedge holds T tan(φ - δ), δ being the slope from the upright.
          const wedge = held.preloadN * Math.tan(((frictionDeg - (90 - faceAngleDeg)) * Math.PI) / 180);
          expect(held.liftMomentNm).toBeCloseTo(Math.max(wedge, 0) * 0.2, 6);
        },
      ),
    );
  });

  test('twice the pull holds twice', () => {
    const once = ridgeClamp({ ...clamp, faceAngleDeg: 80 });
    const twice = ridgeClamp({ ...clamp, faceAngleDeg: 80, springCount: 4 });
    expect(twice.slipMomentNm / once.slipMomentNm).toBeCloseTo(2, 12);
    expect(twice.liftMomentNm / once.liftMomentNm).toBeCloseTo(2, 12);
  });

  test('findings', () => {
    expect(rules(clamp)).toEqual(['ridge-clamp-caution note']);
    expect(rules({ ...clamp, momentNm: 60 })).toContain('ridge-clamp-slips fix');
    expect(rules({ ...clamp, momentNm: 200 })).toContain('ridge-clamp-slips stop');
    expect(rules({ ...clamp, faceAngleDeg: 40 })).toContain('ridge-clamp-rides-up stop');
    const wedged = ridgeClamp({ ...clamp, faceAngleDeg: 80, jawAngleDeg: 85 });
    expect(wedged.shimAngleDeg).toBeCloseTo(5, 12);
    // A jaw steeper than the face touches with its lower edge: the gap is uphill.
    expect(wedged.findings.at(-1)?.message).toContain('the thick end uphill');
  });
});
