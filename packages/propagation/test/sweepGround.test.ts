import { p526, type RadioPath } from '@finial/propagation';
import { destination, type Elevation, type ElevationTile, geodesic, heightAtM } from '@finial/terrain';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LocalMap } from '../src/sweep/radial/LocalMap.js';
import { sweepGeometry } from '../src/sweep/SweepGeometry.js';
import type { SweepQuestion } from '../src/sweep/SweepJob.js';
import { sweepSector } from '../src/sweep/sweepSector.js';
import { fractal } from './sweptRadials.js';

const position = { latitudeDeg: 50.02, longitudeDeg: 16.03 };

/** Rough ground: the sum of two fractal lines, 3 arc seconds per cell. */
function hills(changed: Partial<ElevationTile> = {}): Elevation {
  const along = fractal(11, 7, 250);
  const across = fractal(12, 7, 250);
  const heightsM = Float32Array.from({ length: 129 * 129 }, (_, cell) => {
    return (along[cell % 129] as number) + (across[Math.floor(cell / 129)] as number);
  });
  const step = 3 / 3600;
  const grid = {
    kind: 'geographic',
    northDeg: position.latitudeDeg + 64 * step,
    westDeg: position.longitudeDeg - 64 * step,
    rowStepDeg: step,
    columnStepDeg: step,
  } as const;
  const tile = { name: 'hills', columns: 129, rows: 129, heightsM, voidCount: 0, grid, ...changed };
  return { tiles: [tile], voidCount: tile.voidCount, filledCount: 0 };
}

const question: SweepQuestion = {
  gateway: { position, antennaHeightM: 15 },
  frequencyHz: 868e6,
  model: { kind: 'p526', deltaN: 40 },
  radiusM: 3000,
  cellM: 50,
  receiverHeightM: 1.5,
};
const whole = (asked: SweepQuestion) => ({
  ...asked,
  firstRadial: 0,
  radialCount: sweepGeometry(asked.radiusM, asked.cellM, asked.radialFactor ?? 1).radialCount,
});

describe('the geometry of a sweep', () => {
  const sizes = [
    [1, 1],
    [100, 33],
    [1000, 30],
    [999.5, 7.25],
  ] as const;
  test.each(sizes)('%f m in cells of %f m: every cell once, by radial and distance', (radiusM, cellM) => {
    const { size, order, start, radialCount, pointCount, mostReceivers } = sweepGeometry(radiusM, cellM);
    const reach = (size - 1) / 2;
    const radiusCells = radiusM / cellM;
    expect(new Set(order).size).toBe(order.length);
    let inside = 0;
    for (let y = -reach; y <= reach; y += 1) {
      for (let x = -reach; x <= reach; x += 1) inside += Number(x * x + y * y <= radiusCells * radiusCells);
    }
    expect(order.length).toBe(inside - 1);
    expect(start[radialCount]).toBe(order.length);
    expect(pointCount).toBe(Math.floor(radiusCells) + 1);
    for (let radial = 0; radial < radialCount; radial += 1) {
      const cells = [...order.subarray(start[radial], start[radial + 1])];
      expect(cells.length).toBeLessThanOrEqual(mostReceivers);
      const places = cells.map((cell) => [(cell % size) - reach, reach - Math.floor(cell / size)] as const);
      const squares = places.map(([x, y]) => x * x + y * y);
      expect(squares).toEqual([...squares].sort((one, other) => one - other));
      for (const [x, y] of places) {
        const off = (Math.atan2(x, y) / (2 * Math.PI)) * radialCount - radial;
        const turned = off - radialCount * Math.round(off / radialCount);
        expect(Math.abs(turned)).toBeLessThanOrEqual(0.5 + 1e-9);
      }
    }
  });

  test('neighbouring radials are at most a cell apart at the rim, or half a cell', () => {
    for (const factor of [1, 2] as const) {
      const arc = (2 * Math.PI * 1000) / sweepGeometry(1000, 30, factor).radialCount;
      expect(arc).toBeLessThanOrEqual(30 / factor);
    }
  });
});

