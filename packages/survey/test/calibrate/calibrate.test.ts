import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { calibrate, calibratedLevel, type Observation, readSurvey } from '../../src/index.js';
import { sharedData } from '../sharedData.js';
import vectors from '../vectors/calibrate.json' with { type: 'json' };
import { seededNormal } from './seededNormal.js';

const relative = (got: number | undefined, want: number): number => Math.abs((got ?? Number.NaN) / want - 1);
const place = { latitudeDeg: 45, longitudeDeg: 5 };

function heard(spot: number, rssiDbm: number, more: Partial<Observation> = {}): Observation {
  return { ...place, spot: `spot ${spot}`, received: true, rssiDbm, ...more };
}

function missed(spot: number, more: Partial<Observation> = {}): Observation {
  return { ...place, spot: `spot ${spot}`, received: false, ...more };
}

describe('against R (survey-vectors, calibration): one frame at each of 16 spots', () => {
  const want = shared.calibration;
  const got = calibrate(
    want.predictedDbm,
    want.measuredDbm.map((level, i) => heard(i, level)),
    { signal: 'rssi' },
  );
  test('bias, spread and their intervals', () => {
    expect(want.predictedDbm).toHaveLength(16);
    expect(relative(got.biasDb, want.bias)).toBeLessThan(1e-12);
    expect(relative(got.biasLowerDb, want.biasInterval95[0] as number)).toBeLessThan(1e-10);
    expect(relative(got.biasUpperDb, want.biasInterval95[1] as number)).toBeLessThan(1e-10);
    expect(relative(got.spreadDb, want.spreadDb)).toBeLessThan(1e-12);
    expect(relative(got.spreadLowerDb, want.sdInterval95[0] as number)).toBeLessThan(1e-10);
    expect(relative(got.spreadUpperDb, want.sdInterval95[1] as number)).toBeLessThan(1e-10);
    expect(relative(got.rmseDb, want.rmseDb)).toBeLessThan(1e-12);
    expect(relative(got.before.rmseDb, want.rmseDb)).toBeLessThan(1e-12);
    expect(relative(got.before.meanAbsoluteErrorDb, want.maeDb)).toBeLessThan(1e-12);
  });
  test('the line', () => {
    expect(relative(got.fittedSlopeRatio, want.linear.slope)).toBeLessThan(1e-11);
    expect(got.slopeRatio).toBe(got.fittedSlopeRatio);
    expect(relative(got.levelDbm - got.slopeRatio * got.pivotDbm, want.linear.intercept)).toBeLessThan(1e-9);
    expect(relative(got.remainingSpreadDb, want.linear.residualSd)).toBeLessThan(1e-11);
  });
  test('the sentence claims nothing that the interval does not', () => {
    expect(got.verdict).toBe(
      'No offset of the prediction is proved: predicted minus measured lies between -5.0 and 0.3 dB (95 % confidence, 16 spots).',
    );
    expect(got.warnings.join()).toMatch(/RSSI holds signal and noise/);
  });
});

describe(`missed frames, against ${vectors.source}`, () => {
  const want = vectors.tobitBySpot;
  const frames = want.walk.flatMap((spot, number) => spot.map((frame) => ({ ...frame, number })));
  const observations = frames.map(({ missed: isMissed, errorDb, number }) =>
    isMissed ? missed(number, { counter: Math.round(errorDb) }) : heard(number, -100 - errorDb),
  );
  const got = calibrate(() => -100, observations, {
    signal: 'rssi',
    thresholdDbm: ({ counter = 0 }) => -100 - counter,
  });
  test('bias, its standard error by spots, and the spread of frames', () => {
    expect(frames).toHaveLength(10);
    expect(relative(got.biasDb, want.biasDb)).toBeLessThan(1e-9);
    expect(relative(got.biasStandardErrorDb, want.standardErrorDb)).toBeLessThan(1e-7);
    expect(relative(got.frameSpreadDb, want.sigmaDb)).toBeLessThan(1e-7);
  });
  test('counts; the spots errors have the bias as their mean', () => {
    expect(got).toMatchObject({ spots: 5, heardSpots: 4, frames: 10, usedFrames: 10, missedFrames: 4 });
    const mean = got.residuals.reduce((sum, { errorDb }) => sum + errorDb, 0) / 5;
    expect(Math.abs(mean - got.biasDb)).toBeLessThan(1e-7);
    // Nothing was heard there: the mean lies beyond the bounds of 4 and 9 dB.
    expect(got.residuals[3]?.errorDb).toBeGreaterThan(6.5);
  });
});

