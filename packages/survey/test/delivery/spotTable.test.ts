import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { deliveryBySpot, gatewayNoise, type Observation, readSurvey, spotTable } from '../../src/index.js';
import { sharedData } from '../sharedData.js';

const at = (spot: string, more: Partial<Observation> = {}): Observation => ({
  spot,
  latitudeDeg: 45,
  longitudeDeg: 5,
  received: true,
  ...more,
});

describe('spotTable', () => {
  test('counts are those of deliveryBySpot; margins go by each frame its spreading factor', () => {
    const frames = [
      at('a', { snrDb: -5, rssiDbm: -110, spreadingFactor: 7 }),
      at('a', { snrDb: -5, rssiDbm: -110, spreadingFactor: 12 }),
      at('a', { received: false, spreadingFactor: 12 }),
      at('b', { snrDb: 3 }),
    ];
    const [a, b] = spotTable(frames);
    expect(a).toMatchObject(deliveryBySpot(frames)[0] ?? {});
    // Data sheets: SF7 needs -7.5 dB, SF12 -20 dB.
    expect(a).toMatchObject({
      spreadingFactors: [7, 12],
      meanMarginDb: 8.75,
      leastMarginDb: 2.5,
      marginFrames: 2,
    });
    expect(a?.sentence).toContain('SF7, SF12');
    expect(a?.sentence).toContain('Those that did');
    expect(b).toMatchObject({ spreadingFactors: [], marginFrames: 0 });
    expect(b).not.toHaveProperty('meanMarginDb');
    expect(spotTable(frames, { spreadingFactor: 9 })[1]?.meanMarginDb).toBe(15.5);
  });
  test('an absent SNR is not an SNR of 0', () => {
    expect(spotTable([at('a', { spreadingFactor: 9 })])[0]).not.toHaveProperty('meanMarginDb');
    expect(spotTable([at('a', { spreadingFactor: 9, snrDb: 0 })])[0]?.meanMarginDb).toBe(12.5);
  });
  test('by position', () => {
    const frames = [at('a'), at('a', { latitudeDeg: 46 })].map(({ spot: _, ...rest }) => ({
      ...rest,
      spreadingFactor: 9,
      snrDb: 0,
    }));
    expect(spotTable(frames, { by: 'position' }).map(({ marginFrames }) => marginFrames)).toEqual([1, 1]);
  });
  test.each([
    [[at('a')], { spreadingFactor: 13 }, 'spreadingFactor'],
    [[at('a')], { by: 'day' }, 'by'],
    [[at('a')], null, 'options'],
    [[], {}, 'observations'],
  ])('refusal %#', (observations, options, argument) => {
    expect(() => spotTable(observations as never, options as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('gatewayNoise', () => {
  // Noise of R's cases (survey-vectors, effectiveSignalPower), frame by frame.
  test.each(shared.effectiveSignalPower.cases.filter(({ snrDb }) => snrDb <= 5))(
    'one frame: $rssiDbm, $snrDb',
    (row) => {
      const { byBandwidth } = gatewayNoise([at('a', row)]);
      expect(byBandwidth[0]?.medianNoiseDbm).toBeCloseTo(row.noiseDbm, 10);
    },
  );
  test('the floor of 125 kHz with a noise figure of 6 dB is -117 dBm', () => {
    // k T B at 290 K in 125 kHz is -123.0 dBm (Recommendation ITU-R P.372, -174 dBm/Hz).
    const { byBandwidth } = gatewayNoise([at('a', { rssiDbm: -117, snrDb: -60 })]);
    expect(byBandwidth[0]?.noiseFloorDbm).toBeCloseTo(-173.975 + 50.969 + 6, 2);
  });
  const noisy = (noiseDbm: number, count = 12): Observation[] =>
    Array.from({ length: count }, (_, index) => at('a', { rssiDbm: noiseDbm, snrDb: -40 - (index % 3) }));
  test('findings: loud, right, impossible, too few', () => {
    expect(gatewayNoise(noisy(-108)).findings.map(({ rule }) => rule)).toEqual(['gateway-noise']);
    expect(gatewayNoise(noisy(-116)).findings).toEqual([]);
    expect(gatewayNoise(noisy(-125)).findings.map(({ rule }) => rule)).toEqual(['gateway-noise-below-floor']);
    expect(gatewayNoise(noisy(-100, 9)).findings).toEqual([]);
  });
  test('bandwidths stay apart, and every received frame is counted', () => {
    const frames = [
      ...noisy(-117),
      ...noisy(-111, 3).map((frame) => ({ ...frame, bandwidthHz: 500e3 })),
      at('a', { rssiDbm: -80, snrDb: 10 }),
      at('a', { rssiDbm: -80 }),
      at('a', { received: false }),
    ];
    const report = gatewayNoise(frames);
    expect(report.byBandwidth.map(({ bandwidthHz, usedFrames }) => [bandwidthHz, usedFrames])).toEqual([
      [125e3, 12],
      [500e3, 3],
    ]);
    expect(report).toMatchObject({ noLevelFrames: 1, highSnrFrames: 1 });
  });
  test('a level shift shifts the noise', () => {
    const frame = fc.record({
      rssiDbm: fc.double({ min: -130, max: -60, noNaN: true }),
      snrDb: fc.double({ min: -25, max: 5, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(frame, { minLength: 1 }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        (frames, shift) => {
          const [one] = gatewayNoise(frames.map((level) => at('a', level))).byBandwidth;
          const moved = frames.map(({ rssiDbm, snrDb }) => at('a', { rssiDbm: rssiDbm + shift, snrDb }));
          const [other] = gatewayNoise(moved).byBandwidth;
          expect((other?.noiseRiseDb ?? NaN) - (one?.noiseRiseDb ?? NaN)).toBeCloseTo(shift, 9);
          expect(one?.quietNoiseDbm).toBeLessThanOrEqual(one?.loudNoiseDbm ?? NaN);
        },
      ),
    );
  });
  test.each([
    [[at('a')], {}, 'observations', 'missing'],
    [[at('a', { rssiDbm: -80, snrDb: 9 })], {}, 'observations', 'missing'],
    [[at('a')], { noiseFigureDb: -1 }, 'noiseFigureDb', 'out-of-range'],
    [[at('a')], { bandwidthHz: 125 }, 'bandwidthHz', 'out-of-range'],
    [[at('a')], null, 'options', 'wrong-type'],
  ])('refusal %#', (observations, options, argument, code) => {
    expect(() => gatewayNoise(observations, options as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument, code }),
    );
  });
});

// The ride's README: RSSI stays near -117 dBm on weak frames, which is the noise of a receiver with a noise figure of 6 dB.
const ride = sharedData('lyon-bike/2024-07-24-morning.frames.csv');
test.skipIf(ride === undefined)('lyon-bike 07-24: the noise is the floor that the RSSI sticks to', () => {
  const { observations } = readSurvey(ride ?? '');
  const { byBandwidth } = gatewayNoise(observations);
  expect(Math.abs((byBandwidth[0]?.medianNoiseDbm ?? NaN) + 117)).toBeLessThan(2);
});
