import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { fitPathLoss, type Observation, type PathLossFit, predictLevel, readSurvey } from '../src/index.js';
import { censoredLine } from '../src/pathLoss/censoredLine.js';
import { lawLikelihood } from '../src/pathLoss/lawLikelihood.js';
import { inverseMills, logNormalTail, normalShareBelow } from '../src/pathLoss/normalTail.js';
import { sharedData } from './sharedData.js';
import own from './vectors/pathLoss.json' with { type: 'json' };

const place = { latitudeDeg: 45, longitudeDeg: 5 };
const relative = (got: number, want: number): number => Math.abs(got / want - 1);

interface Row {
  readonly distanceM: number;
  readonly powerDbm: number | null;
  readonly thresholdDbm: number;
  readonly received: boolean;
  readonly spot?: number;
}

/** The thresholds stand at the counter, which is the row's number. */
function walkOf(rows: readonly Row[]): Observation[] {
  return rows.map(({ distanceM, powerDbm, received, spot }, counter) => ({
    ...place,
    received,
    distanceM,
    counter,
    ...(powerDbm === null ? {} : { rssiDbm: powerDbm }),
    ...(spot === undefined ? {} : { spot: `spot ${spot}` }),
  }));
}
const thresholdsOf = (rows: readonly Row[]) => (frame: Observation) =>
  rows[frame.counter ?? 0]?.thresholdDbm ?? NaN;

describe(`tail of the normal distribution against ${own.source}`, () => {
  test('31 places from -10 000 to 8', () => {
    expect(own.tails).toHaveLength(31);
    for (const { z, logShare, inverseMills: mills } of own.tails) {
      expect(relative(logNormalTail(z), logShare), `ln Φ(${z})`).toBeLessThan(1e-15);
      expect(relative(inverseMills(z), mills), `φ/Φ(${z})`).toBeLessThan(1e-15);
      if (z > -37) expect(relative(normalShareBelow(z), Math.exp(logShare))).toBeLessThan(1e-12);
    }
  });
  test('the slope of ln Φ is φ/Φ, and its bend is never upwards', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 5, noNaN: true }), (z) => {
        const step = 1e-5 * (1 + Math.abs(z));
        const slope = (logNormalTail(z + step) - logNormalTail(z - step)) / (2 * step);
        expect(slope).toBeCloseTo(inverseMills(z), 5);
        expect(inverseMills(z + step)).toBeLessThanOrEqual(inverseMills(z));
      }),
    );
  });
});