describe('simulated walks', () => {
  /** Spots whose level lies `biasDb` below the prediction, give or take the shadowing; weaker than -120 dBm is missed. */
  function walk(seed: number, spots: number, biasDb: number) {
    const normal = seededNormal(seed);
    const predicted: number[] = [];
    const observations: Observation[] = [];
    for (let spot = 0; spot < spots; spot += 1) {
      const at = -95 - (30 * spot) / spots;
      const shadow = 6 * normal();
      for (let frame = 0; frame < 5; frame += 1) {
        const level = at - biasDb + shadow + 2 * normal();
        predicted.push(at);
        observations.push(level < -120 ? missed(spot) : heard(spot, Math.min(20, level)));
      }
    }
    return { predicted, observations };
  }
  test('the t interval holds the bias in 95 of 100 walks, and missed frames do not flatter', () => {
    let inside = 0;
    let sum = 0;
    let naive = 0;
    const walks = 200;
    for (let seed = 0; seed < walks; seed += 1) {
      const { predicted, observations } = walk(seed, 30, 5);
      const got = calibrate(predicted, observations, { signal: 'rssi', thresholdDbm: -120 });
      if (got.biasLowerDb <= 5 && got.biasUpperDb >= 5) inside += 1;
      sum += got.biasDb;
      naive += calibrate(predicted, observations, { signal: 'rssi' }).biasDb;
    }
    // Three standard errors of a share of 95 % in 200 are 4.6 %.
    expect(inside / walks).toBeGreaterThan(0.9);
    expect(inside / walks).toBeLessThan(0.996);
    expect(Math.abs(sum / walks - 5)).toBeLessThan(0.4);
    // Left out, the missed frames make an optimistic prediction look better.
    expect(naive / walks).toBeLessThan(4);
  });
  test('an offset is corrected, and proved in a sentence; distance limits it', () => {
    const { predicted, observations } = walk(4, 30, 9);
    const measured = observations.map((each, i) => ({ ...each, distanceM: 100 + 20 * i }));
    const got = calibrate(predicted, measured, {
      signal: 'rssi',
      thresholdDbm: -120,
      withinM: [150, 500, 1000],
    });
    expect(got.verdict).toMatch(
      /^The prediction is optimistic by \d+\.\d ± \d\.\d dB \(95 % confidence, 30 spots\)\.$/,
    );
    expect(got.within.map(({ spots }) => spots)).toEqual([1, 4, 9]);
    expect(got.within[0]).toEqual({
      distanceM: 150,
      spots: 1,
      verdict: 'Too few spots were heard within 150 m to say how far the prediction is off.',
    });
    expect(got.within[2]?.verdict).toMatch(
      /^The prediction is optimistic by .* dB within 1 km \(95 % confidence, 9 spots\)\.$/,
    );
    expect(got.after?.rmseDb).toBeLessThan(got.before.rmseDb - 1);
  });
  test('the term at work is named, the idle one is not', () => {
    const normal = seededNormal(11);
    const clutter = Array.from({ length: 40 }, (_, i) => i % 8);
    const idle = clutter.map(() => normal());
    const observations = clutter.map((height, i) => heard(i, -100 - 1.5 * height + 2 * normal()));
    const got = calibrate(() => -100, observations, {
      signal: 'rssi',
      terms: { idle, clutter, flat: clutter.map(() => 3) },
    });
    expect(got.terms.map(({ name }) => name)).toEqual(['clutter', 'idle']);
    const [first, second] = got.terms;
    // Four standard errors: 2 dB / (√40 · 2.29) each.
    expect(Math.abs((first?.coefficientDb ?? 0) - 1.5)).toBeLessThan(0.56);
    expect(first?.adjustedChanceProbability).toBeLessThan(1e-6);
    expect(first?.explainedRatio).toBeGreaterThan(0.6);
    expect(second?.adjustedChanceProbability).toBeGreaterThan(0.05);
  });
  test('an interval for a new spot holds nine in ten', () => {
    const normal = seededNormal(21);
    let inside = 0;
    for (let round = 0; round < 1000; round += 1) {
      const predicted = Array.from({ length: 14 }, (_, i) => -90 - 2 * i);
      const observations = predicted.map((level, i) => heard(i, 0.8 * level - 22 + 5 * normal()));
      const calibration = calibrate(predicted, observations, { signal: 'rssi' });
      const { lowerDbm, upperDbm } = calibratedLevel({ calibration, predictedDbm: -112, confidence: 0.9 });
      const level = 0.8 * -112 - 22 + 5 * normal();
      if (level >= lowerDbm && level <= upperDbm) inside += 1;
    }
    expect(inside / 1000).toBeGreaterThan(0.87);
    expect(inside / 1000).toBeLessThan(0.93);
  });
});

const shortWalk = fc.array(
  fc.tuple(fc.double({ min: -120, max: -60, noNaN: true }), fc.integer({ min: 1, max: 4 })),
  {
    minLength: 3,
    maxLength: 9,
  },
);

test('raising every prediction by 3 dB raises the bias by 3 dB and nothing else', () => {
  fc.assert(
    fc.property(shortWalk, (spots) => {
      const observations = spots.flatMap(([level, count], spot) =>
        Array.from({ length: count }, (_, i) => heard(spot, level + i)),
      );
      const at = (raise: number) =>
        calibrate(({ rssiDbm = 0 }) => -100 + 0.1 * rssiDbm + raise, observations, { signal: 'rssi' });
      const [low, high] = [at(0), at(3)];
      expect(high.biasDb - low.biasDb).toBeCloseTo(3, 9);
      expect(high.spreadDb).toBeCloseTo(low.spreadDb, 9);
      expect(high.levelDbm).toBeCloseTo(low.levelDbm, 9);
      expect(low.slopeRatio).toBe(1);
    }),
  );
});

