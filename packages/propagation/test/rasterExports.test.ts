import { openElevation } from '@finial/terrain';
import { fromArrayBuffer } from 'geotiff';
import { describe, expect, test } from 'vitest';
import { coverageContours, coverageGeotiff } from '../src/export/index.js';
import { cellPosition } from '../src/index.js';
import { rasterOf } from './rasterSupport.js';

describe('coverageGeotiff', () => {
  const raster = rasterOf((eastM, northM) => 100 + eastM / 100 + northM / 10, {
    radiusCells: 40,
    cellM: 200,
  });
  const description = 'basic transmission loss in dB';
  const bytes = coverageGeotiff({ raster, figures: raster.lossDb, description });

  test('another reader finds the figure of a cell at the position of its centre', async () => {
    // The reader of elevation files takes it for heights; the pixel nearest to the centre of a cell lies in that cell.
    const file = await openElevation([{ name: 'loss.tif', bytes }]);
    const [tile] = file.tiles;
    if (tile?.grid.kind !== 'geographic') throw new Error('not in degrees');
    for (const [across, down] of [
      [5, 0],
      [-30, 11],
      [20, -25],
      [0, 39],
    ] as const) {
      const cell = cellPosition({ raster, rowIndex: 40 + down, columnIndex: 40 + across });
      const { northDeg, westDeg, rowStepDeg, columnStepDeg } = tile.grid;
      const row = Math.round((northDeg - cell.position.latitudeDeg) / rowStepDeg);
      const column = Math.round((cell.position.longitudeDeg - westDeg) / columnStepDeg);
      expect(tile.heightsM[row * tile.columns + column]).toBe(raster.lossDb[cell.index]);
    }
  });

  // OGC 19-008r4, GeoTIFF standard 1.1: model type 2 is geographic, raster type 1 areas; EPSG 4326 is WGS 84 in degrees.
  test('says what it is: WGS 84, areas, NaN for no data, 32-bit floats', async () => {
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage();
    expect(image.getGeoKeys()).toMatchObject({
      GTModelTypeGeoKey: 2,
      GTRasterTypeGeoKey: 1,
      GeographicTypeGeoKey: 4326,
    });
    expect([image.getSampleFormat(), image.getBitsPerSample(), image.getSamplesPerPixel()]).toEqual([
      3, 32, 1,
    ]);
    expect(image.getGDALNoData()).toBeNaN();
    expect(await image.fileDirectory.loadValue('ImageDescription')).toContain(description);
    const [west, , , north] = image.getBoundingBox();
    expect(north).toBeGreaterThan(raster.origin.latitudeDeg);
    expect(west).toBeLessThan(raster.origin.longitudeDeg);
    const [band] = await image.readRasters();
    expect((band as Float32Array)[0]).toBeNaN();
  });

  test.each(['', 'Pegel in dBµV', 'x'.repeat(201), 5])('the description %s is refused', (wrong) => {
    const question = { raster, figures: raster.lossDb, description: wrong as string };
    expect(() => coverageGeotiff(question)).toThrow(expect.objectContaining({ argument: 'description' }));
  });
});

type Ring = readonly (readonly [number, number])[];