describe('against R survreg (survey-vectors, pathLossFit)', () => {
  const { rows, tobit, olsReceivedOnly, truncatedReceivedOnly, tobitHeteroscedastic, tobitPrediction } =
    shared.pathLossFit;
  const walk = walkOf(rows);
  const thresholdDbm = thresholdsOf(rows);
  const fit = fitPathLoss(walk, {
    signal: 'rssi',
    censored: true,
    thresholdDbm,
    confidence: 0.95,
    statedDistancesM: tobitPrediction.map(({ distanceM }) => distanceM),
  });
  test('law, likelihood and standard errors', () => {
    expect(relative(fit.interceptDbm, tobit.interceptDbm)).toBeLessThan(1e-9);
    expect(relative(fit.exponent, tobit.exponent)).toBeLessThan(1e-9);
    expect(relative(fit.shadowingDb, tobit.sigmaDb)).toBeLessThan(1e-9);
    expect(fit.censoring?.logLikelihood).toBeCloseTo(tobit.logLik, 9);
    expect(relative(fit.standardErrors.interceptDb, tobit.seIntercept)).toBeLessThan(1e-7);
    expect(relative(fit.standardErrors.exponent, tobit.seExponent)).toBeLessThan(1e-7);
    const logError = (fit.standardErrors.shadowingDb ?? NaN) / fit.shadowingDb;
    expect(relative(logError, tobit.seLogSigma)).toBeLessThan(1e-7);
  });
  test('mean level and its error at stated distances; optimism is the way up to the least-squares line', () => {
    tobitPrediction.forEach(({ distanceM, meanDbm, seMeanDb }, i) => {
      const row = fit.censoring?.optimism[i];
      expect(row?.levelDbm).toBeCloseTo(meanDbm, 7);
      expect(row?.levelStandardErrorDb).toBeCloseTo(seMeanDb, 7);
      const line = olsReceivedOnly.interceptDbm - olsReceivedOnly.exponent * 10 * Math.log10(distanceM);
      expect(row?.optimismDb).toBeCloseTo(line - meanDbm, 7);
    });
  });
  test('spread against distance', () => {
    const spreads = fit.censoring?.spreadTest;
    expect(spreads?.likelihoodRatio).toBeCloseTo(tobitHeteroscedastic.likelihoodRatioVsConstant, 5);
    const { g0, g1 } = tobitHeteroscedastic;
    const spreadAt = (distanceM: number): number => Math.exp(g0 + g1 * Math.log10(distanceM / 1000));
    expect(spreads?.nearestShadowingDb).toBeCloseTo(spreadAt(fit.nearestDistanceM), 4);
    expect(spreads?.farthestShadowingDb).toBeCloseTo(spreadAt(fit.farthestDistanceM), 4);
    // χ² with one degree of freedom lies above 0.3227 with probability 0.57 (table of the normal distribution, z = 0.568).
    expect(spreads?.probability).toBeCloseTo(0.57, 2);
  });
  test('received frames only, truncated', () => {
    const received = walk.filter((frame) => frame.received);
    const truncated = fitPathLoss(received, { signal: 'rssi', censored: 'truncated', thresholdDbm });
    expect(truncated.interceptDbm).toBeCloseTo(truncatedReceivedOnly.interceptDbm, 5);
    expect(truncated.exponent).toBeCloseTo(truncatedReceivedOnly.exponent, 6);
    expect(truncated.shadowingDb).toBeCloseTo(truncatedReceivedOnly.sigmaDb, 6);
    expect(truncated.censoring?.logLikelihood).toBeCloseTo(truncatedReceivedOnly.logLik, 8);
    expect(truncated.warnings.join(' ')).toMatch(/weakly identified/);
    expect(truncated.excluded.belowThresholdFrames).toBe(0);
    // Missed frames in the list are counted and left out.
    const same = fitPathLoss(walk, { signal: 'rssi', censored: 'truncated', thresholdDbm });
    expect(same.excluded.missedFrames).toBe(14);
    expect(same.exponent).toBe(truncated.exponent);
  });
  test('least squares, errors by spot (R sandwich, CR1)', () => {
    const line = fitPathLoss(walk, { signal: 'rssi' });
    const want = olsReceivedOnly.clusterBySpotSeExponent.CR1;
    expect(line.standardErrorsBySpot?.spotCount).toBe(17);
    expect(relative(line.standardErrorsBySpot?.exponent ?? NaN, want)).toBeLessThan(1e-9);
  });
  test('profile intervals and errors by spot (SciPy)', () => {
    const { lowerExponent, upperExponent, lowerShadowingDb, upperShadowingDb } =
      fit.censoring?.intervals ?? {};
    expect(lowerExponent).toBeCloseTo(own.plain.exponent95[0] as number, 6);
    expect(upperExponent).toBeCloseTo(own.plain.exponent95[1] as number, 6);
    expect(lowerShadowingDb).toBeCloseTo(own.plain.sigmaDb95[0] as number, 6);
    expect(upperShadowingDb).toBeCloseTo(own.plain.sigmaDb95[1] as number, 6);
    const { spots, seExponent, seLogSigma } = own.plain.bySpotCr1;
    expect(fit.standardErrorsBySpot?.spotCount).toBe(spots);
    expect(relative(fit.standardErrorsBySpot?.exponent ?? NaN, seExponent)).toBeLessThan(1e-5);
    const spreadError = (fit.standardErrorsBySpot?.shadowingDb ?? NaN) / fit.shadowingDb;
    expect(relative(spreadError, seLogSigma)).toBeLessThan(1e-5);
  });
  test('thresholds 3 dB higher: the same as asking with them, and the law moves', () => {
    const raised = fitPathLoss(walk, {
      signal: 'rssi',
      censored: true,
      thresholdDbm: (frame) => thresholdDbm(frame) + 3,
    });
    const shift = fit.censoring?.thresholdShifts.find(({ shiftDb }) => shiftDb === 3);
    expect(shift?.exponent).toBeCloseTo(raised.exponent, 9);
    expect(shift?.farthestLevelDbm).toBeCloseTo(
      predictLevel({ fit: raised, distanceM: raised.farthestDistanceM }).levelDbm,
      7,
    );
    expect(Math.abs((shift?.exponent ?? 0) - fit.exponent)).toBeGreaterThan(0.01);
  });
  test('counts', () => {
    expect(fit).toMatchObject({ frames: 108, usedFrames: 108, excluded: { missedFrames: 0 } });
    expect(fit.censoring).toMatchObject({ missedFrames: 14, isThresholdEstimated: false });
    expect(fit.censoring?.thresholds).toEqual([
      {
        spreadingFactor: undefined,
        lowestThresholdDbm: Math.min(...rows.map((row) => row.thresholdDbm)),
        highestThresholdDbm: Math.max(...rows.map((row) => row.thresholdDbm)),
        receivedFrames: 94,
        missedFrames: 14,
      },
    ]);
  });
});

