import { type ElevationTile, shadedRelief } from '@finial/terrain';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const step = 1 / 3600;
const metresPerDegree = 111_195;

/** A tilted plane about the equator, `east` and `north` metres of rise per metre. */
function plane(east: number, north: number, hole?: number) {
  const columns = 40;
  const heightsM = Float32Array.from({ length: columns * columns }, (_, cell) => {
    const [row, column] = [Math.floor(cell / columns), cell % columns];
    if (cell === hole) return -32_768;
    return 5000 + metresPerDegree * step * (east * column - north * row);
  });
  const tile: ElevationTile = {
    name: 'plane',
    columns,
    rows: columns,
    heightsM,
    voidValue: -32_768,
    voidCount: hole === undefined ? 0 : 1,
    grid: {
      kind: 'geographic',
      northDeg: 20 * step,
      westDeg: 10,
      rowStepDeg: step,
      columnStepDeg: step,
    },
  };
  return { tiles: [tile], voidCount: tile.voidCount, filledCount: 0 };
}

const bounds = {
  southDeg: -10 * step,
  northDeg: 10 * step,
  westDeg: 10 + 10 * step,
  eastDeg: 10 + 30 * step,
};
const question = { bounds, columns: 10, rows: 10 };

describe('the ground lit from one side', () => {
  // Lambert's cosine law: a plate across the light gets all of it, one along it nothing, level ground the sine of the sun's elevation.
  test.each([
    ['level ground at 45 degrees', 0, 0, 315, 45, Math.SQRT1_2],
    ['level ground under the zenith', 0, 0, 0, 90, 1],
    ['a slope of 45 degrees that faces a sun in the east', -1, 0, 90, 45, 1],
    ['the same slope under a sun in the west', -1, 0, 270, 45, 0],
    ['a slope of 45 degrees that faces a sun in the north', 0, -1, 0, 45, 1],
    [
      'a slope of 30 degrees to the south, sun overhead',
      0,
      Math.tan(Math.PI / 6),
      180,
      90,
      Math.cos(Math.PI / 6),
    ],
    ['a slope turned away from a low sun', 1, 0, 90, 10, 0],
  ])('%s', (_, east, north, sunAzimuthDeg, sunElevationDeg, expected) => {
    const { litRatio } = shadedRelief(plane(east, north), { ...question, sunAzimuthDeg, sunElevationDeg });
    for (const lit of litRatio) expect(lit).toBeCloseTo(expected, 3);
  });

  test('any plane gets the cosine between its normal and the light', () => {
    const slope = fc.double({ min: -1.5, max: 1.5, noNaN: true });
    const azimuth = fc.double({ min: -360, max: 360, noNaN: true });
    const elevation = fc.double({ min: 1, max: 90, noNaN: true });
    fc.assert(
      fc.property(slope, slope, azimuth, elevation, (east, north, sunAzimuthDeg, sunElevationDeg) => {
        const { litRatio } = shadedRelief(plane(east, north), {
          ...question,
          sunAzimuthDeg,
          sunElevationDeg,
        });
        // By angles, not by vectors: incidence from slope, aspect and sun.
        const radians = Math.PI / 180;
        const slopeAngle = Math.atan(Math.hypot(east, north));
        const aspect = Math.atan2(-east, -north);
        const zenith = (90 - sunElevationDeg) * radians;
        const cosine =
          Math.cos(zenith) * Math.cos(slopeAngle) +
          Math.sin(zenith) * Math.sin(slopeAngle) * Math.cos(sunAzimuthDeg * radians - aspect);
        for (const lit of litRatio) expect(Math.abs(lit - Math.max(0, cosine))).toBeLessThan(0.004);
      }),
    );
  });

  test('stretched heights are those of a steeper plane', () => {
    const stretched = shadedRelief(plane(0.1, 0.05), { ...question, exaggerationRatio: 4 });
    const steep = shadedRelief(plane(0.4, 0.2), question);
    stretched.litRatio.forEach((lit, cell) => {
      expect(lit).toBeCloseTo(steep.litRatio[cell] ?? Number.NaN, 4);
    });
  });

  test('unknown ground has no light, and its neighbours lose no more than a cell', () => {
    const fine = { ...question, columns: 20, rows: 20 };
    const hole = 20 * 40 + 20;
    const { litRatio } = shadedRelief(plane(0, 0, hole), fine);
    const dark = [...litRatio].filter(Number.isNaN).length;
    expect(dark).toBeGreaterThan(0);
    expect(dark).toBeLessThanOrEqual(9);
    for (const lit of litRatio) if (!Number.isNaN(lit)) expect(lit).toBeCloseTo(Math.SQRT1_2, 5);
  });

  test('a picture across the date line is cut like any other', () => {
    const [tile] = plane(0.3, 0.1).tiles as [ElevationTile];
    const moved = { ...tile, grid: { ...tile.grid, westDeg: 180 - 20 * step } } as ElevationTile;
    const elevation = { tiles: [moved], voidCount: 0, filledCount: 0 };
    const across = { ...bounds, westDeg: 180 - 10 * step, eastDeg: -180 + 10 * step };
    const { litRatio } = shadedRelief(elevation, { ...question, bounds: across });
    const here = shadedRelief(plane(0.3, 0.1), question);
    litRatio.forEach((lit, cell) => {
      expect(lit).toBeCloseTo(here.litRatio[cell] ?? Number.NaN, 4);
    });
  });

  test.each([
    ['columns', { columns: 1 }],
    ['rows', { rows: 2.5 }],
    ['sunElevationDeg', { sunElevationDeg: 0 }],
    ['sunAzimuthDeg', { sunAzimuthDeg: Number.NaN }],
    ['exaggerationRatio', { exaggerationRatio: 0 }],
    ['bounds.northDeg', { bounds: { ...bounds, northDeg: bounds.southDeg } }],
    ['bounds.eastDeg', { bounds: { ...bounds, eastDeg: bounds.westDeg } }],
    ['bounds.westDeg', { bounds: { ...bounds, westDeg: 181 } }],
  ])('%s out of range is refused by name', (argument, wrong) => {
    expect(() => shadedRelief(plane(0, 0), { ...question, ...wrong })).toThrow(argument);
  });
});
