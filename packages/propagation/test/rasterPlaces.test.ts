import { geodesic } from '@finial/terrain';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cellAt, cellPosition, latitudeLongitudeGrid } from '../src/index.js';
import { rasterOf } from './rasterSupport.js';

const latitudeDeg = fc.double({ min: -90, max: 90, noNaN: true });
const longitudeDeg = fc.double({ min: -180, max: 180, noNaN: true });
const step = fc.integer({ min: -10, max: 10 });

describe('cells on the Earth', () => {
  test('the semi-major axis of WGS 84 is 6378137 m by definition: so long is a radian of the equator', () => {
    const raster = rasterOf(() => 100, { origin: { latitudeDeg: 0, longitudeDeg: 10 } });
    const { position } = cellPosition({ raster, rowIndex: 10, columnIndex: 20 });
    expect(position.latitudeDeg).toBeCloseTo(0, 12);
    expect(position.longitudeDeg - 10).toBeCloseTo(((1000 / 6378137) * 180) / Math.PI, 12);
  });

  test('the worked example of the geodesic solver by C. Karney, GeodSolve manual: 40.6 N 73.8 W to 51.6 N 0.5 W', () => {
    // 5551759.400 m at an azimuth of 51.19888285° as printed there.
    const origin = { latitudeDeg: 40.6, longitudeDeg: -73.8 };
    const raster = rasterOf(() => 100, { origin, radiusCells: 600, cellM: 10_000 });
    const found = cellAt({ raster, position: { latitudeDeg: 51.6, longitudeDeg: -0.5 } });
    const azimuth = (51.19888285 / 180) * Math.PI;
    expect(found?.columnIndex).toBe(600 + Math.round((5551759.4 * Math.sin(azimuth)) / 10_000));
    expect(found?.rowIndex).toBe(600 - Math.round((5551759.4 * Math.cos(azimuth)) / 10_000));
  });

  test('a cell is found again at its own centre, anywhere on the Earth', () => {
    fc.assert(
      fc.property(latitudeDeg, longitudeDeg, step, step, (latitude, longitude, across, down) => {
        fc.pre(across ** 2 + down ** 2 <= 100);
        const raster = rasterOf(() => 100, { origin: { latitudeDeg: latitude, longitudeDeg: longitude } });
        const cell = cellPosition({ raster, rowIndex: 10 + down, columnIndex: 10 + across });
        const again = cellAt({ raster, position: cell.position });
        expect(again?.index).toBe(cell.index);
        expect(geodesic({ from: raster.origin, to: cell.position }).distanceM).toBeCloseTo(cell.distanceM, 5);
      }),
      { numRuns: 200 },
    );
  });

  test('beyond the radius there is no cell, though the square reaches there', () => {
    const raster = rasterOf(() => 100);
    const corner = cellPosition({ raster, rowIndex: 0, columnIndex: 0 });
    expect(cellAt({ raster, position: corner.position })).toBeUndefined();
  });

  test.each([
    ['rowIndex', 21],
    ['rowIndex', 0.5],
    ['columnIndex', -1],
    ['columnIndex', Number.NaN],
  ])('%s = %s is refused by name', (argument, value) => {
    const cell = { raster: rasterOf(() => 100), rowIndex: 1, columnIndex: 1, [argument]: value };
    expect(() => cellPosition(cell)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
});

describe('latitudeLongitudeGrid', () => {
  // Every cell another figure, so that a shift by one shows.
  const counted = (origin: { latitudeDeg: number; longitudeDeg: number }) => {
    const raster = rasterOf(() => 100, { origin, radiusCells: 60, cellM: 250 });
    const figures = raster.lossDb.map((loss, index) => (Number.isNaN(loss) ? loss : index));
    return { raster, figures };
  };

  test.each([
    ['in the north', { latitudeDeg: 67, longitudeDeg: 25 }],
    ['at the date line', { latitudeDeg: -17, longitudeDeg: 179.95 }],
    ['at the date line from the east', { latitudeDeg: 52, longitudeDeg: -179.99 }],
    ['on the equator', { latitudeDeg: 0, longitudeDeg: 0 }],
  ])('every point holds the figure of the cell it lies in: %s', (_, origin) => {
    const layer = counted(origin);
    const grid = latitudeLongitudeGrid(layer);
    let compared = 0;
    for (let row = 0; row < grid.rows; row += 7) {
      for (let column = 0; column < grid.columns; column += 5) {
        const longitude = grid.westDeg + column * grid.columnStepDeg;
        const position = {
          latitudeDeg: grid.northDeg - row * grid.rowStepDeg,
          longitudeDeg: longitude > 180 ? longitude - 360 : longitude,
        };
        const line = geodesic({ from: origin, to: position });
        const azimuth = (line.azimuthDeg / 180) * Math.PI;
        const across = (line.distanceM * Math.sin(azimuth)) / 250;
        const down = (-line.distanceM * Math.cos(azimuth)) / 250;
        // On the border of two cells a thousandth of a cell decides.
        if (Math.max(Math.abs((across % 1) ** 2 - 0.25), 0) < 1e-2 || Math.abs((down % 1) ** 2 - 0.25) < 1e-2)
          continue;
        const inside = Math.round(across) ** 2 + Math.round(down) ** 2 <= 3600;
        const isMiddle = Math.round(across) === 0 && Math.round(down) === 0;
        const cell = (60 + Math.round(down)) * 121 + 60 + Math.round(across);
        expect(grid.figures[row * grid.columns + column]).toBe(inside && !isMiddle ? cell : Number.NaN);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(200);
  });

  test('the whole circle lies within, and known points cover its area', () => {
    const layer = counted({ latitudeDeg: 60, longitudeDeg: 10 });
    const grid = latitudeLongitudeGrid(layer);
    const edge = grid.figures.filter(
      (_, index) =>
        index < grid.columns ||
        index >= (grid.rows - 1) * grid.columns ||
        index % grid.columns === 0 ||
        index % grid.columns === grid.columns - 1,
    );
    expect(edge.every(Number.isNaN)).toBe(true);
    const known = grid.figures.filter((figure) => !Number.isNaN(figure)).length;
    expect(known / (Math.PI * 60 ** 2)).toBeCloseTo(1, 1);
  });

  test.each([
    ['a pole within the area', { latitudeDeg: 89.95, longitudeDeg: 0 }, 'raster.origin.latitudeDeg'],
    ['the other pole', { latitudeDeg: -90, longitudeDeg: 0 }, 'raster.origin.latitudeDeg'],
  ])('%s is refused', (_, origin, argument) => {
    expect(() => latitudeLongitudeGrid(counted(origin))).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });

  test.each([0, -1, Number.NaN, '0.1'])('a step of %s is refused', (rowStepDeg) => {
    const layer = { ...counted({ latitudeDeg: 60, longitudeDeg: 10 }), rowStepDeg: rowStepDeg as number };
    expect(() => latitudeLongitudeGrid(layer)).toThrow(expect.objectContaining({ argument: 'rowStepDeg' }));
  });

  test('steps that give too many points are refused before any memory is taken', () => {
    const layer = {
      ...counted({ latitudeDeg: 60, longitudeDeg: 10 }),
      rowStepDeg: 1e-6,
      columnStepDeg: 1e-6,
    };
    expect(() => latitudeLongitudeGrid(layer)).toThrow(expect.objectContaining({ name: 'InputError' }));
  });
});
