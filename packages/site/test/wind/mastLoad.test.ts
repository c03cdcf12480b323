import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type MastPart, type MastQuestion, mastLoad } from '../../src/index.js';

interface Example {
  v: number;
  items: { widthM: number; heightM: number; cf: number; centreM: number }[];
  forceN: number;
  momentNm: number;
  baseHalfWidthM: number;
  safety: number;
  ballastKgNeeded: number;
  ballastKgForSliding: number;
}

const { windExamples } = JSON.parse(
  readFileSync(new URL('../../../../tests/reference/hardware-vectors.json', import.meta.url), 'utf8'),
) as { windExamples: Example[] };

const mast: MastPart = { name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1 };
const question: MastQuestion = {
  wind: { code: 'asce-7', gustSpeedMPerS: 40, exposureRatio: 1 },
  parts: [mast],
  foot: { kind: 'ballast', tippingArmM: 0.45, frictionRatio: 0.4 },
};
const rulesOf = (asked: MastQuestion) =>
  Object.fromEntries(mastLoad(asked).findings.map(({ rule, severity }) => [rule, severity]));

describe('wind on a mast', () => {
  // tests/reference/hardware-vectors.json, windExamples
  test.each(windExamples)('worked case at $v m/s', (example) => {
    const parts = example.items.map(
      ({ cf, ...size }): MastPart => ({ name: 'part', shape: 'round', ...size, dragRatio: cf }),
    );
    const load = mastLoad({
      wind: { code: 'asce-7', gustSpeedMPerS: example.v, exposureRatio: 1 },
      parts,
      foot: { kind: 'ballast', tippingArmM: example.baseHalfWidthM, frictionRatio: 0.4 },
      safetyRatio: example.safety,
    });
    expect(load.forceN).toBeCloseTo(example.forceN, 1);
    expect(load.momentNm).toBeCloseTo(example.momentNm, 1);
    expect(Math.abs((load.hold?.massAgainstTippingKg ?? 0) - example.ballastKgNeeded)).toBeLessThan(0.051);
    expect(Math.abs((load.hold?.massAgainstSlidingKg ?? 0) - example.ballastKgForSliding)).toBeLessThan(
      0.051,
    );
  });

  test('the ballast that it asks for gives exactly the safety factor, and no finding', () => {
    const size = fc.double({ min: 0.05, max: 3, noNaN: true });
    const friction = fc.double({ min: 0.1, max: 1, noNaN: true });
    fc.assert(
      fc.property(size, size, friction, (heightM, tippingArmM, frictionRatio) => {
        const parts = [{ ...mast, heightM, centreM: heightM / 2 }];
        const foot = { kind: 'ballast', tippingArmM, frictionRatio } as const;
        const needed = mastLoad({ ...question, parts, foot }).hold?.ballastNeededKg ?? 0;
        const hold = mastLoad({ ...question, parts, foot: { ...foot, ballastKg: needed } }).hold;
        expect(Math.min(hold?.tippingRatio ?? 0, hold?.slidingRatio ?? 0)).toBeCloseTo(1.5, 9);
        const more = rulesOf({ ...question, parts, foot: { ...foot, ballastKg: needed * 1.001 + 0.001 } });
        expect(more).not.toHaveProperty('mast-tipping');
        expect(more).not.toHaveProperty('mast-sliding');
      }),
    );
  });

  test('force and moment add up over the parts; twice the speed gives four times both', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 50, noNaN: true }), (gustSpeedMPerS) => {
        const parts = [mast, { ...mast, name: 'whip', widthM: 0.02, centreM: 3 }];
        const at = (speed: number) =>
          mastLoad({
            ...question,
            parts,
            wind: { code: 'asce-7', gustSpeedMPerS: speed, exposureRatio: 1 },
          });
        const once = at(gustSpeedMPerS);
        expect(once.parts.reduce((sum, part) => sum + part.momentNm, 0)).toBeCloseTo(once.momentNm, 9);
        expect(at(2 * gustSpeedMPerS).momentNm / once.momentNm).toBeCloseTo(4, 9);
      }),
    );
  });

  test('ice of 10 mm makes a 20 mm whip twice as wide', () => {
    const parts = [{ ...mast, widthM: 0.02 }];
    const bare = mastLoad({ ...question, parts });
    expect(mastLoad({ ...question, parts, iceM: 0.01 }).forceN / bare.forceN).toBeCloseTo(2, 12);
  });

  test('too little ballast is a stop, short of the factor a fix, and from memory only a note', () => {
    const foot = { kind: 'ballast', tippingArmM: 0.45, frictionRatio: 0.4 } as const;
    expect(rulesOf({ ...question, foot: { ...foot, ballastKg: 5 } })).toMatchObject({
      'mast-tipping': 'stop',
      'mast-sliding': 'stop',
    });
    expect(rulesOf({ ...question, foot: { ...foot, ballastKg: 30 } })).toMatchObject({
      'mast-sliding': 'fix',
    });
    const parts = [{ ...mast, shape: 'round-by-length' as const }];
    expect(rulesOf({ ...question, parts, foot: { ...foot, ballastKg: 5 } })).toMatchObject({
      'mast-tipping': 'note',
      'mast-figures-unverified': 'note',
    });
  });

  test('weight on the roof, and what the parts weigh counts', () => {
    const foot = {
      kind: 'ballast',
      tippingArmM: 0.45,
      frictionRatio: 0.4,
      ballastKg: 90,
      areaM2: 0.81,
    } as const;
    const hold = mastLoad({ ...question, parts: [{ ...mast, massKg: 10 }], foot }).hold;
    // 100 kg on 0.81 m² under standard gravity
    expect(hold?.roofPressurePa).toBeCloseTo(980.665 / 0.81, 6);
    expect(hold?.ownMassKg).toBe(10);
  });

  test('a part may not reach below the foot, and a name is a text', () => {
    expect(() => mastLoad({ ...question, parts: [{ ...mast, centreM: 0.5 }] })).toThrow(/centreM/);
    expect(() => mastLoad({ ...question, parts: [] })).toThrow(/parts: expected at least one/);
  });
});
