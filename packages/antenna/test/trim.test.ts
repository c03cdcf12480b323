import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { type TrimCut, trimAdvice } from '../src/index.js';
import { refusal } from './sweepSupport.js';

describe('hardware-vectors trimExamples (exponent -1)', () => {
  test('the file still holds its cases', () => expect(vectors.trimExamples).toHaveLength(2));
  test.each(vectors.trimExamples)('$elementMm mm at $measuredMHz MHz: $action', (row) => {
    const cuts = [{ elementLengthM: row.elementMm / 1e3, resonanceHz: row.measuredMHz * 1e6 }];
    const advice = trimAdvice({ cuts, targetHz: row.targetMHz * 1e6, exponent: -1 });
    expect(advice.newLengthM * 1e3).toBeCloseTo(row.newLengthMm, 3);
    expect(advice.action).toBe(row.action.startsWith('cut') ? 'cut' : 'replace');
    expect(advice.cutM * 1e3).toBeCloseTo(row.action.startsWith('cut') ? 2.235 : 0, 3);
    expect(advice.slopeFrom).toBe('caller');
  });
});

describe('hardware-vectors trimSensitivity: NEC-2, 3 % longer', () => {
  test('the file still holds its cases', () => expect(vectors.trimSensitivity).toHaveLength(10));
  test.each(vectors.trimSensitivity)('$antenna', (row) => {
    const shorter = { elementLengthM: row.lengthMm / 1e3, resonanceHz: row.resonanceMHz * 1e6 };
    const longer = {
      elementLengthM: 1.03 * shorter.elementLengthM,
      resonanceHz: row.after3PercentLongerMHz * 1e6,
    };
    const trimmed = row.antenna.includes('vertical only') ? 'vertical' : 'whole-antenna';
    // Both sweeps known: the slope is learnt, as NEC-2 has it.
    const learnt = trimAdvice({ cuts: [longer, shorter], targetHz: 1.01 * shorter.resonanceHz, trimmed });
    expect(learnt.slopeFrom).toBe('cuts');
    // The frequencies are printed to a kilohertz.
    expect(Math.abs(learnt.exponent - row.dlnfOverDlnL)).toBeLessThan(2e-4);
    // Only the longer one known: the cut stays on the long side of the length that NEC-2 finds right, and the kind's slope brackets it.
    const first = trimAdvice({ cuts: [longer], targetHz: shorter.resonanceHz, trimmed });
    expect(first).toMatchObject({ action: 'cut', slopeFrom: 'kind' });
    expect(first.newLengthM).toBeGreaterThanOrEqual(shorter.elementLengthM);
    expect(Math.abs(first.likeliestLengthM - shorter.elementLengthM)).toBeLessThan(2 * first.errorM);
    // Only the shorter one known, and a lower target: the new element comes out long enough.
    const again = trimAdvice({ cuts: [shorter], targetHz: longer.resonanceHz, trimmed });
    expect(again.action).toBe('replace');
    expect(again.newLengthM).toBeGreaterThanOrEqual(longer.elementLengthM);
  });
});

describe('an antenna that follows a power of its length', () => {
  const exponent = fc.double({ min: -0.8, max: -0.7, noNaN: true });
  const startRatio = fc.double({ min: 1.005, max: 1.15, noNaN: true });
  const targetHz = 868.1e6;
  test('reaches the target in four cuts, never past it', () => {
    fc.assert(
      fc.property(exponent, startRatio, (slope, ratio) => {
        const cuts: TrimCut[] = [];
        let elementLengthM = 0.08 * ratio;
        for (let step = 0; ; step += 1) {
          cuts.push({ elementLengthM, resonanceHz: targetHz * (elementLengthM / 0.08) ** slope });
          const advice = trimAdvice({ cuts, targetHz });
          expect(cuts.at(-1)?.resonanceHz).toBeLessThanOrEqual(targetHz * (1 + 1e-12));
          if (advice.action === 'done') return;
          expect(advice.action).toBe('cut');
          expect(step).toBeLessThan(4);
          expect(advice.newLengthM).toBeGreaterThan(0.08);
          expect(advice.newLengthM + advice.cutM).toBeCloseTo(elementLengthM, 12);
          elementLengthM = advice.newLengthM;
        }
      }),
    );
  });
  test('a larger error of the reading asks for a smaller cut', () => {
    const cuts = [
      { elementLengthM: 0.09, resonanceHz: targetHz * (0.09 / 0.08) ** -0.75 },
      { elementLengthM: 0.084, resonanceHz: targetHz * (0.084 / 0.08) ** -0.75 },
    ];
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.003, noNaN: true }),
        fc.double({ min: 0, max: 0.003, noNaN: true }),
        (a, b) => {
          const [small, large] = [Math.min(a, b), Math.max(a, b)].map((measuringErrorRatio) =>
            trimAdvice({ cuts, targetHz, measuringErrorRatio }),
          );
          expect(large?.cutM).toBeLessThanOrEqual((small?.cutM ?? 0) + 1e-12);
          expect(large?.errorM).toBeGreaterThanOrEqual((small?.errorM ?? 0) - 1e-12);
        },
      ),
    );
  });
  test('readings and lengths a little off: still never past the tolerance, and there in five cuts', () => {
    const error = fc.double({ min: -1, max: 1, noNaN: true });
    const anyExponent = fc.double({ min: -0.82, max: -0.62, noNaN: true });
    fc.assert(
      fc.property(anyExponent, startRatio, fc.infiniteStream(error), (slope, ratio, errors) => {
        const next = () => errors.next().value as number;
        const cuts: TrimCut[] = [];
        let trueLengthM = 0.08 * ratio;
        for (let step = 0; ; step += 1) {
          const trueHz = targetHz * (trueLengthM / 0.08) ** slope;
          expect(trueHz).toBeLessThan(targetHz * 1.002);
          // Twice the standard errors that are taken by default.
          const elementLengthM = trueLengthM + 2e-4 * next();
          cuts.push({ elementLengthM, resonanceHz: trueHz * (1 + 1e-3 * next()) });
          const advice = trimAdvice({ cuts, targetHz });
          if (advice.action === 'done') {
            expect(trueHz).toBeGreaterThan(targetHz * 0.996);
            return;
          }
          expect(advice.action).toBe('cut');
          expect(step).toBeLessThan(5);
          trueLengthM -= advice.cutM;
        }
      }),
      { numRuns: 300 },
    );
  });
  test('a reading less sure than the tolerance: near enough, and said', () => {
    const cuts = [{ elementLengthM: 0.08, resonanceHz: targetHz * 0.996 }];
    expect(trimAdvice({ cuts, targetHz }).action).toBe('cut');
    const unsure = trimAdvice({ cuts, targetHz, measuringErrorRatio: 0.003 });
    expect(unsure).toMatchObject({ action: 'done', cutM: 0 });
    expect(unsure.reason).toContain('within 0.6 %');
    expect(unsure.warnings).toHaveLength(1);
  });
  test('the standard error is the scatter that the readings make', () => {
    // A known slope: the only errors are those of frequency and length. Spread of the likeliest length over readings one error off.
    const at = (resonanceHz: number, elementLengthM: number) =>
      trimAdvice({ cuts: [{ resonanceHz, elementLengthM }], targetHz, exponent: -0.75 });
    const { likeliestLengthM, errorM } = at(840e6, 0.084);
    const byFrequency = at(840e6 * 1.0005, 0.084).likeliestLengthM - likeliestLengthM;
    const byLength = at(840e6, 0.0841).likeliestLengthM - likeliestLengthM;
    expect(Math.hypot(byFrequency, byLength) / errorM).toBeCloseTo(1, 1);
  });
});

