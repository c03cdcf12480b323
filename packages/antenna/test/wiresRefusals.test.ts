import { describe, expect, test } from 'vitest';
import { type SolveWiresSettings, solveWires, type Wire } from '../src/index.js';
import { point, verticalDipole } from './wiresBuild.js';

const rod: Wire = { start: point(0, 0, 0.1), end: point(0, 0, 0.26), radiusM: 0.001 };
const settings: SolveWiresSettings = { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } };

function refused(
  wires: readonly Wire[],
  code: string,
  argument: string,
  more: Partial<SolveWiresSettings> = {},
) {
  expect(() => solveWires(wires, { ...settings, ...more })).toThrow(
    expect.objectContaining({ name: 'InputError', code, argument }),
  );
}

describe('solveWires refuses', () => {
  test('no wires, no source', () => {
    refused([], 'missing', 'wires');
    expect(() => solveWires([rod], { frequencyHz: 868.1e6 } as SolveWiresSettings)).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'source' }),
    );
    refused([rod], 'missing', 'source', { source: [] });
  });

  test('wires too far apart to add up their radiation in a time that anyone waits', () => {
    const far: Wire = { start: point(0, 0, 0.1), end: point(-1e6, 0, 0.1), radiusM: 0.001, segments: 8 };
    refused([rod, { ...far, start: point(0.1, 0, 0.1) }], 'out-of-range', 'wires', {
      outsideValidity: 'allow',
    });
  });

  test('a source on no wire or at an open end', () => {
    refused([rod], 'out-of-range', 'source.wire', { source: { wire: 1, positionRatio: 0 } });
    refused([rod], 'out-of-range', 'source.positionRatio', { source: { wire: 0, positionRatio: 1 } });
    refused([rod], 'out-of-range', 'source.positionRatio', { source: { wire: 0, positionRatio: 0 } });
    refused([rod], 'out-of-range', 'source[1].wire', {
      source: [
        { wire: 0, positionRatio: 0.5 },
        { wire: 0.5, positionRatio: 0.5 },
      ],
    });
  });

  test('a frequency in megahertz', () => {
    expect(() => solveWires([rod], { ...settings, frequencyHz: 868.1 })).toThrow(/megahertz\?/);
  });

  test('a wire without length', () => {
    refused([rod, { ...rod, end: rod.start }], 'out-of-range', 'wires[1]');
  });

  test('too few segments, too many segments, and a wire too thick', () => {
    refused([{ ...rod, segments: 4 }], 'outside-validity', 'wires[0].segments');
    refused([{ ...rod, segments: 120 }], 'outside-validity', 'wires[0].segments');
    refused([{ ...rod, radiusM: 0.02, segments: 5 }], 'outside-validity', 'wires[0].radiusM');
    refused([{ ...rod, segments: 2.5 }], 'out-of-range', 'wires[0].segments');
  });

  test('unless the caller allows it, and then says so', () => {
    const { warnings } = solveWires([{ ...rod, segments: 4 }], { ...settings, outsideValidity: 'allow' });
    expect(warnings).toEqual([expect.stringContaining('wires[0].segments: at least 5 pieces')]);
    expect(solveWires([rod], settings).warnings).toEqual([]);
  });

  test('wires that cross, touch or overlap without a shared end', () => {
    const across = { ...rod, start: point(-0.05, 0, 0.2), end: point(0.05, 0, 0.2) };
    refused([rod, across], 'out-of-range', 'wires[1]');
    refused([rod, { ...across, start: point(0.0015, 0, 0.2) }], 'out-of-range', 'wires[1]');
    refused([rod, { ...rod, end: point(0, 0, 0.2) }], 'out-of-range', 'wires[1]');
    refused([rod, rod], 'out-of-range', 'wires[1]');
    refused([rod, { ...rod, start: rod.end, end: rod.start }], 'out-of-range', 'wires[1]');
    refused([rod, { ...rod, start: point(0, 0, 0.15), end: point(0, 0, 0.4) }], 'out-of-range', 'wires[1]');
    // A T: the end of one in the middle of the other.
    refused(
      [rod, { ...rod, start: point(0, 0, 0.18), end: point(0.1, 0, 0.18) }],
      'out-of-range',
      'wires[1]',
    );
    const clear = { ...across, start: point(0.0025, 0, 0.2) };
    expect(solveWires([rod, clear], settings).wires).toHaveLength(2);
  });

  test('wires under the ground or along it', () => {
    const ground = 'perfect';
    refused(
      [rod, { ...rod, start: point(1, 0, -0.1), end: point(1, 0, 0.1) }],
      'out-of-range',
      'wires[1].start.zM',
      {
        ground,
      },
    );
    const flat = { ...rod, start: point(1, 0, 0), end: point(1.1, 0, 0) };
    refused([rod, flat], 'out-of-range', 'wires[1]', { ground });
    refused(
      [rod, { ...flat, start: point(1, 0, 0.0005), end: point(1, 0, 0.1) }],
      'out-of-range',
      'wires[1]',
      {
        ground,
      },
    );
    expect(solveWires([rod, flat], settings).wires).toHaveLength(2);
  });

  test('more unknowns than a dense matrix should hold', () => {
    const long = { ...rod, end: point(0, 0, 3), segments: 600 };
    refused([long, { ...long, start: point(1, 0, 0), end: point(1, 0, 3) }], 'out-of-range', 'wires');
  });
});

test('segments are counted so that a node falls on the source', () => {
  for (const positionRatio of [0.5, 1 / 3, 0.25, 0.2]) {
    const { wires, settings } = verticalDipole({ frequencyHz: 868.1e6, lengthM: 0.16, radiusM: 0.001 });
    const solution = solveWires(wires, { ...settings, source: { wire: 0, positionRatio } });
    const at = positionRatio * (solution.wires[0]?.segments ?? 0);
    expect(Math.abs(at - Math.round(at))).toBeLessThan(1e-9);
  }
});