test('five covariates: Fair 1978, as AER::tobit prints it (survey-vectors, externalTobit)', () => {
  const { rows, coefficients, sigma, logLik } = shared.externalTobit;
  const series = [0, 1, 2, 3, 4, 5].map((j) => Float64Array.from(rows, (row) => row[j] as number));
  const [affairs, ...others] = series as [Float64Array, ...Float64Array[]];
  const got = censoredLine(
    {
      columns: [new Float64Array(rows.length).fill(1), ...others],
      values: affairs,
      seen: Uint8Array.from(affairs, (count) => (count > 0 ? 1 : 0)),
    },
    { coefficients: [0, 0, 0, 0, 0, 0], deviation: 1 },
  );
  expect(got.isSettled).toBe(true);
  coefficients.forEach((want, j) => {
    expect(Math.abs((got.coefficients[j] ?? NaN) - want)).toBeLessThan(1e-8);
  });
  expect(got.deviation).toBeCloseTo(sigma, 8);
  expect(got.logLikelihood).toBeCloseTo(logLik, 8);
});

describe('more than one line (SciPy, pathLoss.py)', () => {
  test('a constant loss', () => {
    const { rows, plain, fit: want } = own.constantLoss;
    const options = { signal: 'rssi', censored: true, thresholdDbm: -128 } as const;
    const without = fitPathLoss(walkOf(rows), options);
    expect(without.exponent).toBeCloseTo(plain.exponent, 5);
    expect(without.shadowingDb).toBeCloseTo(plain.sigmaDb, 5);
    expect(without.warnings.join(' ')).toMatch(/frames were missed where the law lies more than 15 dB/);
    const fit = fitPathLoss(walkOf(rows), { ...options, constantLoss: true });
    expect(fit.exponent).toBeCloseTo(want.exponent, 5);
    expect(fit.shadowingDb).toBeCloseTo(want.sigmaDb, 5);
    const loss = fit.censoring?.constantLoss;
    expect(loss?.lossRatio).toBeCloseTo(want.lossRatio, 6);
    expect(loss?.standardErrorRatio).toBeCloseTo(want.seLossRatio, 5);
    expect(loss?.likelihoodRatio).toBeCloseTo(2 * (want.logLik - plain.logLik), 6);
    expect(loss?.probability).toBeLessThan(1e-9);
  });
  test('a constant loss that is not there is 0, and changes nothing', () => {
    const { rows } = own.twoSlopes;
    const options = { signal: 'rssi', censored: true, thresholdDbm: -132 } as const;
    const fit = fitPathLoss(walkOf(rows), { ...options, constantLoss: true });
    expect(fit.censoring?.constantLoss).toMatchObject({ lossRatio: 0, likelihoodRatio: 0, probability: 1 });
    expect(fit.exponent).toBe(fitPathLoss(walkOf(rows), options).exponent);
  });
  test('a second slope, and its levels', () => {
    const { rows, plain, at1000M, grid } = own.twoSlopes;
    const options = { signal: 'rssi', censored: true, thresholdDbm: -132, slopeCount: 2 } as const;
    const fit = fitPathLoss(walkOf(rows), { ...options, breakpointM: 1000 });
    expect(fit.exponent).toBeCloseTo(at1000M.exponent, 5);
    expect(fit.shadowingDb).toBeCloseTo(at1000M.sigmaDb, 5);
    const bend = fit.censoring?.secondSlope;
    expect(bend?.beyondExponent).toBeCloseTo(at1000M.beyondExponent, 5);
    expect(bend?.likelihoodRatio).toBeCloseTo(2 * (at1000M.logLik - plain.logLik), 6);
    const level = (distanceM: number): number => predictLevel({ fit, distanceM }).levelDbm;
    expect(level(500)).toBeCloseTo(fit.interceptDbm - fit.exponent * 10 * Math.log10(500), 9);
    expect(level(1000) - level(4000)).toBeCloseTo((bend?.beyondExponent ?? NaN) * 10 * Math.log10(4), 9);
    const last = fit.censoring?.optimism[0];
    expect(level(fit.farthestDistanceM)).toBeCloseTo(last?.levelDbm ?? NaN, 9);
    // The reference's grid is 0.1 dB of distance wide.
    const found = fitPathLoss(walkOf(rows), options).censoring;
    expect(found?.logLikelihood).toBeGreaterThanOrEqual(grid.logLik - 1e-6);
    expect(found?.logLikelihood).toBeLessThan(grid.logLik + 0.2);
    expect(relative(found?.secondSlope?.breakpointM ?? NaN, grid.breakpointM)).toBeLessThan(0.05);
    expect(found?.secondSlope).toMatchObject({ isEstimated: true });
  });
});

