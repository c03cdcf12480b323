import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { geodesic } from '../src/geodesic/geodesic.js';
import { elevationAngleRad } from '../src/horizon/elevationAngle.js';
import { horizon } from '../src/horizon/horizon.js';
import { laidOut, sharedCells } from './support/sharedCells.js';
import { elevationOf, tileOf } from './support/syntheticTiles.js';

const centre = { latitudeDeg: 0, longitudeDeg: 10 };
const looking = { position: centre, antennaHeightM: 20, radiusM: 40_000, stepM: 100 };
const around = { northDeg: 1, westDeg: 9, rows: 201, columns: 201, stepDeg: 0.01 };
const level = elevationOf(tileOf(around, () => 250));

describe('level ground', () => {
  // From an eye h above a sphere of radius a the line of touch falls by acos(a/(a+h)) and is as far away: textbook geometry.
  const radiusM = (4 / 3) * 6_371_000 + 250;
  const dipRad = Math.acos(radiusM / (radiusM + 20));

  test('the horizon is where a ray touches the sphere', async () => {
    const { points, groundHeightM, eyeHeightM } = await horizon(level, { ...looking, azimuthStepDeg: 30 });
    expect(groundHeightM).toBeCloseTo(250, 9);
    expect(eyeHeightM).toBeCloseTo(270, 9);
    expect(points.map(({ azimuthDeg }) => azimuthDeg)).toEqual(
      Array.from({ length: 12 }, (_, index) => 30 * index),
    );
    for (const { elevationDeg, distanceM, heightM } of points) {
      expect(elevationDeg).toBeCloseTo((-dipRad * 180) / Math.PI, 4);
      expect(Math.abs(distanceM - dipRad * radiusM)).toBeLessThanOrEqual(100);
      expect(heightM).toBeCloseTo(250, 9);
    }
  });

  test('a straight ray sees less far than a bent one', async () => {
    const bent = await horizon(level, { ...looking, azimuthsDeg: [0] });
    const straight = await horizon(level, { ...looking, azimuthsDeg: [0], effectiveEarthRadiusFactor: 1 });
    expect(straight.points[0]?.distanceM).toBeLessThan(bent.points[0]?.distanceM as number);
    expect(straight.points[0]?.elevationDeg).toBeLessThan(bent.points[0]?.elevationDeg as number);
  });
});

test('a wall stands where it was built, at the angle of plane trigonometry less the curve of the Earth', async () => {
  const wall = elevationOf(
    tileOf(around, (_, longitudeDeg) => (Math.abs(longitudeDeg - 10.1) < 0.005 ? 600 : 100)),
  );
  const { points } = await horizon(wall, { ...looking, stepM: 10, azimuthsDeg: [90, 270] });
  const [east, west] = points;
  const wallM = (0.1 * 6_378_137 * Math.PI) / 180;
  expect(Math.abs((east?.distanceM as number) - wallM)).toBeLessThanOrEqual(10);
  // Recommendation ITU-R P.1812, equation 76: atan((h - hts)/d - d/(2 ae)).
  const want = Math.atan((600 - 120) / wallM - wallM / (2 * (4 / 3) * 6_371_000));
  expect(Math.abs((east?.elevationDeg as number) - (want * 180) / Math.PI)).toBeLessThanOrEqual(0.02);
  expect(east?.heightM).toBeGreaterThan(590);
  expect(west?.elevationDeg).toBeLessThan(0);
});

test('the angle agrees with the parabola of the Recommendation to its second order', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 3000, noNaN: true }),
      fc.double({ min: 0, max: 3000, noNaN: true }),
      fc.double({ min: 1000, max: 100_000, noNaN: true }),
      (eyeM, heightM, distanceM) => {
        const radiusM = 8_500_000;
        const parabola = Math.atan((heightM - eyeM) / distanceM - distanceM / (2 * radiusM));
        // Left out by the parabola: the factor h/a on slope and bulge.
        expect(Math.abs(elevationAngleRad(eyeM, heightM, distanceM, radiusM) - parabola)).toBeLessThan(2e-3);
      },
    ),
  );
});