describe('coverageContours', () => {
  // A cone: 10 dB at the gateway, one less for each cell outwards.
  const cone = rasterOf((eastM, northM) => 10 - Math.hypot(eastM, northM) / 100, { radiusCells: 10 });
  const levels = [
    { name: 'never', leastFigure: 11 },
    { name: 'fair', leastFigure: 2.5 },
    { name: 'safe', leastFigure: 5.5, colour: '#174' },
  ];
  const legend = { quantity: 'margin', unit: 'dB' };
  const drawn = (changes: object = {}) =>
    JSON.parse(coverageContours({ raster: cone, figures: cone.lossDb, levels, ...legend, ...changes }));

  test('carries the legend', () => {
    const { type, features } = drawn();
    expect(type).toBe('FeatureCollection');
    expect(features.map(({ properties }: { properties: object }) => properties)).toEqual([
      { name: 'fair', ...legend, least: 2.5, below: 5.5, areaM2: expect.any(Number) },
      { name: 'safe', ...legend, least: 5.5, below: 11, areaM2: expect.any(Number), colour: '#174' },
      { name: 'never', ...legend, least: 11, below: null, areaM2: 0 },
    ]);
    expect(features[2].geometry).toBeNull();
  });

  test.each([
    [0, 750],
    [1, 450],
  ])('level %s is a circle of %s m with the cell of the gateway cut out', (place, radiusM) => {
    const [rings, ...more] = drawn().features[place].geometry.coordinates as Ring[][];
    expect(more).toEqual([]);
    const [outer, hole] = (rings ?? []).map(metresAround(50, 16));
    expect(rings).toHaveLength(2);
    for (const [east, north] of outer ?? [])
      expect(Math.abs(Math.hypot(east, north) - radiusM)).toBeLessThan(8);
    for (const [east, north] of hole ?? []) expect(Math.hypot(east, north)).toBeCloseTo(50, 0);
    // RFC 7946, section 3.1.6: outer rings counter-clockwise, holes clockwise, first and last point the same.
    expect(signedArea(outer ?? []) / (Math.PI * radiusM ** 2)).toBeCloseTo(1, 1);
    expect(signedArea(hole ?? [])).toBeLessThan(0);
    for (const ring of rings ?? []) expect(ring.at(-1)).toEqual(ring[0]);
  });

  test('an island in a lake keeps its own holes', () => {
    // Land from 14 cells outwards, a lake, an island from 5 to 12 cells with a pond in it, and one small pond in the land.
    const lakes = rasterOf(
      (eastM, northM) => {
        const cells = Math.hypot(eastM, northM) / 100;
        const isPond = Math.hypot(eastM - 1700, northM) < 150;
        return (cells < 12 && cells > 5) || (cells > 14 && !isPond) ? 1 : 0;
      },
      { radiusCells: 20 },
    );
    const question = {
      raster: lakes,
      figures: lakes.lossDb,
      levels: [{ name: 'land', leastFigure: 0.5 }],
      ...legend,
    };
    const { features } = JSON.parse(coverageContours(question));
    const polygons = (features[0].geometry.coordinates as Ring[][]).map((rings) =>
      rings.map(metresAround(50, 16)),
    );
    expect(polygons.map((rings) => rings.length).sort()).toEqual([2, 3]);
    // Every polygon covers what its cells do, but for the edges: half-way between land and water.
    const areas = polygons
      .map((rings) => rings.reduce((sum, ring) => sum + signedArea(ring), 0))
      .sort((a, b) => a - b);
    expect((areas[0] ?? 0) / (Math.PI * (1200 ** 2 - 500 ** 2))).toBeCloseTo(1, 1);
    expect((areas[1] ?? 0) / (Math.PI * (2000 ** 2 - 1400 ** 2 - 150 ** 2))).toBeCloseTo(1, 1);
  });

  test('averages over blocks and stays in place', () => {
    const wide = rasterOf((eastM, northM) => 100 - Math.hypot(eastM, northM) / 100, { radiusCells: 90 });
    const question = {
      raster: wide,
      figures: wide.lossDb,
      levels: [{ name: 'x', leastFigure: 40 }],
      ...legend,
    };
    const { features } = JSON.parse(coverageContours({ ...question, thinningCount: 5 }));
    const rings = features[0].geometry.coordinates[0] as Ring[];
    const [outer = []] = rings.map(metresAround(50, 16));
    // A block of 500 m holds the mean over itself, which a cone changes by far less than one cell.
    for (const [east, north] of outer) expect(Math.abs(Math.hypot(east, north) - 6000)).toBeLessThan(60);
  });

  test('passes the date line without a tear', () => {
    const origin = { latitudeDeg: -17, longitudeDeg: 179.999 };
    const there = rasterOf(() => 5, { origin });
    const text = coverageContours({
      raster: there,
      figures: there.lossDb,
      levels: [{ name: 'x', leastFigure: 1 }],
      ...legend,
    });
    const longitudes = (JSON.parse(text).features[0].geometry.coordinates as Ring[][])
      .flat(2)
      .map(([east]) => east);
    expect(Math.max(...longitudes) - Math.min(...longitudes)).toBeLessThan(0.03);
  });

  test.each([
    ['levels', { levels: [] }],
    ['levels.leastFigure', { levels: [levels[0], levels[0]] }],
    ['levels[0].leastFigure', { levels: [{ name: 'x', leastFigure: Number.NaN }] }],
    ['levels[0].name', { levels: [{ name: '', leastFigure: 1 }] }],
    ['quantity', { quantity: undefined }],
    ['unit', { unit: 5 }],
    ['thinningCount', { thinningCount: 0 }],
    ['figures', { figures: [1, 2] }],
  ])('refuses %s', (argument, changes) => {
    expect(() => drawn(changes)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
});

/** Degrees to metres around a place, good to a thousandth within a kilometre: a degree of the meridian at 50° is 111.23 km. */
function metresAround(latitudeDeg: number, longitudeDeg: number): (ring: Ring) => Ring {
  const perDegree = 111_229;
  const perDegreeEast =
    (Math.cos((latitudeDeg / 180) * Math.PI) * 111_320) / Math.sqrt(1 - 0.00669438 * 0.5868);
  return (ring) =>
    ring.map(([longitude, latitude]) => [
      (longitude - longitudeDeg) * perDegreeEast,
      (latitude - latitudeDeg) * perDegree,
    ]);
}

function signedArea(ring: Ring): number {
  return ring.slice(1).reduce((sum, [x, y], place) => {
    const [x0, y0] = ring[place] as readonly [number, number];
    return sum + (x0 * y - x * y0) / 2;
  }, 0);
}
