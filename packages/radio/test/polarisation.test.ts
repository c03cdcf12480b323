import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Polarisation, polarisationMismatchDb } from '../src/index.js';
import { expectNear, half } from './support.js';

const circular = ['right-circular', 'left-circular'] as const;

describe('polarisationMismatchDb', () => {
  // Electronic Warfare and Radar Systems Engineering Handbook, table of polarization loss (from memory): vertical and slant, or any
  // linear and any circular, 3 dB; equal, 0 dB; vertical and horizontal, right and left, infinite in theory.
  test('the handbook table', () => {
    expectNear(polarisationMismatchDb({ transmit: 'linear', receive: 'linear', angleDeg: 45 }), 3, 0.05);
    expectNear(polarisationMismatchDb({ transmit: 'linear', receive: 'linear' }), 0, 1e-12);
    for (const sense of circular) {
      expectNear(polarisationMismatchDb({ transmit: 'linear', receive: sense, angleDeg: 33 }), 3, 0.05);
      expectNear(polarisationMismatchDb({ transmit: sense, receive: sense }), 0, 1e-12);
    }
  });
  // Malus's law: cos² of the angle; 30° is ¾ of the power, 60° a quarter.
  test.each([
    [30, 3 / 4],
    [60, 1 / 4],
    [-60, 1 / 4],
    [120, 1 / 4],
  ])('two linear antennas at %d°', (angleDeg, part) => {
    const got = polarisationMismatchDb({ transmit: 'linear', receive: 'linear', angleDeg });
    expectNear(got, -10 * Math.log10(part), 1e-12);
  });
  // Satellite texts: a circular wave into an antenna of 3 dB axial ratio loses 0.13 dB (from memory).
  test('an imperfect circular antenna', () => {
    const got = polarisationMismatchDb({
      transmit: 'right-circular',
      receive: { axialRatioDb: 3, sense: 'right' },
    });
    expectNear(got, 0.13, half(2));
  });

  // IEEE Std 149 (rotating linear antenna): the axial ratio is by definition the difference between the best and the worst angle.
  const axialRatioDb = fc.double({ min: 0, max: 50, noNaN: true });
  test('a turned linear antenna sees the axial ratio', () =>
    fc.assert(
      fc.property(axialRatioDb, (ratio) => {
        const receive: Polarisation = { axialRatioDb: ratio, sense: 'left' };
        const along = polarisationMismatchDb({ transmit: 'linear', receive });
        const across = polarisationMismatchDb({ transmit: 'linear', receive, angleDeg: 90 });
        expectNear(across - along, ratio, 1e-9);
      }),
    ));

  const polarisation = fc.oneof(
    fc.constantFrom<Polarisation>('linear', 'right-circular', 'left-circular'),
    fc.record({ axialRatioDb, sense: fc.constantFrom<'right' | 'left'>('right', 'left') }),
  );
  const angleDeg = fc.double({ min: -360, max: 360, noNaN: true });
  const crossPolarDiscriminationDb = fc.double({ min: 0, max: 100, noNaN: true });
  test('is the same both ways, not negative, and not above the cross-polar discrimination', () =>
    fc.assert(
      fc.property(polarisation, polarisation, angleDeg, crossPolarDiscriminationDb, (a, b, angle, x) => {
        const options = { angleDeg: angle, crossPolarDiscriminationDb: x };
        const there = polarisationMismatchDb({ transmit: a, receive: b, ...options });
        expectNear(polarisationMismatchDb({ transmit: b, receive: a, ...options }), there, 1e-9);
        expect(there).toBeGreaterThanOrEqual(-1e-12);
        expect(there).toBeLessThanOrEqual(x + 1e-9);
      }),
    ));

  test.each([
    { transmit: 'linear', receive: 'linear', angleDeg: 90 },
    { transmit: 'linear', receive: 'linear', angleDeg: -270 },
    { transmit: 'right-circular', receive: 'left-circular' },
  ] as const)('$transmit and $receive that do not couple need a discrimination', (pair) => {
    expect(() => polarisationMismatchDb(pair)).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'crossPolarDiscriminationDb' }),
    );
    expectNear(polarisationMismatchDb({ ...pair, crossPolarDiscriminationDb: 20 }), 20, 1e-9);
  });
  test.each([undefined, null, 'vertical', 7, []])('%s is no polarisation', (value) => {
    expect(() =>
      polarisationMismatchDb({ transmit: 'linear', receive: value as unknown as Polarisation }),
    ).toThrow(expect.objectContaining({ name: 'InputError', argument: 'receive' }));
  });
});