test('raising the antenna never raises the skyline of the same ground', async () => {
  const hills = elevationOf(
    tileOf(around, (latitude, longitude) => 300 + 200 * Math.sin(40 * latitude) * Math.cos(55 * longitude)),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: 0, max: 360, noNaN: true }),
      async (antennaHeightM, azimuthDeg) => {
        const options = { ...looking, stepM: 500, azimuthsDeg: [azimuthDeg] };
        const low = await horizon(hills, { ...options, antennaHeightM });
        const high = await horizon(hills, { ...options, antennaHeightM: antennaHeightM + 10 });
        expect(high.points[0]?.elevationDeg).toBeLessThan(low.points[0]?.elevationDeg as number);
      },
    ),
    { numRuns: 30 },
  );
});

const jacksboro = sharedCells('jacksboro.asc');
const volcano = sharedCells('volcano.asc');

/**
 * Skyline by brute force along a row or column of cells: no geodesic library, no interpolation. On a meridian and on the equator
 * the distance of a cell is an arc whose length is known in closed form.
 */
function bruteForce(heights: readonly number[], distances: readonly number[], eyeM: number, radiusM: number) {
  const eye = { x: 0, y: radiusM + eyeM };
  return heights
    .map((height, index) => {
      const angle = (distances[index] as number) / radiusM;
      const point = { x: (radiusM + height) * Math.sin(angle), y: (radiusM + height) * Math.cos(angle) };
      return { index, elevationDeg: (Math.atan2(point.y - eye.y, point.x - eye.x) * 180) / Math.PI };
    })
    .reduce((best, row) => (row.elevationDeg > best.elevationDeg ? row : best));
}

test.skipIf(volcano === undefined)(
  'the crater of Maunga Whau, laid on the equator, against brute force',
  async () => {
    if (volcano === undefined) return;
    const cellDeg = ((10 / 6_378_137) * 180) / Math.PI;
    const row = 40;
    // The row of cells lies on the equator, where the ellipsoid is a circle of 6378137 m: a cell is 10 m wide.
    const elevation = laidOut(volcano, { northDeg: row * cellDeg, westDeg: 20, stepDeg: cellDeg });
    for (const column of [3, 25, 45]) {
      const position = { latitudeDeg: 0, longitudeDeg: 20 + column * cellDeg };
      const { points, groundHeightM } = await horizon(elevation, {
        position,
        antennaHeightM: 2,
        radiusM: 600,
        stepM: 10,
        azimuthsDeg: [90, 270],
        missingHeights: 'skip',
      });
      const cells = [...volcano.heightsM.slice(row * volcano.columns, (row + 1) * volcano.columns)];
      expect(groundHeightM).toBeCloseTo(cells[column] as number, 6);
      const eyeM = (cells[column] as number) + 2;
      for (const [side, ground] of [cells.slice(column + 1), cells.slice(0, column).reverse()].entries()) {
        const distances = ground.map((_, index) => 10 * (index + 1));
        const want = bruteForce(ground, distances, eyeM, (4 / 3) * 6_371_000);
        expect(points[side]?.elevationDeg).toBeCloseTo(want.elevationDeg, 4);
        expect(points[side]?.distanceM).toBeCloseTo(distances[want.index] as number, 6);
      }
    }
  },
);

test.skipIf(jacksboro === undefined)(
  'the ridges of Jacksboro along a meridian against brute force',
  async () => {
    if (jacksboro === undefined) return;
    const stepDeg = 1 / 1200;
    const { columns, rows } = jacksboro;
    const northDeg = 36.44625 + stepDeg / 2 + (rows - 1) * stepDeg;
    const elevation = laidOut(jacksboro, { northDeg, westDeg: -84.41375 + stepDeg / 2, stepDeg });
    const eyeRow = 300;
    const column = 200;
    const latitudeDeg = northDeg - eyeRow * stepDeg;
    const position = { latitudeDeg, longitudeDeg: -84.41375 + stepDeg / 2 + column * stepDeg };
    // Length of a short meridian arc: radius of curvature of the meridian at its middle latitude (textbook), good to 1 mm here.
    const arcM = (cells: number) => {
      const middleRad = ((latitudeDeg + (cells * stepDeg) / 2) * Math.PI) / 180;
      const eccentricity2 = 0.00669437999014;
      const radiusM =
        (6_378_137 * (1 - eccentricity2)) / (1 - eccentricity2 * Math.sin(middleRad) ** 2) ** 1.5;
      return (radiusM * cells * stepDeg * Math.PI) / 180;
    };
    const height = (row: number) => jacksboro.heightsM[row * columns + column] as number;
    const ground = Array.from({ length: eyeRow }, (_, index) => height(eyeRow - 1 - index));
    const distances = ground.map((_, index) => arcM(index + 1));
    const eyeM = height(eyeRow) + 15;
    const want = bruteForce(ground, distances, eyeM, (4 / 3) * 6_371_000);
    const { points } = await horizon(elevation, {
      position,
      antennaHeightM: 15,
      radiusM: arcM(eyeRow) - 1,
      stepM: 5,
      azimuthsDeg: [0],
    });
    // Between cells the ground is interpolated, so a sharp ridge is missed by up to a step and, on
    // slopes below 45° to both sides, by up to half a metre of height.
    const wantM = distances[want.index] as number;
    const missedDeg = ((0.5 / wantM) * 180) / Math.PI;
    expect(Math.abs((points[0]?.elevationDeg as number) - want.elevationDeg)).toBeLessThan(missedDeg);
    expect(Math.abs((points[0]?.distanceM as number) - wantM)).toBeLessThanOrEqual(1);
  },
);