describe('positions around a gateway against the solver of geodesics', () => {
  test('within 2 mm anywhere but at a pole', () => {
    const latitude = fc.double({ min: -89.9, max: 89.9, noNaN: true });
    const longitude = fc.double({ min: -180, max: 180, noNaN: true });
    const share = fc.double({ min: 1e-3, max: 1, noNaN: true });
    const azimuth = fc.double({ min: -180, max: 180, noNaN: true });
    const radius = fc.double({ min: 100, max: 100_000, noNaN: true });
    fc.assert(
      fc.property(
        latitude,
        longitude,
        radius,
        share,
        azimuth,
        (latitudeDeg, longitudeDeg, radiusM, part, azimuthDeg) => {
          const from = { latitudeDeg, longitudeDeg };
          const map = new LocalMap(from, radiusM);
          const distanceM = radiusM * part;
          const radians = (azimuthDeg * Math.PI) / 180;
          const [latitudes, longitudes] = [new Float64Array(2), new Float64Array(2)];
          map.placesOnLine(radians, Float64Array.of(distanceM), 1, latitudes, longitudes);
          const east = Float64Array.of(0, distanceM * Math.sin(radians));
          const north = Float64Array.of(0, distanceM * Math.cos(radians));
          const [besideLatitudes, besideLongitudes] = [new Float64Array(2), new Float64Array(2)];
          map.places(east, north, 2, besideLatitudes, besideLongitudes);
          const wanted = destination({ from, azimuthDeg, distanceM });
          const wrapped = (degrees: number) => degrees - 360 * Math.round(degrees / 360);
          for (const [at, on] of [
            [latitudes[0], longitudes[0]],
            [besideLatitudes[1], besideLongitudes[1]],
          ] as [number, number][]) {
            const to = { latitudeDeg: at, longitudeDeg: wrapped(on) };
            expect(geodesic({ from: wanted, to }).distanceM).toBeLessThan(0.002);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  test('a gateway near a pole gets every place from the solver', () => {
    expect(new LocalMap({ latitudeDeg: 89.95, longitudeDeg: 0 }, 20_000).degree).toBe(0);
    expect(new LocalMap(position, 20_000).degree).toBeGreaterThan(0);
  });
});

describe('a sector', () => {
  const elevation = hills();

  /** The profile that a cell stands for, put together with the public functions only. */
  function pathTo(cell: number): RadioPath {
    const { cellM } = question;
    const { size, radialCount } = sweepGeometry(question.radiusM, cellM);
    const reach = (size - 1) / 2;
    const east = ((cell % size) - reach) * cellM;
    const north = (reach - Math.floor(cell / size)) * cellM;
    const lengthM = Math.hypot(east, north);
    const turns = Math.atan2(east, north) / (2 * Math.PI);
    const radialDeg = (360 * Math.round(turns * radialCount)) / radialCount;
    const heightOf = (azimuthDeg: number, distanceM: number) =>
      heightAtM(elevation, destination({ from: position, azimuthDeg, distanceM }));
    const nearer = Array.from({ length: Math.ceil(lengthM / cellM) }, (_, point) => point * cellM);
    return {
      frequencyHz: question.frequencyHz,
      distanceM: [...nearer, lengthM],
      heightM: [...nearer.map((m) => heightOf(radialDeg, m)), heightOf(turns * 360, lengthM)],
      transmitterHeightM: question.gateway.antennaHeightM,
      receiverHeightM: question.receiverHeightM,
    };
  }

  test('equals the point-to-point model on profiles read with the public functions', () => {
    const { cellIndex, lossDb, missingCount } = sweepSector(whole(question), { elevation });
    expect(missingCount).toBe(0);
    const model = p526.model({ deltaN: 40 });
    for (let index = 0; index < cellIndex.length; index += 23) {
      const wanted = model(pathTo(cellIndex[index] as number)).lossDb;
      // A millimetre aside changes the ground a little, and single precision keeps 1e-5 dB.
      expect(Math.abs((lossDb[index] as number) - wanted)).toBeLessThan(1e-3);
    }
  });

  test('shares put together are bit for bit the whole', () => {
    const { radialCount } = whole(question);
    const all = sweepSector(whole(question), { elevation });
    const cut = Math.floor(radialCount / 3);
    const one = sweepSector({ ...question, firstRadial: 0, radialCount: cut }, { elevation });
    const two = sweepSector({ ...question, firstRadial: cut, radialCount: radialCount - cut }, { elevation });
    expect(Int32Array.of(...one.cellIndex, ...two.cellIndex)).toEqual(all.cellIndex);
    expect(Float32Array.of(...one.lossDb, ...two.lossDb)).toEqual(all.lossDb);
  });

  test('a void hides its own cells and what lies behind it, and no others', () => {
    const heightsM = Float32Array.from((elevation.tiles[0] as ElevationTile).heightsM);
    heightsM[40 * 129 + 64] = Number.NaN;
    const holed = sweepSector(whole(question), { elevation: hills({ heightsM, voidCount: 1 }) });
    const all = sweepSector(whole(question), { elevation });
    const { size } = sweepGeometry(question.radiusM, question.cellM);
    expect(holed.missingCount).toBeGreaterThan(10);
    expect(holed.missingCount).toBeLessThan(500);
    const found = new Map([...all.cellIndex].map((cell, index) => [cell, all.lossDb[index]]));
    let missing = 0;
    holed.cellIndex.forEach((cell, index) => {
      if (Number.isNaN(holed.lossDb[index])) {
        missing += 1;
        // The void lies north: 24 rows of 92.6 m.
        expect(Math.floor(cell / size)).toBeLessThan((size - 1) / 2 - 40);
      } else {
        expect(holed.lossDb[index]).toBe(found.get(cell));
      }
    });
    expect(missing).toBe(holed.missingCount);
  });

  test('closed forms: free space and Okumura-Hata', () => {
    const free = sweepSector(whole({ ...question, model: { kind: 'p525' } }), { elevation });
    const town = { kind: 'hata', surroundings: 'suburban', outsideValidity: 'allow' } as const;
    const hata = sweepSector(whole({ ...question, model: town }), { elevation });
    const { size } = sweepGeometry(question.radiusM, question.cellM);
    const middle = (size - 1) / 2;
    const at = free.cellIndex.indexOf(middle * size + middle + 40);
    const rise = (pathTo(middle * size + middle + 40).heightM.at(-1) as number) + 1.5;
    const gatewayM = heightAtM(elevation, position) + 15;
    // P.525 with megahertz and kilometres, all digits: 32.4478 + 20 lg f + 20 lg d.
    const slantM = Math.hypot(2000, rise - gatewayM);
    expect(free.lossDb[at]).toBeCloseTo(32.4478 + 20 * Math.log10(868) + 20 * Math.log10(slantM / 1000), 3);
    // Okumura-Hata for 868 MHz, 15 m, 1.5 m, 2 km, suburban, by a pocket calculator.
    const mobileDb = (1.1 * Math.log10(868) - 0.7) * 1.5 - (1.56 * Math.log10(868) - 0.8);
    const slopeDb = 44.9 - 6.55 * Math.log10(15);
    const suburbDb = 2 * Math.log10(868 / 28) ** 2 + 5.4;
    const cityDb =
      69.55 + 26.16 * Math.log10(868) - 13.82 * Math.log10(15) - mobileDb + slopeDb * Math.log10(2);
    expect(hata.lossDb[at]).toBeCloseTo(cityDb - suburbDb, 3);
  });

  test('land cover raises the obstacles, but not at the ends', () => {
    const codes = hills({ heightsM: new Float32Array(129 * 129).fill(10) });
    const landCover = { codes, classOfCode: { 10: 'trees' } } as const;
    const covered = sweepSector(whole(question), { elevation, landCover });
    const raised = sweepSector(whole({ ...question, clutterHeightM: 15 }), { elevation });
    const bare = sweepSector(whole(question), { elevation });
    expect(covered.lossDb).toEqual(raised.lossDb);
    expect(covered.lossDb).not.toEqual(bare.lossDb);
  });
});
