import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Elevation,
  type ElevationTile,
  elevationBounds,
  finestStepM,
  heightAtM,
  heightSampler,
  sampleHeightsM,
} from '../src/index.js';
import { utmProjection } from '../src/tile/utmProjection.js';

function tile(
  grid: ElevationTile['grid'],
  rows: number,
  columns: number,
  heightAt: (row: number, column: number) => number,
): ElevationTile {
  const heightsM = Float64Array.from({ length: rows * columns }, (_, index) =>
    heightAt(Math.floor(index / columns), index % columns),
  );
  const voidCount = heightsM.filter(Number.isNaN).length;
  return { name: 'test', rows, columns, heightsM, voidCount, grid };
}

function elevationOf(...tiles: ElevationTile[]): Elevation {
  return { tiles, voidCount: tiles.reduce((sum, { voidCount }) => sum + voidCount, 0), filledCount: 0 };
}

function degrees(northDeg: number, westDeg: number, stepDeg: number): ElevationTile['grid'] {
  return { kind: 'geographic', northDeg, westDeg, rowStepDeg: stepDeg, columnStepDeg: stepDeg };
}

const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('between cells', () => {
  const bumpy = elevationOf(
    tile(degrees(10, 20, 0.5), 9, 11, (row, column) => ((row * 37 + column * 101) % 53) - 20),
  );

  test('bilinear ground is given back exactly', () => {
    // a + b·lat + c·lon + d·lat·lon is what bilinear interpolation leaves unchanged.
    const law = (lat: number, lon: number) => 5 + 3 * lat - 2 * lon + 0.5 * lat * lon;
    const ground = elevationOf(
      tile(degrees(10, 20, 0.5), 9, 11, (row, column) => law(10 - row / 2, 20 + column / 2)),
    );
    fc.assert(
      fc.property(share, share, (south, east) => {
        const position = { latitudeDeg: 10 - 4 * south, longitudeDeg: 20 + 5 * east };
        expect(heightAtM(ground, position)).toBeCloseTo(law(position.latitudeDeg, position.longitudeDeg), 9);
      }),
    );
  });

  test('never beyond the four cells around, and continuous', () => {
    fc.assert(
      fc.property(share, share, (south, east) => {
        const latitudeDeg = 10 - 4 * south;
        const longitudeDeg = 20 + 5 * east;
        const heightM = heightAtM(bumpy, { latitudeDeg, longitudeDeg });
        expect(heightM).toBeGreaterThanOrEqual(-20);
        expect(heightM).toBeLessThanOrEqual(32);
        const near = heightAtM(bumpy, { latitudeDeg: Math.max(6, latitudeDeg - 1e-7), longitudeDeg });
        // At most 53 m from cell to cell.
        expect(Math.abs(near - heightM)).toBeLessThan((53 / 0.5) * 1e-7 * 1.01 + 1e-9);
      }),
    );
  });

  test('a series is its single heights, inside the bounds and outside of them', () => {
    const { southDeg, northDeg, westDeg, eastDeg } = elevationBounds(bumpy);
    const around = fc.tuple(
      fc.double({ min: 5, max: 11, noNaN: true }),
      fc.double({ min: 19, max: 26, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(around, { minLength: 1, maxLength: 8 }), (places) => {
        const heightsM = sampleHeightsM(
          bumpy,
          places.map(([latitudeDeg]) => latitudeDeg),
          places.map(([, longitudeDeg]) => longitudeDeg),
        );
        for (const [index, [latitudeDeg, longitudeDeg]] of places.entries()) {
          const isInside =
            latitudeDeg >= southDeg &&
            latitudeDeg <= northDeg &&
            longitudeDeg >= westDeg &&
            longitudeDeg <= eastDeg;
          expect(Number.isNaN(heightsM[index])).toBe(!isInside);
          if (isInside) expect(heightsM[index]).toBe(heightAtM(bumpy, { latitudeDeg, longitudeDeg }));
        }
      }),
    );
  });

  test('the finest step goes with the step of the grid', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.4, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        (stepDeg, northDeg) => {
          const of = (degreesOfStep: number) =>
            finestStepM(elevationOf(tile(degrees(northDeg, 0, degreesOfStep), 3, 3, () => 0)));
          // Twice the step reaches a little farther towards or from the pole.
          expect(Math.abs(of(2 * stepDeg) / of(stepDeg) / 2 - 1)).toBeLessThan(0.04);
          expect(of(stepDeg)).toBeLessThan(stepDeg * 111_700);
        },
      ),
    );
  });

  test('series, sampler and single heights agree', () => {
    const latitudesDeg = [6, 7.3, 9.99, 10.2];
    const longitudesDeg = Float64Array.of(20, 22.2, 25, 20);
    const heightsM = sampleHeightsM(bumpy, latitudesDeg, longitudesDeg);
    const { heightM } = heightSampler(bumpy);
    for (const [index, latitudeDeg] of latitudesDeg.entries()) {
      const longitudeDeg = longitudesDeg[index] as number;
      expect(heightsM[index]).toBe(heightM(latitudeDeg, longitudeDeg));
      if (index < 3) expect(heightsM[index]).toBe(heightAtM(bumpy, { latitudeDeg, longitudeDeg }));
    }
    expect(heightsM[3]).toBeNaN();
    expect(() => heightAtM(bumpy, { latitudeDeg: 10.2, longitudeDeg: 20 })).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'position' }),
    );
  });

  test('a void takes the cells beside it, not the row or column next to them', () => {
    const holed = elevationOf(
      tile(degrees(10, 20, 1), 4, 4, (row, column) => (row === 1 && column === 1 ? Number.NaN : 7)),
    );
    const [inHole, onRow, onColumn] = sampleHeightsM(holed, [8.5, 8, 9.5], [21.5, 21.5, 23]);
    expect([inHole, onRow, onColumn]).toEqual([Number.NaN, 7, 7]);
  });
});

