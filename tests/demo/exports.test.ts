import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { check } from '@placemarkio/check-geojson';
import { Geodesic } from 'geographiclib-geodesic';
import Papa from 'papaparse';
import { decode } from 'tiff';
import { beforeAll, describe, expect, test } from 'vitest';

// What the demo writes, opened by readers that have no part in writing it.
const out = mkdtempSync(join(tmpdir(), 'finial-exports-'));
beforeAll(async () => {
  const words = ['packages/dossier/bin/finial.js', 'dossier', 'examples/fennimara/plan.json', '--out', out];
  await promisify(execFile)(process.execPath, words).catch(({ code, stderr }) => {
    expect([code, stderr]).toEqual([1, '']);
  });
}, 60_000);

const textOf = (name: string) => readFileSync(join(out, name), 'utf8');

type Ring = readonly (readonly [number, number])[];
interface BandFeature {
  readonly properties: { kind: string; name: string; areaM2: number; neededPowerDbm: number };
  readonly geometry: { type: string; coordinates: readonly (readonly Ring[])[] };
}

function bands(): readonly BandFeature[] {
  const { features } = check(textOf('coverage.geojson')) as unknown as { features: readonly BandFeature[] };
  return features.filter(({ properties }) => properties.kind === 'predicted coverage');
}

/** Area of a ring on the ellipsoid in square metres; counter-clockwise is positive. */
function ringAreaM2(ring: Ring): number {
  const polygon = Geodesic.WGS84.Polygon(false);
  for (const [longitude, latitude] of ring.slice(1)) polygon.AddPoint(latitude, longitude);
  return polygon.Compute(false, true).area ?? Number.NaN;
}

/** Whether a point lies inside an odd number of rings. */
function isInside(rings: readonly Ring[], [x, y]: readonly [number, number]): boolean {
  const crossings = rings.map(
    (ring) =>
      ring.filter(([x1, y1], index) => {
        const [x2, y2] = ring[(index + 1) % ring.length] ?? [x1, y1];
        return y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1);
      }).length,
  );
  return crossings.reduce((sum, each) => sum + each, 0) % 2 === 1;
}

describe('coverage.geojson', () => {
  test('is GeoJSON with an area for each data rate, as large as it says', () => {
    expect(bands().length).toBeGreaterThanOrEqual(4);
    for (const { geometry, properties } of bands()) {
      expect(geometry.type).toBe('MultiPolygon');
      const areaM2 = geometry.coordinates.flat().reduce((sum, ring) => sum + ringAreaM2(ring), 0);
      expect(Math.abs(areaM2 / properties.areaM2 - 1), properties.name).toBeLessThan(0.03);
    }
  });

  test('has its outer rings counter-clockwise and its holes clockwise, all closed (RFC 7946, 3.1.6)', () => {
    for (const [outer, ...holes] of bands().flatMap(({ geometry }) => geometry.coordinates)) {
      expect(ringAreaM2(outer ?? [])).toBeGreaterThan(0);
      for (const hole of holes) expect(ringAreaM2(hole)).toBeLessThan(0);
      for (const ring of [outer ?? [], ...holes]) expect(ring.at(-1)).toEqual(ring[0]);
    }
  });
});

describe('coverage.tif', () => {
  // Tags of the TIFF and GeoTIFF standards by number: pixel scale, tie point, no data.
  const tags = { pixelScale: 33550, tiepoint: 33922, noData: 42113 };

  test('lies where the areas lie: a pixel is inside the area of a data rate where its power suffices', () => {
    const [image] = decode(readFileSync(join(out, 'coverage.tif')));
    if (image === undefined) throw new Error('no image');
    const [stepEast = 0, stepNorth = 0] = image.fields.get(tags.pixelScale) as Float64Array;
    const [, , , west = 0, north = 0] = image.fields.get(tags.tiepoint) as Float64Array;
    expect(image.fields.get(tags.noData)).toBe('nan');
    const power = image.data as Float32Array;
    const rated = bands().map(({ geometry, properties }) => ({
      rings: geometry.coordinates.flat(),
      neededPowerDbm: properties.neededPowerDbm,
    }));
    let [asked, agreed] = [0, 0];
    for (let cell = 17; cell < power.length; cell += 997) {
      const place = [
        west + ((cell % image.width) + 0.5) * stepEast,
        north - (Math.floor(cell / image.width) + 0.5) * stepNorth,
      ] as const;
      for (const { rings, neededPowerDbm } of rated) {
        const hears = (power[cell] ?? Number.NaN) >= neededPowerDbm;
        asked += 1;
        if (isInside(rings, place) === hears) agreed += 1;
      }
    }
    expect(asked).toBeGreaterThan(1000);
    expect(agreed / asked).toBeGreaterThan(0.98);
  });
});

describe('survey.csv', () => {
  interface LogRow {
    readonly spot: string;
    readonly latitude_deg: number;
    readonly longitude_deg: number;
    readonly received: number;
    readonly rssi_dbm: number | null;
  }
  interface Frame {
    readonly spot: string;
    readonly latitudeDeg: number;
    readonly longitudeDeg: number;
    readonly received: number;
    readonly rssiDbm?: number | null;
  }
  const rowsOf = <Row>(text: string) =>
    Papa.parse<Row>(text, { header: true, dynamicTyping: true, skipEmptyLines: true });

  test('holds each frame of the log once, in its order, the missed ones too', () => {
    const written = rowsOf<Frame>(textOf('survey.csv'));
    const log = rowsOf<LogRow>(readFileSync('examples/fennimara/walk.csv', 'utf8'));
    expect(written.errors).toEqual([]);
    expect(written.data).toHaveLength(log.data.length);
    const frames = written.data.map((frame) => [
      frame.spot,
      frame.latitudeDeg,
      frame.longitudeDeg,
      frame.received,
      frame.rssiDbm ?? null,
    ]);
    const logged = log.data.map((row) => [
      row.spot,
      row.latitude_deg,
      row.longitude_deg,
      row.received,
      row.rssi_dbm,
    ]);
    expect(frames).toEqual(logged);
  });
});