describe('no height on a ray', () => {
  const options = { ...looking, radiusM: 200_000, stepM: 1000, azimuthsDeg: [0, 90] };
  test('is refused with the place', async () => {
    await expect(horizon(level, options)).rejects.toMatchObject({
      name: 'InputError',
      code: 'out-of-range',
      argument: 'elevation',
      message: expect.stringMatching(/a height 111000 m away on azimuth 0.*latitude 1\.00/),
    });
  });
  test('is passed over and told on request', async () => {
    const { points, warnings } = await horizon(level, { ...options, missingHeights: 'skip' });
    expect(points.map(({ missingCount }) => missingCount)).toEqual([90, 89]);
    expect(warnings).toHaveLength(2);
    expect(warnings[0]).toContain('azimuth 0: 90 of 200 points');
  });
  test('an azimuth without any height is left out and told', async () => {
    const position = { latitudeDeg: 1, longitudeDeg: 10 };
    const { points, warnings } = await horizon(level, { ...options, position, missingHeights: 'skip' });
    expect(points.map(({ azimuthDeg }) => azimuthDeg)).toEqual([90]);
    expect(warnings[0]).toContain('left out');
  });
  test('none under the antenna', async () => {
    const position = { latitudeDeg: 50, longitudeDeg: 10 };
    await expect(horizon(level, { ...looking, position })).rejects.toMatchObject({
      code: 'out-of-range',
      message: expect.stringContaining('under the antenna'),
    });
  });
});

test('the point of the skyline lies at its azimuth and distance', async () => {
  const { points } = await horizon(level, { ...looking, azimuthsDeg: [17, -40] });
  expect(points.map(({ azimuthDeg }) => azimuthDeg)).toEqual([17, 320]);
  for (const { azimuthDeg, distanceM, ...place } of points) {
    const line = geodesic({ from: centre, to: place });
    expect(line.distanceM).toBeCloseTo(distanceM, 6);
    expect(line.azimuthDeg).toBeCloseTo(azimuthDeg, 8);
  }
});

test('progress is told and an abort ends the work', async () => {
  const control = new AbortController();
  const told: number[] = [];
  const stopping = horizon(level, {
    ...looking,
    azimuthStepDeg: 1,
    signal: control.signal,
    onProgress: ({ doneRatio }) => {
      told.push(doneRatio);
      if (doneRatio > 0.1) control.abort(new Error('enough'));
    },
  });
  await expect(stopping).rejects.toThrow('enough');
  expect(told.length).toBeGreaterThan(1);
  expect(told.at(-1)).toBeLessThan(0.2);
});

test('an azimuth step that divides the circle gives each azimuth once', async () => {
  const { points } = await horizon(level, { ...looking, stepM: 10_000, azimuthStepDeg: 360 / 7 });
  expect(points).toHaveLength(7);
});

test.each([
  ['radiusM', 0],
  ['stepM', 50_000],
  ['antennaHeightM', -1],
  ['effectiveEarthRadiusFactor', 0],
  ['azimuthStepDeg', 0],
  ['missingHeights', 'guess'],
  ['azimuthsDeg', []],
])('%s of %s is refused by name', async (argument, value) => {
  await expect(horizon(level, { ...looking, [argument]: value })).rejects.toMatchObject({
    name: 'InputError',
    argument,
  });
});

test('azimuths and a step together are refused', async () => {
  await expect(horizon(level, { ...looking, azimuthsDeg: [0], azimuthStepDeg: 5 })).rejects.toMatchObject({
    code: 'unknown-option',
    argument: 'azimuthStepDeg',
  });
});