describe('several tiles', () => {
  // Cells that stand for areas: the last column of one tile and the first of the next are one step apart, no edge is shared.
  const law = (lat: number, lon: number) => 50 + 8 * lat + 3 * lon;
  const sheet = (northDeg: number, westDeg: number) =>
    tile(degrees(northDeg, westDeg, 0.1), 10, 10, (row, column) =>
      law(northDeg - row / 10, westDeg + column / 10),
    );
  const four = elevationOf(sheet(49.95, 7.05), sheet(49.95, 8.05), sheet(48.95, 7.05), sheet(48.95, 8.05));

  test('the seams are seamless, the corner where four meet too', () => {
    fc.assert(
      fc.property(share, share, (south, east) => {
        const latitudeDeg = 49.95 - 1.9 * south;
        const longitudeDeg = 7.05 + 1.9 * east;
        expect(heightAtM(four, { latitudeDeg, longitudeDeg })).toBeCloseTo(law(latitudeDeg, longitudeDeg), 6);
      }),
    );
    expect(heightAtM(four, { latitudeDeg: 49, longitudeDeg: 8 })).toBeCloseTo(law(49, 8), 9);
  });

  test('a missing neighbour leaves its side of the seam open', () => {
    const three = elevationOf(...four.tiles.slice(0, 3));
    expect(heightAtM(three, { latitudeDeg: 49.5, longitudeDeg: 8 })).toBeCloseTo(law(49.5, 8), 9);
    expect(() => heightAtM(three, { latitudeDeg: 49, longitudeDeg: 8 })).toThrow(
      expect.objectContaining({ code: 'out-of-range' }),
    );
  });

  test('the first that has a value holds', () => {
    const holed = tile(degrees(49, 7, 0.5), 3, 3, (row, column) =>
      row === 0 && column === 0 ? Number.NaN : 1,
    );
    const whole = tile(degrees(49, 7, 1), 2, 2, () => 2);
    const [inHole, beside] = sampleHeightsM(elevationOf(holed, whole), [48.9, 48.2], [7.1, 7.8]);
    expect([inHole, beside]).toEqual([2, 1]);
    expect(finestStepM(elevationOf(whole, holed))).toBe(finestStepM(elevationOf(holed)));
  });

  test('the date line is no edge', () => {
    const west = tile(degrees(10, 179, 0.25), 5, 4, () => 5);
    const east = tile(degrees(10, -180, 0.25), 5, 5, () => 5);
    const both = elevationOf(west, east);
    expect(elevationBounds(both)).toEqual({ southDeg: 9, westDeg: 179, northDeg: 10, eastDeg: -179 });
    expect([...sampleHeightsM(both, [9.5, 9.5, 9.5, 9.5], [179.9, 180, -180, -179.5])]).toEqual([5, 5, 5, 5]);
    const over = elevationOf(tile(degrees(10, 179, 0.25), 5, 9, (_, column) => column));
    expect([...sampleHeightsM(over, [9.5, 9.5], [179.5, -179.5])]).toEqual([2, 6]);
  });

  test('a ring around the whole Earth closes', () => {
    const ring = elevationOf(tile(degrees(89.5, -179.5, 1), 180, 360, () => 3));
    expect([...sampleHeightsM(ring, [0, 0, 0], [-180, 180, 179.9])]).toEqual([3, 3, 3]);
  });
});

