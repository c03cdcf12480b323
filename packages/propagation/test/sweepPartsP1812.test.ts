import type { RadioZone } from '@finial/propagation';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ductTimeLossDb, leastDuctTimeLossDb } from '../src/p1812/ductingLoss.js';
import { horizons } from '../src/p1812/horizons.js';
import { roughnessM } from '../src/p1812/roughness.js';
import { isInland, isLand, longestStretchM, receiverCoastM, transmitterCoastM } from '../src/p1812/zones.js';
import { seaRatio } from '../src/path/seaRatio.js';
import { BlockMaxima } from '../src/sweep/blockMaxima.js';
import { greatestRoughnessM } from '../src/sweep/p1812/greatestRoughnessM.js';
import { HorizonSweep } from '../src/sweep/p1812/HorizonSweep.js';
import { ZoneSweep } from '../src/sweep/p1812/ZoneSweep.js';
import { fractal, groundOf } from './sweptRadials.js';

// The parts that a loss shows only where ducts matter, each against the scan over the whole profile of the point-to-point method, which the
// published validation profiles cover.

const stepM = 50;
const zoneNames: readonly RadioZone[] = ['inland', 'sea', 'coastal-land'];
const seeds = fc.integer({ min: 1, max: 1e6 });
const gap = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 0.999, noNaN: true }));

test('horizons of every receiver are those of a scan', () => {
  fc.assert(
    fc.property(
      seeds,
      fc.constantFrom(0, 3, 30, 300),
      fc.constantFrom(2, 15, 80),
      gap,
      fc.boolean(),
      (seed, reliefM, antennaM, part, whole) => {
        const heightM = fractal(seed, 7, reliefM).map((m) => (whole ? Math.round(m) : m));
        const ground = groundOf({ name: '', stepM, heightM, receivers: [] }, 50);
        const radiusM = 8.5e6;
        const transmitterM = (heightM[0] as number) + antennaM;
        const swept = new HorizonSweep(heightM.length, radiusM);
        swept.start(transmitterM, ground);
        for (let last = 2; last < heightM.length; last += 1) {
          swept.push(last - 1);
          const lengthM = (last - part) * stepM;
          const receiverM = (heightM[last] as number) + 1.5;
          const distanceM = Float64Array.from([...ground.distanceM.slice(0, last), lengthM]);
          const want = horizons(distanceM, ground.heightM, transmitterM, receiverM, radiusM);
          swept.find(lengthM, receiverM);
          if (!swept.transhorizon) swept.findDominant(lengthM, receiverM);
          expect(swept.transhorizon).toBe(want.transhorizon);
          expect([swept.transmitterIndex, swept.receiverIndex]).toEqual([
            want.transmitterIndex,
            want.receiverIndex,
          ]);
          expect(swept.transmitterMrad).toBeCloseTo(want.transmitterMrad, 10);
          expect(swept.receiverMrad).toBeCloseTo(want.receiverMrad, 10);
        }
      },
    ),
    { numRuns: 60 },
  );
});

test('roughness above 10 m is that of a scan', () => {
  fc.assert(
    fc.property(
      seeds,
      fc.constantFrom(0, 20, 300),
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.double({ min: -30, max: 30, noNaN: true }),
      fc.nat(256),
      fc.nat(256),
      (seed, reliefM, startM, endM, one, other) => {
        const heightM = Float64Array.from(fractal(seed, 8, reliefM));
        const distanceM = heightM.map((_, index) => index * stepM);
        const blocks = new BlockMaxima(heightM.length);
        heightM.forEach((m, index) => {
          blocks.push(index, m);
        });
        const [first, last] = [Math.min(one, other), Math.max(one, other)] as const;
        const slope = (endM - startM) / (256 * stepM);
        const got = greatestRoughnessM(blocks, stepM, startM, slope, first, last, 10);
        const want = roughnessM(distanceM, heightM, startM, endM, first, last);
        expect(got).toBeCloseTo(Math.max(10, want), 9);
      },
    ),
  );
});

test('zones of every receiver are those of a scan', () => {
  const runs = fc.array(fc.tuple(fc.constantFrom(0, 1, 2), fc.integer({ min: 1, max: 6 })), {
    minLength: 1,
    maxLength: 12,
  });
  fc.assert(
    fc.property(runs, fc.constantFrom(0, 1, 2), gap, (lengths, end, part) => {
      const zone = lengths.flatMap(([number, length]) => new Array<number>(length).fill(number));
      const swept = new ZoneSweep();
      swept.start(zone[0] as number);
      for (let last = 1; last <= zone.length; last += 1) {
        if (last > 1) swept.push((last - 1) * stepM, zone[last - 1] as number);
        const lengthM = (last - part) * stepM;
        swept.find(lengthM, end);
        const distanceM = Float64Array.from({ length: last + 1 }, (_, index) =>
          index < last ? index * stepM : lengthM,
        );
        const names = [...zone.slice(0, last), end].map((number) => zoneNames[number] as RadioZone);
        expect(swept.seaShare).toBeCloseTo(seaRatio(distanceM, names), 12);
        expect(swept.longestLandM).toBeCloseTo(longestStretchM(distanceM, names, isLand), 9);
        expect(swept.longestInlandM).toBeCloseTo(longestStretchM(distanceM, names, isInland), 9);
        expect(swept.transmitterCoastM).toBe(transmitterCoastM(distanceM, names));
        expect(swept.receiverCoastM).toBe(receiverCoastM(distanceM, names));
      }
    }),
  );
});

describe('leastDuctTimeLossDb', () => {
  test('is never more than the loss by time of a path that it speaks of', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 0.01, max: 46, noNaN: true }),
        fc.double({ min: 0.1, max: 3000, noNaN: true }),
        fc.double({ min: -100, max: 0, noNaN: true }),
        share,
        (timePercent, greatestPercent, greatestKm, rarity, near) => {
          const leastDb = leastDuctTimeLossDb(timePercent, greatestPercent, greatestKm);
          const lossDb = ductTimeLossDb(
            timePercent,
            greatestPercent * 10 ** rarity,
            greatestKm * Math.max(near, 0.001),
          );
          expect(leastDb).toBeLessThanOrEqual(lossDb + 1e-9);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('is that loss itself at the bounds, but for the small part that grows with length', () => {
    const gapDb = ductTimeLossDb(10, 4, 20) - leastDuctTimeLossDb(10, 4, 20);
    expect(gapDb).toBeCloseTo(3.7e-3 * 20 * Math.log10(10 / 4), 9);
  });
});
