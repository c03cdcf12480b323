import { type ElevationTile, heightSampler } from '@finial/terrain';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

describe('heights in series', () => {
  test('are those of the sampler bit for bit: edges, voids, tiles side by side and beyond', () => {
    const step = 0.01;
    const tile = (westDeg: number, from: number): ElevationTile => ({
      name: `${westDeg}`,
      columns: 5,
      rows: 5,
      heightsM: Int16Array.from({ length: 25 }, (_, cell) => (cell === 12 ? -32_768 : from + cell * cell)),
      voidValue: -32_768,
      voidCount: 1,
      grid: { kind: 'geographic', northDeg: 50, westDeg, rowStepDeg: step, columnStepDeg: step },
    });
    const elevation = {
      tiles: [tile(10, 5), tile(10.03, 700), tile(10.08, 90)],
      voidCount: 3,
      filledCount: 0,
    };
    const sampler = heightSampler(elevation);
    const place = fc.oneof(
      fc.integer({ min: -2, max: 15 }).map((k) => k * step),
      fc.double({ min: -0.02, max: 0.15, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 40 }), (places) => {
        const latitudes = Float64Array.from(places, ([south]) => 50 - south);
        const longitudes = Float64Array.from(places, ([, east]) => 10 + east);
        const heights = new Float64Array(places.length);
        sampler.fill(latitudes, longitudes, places.length, heights);
        expect([...heights]).toEqual(
          places.map((_, index) => sampler.heightM(latitudes[index] as number, longitudes[index] as number)),
        );
      }),
    );
  });
});
