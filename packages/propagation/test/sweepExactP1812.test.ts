import { p1812, type RadioZone } from '@finial/propagation';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PredictionSweep } from '../src/sweep/p1812/PredictionSweep.js';
import type { RadialGround } from '../src/sweep/radial/RadialGround.js';
import { RadialReader } from '../src/sweep/radial/RadialReader.js';
import { sweepGeometry } from '../src/sweep/SweepGeometry.js';
import type { SweepQuestion, SweptPrediction } from '../src/sweep/SweepJob.js';
import { sweepSector } from '../src/sweep/sweepSector.js';
import type { ValidationCase, ValidationProfile } from './p1812Cases.js';
import { sharedReference } from './sharedReference.js';
import { rollingGround, smallQuestion } from './sweepGround.js';
import {
  fractal,
  groundOf,
  pathTo,
  randomFrom,
  receiversOn,
  settingsFor,
  type TestRadial,
} from './sweptRadials.js';

interface Setup {
  readonly model: SweptPrediction;
  readonly frequencyHz: number;
  readonly polarisation: 'horizontal' | 'vertical';
  readonly transmitterHeightM: number;
  readonly receiverHeightM: number;
  readonly latitudeDeg: number;
}

const usual: Setup = {
  model: { kind: 'p1812', deltaN: 42, surfaceRefractivity: 326 },
  frequencyHz: 868e6,
  polarisation: 'vertical',
  transmitterHeightM: 10,
  receiverHeightM: 1.5,
  latitudeDeg: 51,
};

/** Both losses of every receiver that the point-to-point method takes, and how far apart they are. */
function compare(
  radial: TestRadial,
  setup: Setup,
): { readonly count: number; readonly worst: string; readonly worstDb: number } {
  const ground = groundOf(radial, setup.latitudeDeg);
  sweepOf(radial, setup).lossesAlong(ground);
  const { kind, ...model } = setup.model;
  let count = 0;
  let worst = '';
  let worstDb = 0;
  radial.receivers.forEach((receiver, index) => {
    const path = pathTo(radial, receiver, setup);
    if (path.distanceM.length < 5) return;
    const want = p1812.basicTransmissionLoss(
      path,
      settingsFor(model, setup.latitudeDeg, receiver.distanceM),
    ).lossDb;
    const got = ground.lossDb[index] as number;
    count += 1;
    const offDb = Math.abs(got - want);
    if (!(offDb <= worstDb)) {
      worstDb = offDb;
      worst = `receiver ${index} at ${receiver.distanceM} m: swept ${got}, on its own ${want}`;
    }
  });
  return { count, worst, worstDb };
}

function sweepOf({ heightM, receivers, stepM }: TestRadial, setup: Setup): PredictionSweep {
  return new PredictionSweep({
    ...setup,
    radiusM: heightM.length * stepM,
    pointCapacity: heightM.length,
    receiverCapacity: receivers.length,
  });
}

const points = 400;
const indices = Array.from({ length: points }, (_, index) => index);

function radialOf(
  name: string,
  heightM: readonly number[],
  { stepM = 30, besideM = 3, ...more }: Partial<TestRadial> & { readonly besideM?: number } = {},
): TestRadial {
  const ground = { stepM, heightM, ...more };
  return { name, ...ground, receivers: receiversOn(ground, randomFrom(7), besideM) };
}

const needle = (place: number) => indices.map((index) => (index === place ? 60 : 0));

function zoneAt(index: number): number {
  if (index < 40 || index >= 280) return 0;
  return index < 60 || index >= 250 ? 2 : 1;
}

const islandsM = fractal(8, 9, 60).slice(0, points);