test('derivatives of the likelihood agree with differences, in every form', () => {
  const rows = own.constantLoss.rows.slice(0, 40);
  const distanceDb = Float64Array.from(rows, (row) => 10 * Math.log10(row.distanceM));
  const frames = {
    distanceDb,
    levelDbm: Float64Array.from(rows, (row) => row.powerDbm ?? 0),
    thresholdDbm: Float64Array.from(rows, (row) => row.thresholdDbm),
    received: Uint8Array.from(rows, (row) => (row.received ? 1 : 0)),
  };
  const ones = new Float64Array(rows.length).fill(1);
  const bends = distanceDb.map((distance) => -Math.max(0, distance - 30));
  const near = distanceDb.map((distance) => distance / 10 - 3);
  const shape = { frames, mean: [ones, distanceDb.map((d) => -d), bends], logDeviation: [ones, near] };
  const heard = (_: number, i: number): boolean => frames.received[i] === 1;
  for (const [model, at] of [
    [{ ...shape, hasConstantLoss: true, isTruncated: false }, [-22, 3, 0.2, 1.7, 0.1, -2]],
    [{ ...shape, hasConstantLoss: false, isTruncated: false }, [-22, 3, 0.2, 1.7, 0.1]],
    [
      {
        frames: {
          distanceDb: distanceDb.filter(heard),
          levelDbm: frames.levelDbm.filter(heard),
          thresholdDbm: frames.thresholdDbm.filter(heard),
          received: frames.received.filter(heard),
        },
        mean: shape.mean.map((column) => column.filter(heard)),
        logDeviation: shape.logDeviation.map((column) => column.filter(heard)),
        hasConstantLoss: false,
        isTruncated: true,
      },
      [-22, 3, 0.2, 1.7, 0.1],
    ],
  ] as const) {
    const here = lawLikelihood(model, Float64Array.from(at));
    at.forEach((_, j) => {
      const step = 1e-5;
      const moved = (by: number) =>
        lawLikelihood(
          model,
          Float64Array.from(at, (v, k) => (k === j ? v + by : v)),
        );
      const [low, high] = [moved(-step), moved(step)];
      const slope = (high.logLikelihood - low.logLikelihood) / (2 * step);
      expect(Math.abs(slope - (here.gradient[j] ?? NaN))).toBeLessThan(1e-5 * (1 + Math.abs(slope)));
      at.forEach((__, k) => {
        const bend = -((high.gradient[k] ?? NaN) - (low.gradient[k] ?? NaN)) / (2 * step);
        expect(Math.abs(bend - (here.information[j]?.[k] ?? NaN))).toBeLessThan(1e-4 * (1 + Math.abs(bend)));
      });
    });
  }
});