describe('what it says', () => {
  const targetHz = 868.1e6;
  const one = (resonanceHz: number) => [{ elementLengthM: 0.08, resonanceHz }];
  test('done within the tolerance, on both sides', () => {
    for (const resonanceHz of [targetHz, targetHz * 1.0019, targetHz * 0.9981]) {
      expect(trimAdvice({ cuts: one(resonanceHz), targetHz })).toMatchObject({
        action: 'done',
        cutM: 0,
        newLengthM: 0.08,
      });
    }
    expect(trimAdvice({ cuts: one(targetHz * 0.9979), targetHz }).action).toBe('cut');
    expect(trimAdvice({ cuts: one(targetHz * 1.0021), targetHz }).action).toBe('replace');
    expect(trimAdvice({ cuts: one(targetHz * 1.0021), targetHz, toleranceRatio: 0.005 }).action).toBe('done');
  });
  test('a sentence for each', () => {
    expect(trimAdvice({ cuts: one(845e6), targetHz }).reason).toMatch(
      /^845\.00 MHz is 2\.66 % below 868\.10 MHz: .*too long\. Cut \d\.\d\d mm off/,
    );
    expect(trimAdvice({ cuts: one(905e6), targetHz }).reason).toContain('too short already. Replace it');
    expect(trimAdvice({ cuts: one(868e6), targetHz }).reason).toContain('within 0.2 %: leave the element');
  });
  test('cuts too close to show a slope leave the rule of the kind', () => {
    const cuts = [...one(840e6), { elementLengthM: 0.0798, resonanceHz: 841.5e6 }];
    expect(trimAdvice({ cuts, targetHz })).toMatchObject({
      slopeFrom: 'kind',
      exponent: -0.75,
      warnings: [],
    });
  });
  test('a slope that no element has is not believed', () => {
    const cuts = [{ elementLengthM: 0.09, resonanceHz: 845e6 }, ...one(840e6)];
    const advice = trimAdvice({ cuts, targetHz, lengthErrorM: 0, measuringErrorRatio: 1e-4 });
    expect(advice.slopeFrom).toBe('kind');
    expect(advice.warnings).toHaveLength(1);
  });
  test('far from the target: refused, or warned of when allowed', () => {
    expect(refusal(() => trimAdvice({ cuts: one(600e6), targetHz }))).toMatchObject({
      code: 'outside-validity',
    });
    expect(trimAdvice({ cuts: one(600e6), targetHz, outsideValidity: 'allow' }).warnings).toHaveLength(1);
  });
  test.each([
    ['no cuts', { cuts: [], targetHz }, 'cuts', 'missing'],
    [
      'length in millimetres',
      { cuts: [{ elementLengthM: 8000, resonanceHz: 8e8 }], targetHz },
      'cuts[0].elementLengthM',
      'out-of-range',
    ],
    ['target in megahertz', { cuts: one(840e6), targetHz: 868.1 }, 'targetHz', 'out-of-range'],
    ['exponent without minus', { cuts: one(840e6), targetHz, exponent: 0.75 }, 'exponent', 'out-of-range'],
    ['unknown kind', { cuts: one(840e6), targetHz, trimmed: 'loop' as never }, 'trimmed', 'unknown-option'],
    ['no plan', undefined as never, 'plan', 'wrong-type'],
  ])('%s: refused', (_, plan, argument, code) => {
    expect(refusal(() => trimAdvice(plan))).toMatchObject({ name: 'InputError', argument, code });
  });
});