const terrains: readonly TestRadial[] = [
  radialOf('mountains', fractal(1, 9, 760), { stepM: 40 }),
  radialOf('gentle hills', fractal(2, 9, 77), { stepM: 40 }),
  radialOf('hills with clutter here and there', fractal(3, 8, 200), {
    stepM: 50,
    clutterM: fractal(3, 8, 200).map((_, index) => ((index * 7919) % 5 === 0 ? 15 : 0)),
  }),
  radialOf(
    'knife edges',
    indices.map((index) => (index % 47 === 20 ? 20 + (index % 90) : 0)),
  ),
  radialOf(
    'a plateau',
    indices.map((index) => (index > 120 && index < 220 ? 80 : 0)),
    { besideM: 0 },
  ),
  radialOf(
    'flat land',
    indices.map(() => 0),
    { besideM: 0 },
  ),
  radialOf(
    'flat sea',
    indices.map(() => 0),
    { besideM: 0, zone: indices.map(() => 1), stepM: 100 },
  ),
  radialOf(
    'a rising slope',
    indices.map((index) => index * 0.7),
    { besideM: 0 },
  ),
  radialOf(
    'a falling slope',
    indices.map((index) => 300 - index * 0.7),
    { besideM: 0 },
  ),
  radialOf('a needle before the gateway', needle(1), { besideM: 0 }),
  radialOf('a needle before a far receiver', needle(points - 2), { besideM: 0 }),
  radialOf('whole metres', fractal(5, 9, 40).map(Math.round), { besideM: 0 }),
  // Ground on the straight line between the antennas, to the last digit: receivers 8.5 m above the gateway's ground, as high as its antenna.
  radialOf(
    'ground that touches the ray',
    indices.map((index) => (index === 0 ? 0 : index % 25 === 0 ? 10 : 8.5)),
    { besideM: 0 },
  ),
  radialOf(
    'sea, coast and land',
    fractal(6, 9, 120)
      .slice(0, points)
      .map((m, index) => (zoneAt(index) === 1 ? 0 : Math.max(m, 1))),
    { zone: indices.map(zoneAt), stepM: 90 },
  ),
  radialOf(
    'islands',
    islandsM.map((m) => Math.max(m, 0)),
    { zone: islandsM.map((m, index) => (m <= 0 ? 1 : index % 3 === 0 ? 2 : 0)), stepM: 120 },
  ),
];

const times = [50, 10, 1] as const;

describe('the swept prediction against the point-to-point method on the same points', () => {
  const cases = terrains.flatMap((radial) =>
    times.map((timePercent) => ({ name: radial.name, radial, timePercent })),
  );

  // Measured: no loss is off by more than 1e-10 dB.
  test.each(cases)('$name, $timePercent % of the time', ({ radial, timePercent }) => {
    const found = compare(radial, { ...usual, model: { ...usual.model, timePercent } });
    expect(found.count).toBeGreaterThan(radial.receivers.length - 6);
    expect(found.worstDb, found.worst).toBeLessThan(1e-9);
  });

  const setups: readonly (readonly [string, Setup])[] = [
    ['horizontal at 169 MHz', { ...usual, frequencyHz: 169e6, polarisation: 'horizontal' }],
    ['2.4 GHz from a tower', { ...usual, frequencyHz: 2.4e9, transmitterHeightM: 120 }],
    ['antennas of one height', { ...usual, transmitterHeightM: 4, receiverHeightM: 4 }],
    ['at 75° south', { ...usual, latitudeDeg: -75, model: { ...usual.model, timePercent: 5 } }],
    [
      'on the equator in humid air',
      { ...usual, latitudeDeg: 0, model: { ...usual.model, deltaN: 60, timePercent: 30 } },
    ],
    ['most locations', { ...usual, model: { ...usual.model, locationPercent: 95, locationSigmaDb: 5.5 } }],
    ['few locations', { ...usual, model: { ...usual.model, locationPercent: 10, locationSigmaDb: 8 } }],
  ];
  test.each(setups)('%s, on every terrain', (_, setup) => {
    for (const radial of terrains) {
      const found = compare(radial, setup);
      expect(found.worstDb, `${radial.name}, ${found.worst}`).toBeLessThan(1e-9);
    }
  });

  test('any short radial', () => {
    const point = fc.record({
      heightM: fc.oneof(fc.integer({ min: 0, max: 60 }), fc.double({ min: 0, max: 200, noNaN: true })),
      clutterM: fc.constantFrom(0, 0, 10, 15),
      zone: fc.constantFrom(0, 0, 1, 2),
      gap: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 0.999, noNaN: true })),
      besideM: fc.oneof(fc.constant(0), fc.double({ min: -5, max: 5, noNaN: true })),
    });
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 5, maxLength: 60 }),
        fc.constantFrom(20, 90, 700),
        fc.constantFrom(50, 20, 1),
        (rows, stepM, timePercent) => {
          const radial: TestRadial = {
            name: 'any',
            stepM,
            heightM: rows.map((row) => row.heightM),
            clutterM: rows.map((row) => row.clutterM),
            zone: rows.map((row) => row.zone),
            receivers: rows.slice(1).map((row, index) => ({
              distanceM: (index + 1 - row.gap) * stepM,
              heightM: row.heightM + row.besideM,
              zone: row.zone,
            })),
          };
          const found = compare(radial, { ...usual, model: { ...usual.model, timePercent } });
          expect(found.worstDb, found.worst).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 400 },
    );
  });
});