// Rides by other people, under their own licences, beside the repository.
describe('real walks against R survreg (survey-vectors, realData)', () => {
  const { sets } = shared.realData;
  const rides = [
    ['lyon-bike/2024-07-24-morning', 'effective', -150.9, 8.4],
    ['lyon-bike/2024-07-25-morning', 'effective', -152.7, 10.9],
    ['lyon-bike/2024-07-05-morning', 'rssi', undefined, undefined],
  ] as const;
  for (const [name, signal, atSixKilometres, optimismDb] of rides) {
    const text = sharedData(`${name}.frames.csv`);
    test.skipIf(text === undefined)(name, () => {
      const { observations } = readSurvey(text ?? '');
      const want = sets[name];
      const fit = fitPathLoss(observations, {
        signal,
        censored: true,
        thresholdDbm: want.thresholdDbm,
        statedDistancesM: [6000],
      });
      expect(fit.censoring?.missedFrames).toBe(want.missed);
      expect(fit.usedFrames).toBe(want.rows);
      expect(relative(fit.exponent, want.tobit.exponent)).toBeLessThan(1e-8);
      expect(Math.abs(fit.interceptDbm - want.tobit.interceptDbm)).toBeLessThan(1e-6);
      expect(relative(fit.shadowingDb, want.tobit.sigmaDb)).toBeLessThan(1e-8);
      expect(fit.censoring?.logLikelihood).toBeCloseTo(want.tobit.logLik, 8);
      expect(relative(fit.standardErrors.exponent, want.tobit.seExponent)).toBeLessThan(1e-6);
      if (atSixKilometres === undefined) return;
      // As printed with one decimal beside these fits.
      expect(Math.abs((fit.censoring?.optimism[0]?.levelDbm ?? 0) - atSixKilometres)).toBeLessThan(0.1);
      expect(Math.abs((fit.censoring?.optimism[0]?.optimismDb ?? 0) - optimismDb)).toBeLessThan(0.2);
    });
  }
  const campus = sharedData('kuleuven-campus/campus.frames.csv');
  test.skipIf(campus === undefined)('kuleuven-campus, one threshold and one by spreading factor', () => {
    const { observations } = readSurvey(campus ?? '', {
      columns: { received: { column: 'censored', inverted: true }, rssiDbm: 'rss_dbm' },
    });
    const lossAtLine = (campus ?? '').split('\n').map((line) => Number(line.split(',')[7]));
    const levels = observations.map((frame) =>
      frame.received ? { ...frame, rssiDbm: -(lossAtLine[(frame.line ?? 0) - 1] ?? NaN) } : frame,
    );
    const { thresholdAll148, thresholdBySf } = sets['kuleuven-campus'];
    const byFactor = Object.fromEntries(
      Object.entries(thresholdBySf.lossThresholdDb).map(([factor, lossDb]) => [Number(factor), -lossDb]),
    );
    for (const [thresholdDbm, want] of [
      [-148, thresholdAll148.tobit],
      [byFactor, thresholdBySf.tobit],
    ] as const) {
      const fit = fitPathLoss(levels, { signal: 'rssi', minimumDistanceM: 1, censored: true, thresholdDbm });
      expect(relative(fit.exponent, want.exponent)).toBeLessThan(1e-7);
      expect(Math.abs(fit.interceptDbm - want.interceptDbm)).toBeLessThan(1e-5);
      expect(relative(fit.shadowingDb, want.sigmaDb)).toBeLessThan(1e-7);
      expect(Math.abs((fit.censoring?.logLikelihood ?? 0) - want.logLik)).toBeLessThan(1e-6);
    }
  });
});

/** Park-Miller numbers, and normal ones by the sum of twelve. */
function randomNumbers(seed: number): { readonly uniform: () => number; readonly normal: () => number } {
  let state = seed;
  const uniform = (): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return { uniform, normal: () => Array.from({ length: 12 }, uniform).reduce((sum, u) => sum + u, -6) };
}

function drawnWalk(seed: number, frames: number, thresholdDbm: number): Observation[] {
  const { uniform, normal } = randomNumbers(seed);
  return Array.from({ length: frames }, () => {
    const distanceM = 100 * 80 ** uniform();
    const rssiDbm = -20 - 31 * Math.log10(distanceM) + 7 * normal();
    const received = rssiDbm >= thresholdDbm;
    return { ...place, distanceM, received, ...(received ? { rssiDbm } : {}) };
  });
}

