import { p526 } from '@finial/propagation';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { p526Radials } from '../src/sweep/p526/p526Radials.js';
import type { SweepQuestion } from '../src/sweep/SweepJob.js';
import { fractal, groundOf, pathTo, randomFrom, receiversOn, type TestRadial } from './sweptRadials.js';

/** Rounding alone: the largest difference seen is between 3e-12 and 1e-11 dB. */
const toleranceDb = 1e-9;

interface Case {
  readonly frequencyHz: number;
  readonly antennaHeightM: number;
  readonly receiverHeightM: number;
  readonly deltaN: number;
  readonly polarisation: 'horizontal' | 'vertical';
}
const usual: Case = {
  frequencyHz: 868e6,
  antennaHeightM: 10,
  receiverHeightM: 1.5,
  deltaN: 40,
  polarisation: 'vertical',
};

/** Largest difference in dB between the sweep and the point-to-point function on each receiver's own profile. */
function largestDifferenceDb(radial: TestRadial, settings: Case): number {
  const { frequencyHz, antennaHeightM, receiverHeightM, deltaN, polarisation } = settings;
  const ground = groundOf(radial, 50);
  const question: SweepQuestion = {
    gateway: { position: { latitudeDeg: 50, longitudeDeg: 16 }, antennaHeightM },
    frequencyHz,
    polarisation,
    model: { kind: 'p526', deltaN },
    radiusM: radial.stepM * radial.heightM.length,
    cellM: radial.stepM,
    receiverHeightM,
    // Sea is named in the radial already; any number makes the sweep look at it.
    seaLevelM: radial.zone && 0,
  };
  const geometry = { pointCount: ground.pointCount, mostReceivers: ground.receiverCount };
  p526Radials(question, deltaN, geometry).lossesAlong(ground);
  const model = p526.model({ deltaN });
  const antennas = { frequencyHz, polarisation, transmitterHeightM: antennaHeightM, receiverHeightM };
  let largest = 0;
  radial.receivers.forEach((receiver, index) => {
    const wanted = model(pathTo(radial, receiver, antennas)).lossDb;
    const difference = Math.abs((ground.lossDb[index] as number) - wanted);
    expect(difference, `${radial.name}, receiver ${index} at ${receiver.distanceM} m`).toBeLessThan(
      toleranceDb,
    );
    largest = Math.max(largest, difference);
  });
  return largest;
}

function radialOf(
  name: string,
  heightM: readonly number[],
  more: Partial<TestRadial> & { readonly besideM?: number } = {},
): TestRadial {
  const { stepM = 30, besideM = 10, ...rest } = more;
  const random = randomFrom(heightM.length);
  return {
    name,
    stepM,
    heightM,
    ...rest,
    receivers: receiversOn({ heightM, stepM, ...rest }, random, besideM),
  };
}

function ground(count: number, at: (index: number) => number): number[] {
  return Array.from({ length: count }, (_, index) => at(index));
}

const needles = (index: number): number => ([1, 2, 150, 298, 299].includes(index) ? 60 : 0);
const radials: readonly TestRadial[] = [
  radialOf('mountains', fractal(1, 9, 700)),
  radialOf('hills', fractal(2, 9, 80)),
  radialOf('gentle land, far', fractal(3, 10, 40), { stepM: 90 }),
  radialOf(
    'flat sea',
    ground(600, () => 0),
    { besideM: 0 },
  ),
  radialOf(
    'flat sea with its zones',
    ground(600, () => 0),
    { besideM: 0, zone: ground(600, () => 1) },
  ),
  radialOf(
    'a coast',
    ground(500, (k) => (k < 200 ? 20 - k / 10 : 0)),
    { zone: ground(500, (k) => Number(k > 200)) },
  ),
  radialOf('islands', fractal(4, 9, 30), { zone: ground(513, (k) => Number(k % 37 < 20)) }),
  radialOf(
    'rising slope',
    ground(400, (k) => k * 2),
    { besideM: 0 },
  ),
  radialOf(
    'falling slope',
    ground(400, (k) => 900 - k * 2),
    { besideM: 0 },
  ),
  radialOf(
    'plateau behind a step',
    ground(400, (k) => (k < 120 ? 10 : 180)),
    { besideM: 0 },
  ),
  radialOf(
    'knife edges',
    ground(500, (k) => (k % 61 === 60 ? 90 + (k % 7) : 5)),
    { besideM: 0 },
  ),
  radialOf('needles beside either end', ground(300, needles), { besideM: 0 }),
  radialOf(
    'edges of equal height',
    ground(300, (k) => (k % 50 === 25 ? 11.5 : 10)),
    { besideM: 0 },
  ),
  radialOf('woods', fractal(5, 9, 120), { clutterM: ground(513, (k) => (k % 90 < 40 ? 15 : 0)) }),
  radialOf('whole metres', fractal(6, 9, 60).map(Math.round), { besideM: 0 }),
];

describe('the sweep of P.526 equals the point-to-point function on the same points', () => {
  test.each(radials.map((radial) => [radial.name, radial] as const))('%s', (_, radial) => {
    const cases: readonly Case[] = [
      usual,
      { ...usual, antennaHeightM: 40, receiverHeightM: 10, polarisation: 'horizontal' },
      { ...usual, antennaHeightM: 1.5 },
      { ...usual, frequencyHz: 169e6, deltaN: 80 },
      { ...usual, frequencyHz: 2.4e9, antennaHeightM: 120, deltaN: 0 },
    ];
    const largest = Math.max(...cases.map((settings) => largestDifferenceDb(radial, settings)));
    expect(largest).toBeGreaterThanOrEqual(0);
  });

  test('low frequencies over the sea, where the ground admits the wave and G meets its floor', () => {
    const sea = radialOf(
      'sea',
      ground(600, () => 0),
      { besideM: 0, stepM: 200, zone: ground(600, () => 1) },
    );
    expect(largestDifferenceDb(sea, { ...usual, frequencyHz: 30e6 })).toBeLessThan(toleranceDb);
  });

  test('an obstacle that touches the line between the antennas', () => {
    const receivers = [{ distanceM: 300, heightM: 0 }];
    const touching = (heightM: number): TestRadial => ({
      name: `touching at ${heightM}`,
      stepM: 30,
      heightM: ground(10, (k) => (k === 5 ? heightM : 0)),
      receivers,
    });
    const level = { ...usual, antennaHeightM: 10, receiverHeightM: 10 };
    for (const heightM of [10, 10 + 1e-13, 10 - 1e-13]) {
      expect(largestDifferenceDb(touching(heightM), level)).toBeLessThan(toleranceDb);
    }
  });

  test('random ground, antennas, steps and frequencies', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 2, max: 7 }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        // Eighths of a metre are exact, so that a receiver on a point is on it.
        fc.integer({ min: 40, max: 3200 }).map((eighths) => eighths / 8),
        fc.record({
          frequencyHz: fc.double({ min: 30e6, max: 6e9, noNaN: true }),
          antennaHeightM: fc.double({ min: 0.5, max: 200, noNaN: true }),
          receiverHeightM: fc.double({ min: 0.5, max: 50, noNaN: true }),
          deltaN: fc.double({ min: -50, max: 120, noNaN: true }),
          polarisation: fc.constantFrom('horizontal' as const, 'vertical' as const),
        }),
        (seed, levels, reliefM, stepM, settings) => {
          largestDifferenceDb(radialOf(`seed ${seed}`, fractal(seed, levels, reliefM), { stepM }), settings);
        },
      ),
      { numRuns: 150 },
    );
  });
});
