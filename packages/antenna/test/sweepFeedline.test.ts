import { vswrThroughLoss } from '@finial/radio';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  deembedFeedline,
  deembedTwoPort,
  embedFeedline,
  embedTwoPort,
  type FeedlineLead,
  type OnePortSweep,
  parseTouchstoneTwoPort,
  readSweep,
} from '../src/index.js';
import { grid, refusal, sweepOf } from './sweepSupport.js';

const frequencies = grid(800e6, 930e6, 9);
const part = fc.double({ min: -0.7, max: 0.7, noNaN: true });
const sweeps = fc
  .array(fc.tuple(part, part), { minLength: 9, maxLength: 9 })
  .map((parts) => sweepOf(frequencies, (_, index) => parts[index] ?? [0, 0]));
const leads: fc.Arbitrary<FeedlineLead> = fc.oneof(
  fc.record({
    lossDb: fc.double({ min: 0, max: 20, noNaN: true }),
    lossReferenceHz: fc.double({ min: 4e8, max: 1e9, noNaN: true }),
    lengthM: fc.double({ min: 0, max: 50, noNaN: true }),
    velocityFactor: fc.double({ min: 0.5, max: 1, noNaN: true }),
  }),
  fc.record({
    lossDb: fc.double({ min: 0, max: 20, noNaN: true }).map((dB) => (hertz: number) => (dB * hertz) / 1e9),
    electricalLengthM: fc.double({ min: 0, max: 50, noNaN: true }),
  }),
);

function expectSame(got: OnePortSweep, want: OnePortSweep, tolerance: number): void {
  for (const [index, re] of want.reflectionReal.entries()) {
    const [gotRe = 9, gotIm = 9] = [got.reflectionReal[index], got.reflectionImaginary[index]];
    expect(Math.hypot(gotRe - re, gotIm - (want.reflectionImaginary[index] ?? 9))).toBeLessThanOrEqual(
      tolerance,
    );
  }
}

describe('a known cable', () => {
  test('put in and taken out is nothing done', () => {
    fc.assert(
      fc.property(sweeps, leads, (sweep, lead) => {
        expectSame(deembedFeedline(embedFeedline(sweep, lead), lead), sweep, 1e-12);
      }),
    );
  });
  test.each(vectors.vswrThroughLoss)('VSWR $vswrAtAntenna through $oneWayLossDb dB', (row) => {
    const own = (row.vswrAtAntenna - 1) / (row.vswrAtAntenna + 1);
    const sweep = sweepOf(frequencies, () => [0, own]);
    const seen = embedFeedline(sweep, { lossDb: () => row.oneWayLossDb, electricalLengthM: 3 });
    const { vswr = 0 } = readSweep(seen, { targetHz: frequencies[4] ?? 0 }).atTarget;
    expect(Math.abs(vswr - row.vswrAtRadio)).toBeLessThan(1e-4);
    expect(vswr).toBeCloseTo(vswrThroughLoss({ vswr: row.vswrAtAntenna, lossDb: row.oneWayLossDb }), 9);
  });
  test('the loss goes with the root of frequency', () => {
    const sweep = sweepOf([217e6, 868e6], () => [0.5, 0]);
    const seen = embedFeedline(sweep, { lossDb: 2, lossReferenceHz: 868e6, delaySeconds: 0 });
    expect(20 * Math.log10((seen.reflectionReal[0] ?? 0) / 0.5)).toBeCloseTo(-2, 12);
    expect(20 * Math.log10((seen.reflectionReal[1] ?? 0) / 0.5)).toBeCloseTo(-4, 12);
  });
  test('three ways to say one length', () => {
    const sweep = sweepOf(frequencies, () => [0.3, 0.2]);
    const loss = { lossDb: 0.5, lossReferenceHz: 868e6 };
    const want = deembedFeedline(sweep, { ...loss, lengthM: 0.69, velocityFactor: 0.69 });
    expectSame(deembedFeedline(sweep, { ...loss, electricalLengthM: 1 }), want, 1e-12);
    expectSame(deembedFeedline(sweep, { ...loss, delaySeconds: 1 / 299_792_458 }), want, 1e-12);
  });
  test('too much loss taken out is said', () => {
    const sweep = sweepOf(frequencies, () => [0.5, 0]);
    const { warnings } = deembedFeedline(sweep, { lossDb: () => 12, electricalLengthM: 1 });
    expect(warnings).toHaveLength(2);
    expect(warnings[0]).toContain('too large');
    expect(warnings[1]).toContain('24.0 dB');
  });
  test.each([
    ['no length', { lossDb: 1, lossReferenceHz: 1e9 }, 'lead.lengthM', 'missing'],
    [
      'two lengths',
      { lossDb: 1, lossReferenceHz: 1e9, electricalLengthM: 1, delaySeconds: 1e-9 },
      'lead.lengthM',
      'unknown-option',
    ],
    [
      'no velocity factor',
      { lossDb: 1, lossReferenceHz: 1e9, lengthM: 1 },
      'velocityFactor',
      'not-a-finite-number',
    ],
    [
      'no reference',
      { lossDb: 1, lengthM: 1, velocityFactor: 0.7 },
      'lossReferenceHz',
      'not-a-finite-number',
    ],
    ['negative loss', { lossDb: -1, lossReferenceHz: 1e9, electricalLengthM: 1 }, 'lossDb', 'out-of-range'],
    [
      'a loss that is no number',
      { lossDb: () => Number.NaN, electricalLengthM: 1 },
      'lossDb(800000000)',
      'not-a-finite-number',
    ],
    [
      'velocity factor in percent',
      { lossDb: 1, lossReferenceHz: 1e9, lengthM: 1, velocityFactor: 69 },
      'velocityFactor',
      'out-of-range',
    ],
  ])('%s: refused', (_, lead, argument, code) => {
    const call = () =>
      deembedFeedline(
        sweepOf(frequencies, () => [0, 0]),
        lead,
      );
    expect(refusal(call)).toMatchObject({ name: 'InputError', argument, code });
  });
});

