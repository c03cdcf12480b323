import {
  alohaDelivery,
  erlangBlockingRatio,
  type GatewayLoad,
  gatewayCapacity,
  type NodeGroup,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** Pseudo-random numbers from 0 to 1 (mulberry32), so that a simulation gives the same figures everywhere. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

function exponential(random: () => number, mean: number): number {
  return -Math.log(1 - random()) * mean;
}

/** A capture with nothing left to its defaults. */
interface Ring {
  readonly thresholdDb: number;
  readonly pathLossExponent: number;
  readonly innerRadiusRatio: number;
}

describe('alohaDelivery', () => {
  test('the most that pure ALOHA carries is 1/(2e) at half an erlang (Abramson 1970)', () => {
    expect(alohaDelivery({ offeredErlangs: 0.5 }).throughputErlangs).toBeCloseTo(0.183939720585721, 14);
    for (const offeredErlangs of [0.499, 0.501, 0.1, 2]) {
      expect(alohaDelivery({ offeredErlangs }).throughputErlangs).toBeLessThan(0.18393972);
    }
  });

  test('exp(-2 G)', () =>
    fc.assert(
      fc.property(fc.double({ min: 0, max: 50, noNaN: true }), (offeredErlangs) => {
        expect(alohaDelivery({ offeredErlangs }).deliveryRatio).toBeCloseTo(
          Math.exp(-2 * offeredErlangs),
          14,
        );
      }),
    ));

  /** Frames of nodes evenly over a ring, played out in time. Its own bookkeeping: every pair that overlaps is compared in decibels. */
  function simulated(offeredErlangs: number, capture: Ring, seed: number): number {
    const random = randomFrom(seed);
    const frames = Array.from({ length: 40_000 }, () => {
      const inner = capture.innerRadiusRatio ** 2;
      const radius = Math.sqrt(inner + (1 - inner) * random());
      return {
        gapLengths: exponential(random, 1 / offeredErlangs),
        levelDb: -10 * capture.pathLossExponent * Math.log10(radius),
      };
    });
    let clock = 0;
    const starts = frames.map(({ gapLengths }) => {
      clock += gapLengths;
      return clock;
    });
    let survived = 0;
    for (const [index, frame] of frames.entries()) {
      let spoilt = false;
      for (const step of [-1, 1]) {
        for (let other = index + step; frames[other] !== undefined; other += step) {
          if (Math.abs((starts[other] as number) - (starts[index] as number)) >= 1) break;
          if ((frames[other]?.levelDb as number) > frame.levelDb - capture.thresholdDb) spoilt = true;
        }
      }
      if (!spoilt) survived += 1;
    }
    return survived / frames.length;
  }

  // One standard deviation of a share of 40 000 frames is at most 0.0025; neighbours are not independent, hence 0.012.
  test.each([
    [0.2, { thresholdDb: 6, pathLossExponent: 3.5, innerRadiusRatio: 0 }],
    [0.7, { thresholdDb: 6, pathLossExponent: 3.5, innerRadiusRatio: 0 }],
    [0.5, { thresholdDb: 6, pathLossExponent: 2, innerRadiusRatio: 0 }],
    [0.5, { thresholdDb: 3, pathLossExponent: 4, innerRadiusRatio: 0.5 }],
    [0.5, { thresholdDb: 6, pathLossExponent: 3, innerRadiusRatio: 0.8 }],
    [1, { thresholdDb: 0, pathLossExponent: 3, innerRadiusRatio: 0.3 }],
  ])('%d erlangs with %o: as a seeded simulation', (offeredErlangs, capture) => {
    const { deliveryRatio } = alohaDelivery({ offeredErlangs, capture });
    expect(Math.abs(deliveryRatio - simulated(offeredErlangs, capture, 20261125))).toBeLessThan(0.012);
  });

  test('capture only helps, less so with a higher threshold, and nodes at one distance have none', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        (offeredErlangs, thresholdDb, pathLossExponent, innerRadiusRatio) => {
          const ring = { pathLossExponent, innerRadiusRatio };
          const easy = alohaDelivery({ offeredErlangs, capture: { ...ring, thresholdDb } }).deliveryRatio;
          const hard = alohaDelivery({
            offeredErlangs,
            capture: { ...ring, thresholdDb: thresholdDb + 3 },
          }).deliveryRatio;
          const none = alohaDelivery({ offeredErlangs }).deliveryRatio;
          expect(easy).toBeGreaterThanOrEqual(hard - 1e-12);
          expect(hard).toBeGreaterThanOrEqual(none - 1e-12);
          expect(easy).toBeLessThanOrEqual(1 + 1e-12);
        },
      ),
    ));

  test('without a threshold a disc gives (1 - exp(-2 G)) / (2 G): only the stronger half of the others spoils a frame', () =>
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 20, noNaN: true }), (offeredErlangs) => {
        const capture = { thresholdDb: 0, pathLossExponent: 3.5 };
        const touching = 2 * offeredErlangs;
        expect(alohaDelivery({ offeredErlangs, capture }).deliveryRatio).toBeCloseTo(
          (1 - Math.exp(-touching)) / touching,
          11,
        );
      }),
    ));

  test.each([
    ['offeredErlangs', { offeredErlangs: -1 }],
    ['offeredErlangs', { offeredErlangs: Number.NaN }],
    ['capture', { offeredErlangs: 1, capture: 6 }],
    ['capture.pathLossExponent', { offeredErlangs: 1, capture: {} }],
    ['capture.thresholdDb', { offeredErlangs: 1, capture: { pathLossExponent: 3, thresholdDb: -1 } }],
    [
      'capture.innerRadiusRatio',
      { offeredErlangs: 1, capture: { pathLossExponent: 3, innerRadiusRatio: 1 } },
    ],
  ])('%s of %o is refused by name', (argument, traffic) =>
    expect(() => alohaDelivery(traffic as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

describe('erlangBlockingRatio', () => {
  // Traffic tables of formula B, erlangs at a loss of 1 % and 2 % to the printed digits (from memory; any telephone traffic table has them).
  test.each([
    [1, 0.0101, 0.01],
    [2, 0.153, 0.01],
    [5, 1.36, 0.01],
    [8, 3.13, 0.01],
    [8, 3.63, 0.02],
    [10, 4.46, 0.01],
    [20, 12.0, 0.01],
  ])('%i servers and %d erlangs lose %d', (demodulatorCount, offeredErlangs, lossRatio) => {
    const half = 0.5 * 10 ** -(String(offeredErlangs).split('.')[1]?.length ?? 1);
    const below = erlangBlockingRatio({ demodulatorCount, offeredErlangs: offeredErlangs - half });
    const above = erlangBlockingRatio({ demodulatorCount, offeredErlangs: offeredErlangs + half });
    expect(below).toBeLessThanOrEqual(lossRatio);
    expect(above).toBeGreaterThanOrEqual(lossRatio);
  });

  test('the sum that the recursion stands for: (A^N / N!) / sum of A^k / k!', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 30, noNaN: true }),
        fc.integer({ min: 1, max: 16 }),
        (offeredErlangs, demodulatorCount) => {
          let term = 1;
          let sum = 1;
          for (let k = 1; k <= demodulatorCount; k++) {
            term *= offeredErlangs / k;
            sum += term;
          }
          const got = erlangBlockingRatio({ offeredErlangs, demodulatorCount });
          expect(got / (term / sum)).toBeCloseTo(1, 10);
        },
      ),
    ));

  test.each([
    ['offeredErlangs', { offeredErlangs: Number.POSITIVE_INFINITY, demodulatorCount: 8 }],
    ['demodulatorCount', { offeredErlangs: 1, demodulatorCount: 0 }],
    ['demodulatorCount', { offeredErlangs: 1, demodulatorCount: 8.5 }],
  ])('%s of %o is refused by name', (argument, demand) =>
    expect(() => erlangBlockingRatio(demand)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

describe('gatewayCapacity', () => {
  const group: NodeGroup = {
    spreadingFactor: 9,
    nodeCount: 400,
    timeOnAirSeconds: 0.2,
    intervalSeconds: 100,
  };

  test('one group alone is ALOHA over the channels, by hand', () => {
    const capacity = gatewayCapacity({ groups: [group], demodulatorCount: 1024 });
    // 399 others, each 0.01 starts a second over 8 channels, within 0.4 s: exp(-399 * 0.01 * 0.4 / 8).
    expect(capacity.deliveryRatio).toBeCloseTo(Math.exp(-0.1995), 12);
    expect(capacity.offeredErlangs).toBeCloseTo(0.8, 12);
    expect(capacity.sentFramesPerHour).toBeCloseTo(14_400, 8);
    expect(capacity.groups[0]?.losses.map(({ name }) => name)).toEqual([
      'gateway transmitting',
      'demodulators busy',
      'collision',
    ]);
  });

  test('a single node on an idle gateway loses nothing', () => {
    const capacity = gatewayCapacity({ groups: [{ ...group, nodeCount: 1 }], demodulatorCount: 1024 });
    expect(capacity.deliveryRatio).toBeCloseTo(1, 12);
  });

  test('spreading factors leave each other alone; those of one factor and different length do not', () => {
    const other = { ...group, nodeCount: 100, timeOnAirSeconds: 0.05 };
    const apart = gatewayCapacity({
      groups: [group, { ...other, spreadingFactor: 7 }],
      demodulatorCount: 1024,
    });
    expect(apart.groups[0]?.deliveryRatio).toBeCloseTo(Math.exp(-0.1995), 12);
    const together = gatewayCapacity({ groups: [group, other], demodulatorCount: 1024 });
    // 100 more with 0.01 starts a second over 8 channels, within 0.2 + 0.05 s.
    expect(together.groups[0]?.deliveryRatio).toBeCloseTo(Math.exp(-0.1995 - 0.03125), 12);
    expect(together.groups[1]?.deliveryRatio).toBeCloseTo(
      Math.exp((-400 * 0.01 * 0.25) / 8 - (99 * 0.01 * 0.1) / 8),
      12,
    );
  });

  test('a gateway that transmits is deaf: as a seeded simulation', () => {
    const downlink = { timeOnAirSeconds: 1.5, framesPerHour: 600 };
    const lonely = { ...group, nodeCount: 1, timeOnAirSeconds: 1.2, intervalSeconds: 60 };
    const { groups, transmittingRatio } = gatewayCapacity({ groups: [lonely], downlink });
    expect(transmittingRatio).toBeCloseTo(0.25, 12);

    // Silence of random length, then a downlink, over and over; uplinks dropped in at random instants.
    const random = randomFrom(7);
    const silenceSeconds = 3600 / 600 - 1.5;
    const starts: number[] = [];
    for (let clock = 0; clock < 500_000; clock += 1.5) {
      clock += exponential(random, silenceSeconds);
      starts.push(clock);
    }
    let heard = 0;
    const tries = 40_000;
    for (let count = 0; count < tries; count++) {
      const from = random() * 499_000;
      let low = 0;
      let high = starts.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((starts[middle] as number) + 1.5 <= from) low = middle + 1;
        else high = middle;
      }
      if ((starts[low] as number) >= from + 1.2) heard += 1;
    }
    const lost = groups[0]?.losses[0]?.lossRatio as number;
    expect(Math.abs(1 - heard / tries - lost)).toBeLessThan(0.01);
  });

  test('eight demodulators: as a seeded simulation of frames that take one each', () => {
    const busy = { ...group, spreadingFactor: 12, nodeCount: 500, timeOnAirSeconds: 1, intervalSeconds: 100 };
    const { groups } = gatewayCapacity({ groups: [busy], channelCount: 1000 });
    const random = randomFrom(11);
    const ends: number[] = [];
    let blocked = 0;
    let clock = 0;
    const tries = 100_000;
    for (let count = 0; count < tries; count++) {
      clock += exponential(random, 0.2);
      while (ends.length > 0 && (ends[0] as number) <= clock) ends.shift();
      if (ends.length < 8) ends.push(clock + 1);
      else blocked += 1;
    }
    expect(Math.abs(blocked / tries - (groups[0]?.losses[1]?.lossRatio as number))).toBeLessThan(0.005);
  });

  const anyGroup = fc.record({
    spreadingFactor: fc.integer({ min: 7, max: 12 }),
    nodeCount: fc.integer({ min: 0, max: 3000 }),
    timeOnAirSeconds: fc.double({ min: 0.02, max: 3, noNaN: true }),
    intervalSeconds: fc.double({ min: 10, max: 10_000, noNaN: true }),
  });
  const anyLoad: fc.Arbitrary<GatewayLoad> = fc.record({
    groups: fc.array(anyGroup, { minLength: 1, maxLength: 5 }),
    channelCount: fc.integer({ min: 1, max: 16 }),
    downlink: fc.option(
      fc.record({
        timeOnAirSeconds: fc.double({ min: 0.02, max: 2, noNaN: true }),
        framesPerHour: fc.double({ min: 0, max: 1000, noNaN: true }),
      }),
      { nil: undefined },
    ),
    capture: fc.option(fc.constant({ pathLossExponent: 3.5 }), { nil: undefined }),
  });

  test('what was sent is received or lost by name, and shares stay shares', () =>
    fc.assert(
      fc.property(anyLoad, (load) => {
        const capacity = gatewayCapacity(load);
        let lost = 0;
        for (const each of capacity.groups) {
          for (const { lossRatio, lostFramesPerHour } of each.losses) {
            expect(lossRatio).toBeGreaterThanOrEqual(0);
            expect(lossRatio).toBeLessThanOrEqual(1);
            lost += lostFramesPerHour;
          }
          expect(each.receivedFramesPerHour).toBeCloseTo(each.deliveryRatio * each.sentFramesPerHour, 6);
        }
        expect(lost + capacity.receivedFramesPerHour).toBeCloseTo(capacity.sentFramesPerHour, 5);
        expect(capacity.deliveryRatio).toBeGreaterThanOrEqual(0);
        expect(capacity.deliveryRatio).toBeLessThanOrEqual(1 + 1e-12);
      }),
    ));

  test('more nodes, fewer channels, fewer demodulators and more downlinks never help', () =>
    fc.assert(
      fc.property(anyLoad, (load) => {
        const { deliveryRatio } = gatewayCapacity(load);
        const worse: GatewayLoad[] = [
          { ...load, groups: load.groups.map((each) => ({ ...each, nodeCount: each.nodeCount * 2 })) },
          { ...load, channelCount: 1 },
          { ...load, demodulatorCount: 4 },
          { ...load, downlink: { timeOnAirSeconds: 2, framesPerHour: 1500 } },
        ];
        for (const each of worse) {
          expect(gatewayCapacity(each).deliveryRatio).toBeLessThanOrEqual(deliveryRatio + 1e-9);
        }
      }),
    ));

  test('the number of nodes at a target is the last that keeps it', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 7, max: 12 }),
        fc.double({ min: 0.05, max: 2, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (spreadingFactor, timeOnAirSeconds, targetDeliveryRatio) => {
          const one = { spreadingFactor, nodeCount: 1, timeOnAirSeconds, intervalSeconds: 600 };
          const most = gatewayCapacity({ groups: [one], targetDeliveryRatio }).targetNodeCount as number;
          const at = (nodeCount: number) =>
            gatewayCapacity({ groups: [{ ...one, nodeCount }] }).deliveryRatio;
          expect(at(most)).toBeGreaterThanOrEqual(targetDeliveryRatio);
          expect(at(most + 1)).toBeLessThan(targetDeliveryRatio);
        },
      ),
    ));

  test('no nodes, no loss, and no number of nodes', () => {
    const idle = gatewayCapacity({ groups: [{ ...group, nodeCount: 0 }], targetDeliveryRatio: 0.9 });
    expect(idle).toMatchObject({ deliveryRatio: 1, sentFramesPerHour: 0, targetNodeCount: undefined });
    // A gateway that is deaf half of the time never reaches 90 %.
    const deaf = { timeOnAirSeconds: 1, framesPerHour: 1800 };
    expect(
      gatewayCapacity({ groups: [group], downlink: deaf, targetDeliveryRatio: 0.9 }).targetNodeCount,
    ).toBe(0);
  });

  test.each([
    ['groups', { groups: [] }],
    ['groups[0]', { groups: [null] }],
    ['spreadingFactor', { groups: [{ ...group, spreadingFactor: 13 }] }],
    ['groups[0].nodeCount', { groups: [{ ...group, nodeCount: 1.5 }] }],
    ['groups[0].timeOnAirSeconds', { groups: [{ ...group, timeOnAirSeconds: 0 }] }],
    ['groups[0].intervalSeconds', { groups: [{ ...group, intervalSeconds: 0.1 }] }],
    ['channelCount', { groups: [group], channelCount: 0 }],
    ['demodulatorCount', { groups: [group], demodulatorCount: 1025 }],
    ['downlink.framesPerHour', { groups: [group], downlink: { timeOnAirSeconds: 2, framesPerHour: 1800 } }],
    ['targetDeliveryRatio', { groups: [group], targetDeliveryRatio: 1 }],
  ])('%s of %o is refused by name', (argument, load) =>
    expect(() => gatewayCapacity(load as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

test('frames of no length leave room for more nodes than whole numbers are exact for, and the search ends', () => {
  const group = { spreadingFactor: 7, nodeCount: 20, timeOnAirSeconds: 1e-300, intervalSeconds: 900 };
  const { targetNodeCount } = gatewayCapacity({ groups: [group], targetDeliveryRatio: 0.9 });
  expect(targetNodeCount).toBeGreaterThan(2 ** 53);
});
