import { destination, heightSampler } from '@finial/terrain';
import { describe, expect, test } from 'vitest';
import { cellPosition, p526, type SweepQuestion, sweepCoverage } from '../src/index.js';
import { reliefs, syntheticTerrain } from './syntheticTerrain.js';

// How far the loss of a swept cell, whose obstacles are those of the nearest radial, is from the loss over the cell's own geodesic with the
// same spacing of samples. This is the figure that the README states; it says nothing about the error of the model itself.

const question: SweepQuestion = {
  gateway: { position: { latitudeDeg: 50, longitudeDeg: 16 }, antennaHeightM: 10 },
  frequencyHz: 868e6,
  model: { kind: 'p526', deltaN: 40 },
  radiusM: 20_000,
  cellM: 30,
  receiverHeightM: 1.5,
};
const sampleCount = 2000;

/** Median, 95th and 99th percentile of the absolute difference in dB, rounded up, as the README has them. */
const stated = {
  mount: { 1: [0.03, 0.5, 1.2], 2: [0.02, 0.25, 0.6] },
  gentle: { 1: [0.01, 0.08, 0.2], 2: [0.01, 0.05, 0.1] },
} as const;

describe.each(['mount', 'gentle'] as const)('%s', (land) => {
  const elevation = syntheticTerrain(reliefs[land], 11);
  const { heightM: groundM } = heightSampler(elevation);

  test.each([1, 2] as const)(
    'with radialFactor %s',
    async (radialFactor) => {
      const raster = await sweepCoverage({ ...question, elevation, radialFactor });
      const known = [...raster.lossDb.keys()].filter((index) => !Number.isNaN(raster.lossDb[index]));
      const differences = Float64Array.from({ length: sampleCount }, (_, place) => {
        const index = known[Math.floor(((place + 0.5) * known.length) / sampleCount)] as number;
        return Math.abs((raster.lossDb[index] as number) - ownLossDb(raster, index));
      }).sort();
      const at = (share: number) => differences[Math.floor(share * (sampleCount - 1))] as number;
      const found = [at(0.5), at(0.95), at(0.99)];
      const shown = [...found, at(1)].map((difference) => difference.toFixed(3)).join(' ');
      console.log(`${land}, radialFactor ${radialFactor}: median, p95, p99, greatest in dB: ${shown}`);
      for (const [place, limitDb] of stated[land][radialFactor].entries()) {
        expect(found[place]).toBeLessThanOrEqual(limitDb);
      }
    },
    120_000,
  );

  function ownLossDb(raster: Awaited<ReturnType<typeof sweepCoverage>>, index: number): number {
    const rowIndex = Math.floor(index / raster.columns);
    const cell = cellPosition({ raster, rowIndex, columnIndex: index % raster.columns });
    const distanceM: number[] = [];
    for (let point = 0; point * raster.cellM < cell.distanceM; point += 1)
      distanceM.push(point * raster.cellM);
    distanceM.push(cell.distanceM);
    const heightM = distanceM.map((along) => {
      const place = destination({ from: raster.origin, azimuthDeg: cell.azimuthDeg, distanceM: along });
      return groundM(place.latitudeDeg, place.longitudeDeg);
    });
    return p526.model({ deltaN: 40 })({
      frequencyHz: question.frequencyHz,
      distanceM,
      heightM,
      transmitterHeightM: question.gateway.antennaHeightM,
      receiverHeightM: question.receiverHeightM,
    }).lossDb;
  }
});