describe('a measured two-port', () => {
  const row = (mhz: number) => `${mhz} 0.1 ${mhz / 50} 0.8 ${-mhz / 20} 0.7 ${-mhz / 20} 0.15 30\n`;
  const adapter = parseTouchstoneTwoPort(`# MHz S MA R 50\n${[790, 800, 850, 900, 940].map(row).join('')}`);
  test('put in and taken out is nothing done', () => {
    fc.assert(
      fc.property(sweeps, (sweep) => {
        expectSame(deembedTwoPort(embedTwoPort(sweep, adapter), adapter), sweep, 1e-12);
      }),
    );
  });
  test('a matched cable as a two-port and as a lead are one', () => {
    const mhz = grid(790, 940, 151);
    const delaySeconds = 2e-9;
    const text = mhz.map(
      (f) => `${f} 0 0 -0.4 ${-360 * f * 1e6 * delaySeconds} -0.4 ${-360 * f * 1e6 * delaySeconds} -300 0\n`,
    );
    const cable = parseTouchstoneTwoPort(
      `# MHz S DB R 50\n${text.join('').replaceAll(' 0 0 -0.4', ' -300 0 -0.4')}`,
    );
    const sweep = sweepOf(frequencies, (hertz) => [0.4 - hertz / 4e9, 0.2]);
    // Between its points, 1 MHz apart, the cable turns by 0.7 degrees: the cubic is off by less than 1e-9.
    expectSame(
      deembedTwoPort(sweep, cable),
      deembedFeedline(sweep, { lossDb: () => 0.4, delaySeconds }),
      1e-8,
    );
  });
  // Γin of a load behind a two-port (textbook, from memory), worked by hand: 0.1 + 0.8·0.7·0.5/(1 − 0.15·0.5) with all angles 0.
  test('by hand', () => {
    const plain = parseTouchstoneTwoPort('# MHz S MA R 50\n868 0.1 0 0.8 0 0.7 0 0.15 0\n');
    const seen = embedTwoPort(
      sweepOf([868e6], () => [0.5, 0]),
      plain,
    );
    expect(seen.reflectionReal[0]).toBeCloseTo(0.402_702_702_702_7, 12);
  });
  test('outside its frequencies, or on another reference: refused', () => {
    const wide = sweepOf([700e6, 800e6], () => [0, 0]);
    expect(refusal(() => deembedTwoPort(wide, adapter)).argument).toBe('sweep.frequencyHz');
    const other = { ...sweepOf([800e6], () => [0, 0]), referenceOhm: 75 };
    expect(refusal(() => deembedTwoPort(other, adapter)).argument).toBe('twoPort.referenceOhm');
  });
});