test('frames of one spot weigh together as one: doubling them changes nothing', () => {
  fc.assert(
    fc.property(shortWalk, (spots) => {
      const once = spots.map(([level], spot) => heard(spot, level));
      const twice = spots.flatMap(([level, count], spot) =>
        Array.from({ length: count }, () => heard(spot, level)),
      );
      const [one, two] = [once, twice].map((walk) => calibrate(() => -90, walk, { signal: 'rssi' }));
      expect(two?.biasDb).toBeCloseTo(one?.biasDb ?? 0, 9);
      expect(two?.biasLowerDb).toBeCloseTo(one?.biasLowerDb ?? 0, 9);
    }),
  );
});

// A ride by other people, under its own licence, beside the repository.
describe('a measured ride', () => {
  const name = 'lyon-bike/2024-07-24-morning.frames.csv';
  const text = sharedData(name);
  test.skipIf(text === undefined)(
    'missed frames bring the level of R’s Tobit, far below that of received frames',
    () => {
      const { observations } = readSurvey(text ?? '', { file: name });
      const far = observations.filter(({ distanceM = 0 }) => distanceM >= 50);
      const { ols, tobit } = shared.realData.sets['lyon-bike/2024-07-24-morning'];
      // The Tobit law as the prediction leaves no bias where missed frames count, as the least-squares law does where they do not.
      const law = (fit: typeof ols | typeof tobit) => (at: Observation) =>
        fit.interceptDbm - fit.exponent * 10 * Math.log10(at.distanceM ?? 1);
      const spots = far.map((each, i) => ({ ...each, spot: `frame ${i}` }));
      const counted = calibrate(law(tobit), spots, { thresholdDbm: -141 });
      expect(counted).toMatchObject({ usedFrames: 328, missedFrames: 231 });
      expect(Math.abs(counted.biasDb)).toBeLessThan(1e-4);
      expect(relative(counted.frameSpreadDb, tobit.sigmaDb)).toBeLessThan(1e-5);
      expect(Math.abs(calibrate(law(ols), spots).biasDb)).toBeLessThan(1e-9);
      const naive = calibrate(law(ols), spots, { thresholdDbm: -141 });
      expect(naive.biasDb).toBeGreaterThan(2);
      expect(naive.verdict).toMatch(/optimistic/);
    },
  );
});

describe('refusals and warnings', () => {
  const frames = [heard(0, -90), heard(1, -95), missed(2)];
  const options = { signal: 'rssi' } as const;
  test.each([
    [[-90, -95], 'predictedDbm.length'],
    [[-90, -95, Number.NaN], 'predictedDbm[2]'],
    [() => 1e6, 'predictedDbm(observations[0])'],
    ['-90', 'predictedDbm'],
  ])('prediction %s', (predicted, argument) => {
    expect(() => calibrate(predicted as never, frames, options)).toThrow(
      expect.objectContaining({ argument }),
    );
  });
  test('terms by name', () => {
    expect(() => calibrate(() => -90, frames, { ...options, terms: { clutter: [1, 2] } })).toThrow(
      expect.objectContaining({ argument: 'terms.clutter.length', received: 2 }),
    );
  });
  test('one heard spot is no calibration; nor are levels that all err alike beside missed frames', () => {
    const code = 'missing';
    expect(() =>
      calibrate(() => -90, [frames[0] as Observation, missed(2)], { ...options, thresholdDbm: -120 }),
    ).toThrow(expect.objectContaining({ code, received: 1 }));
    const alike = [heard(0, -90), heard(1, -90), missed(2)];
    expect(() => calibrate(() => -80, alike, { ...options, thresholdDbm: -120 })).toThrow(
      expect.objectContaining({ code }),
    );
  });
  test('missed frames left out, and missed frames too strong to be missed, are said', () => {
    expect(calibrate(() => -90, frames, options).warnings[0]).toMatch(/1 missed frames were left out/);
    const near = [...Array.from({ length: 8 }, (_, spot) => heard(spot, -86 - spot)), missed(8)];
    const strong = calibrate(() => -90, near, { ...options, thresholdDbm: -120 });
    expect(strong.warnings.join(' ')).toMatch(
      /1 missed frames should have arrived with more than 15 dB to spare/,
    );
  });
  test('a new spot beyond the predicted powers is refused, or allowed with a warning', () => {
    const calibration = calibrate([-85, -92, -99], frames, options);
    expect(() => calibratedLevel({ calibration, predictedDbm: -120 })).toThrow(
      expect.objectContaining({ code: 'outside-validity' }),
    );
    const allowed = calibratedLevel({ calibration, predictedDbm: -120, outsideValidity: 'allow' });
    expect(allowed.warnings).toEqual(['-120 dBm lies outside -92 to -85 dBm, as predicted for the walk.']);
  });
});