describe('properties', () => {
  const options = { signal: 'rssi', censored: true, thresholdDbm: -130 } as const;
  test('over 60 drawn walks the law is right on average, its interval holds the truth, and least squares is flat', () => {
    const fits = Array.from({ length: 60 }, (_, i) =>
      fitPathLoss(drawnWalk(1000 + i, 300, -130), { ...options, confidence: 0.95 }),
    );
    const mean = (of: (fit: PathLossFit) => number): number =>
      fits.reduce((sum, fit) => sum + of(fit), 0) / 60;
    expect(Math.abs(mean((fit) => fit.exponent) - 3.1)).toBeLessThan(0.04);
    expect(Math.abs(mean((fit) => fit.shadowingDb) - 7)).toBeLessThan(0.15);
    expect(mean((fit) => fit.censoring?.optimism[0]?.optimismDb ?? 0)).toBeGreaterThan(4);
    const held = mean((fit) => {
      const { lowerExponent = NaN, upperExponent = NaN } = fit.censoring?.intervals ?? {};
      return lowerExponent <= 3.1 && upperExponent >= 3.1 ? 1 : 0;
    });
    // Four standard errors of 60 draws around 0.95.
    expect(held).toBeGreaterThan(0.83);
  });
  test('order, a common shift of levels and thresholds, and a scale of distances', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        (seed, by) => {
          const walk = drawnWalk(seed, 80, -130);
          fc.pre(walk.filter(({ received }) => received).length > 10);
          const one = fitPathLoss(walk, options);
          const turned = fitPathLoss([...walk].reverse(), options);
          expect(turned.exponent).toBeCloseTo(one.exponent, 7);
          const raised = walk.map((frame) =>
            frame.rssiDbm === undefined ? frame : { ...frame, rssiDbm: frame.rssiDbm + by },
          );
          const shifted = fitPathLoss(raised, { ...options, thresholdDbm: -130 + by });
          expect(shifted.exponent).toBeCloseTo(one.exponent, 6);
          expect(shifted.interceptDbm - by).toBeCloseTo(one.interceptDbm, 4);
          const doubled = walk.map((frame) => ({ ...frame, distanceM: (frame.distanceM ?? 0) * 2 }));
          const farther = fitPathLoss(doubled, options);
          expect(farther.exponent).toBeCloseTo(one.exponent, 6);
          expect(farther.shadowingDb).toBeCloseTo(one.shadowingDb, 6);
        },
      ),
      { numRuns: 40 },
    );
  });
  test('without a missed frame it is least squares, the spread with n instead of n - 2', () => {
    const walk = drawnWalk(7, 60, -400);
    const fit = fitPathLoss(walk, options);
    const line = fitPathLoss(walk, { signal: 'rssi' });
    expect(fit.exponent).toBeCloseTo(line.exponent, 9);
    expect(fit.shadowingDb).toBeCloseTo(line.shadowingDb * Math.sqrt(58 / 60), 9);
    expect(fit.warnings.join(' ')).toMatch(/No frame was missed/);
  });
});