describe('a sector of a raster', () => {
  test('holds the losses of the profiles that its radials read', () => {
    const question: SweepQuestion = {
      ...smallQuestion,
      model: { ...usual.model, timePercent: 10, locationPercent: 80, locationSigmaDb: 5.5 },
      clutterHeightM: 4,
      seaLevelM: 175,
    };
    const swept = { elevation: rollingGround() };
    const geometry = sweepGeometry(question.radiusM, question.cellM, 1);
    const reader = new RadialReader(question, geometry, swept);
    const job = { ...question, firstRadial: 20, radialCount: 3 };
    const { lossDb } = sweepSector(job, swept);
    const wanted: number[] = [];
    for (const radial of [20, 21, 22]) {
      reader.read(radial);
      wanted.push(...lossesOnOwnProfiles(reader.ground, question));
    }
    expect(wanted).toHaveLength(lossDb.length);
    expect(wanted.filter(Number.isFinite).length).toBeGreaterThan(30);
    expect(new Set(reader.ground.isSea).size).toBe(2);
    wanted.forEach((loss, index) => {
      // Receivers that the point-to-point method refuses are looked at elsewhere. The raster holds single precision.
      if (Number.isFinite(loss)) expect(lossDb[index]).toBeCloseTo(loss, 4);
    });
  });
});

/** NaN for a path of fewer than five points. */
function lossesOnOwnProfiles(ground: RadialGround, question: SweepQuestion): readonly number[] {
  const { kind, ...model } = question.model as SweptPrediction;
  const zones = (values: Uint8Array): RadioZone[] =>
    Array.from(values, (sea) => (sea === 1 ? 'sea' : 'inland'));
  return Array.from({ length: ground.receiverCount }, (_, receiver) => {
    const lengthM = ground.receiverDistanceM[receiver] as number;
    const count = ground.distanceM.findIndex((m) => m >= lengthM);
    if (count < 4) return Number.NaN;
    const heightM = ground.heightM.subarray(0, count);
    const place = lengthM / 2 / question.cellM;
    const before = ground.latitudeDeg[Math.floor(place)] as number;
    const after = ground.latitudeDeg[Math.floor(place) + 1] as number;
    return p1812.basicTransmissionLoss(
      {
        frequencyHz: question.frequencyHz,
        distanceM: [...ground.distanceM.subarray(0, count), lengthM],
        heightM: [...heightM, ground.receiverHeightM[receiver] as number],
        clutterHeightM: [...heightM.map((m, index) => (ground.obstacleM[index] as number) - m), 0],
        zone: [
          ...zones(ground.isSea.subarray(0, count)),
          ...zones(ground.receiverIsSea.subarray(receiver, receiver + 1)),
        ],
        transmitterHeightM: question.gateway.antennaHeightM,
        receiverHeightM: question.receiverHeightM,
      },
      { ...model, centreLatitudeDeg: before + (after - before) * (place % 1), outsideValidity: 'allow' },
    ).lossDb;
  });
}

