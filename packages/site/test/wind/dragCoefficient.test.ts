import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DragShape, dragCoefficient } from '../../src/index.js';

describe('drag of a part', () => {
  // tests/reference/hardware-vectors.json, wind.drag: the ASCE 7-16 table 29.4-2 reprint, then the tables from memory
  test.each([
    ['round', 0.04, 2, 980, 1.2],
    ['round', 0.2, 2, 980, 0.8],
    ['flat', 0.2, 0.15, 980, 2],
    ['round-by-length', 0.04, 0.04, 980, 0.7],
    ['round-by-length', 0.04, 0.28, 980, 0.8],
    ['round-by-length', 0.04, 1, 980, 1.2],
    ['round-by-length', 1, 1, 980, 0.5],
    ['round-by-length', 1, 7, 980, 0.6],
    ['round-by-length', 1, 25, 980, 0.7],
    ['flat-by-aspect', 0.2, 0.5, 980, 1.2],
    ['flat-by-aspect', 0.1, 0.7, 980, 1.4],
    ['flat-by-aspect', 0.1, 2.5, 980, 2],
  ] as const)('%s, %d m by %d m at %d Pa', (shape, widthM, heightM, pressurePa, printed) => {
    const drag = dragCoefficient({ shape, widthM, heightM, pressurePa });
    expect(drag.dragRatio).toBeCloseTo(printed, 9);
    expect(drag.isVerified).toBe(shape === 'round' || shape === 'flat');
  });

  test('the tables by length never give more than the one for the open, and a turned plate has the same drag', () => {
    const size = fc.double({ min: 0.002, max: 5, noNaN: true });
    fc.assert(
      fc.property(size, size, (widthM, heightM) => {
        const of = (shape: DragShape, width: number, height: number) =>
          dragCoefficient({ shape, widthM: width, heightM: height, pressurePa: 500 }).dragRatio;
        expect(of('round-by-length', widthM, heightM)).toBeLessThanOrEqual(of('round', widthM, heightM));
        expect(of('flat-by-aspect', widthM, heightM)).toBe(of('flat-by-aspect', heightM, widthM));
        expect(of('flat-by-aspect', widthM, heightM)).toBeLessThanOrEqual(2);
      }),
    );
  });
});