describe('UTM', () => {
  // GeographicLib, manual page of GeoConvert(1): 33.3° N 44.4° E = 38N 444140.54 3684706.36, printed to the centimetre.
  test('against a published position', () => {
    const [eastM, northM] = utmProjection(38, 'north').forward(33.3, 44.4);
    expect(Math.abs(eastM - 444140.54)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(northM - 3684706.36)).toBeLessThanOrEqual(0.005);
  });

  // On the meridian of a zone the northing is 0.9996 times the arc: 10 001 965.729 m to the pole for WGS 84 (from memory).
  test('against the quarter of the meridian', () => {
    const [eastM, northM] = utmProjection(31, 'north').forward(90, 3);
    expect(eastM).toBeCloseTo(500_000, 3);
    expect(northM).toBeCloseTo(0.9996 * 10_001_965.729, 2);
  });

  test('there and back, both hemispheres', () => {
    const position = fc.tuple(
      fc.double({ min: -80, max: 84, noNaN: true }),
      fc.double({ min: -4, max: 4, noNaN: true }),
      fc.integer({ min: 1, max: 60 }),
      fc.constantFrom('north' as const, 'south' as const),
    );
    fc.assert(
      fc.property(position, ([latitudeDeg, offDeg, zone, hemisphere]) => {
        const utm = utmProjection(zone, hemisphere);
        const [backLatitudeDeg, backLongitudeDeg] = utm.inverse(
          ...utm.forward(latitudeDeg, 6 * zone - 183 + offDeg),
        );
        expect(backLatitudeDeg).toBeCloseTo(latitudeDeg, 9);
        const turnDeg = backLongitudeDeg - (6 * zone - 183 + offDeg);
        expect(turnDeg - 360 * Math.round(turnDeg / 360)).toBeCloseTo(0, 9);
      }),
    );
  });

  const grid = {
    kind: 'utm',
    zone: 60,
    hemisphere: 'south',
    northM: 5e6,
    westM: 480_000,
    rowStepM: 100,
    columnStepM: 100,
  } as const;
  const plain = elevationOf(tile(grid, 201, 401, (row, column) => row / 10 + column));

  test('heights, bounds and step of a tile in a zone', () => {
    const [latitudeDeg, longitudeDeg] = utmProjection(60, 'south').inverse(500_000, 4_990_000);
    expect(heightAtM(plain, { latitudeDeg, longitudeDeg })).toBeCloseTo(210, 6);
    expect(finestStepM(plain)).toBe(100);
    const bounds = elevationBounds(plain);
    // The zone's meridian is 177° E, and 45.1° S lies 5e6 m from the pole's side of the grid.
    expect(bounds.westDeg).toBeLessThan(177);
    expect(bounds.eastDeg).toBeGreaterThan(177);
    expect(heightSampler(plain).heightM(-latitudeDeg, longitudeDeg), 'the other hemisphere').toBeNaN();
    expect(heightSampler(plain).heightM(latitudeDeg, longitudeDeg - 180), 'the other side').toBeNaN();
  });

  test('two zones side by side overlap and agree', () => {
    const zones = ([32, 33] as const).map((zone) => {
      const [eastM, northM] = utmProjection(zone, 'north').forward(50, 12);
      const westM = Math.round(eastM) - 1000;
      const place = {
        kind: 'utm',
        zone,
        hemisphere: 'north',
        northM: Math.round(northM) + 1000,
        westM,
      } as const;
      const { inverse } = utmProjection(zone, 'north');
      return tile({ ...place, rowStepM: 50, columnStepM: 50 }, 41, 41, (row, column) => {
        const [latitudeDeg, longitudeDeg] = inverse(westM + 50 * column, place.northM - 50 * row);
        return 1000 * (latitudeDeg - 50) + 500 * (longitudeDeg - 12) + 300;
      });
    });
    const [one, other] = zones.map((zone) =>
      heightAtM(elevationOf(zone), { latitudeDeg: 50.003, longitudeDeg: 12.004 }),
    );
    expect(one).toBeCloseTo(305, 3);
    expect(other).toBeCloseTo(305, 3);
  });
});

// A degree of latitude at 45° is 111.132 km and one of longitude 78.847 km on WGS 84 (table of lengths of a degree, from memory).
test('the finest step against lengths of a degree', () => {
  const second = elevationOf(tile(degrees(45 + 1 / 3600, 7, 1 / 3600), 3, 3, () => 0));
  expect(Math.abs(finestStepM(second) / (78_847 / 3600) - 1)).toBeLessThan(0.006);
  const flat = { ...degrees(45 + 1 / 3600, 7, 1 / 3600), columnStepDeg: 1 / 1200 } as ElevationTile['grid'];
  expect(Math.abs(finestStepM(elevationOf(tile(flat, 3, 3, () => 0))) / (111_132 / 3600) - 1)).toBeLessThan(
    0.006,
  );
});