describe('what the point-to-point method does not take', () => {
  const radial: TestRadial = {
    name: 'short',
    stepM: 100,
    heightM: [0, 40, 0, 0, 0, 0],
    receivers: [
      { distanceM: 60, heightM: 0 },
      { distanceM: 100, heightM: 0 },
      { distanceM: 160, heightM: 0 },
    ],
  };
  const lossesOf = (setup: Setup): Float64Array => {
    const ground = groundOf(radial, setup.latitudeDeg);
    sweepOf(radial, setup).lossesAlong(ground);
    return ground.lossDb;
  };
  const freeSpaceDb = (distanceM: number): number =>
    92.4 + 20 * Math.log10(0.868) + 10 * Math.log10((distanceM / 1000) ** 2 + 0.0085 ** 2);

  // Source: Recommendation ITU-R P.1812, equation (8): 92.4 dB + 20 lg f + 20 lg d, f in GHz and d the slant distance in km.
  test('without a point between the ends there is free space alone', () => {
    const lossDb = lossesOf({ ...usual, model: { ...usual.model, timePercent: 1 } });
    expect(lossDb[0]).toBeCloseTo(freeSpaceDb(60), 9);
    expect(lossDb[1]).toBeCloseTo(freeSpaceDb(100), 9);
  });

  test('with one such point it counts', () => {
    expect((lossesOf(usual)[2] as number) - freeSpaceDb(160)).toBeGreaterThan(20);
  });

  test('locations add to free space where most of them count, and never take from it', () => {
    const model = { ...usual.model, locationSigmaDb: 6 };
    // Source: half of the normal distribution's 90 % quantile by the approximation in Attachment 2 of the Recommendation, within 4.5e-4.
    const most = lossesOf({ ...usual, model: { ...model, locationPercent: 90 } });
    expect((most[0] as number) - freeSpaceDb(60)).toBeCloseTo(6 * 1.2816, 2);
    const few = lossesOf({ ...usual, model: { ...model, locationPercent: 10 } });
    expect(few[0]).toBeCloseTo(freeSpaceDb(60), 9);
  });
});

interface SharedSweep {
  readonly profile: ValidationProfile['profile'];
  readonly input: ValidationCase['input'];
  readonly columns: readonly string[];
  readonly receivers: readonly (readonly number[])[];
}

const sharedZones: Readonly<Record<number, number>> = { 1: 1, 3: 2, 4: 0 };

// Source: losses along two published validation profiles of P.1812, every sixth or thirteenth point a receiver, computed with the reference
// implementation of P.1812-8 that the author of the ITU-R SG 3 code published.
describe.each(['sweep_b2iseac_eqdist.json', 'sweep_rburg_urban.json'])('%s', (name) => {
  const text = sharedReference(name);
  test.skipIf(text === undefined)('every receiver', () => {
    const { profile, input, columns, receivers } = JSON.parse(text as string) as SharedSweep;
    const index = columns.indexOf('index');
    const loss = columns.indexOf('LbDb');
    const zone = profile.zone.map((number) => sharedZones[number] as number);
    // The points lie evenly; a receiver on a point must not come to lie just behind it by a rounding.
    const stepM = (profile.distanceKm[1] as number) * 1000;
    const radial: TestRadial = {
      name,
      stepM,
      heightM: profile.heightM,
      clutterM: profile.clutterHeightM,
      zone,
      receivers: receivers.map((row) => ({
        distanceM: (row[index] as number) * stepM,
        heightM: profile.heightM[row[index] as number] as number,
        zone: zone[row[index] as number] as number,
      })),
    };
    const { timePercent, locationPercent, deltaN } = input;
    const model = {
      kind: 'p1812',
      timePercent,
      locationPercent,
      deltaN,
      surfaceRefractivity: input.n0,
    } as const;
    const ground = groundOf(radial, input.txLatDeg);
    sweepOf(radial, {
      model,
      frequencyHz: input.frequencyGHz * 1e9,
      polarisation: input.polarization,
      transmitterHeightM: input.txHeightAglM,
      receiverHeightM: input.rxHeightAglM,
      latitudeDeg: input.txLatDeg,
    }).lossesAlong(ground);
    expect(receivers.length).toBeGreaterThan(150);
    const share = columns.indexOf('omega');
    // That run takes the coast to be 500 km away from every receiver on land; it counts where three quarters of the path are sea.
    const counted = (row: readonly number[], at: number) =>
      (row[share] as number) < 0.75 || radial.receivers[at]?.zone === 1;
    expect(receivers.filter((row, at) => !counted(row, at)).length).toBeLessThan(3);
    const off = receivers.flatMap((row, at) => {
      if (!counted(row, at)) return [];
      const gapDb = Math.abs((ground.lossDb[at] as number) - (row[loss] as number));
      return gapDb < 1e-7 ? [] : [`point ${row[index]}: ${ground.lossDb[at]}, not ${row[loss]}`];
    });
    expect(off).toEqual([]);
  });
});
