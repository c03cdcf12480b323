import { p526, type RadioPath } from '@finial/propagation';
import { describe, expect, test } from 'vitest';

const good: RadioPath = {
  frequencyHz: 868.1e6,
  distanceM: [0, 100, 250, 400],
  heightM: [10, 12, 9, 11],
  transmitterHeightM: 10,
  receiverHeightM: 2,
};

describe('a faulty path is refused by name', () => {
  test.each<readonly [string, object, string]>([
    ['no path', { distanceM: undefined }, 'path.distanceM'],
    ['one point', { distanceM: [0], heightM: [1] }, 'path.distanceM'],
    ['no points', { distanceM: [], heightM: [] }, 'path.distanceM'],
    ['a start beside 0', { distanceM: [1, 100, 250, 400] }, 'path.distanceM[0]'],
    ['unsorted', { distanceM: [0, 250, 100, 400] }, 'path.distanceM[2]'],
    ['two points at one place', { distanceM: [0, 100, 100, 400] }, 'path.distanceM[2]'],
    ['coincident ends', { distanceM: [0, 0], heightM: [1, 1] }, 'path.distanceM[1]'],
    ['NaN among the distances', { distanceM: [0, Number.NaN, 250, 400] }, 'path.distanceM[1]'],
    ['NaN among the heights', { heightM: new Float64Array([1, 2, Number.NaN, 3]) }, 'path.heightM[2]'],
    ['an infinite height', { heightM: [1, 2, Number.POSITIVE_INFINITY, 3] }, 'path.heightM[2]'],
    ['a hole in a list', { heightM: Object.assign(new Array(4), { 0: 1, 2: 3, 3: 4 }) }, 'path.heightM[1]'],
    ['text among the heights', { heightM: [1, '2', 3, 4] as unknown as number[] }, 'path.heightM[1]'],
    ['fewer heights', { heightM: [1, 2, 3] }, 'path.heightM'],
    ['another kind of array', { heightM: new Float32Array(4) as unknown as Float64Array }, 'path.heightM'],
    ['negative clutter', { clutterHeightM: [0, -1, 0, 0] }, 'path.clutterHeightM[1]'],
    ['fewer zones', { zone: ['sea'] }, 'path.zone'],
    ['an unknown zone', { zone: ['sea', 'sea', 'lake', 'sea'] }, 'path.zone[2]'],
    ['megahertz', { frequencyHz: 868.1 }, 'path.frequencyHz'],
    ['an antenna on the ground', { receiverHeightM: 0 }, 'path.receiverHeightM'],
    ['a circular wave', { polarisation: 'circular' }, 'path.polarisation'],
  ])('%s', (_, fault, argument) => {
    const path = { ...good, ...fault } as RadioPath;
    expect(() => p526.deltaBullington(path)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });

  test.each([undefined, null, 5, [], 'path'])('%s instead of a path', (path) => {
    expect(() => p526.deltaBullington(path as unknown as RadioPath)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'path' }),
    );
  });

  test('the good one is taken, and left as it was', () => {
    const path = { ...good, clutterHeightM: new Float64Array([5, 5, 5, 5]) };
    expect(p526.deltaBullington(path).lossDb).toBeGreaterThanOrEqual(0);
    expect(path.clutterHeightM).toEqual(new Float64Array([5, 5, 5, 5]));
    expect(path.heightM).toEqual([10, 12, 9, 11]);
  });
});