describe('thresholds and powers', () => {
  const walk = drawnWalk(3, 120, -128).map((frame, i) => ({
    ...frame,
    spreadingFactor: i % 2 === 0 ? 7 : 9,
  }));
  test('by spreading factor as by a function; estimated ones are the weakest levels', () => {
    const byTable = fitPathLoss(walk, {
      signal: 'rssi',
      censored: true,
      thresholdDbm: { 7: -128, 9: -129 },
    });
    const byFunction = fitPathLoss(walk, {
      signal: 'rssi',
      censored: true,
      thresholdDbm: ({ spreadingFactor }) => (spreadingFactor === 7 ? -128 : -129),
    });
    expect(byTable).toEqual(byFunction);
    const estimated = fitPathLoss(walk, { signal: 'rssi', censored: true });
    const weakest = (factor: number): number =>
      Math.min(...walk.filter((f) => f.spreadingFactor === factor).map((f) => f.rssiDbm ?? 0));
    expect(estimated.censoring?.thresholds.map((row) => row.lowestThresholdDbm)).toEqual([
      weakest(7),
      weakest(9),
    ]);
    expect(estimated.warnings.join(' ')).toMatch(/weakest received levels/);
  });
  test('frames sent 10 dB stronger, referred to one power, give the law of that power', () => {
    const sent = walk.map((frame, i) => {
      const moreDb = i % 3 === 0 ? 10 : 0;
      const rssiDbm = frame.rssiDbm === undefined ? undefined : frame.rssiDbm + moreDb;
      return { ...frame, rssiDbm, conductedPowerDbm: 4 + moreDb };
    });
    const thresholdDbm = (frame: Observation): number => -128 + (frame.conductedPowerDbm ?? 0) - 4;
    const plain = fitPathLoss(walk, { signal: 'rssi', censored: true, thresholdDbm: -128 });
    const mixed = { signal: 'rssi', censored: true, thresholdDbm } as const;
    const referred = fitPathLoss(sent, { ...mixed, referencePowerDbm: 4 });
    expect(referred.exponent).toBeCloseTo(plain.exponent, 8);
    expect(referred.interceptDbm).toBeCloseTo(plain.interceptDbm, 6);
    expect(fitPathLoss(sent, mixed).warnings.join(' ')).toMatch(/different powers/);
    expect(() => fitPathLoss(walk, { ...mixed, referencePowerDbm: 4 })).toThrow(/conductedPowerDbm/);
  });
});

describe('refusals', () => {
  const walk = drawnWalk(5, 60, -125);
  const line: Observation[] = [100, 200, 400].map((distanceM) => ({
    ...place,
    received: true,
    distanceM,
    rssiDbm: -20 - 30 * Math.log10(distanceM),
  }));
  test.each([
    [walk, { thresholdDbm: -125 }, 'thresholdDbm', 'unknown-option'],
    [walk, { confidence: 0.9 }, 'confidence', 'unknown-option'],
    [walk, { constantLoss: true }, 'constantLoss', 'unknown-option'],
    [walk, { censored: 'truncated', slopeCount: 2 }, 'slopeCount', 'unknown-option'],
    [walk, { censored: true, breakpointM: 500 }, 'breakpointM', 'unknown-option'],
    [walk, { censored: true, thresholdDbm: 125 }, 'thresholdDbm', 'out-of-range'],
    [
      walk,
      { censored: true, thresholdDbm: () => NaN },
      'thresholdDbm of observations[',
      'not-a-finite-number',
    ],
    [walk, { censored: true, thresholdDbm: { 7: -125 } }, 'spreadingFactor', 'missing'],
    [walk, { censored: true, thresholdDbm: new Map([[7, -125]]) }, 'spreadingFactor', 'missing'],
    [walk, { censored: true, thresholdDbm: { 4: -125 } }, 'thresholdDbm', 'out-of-range'],
    [walk, { censored: true, thresholdDbm: { 7: '-125' } }, 'thresholdDbm[7]', 'not-a-finite-number'],
    [walk, { censored: true, confidence: 95 }, 'confidence', 'out-of-range'],
    [walk, { censored: true, slopeCount: 3 }, 'slopeCount', 'out-of-range'],
    [walk, { censored: true, statedDistancesM: [90_000] }, 'statedDistancesM[0]', 'outside-validity'],
    [walk, { censored: true, statedDistancesM: [undefined] }, 'statedDistancesM[0]', 'not-a-finite-number'],
    [line, { censored: true }, 'observations', 'missing'],
    [walk, { censored: true, slopeCount: 2, breakpointM: 1 }, 'observations', 'missing'],
  ])('case %#', (observations, options, argument, code) => {
    const run = (): unknown => fitPathLoss(observations, { signal: 'rssi', ...options } as never);
    expect(run).toThrow(expect.objectContaining({ code, argument: expect.stringContaining(argument) }));
  });
  test('a spreading factor of which nothing was received has no threshold to estimate', () => {
    const deaf: Observation = { ...place, received: false, distanceM: 5000, spreadingFactor: 12 };
    expect(() => fitPathLoss([...walk, deaf], { signal: 'rssi', censored: true })).toThrow(
      /spreading factor 12, of which none was received/,
    );
  });
});
