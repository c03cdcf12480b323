import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { fitPathLoss, type Observation, predictLevel, readSurvey } from '../src/index.js';
import { straightLine } from '../src/straightLine.js';
import { sharedData } from './sharedData.js';

const place = { latitudeDeg: 45, longitudeDeg: 5 };
const relative = (got: number, want: number): number => Math.abs(got / want - 1);

test('NIST StRD Norris: certified values to nine digits and more', () => {
  const { x, y, ...certified } = shared.strd.norris;
  const line = straightLine(Float64Array.from(x), Float64Array.from(y));
  expect(x).toHaveLength(36);
  // Worst measured: 2e-13, on the intercept.
  expect(relative(line.intercept, certified.intercept)).toBeLessThan(1e-11);
  expect(relative(line.slope, certified.slope)).toBeLessThan(1e-11);
  expect(relative(line.interceptStandardError, certified.interceptSe)).toBeLessThan(1e-11);
  expect(relative(line.slopeStandardError, certified.slopeSe)).toBeLessThan(1e-11);
  expect(relative(line.residualDeviation, certified.residualSd)).toBeLessThan(1e-11);
  expect(relative(line.explainedRatio, certified.rSquared)).toBeLessThan(1e-11);
});

describe('fitPathLoss against R lm (survey-vectors, pathLossFit.olsReceivedOnly)', () => {
  const { rows, olsReceivedOnly: want } = shared.pathLossFit;
  const observations = rows.map(
    ({ distanceM, powerDbm, received }): Observation => ({
      ...place,
      received,
      distanceM,
      ...(powerDbm === null ? {} : { rssiDbm: powerDbm }),
    }),
  );
  const fit = fitPathLoss(observations, { signal: 'rssi' });
  test('law, standard errors, spread', () => {
    expect(relative(fit.interceptDbm, want.interceptDbm)).toBeLessThan(1e-12);
    expect(relative(fit.exponent, want.exponent)).toBeLessThan(1e-12);
    expect(relative(fit.shadowingDb, want.sigmaDb)).toBeLessThan(1e-12);
    expect(relative(fit.explainedRatio, want.rSquared)).toBeLessThan(1e-12);
    expect(relative(fit.standardErrors.interceptDb, want.seIntercept)).toBeLessThan(1e-12);
    expect(relative(fit.standardErrors.exponent, want.seExponent)).toBeLessThan(1e-12);
  });
  test('counts, and the warnings', () => {
    expect(fit).toMatchObject({
      frames: 108,
      usedFrames: 94,
      excluded: { missedFrames: 14, tooNearFrames: 0, noSignalFrames: 0 },
    });
    expect(fit.warnings).toHaveLength(2);
    expect(fit.warnings[0]).toMatch(/14 of 108 frames were missed.*optimistic/);
    expect(fit.warnings[1]).toMatch(/noise floor/);
  });
});

// Rides by other people, under their own licences, beside the repository.
describe('real walks against R lm (survey-vectors, realData)', () => {
  const { sets } = shared.realData;
  // Last column: the mean level at 6 km as printed with one decimal beside these fits.
  const rides = [
    ['lyon-bike/2024-07-24-morning', 'effective', 333, -142.5],
    ['lyon-bike/2024-07-25-morning', 'effective', 333, -141.8],
    ['lyon-bike/2024-07-05-morning', 'rssi', 357, undefined],
  ] as const;
  for (const [name, signal, rows, atSixKilometres] of rides) {
    const text = sharedData(`${name}.frames.csv`);
    test.skipIf(text === undefined)(name, () => {
      const survey = readSurvey(text ?? '', { file: `${name}.frames.csv` });
      expect(survey).toMatchObject({ rows, skipped: [] });
      const fit = fitPathLoss(survey.observations, { signal });
      const want = sets[name];
      expect(fit.usedFrames).toBe(want.received);
      expect(fit.excluded.missedFrames).toBe(want.missed);
      expect(fit.excluded.tooNearFrames).toBe(rows - want.rows);
      expect(relative(fit.exponent, want.ols.exponent)).toBeLessThan(1e-10);
      expect(relative(fit.interceptDbm, want.ols.interceptDbm)).toBeLessThan(1e-10);
      expect(relative(fit.shadowingDb, want.ols.sigmaDb)).toBeLessThan(1e-10);
      expect(relative(fit.standardErrors.exponent, want.ols.seExponent)).toBeLessThan(1e-10);
      if (atSixKilometres === undefined) return;
      const far = predictLevel({ fit, distanceM: 6000, outsideValidity: 'allow' });
      expect(Math.abs(far.levelDbm - atSixKilometres)).toBeLessThanOrEqual(0.1);
      expect(far.warnings.join(' ')).toMatch(/6000 m lies outside/);
    });
  }
  const campus = sharedData('kuleuven-campus/campus.frames.csv');
  test.skipIf(campus === undefined)('kuleuven-campus', () => {
    const { observations, rows } = readSurvey(campus ?? '', {
      columns: { received: { column: 'censored', inverted: true }, rssiDbm: 'rss_dbm' },
    });
    expect(rows).toBe(18_335);
    // Fixed transmitter of 20 dBm: the fit of -path_loss_db, so the loss takes the place of the level.
    const lossAtLine = (campus ?? '').split('\n').map((line) => Number(line.split(',')[7]));
    const levels = observations.map((frame) =>
      frame.received ? { ...frame, rssiDbm: -(lossAtLine[(frame.line ?? 0) - 1] ?? NaN) } : frame,
    );
    const fit = fitPathLoss(levels, { signal: 'rssi', minimumDistanceM: 1 });
    const want = sets['kuleuven-campus'].thresholdAll148;
    expect([fit.usedFrames, fit.excluded.missedFrames]).toEqual([want.received, want.missed]);
    expect(relative(fit.exponent, want.ols.exponent)).toBeLessThan(1e-10);
    expect(relative(fit.interceptDbm, want.ols.interceptDbm)).toBeLessThan(1e-10);
    // The owners of the data print the same law: 60.06447, 3.20320.
    expect(fit.exponent).toBeCloseTo(shared.published.kuLeuvenCampus.ols.exponent, 6);
  });
  const brno = sharedData('brno-drive/LoRaWAN_Brno.csv');
  test.skipIf(brno === undefined)('brno-drive, received frames only, distance in kilometres', () => {
    const { observations } = readSurvey(brno ?? '', {
      receivedOnly: true,
      columns: {
        latitudeDeg: 'Lat',
        longitudeDeg: 'Lon',
        rssiDbm: 'RSSI',
        snrDb: 'SNR',
        distanceM: { column: 'Dist', unit: 'km' },
      },
    });
    expect(observations).toHaveLength(6670);
    const fit = fitPathLoss(observations);
    expect(relative(fit.exponent, sets['brno-drive'].ols.exponent)).toBeLessThan(1e-10);
    expect(relative(fit.shadowingDb, sets['brno-drive'].ols.sigmaDb)).toBeLessThan(1e-10);
  });
});

const law = fc.record({
  interceptDbm: fc.double({ min: -50, max: 20, noNaN: true }),
  exponent: fc.double({ min: 1.5, max: 4.5, noNaN: true }),
});
const distances = fc.array(fc.double({ min: 50, max: 15_000, noNaN: true }), { minLength: 3, maxLength: 40 });
const spreadOut = (values: readonly number[]): boolean => Math.max(...values) > 1.5 * Math.min(...values);
const framesOf = (
  distancesM: readonly number[],
  { interceptDbm, exponent }: { readonly interceptDbm: number; readonly exponent: number },
): Observation[] =>
  distancesM.map((distanceM) => ({
    ...place,
    received: true,
    distanceM,
    rssiDbm: interceptDbm - exponent * 10 * Math.log10(distanceM),
  }));

describe('properties', () => {
  test('levels without noise give back the law, and its levels', () => {
    fc.assert(
      fc.property(distances, law, (distancesM, truth) => {
        fc.pre(spreadOut(distancesM));
        const fit = fitPathLoss(framesOf(distancesM, truth), { signal: 'rssi' });
        expect(fit.exponent).toBeCloseTo(truth.exponent, 8);
        expect(fit.interceptDbm).toBeCloseTo(truth.interceptDbm, 6);
        expect(fit.shadowingDb).toBeLessThan(1e-8);
        const distanceM = fit.farthestDistanceM;
        const want = truth.interceptDbm - truth.exponent * 10 * Math.log10(distanceM);
        expect(predictLevel({ fit, distanceM }).levelDbm).toBeCloseTo(want, 8);
      }),
    );
  });
  test('the order of the rows does not matter, nor missed frames', () => {
    const noise = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(distances, law, noise, (distancesM, truth, errors) => {
        fc.pre(spreadOut(distancesM));
        const frames = framesOf(distancesM, truth).map((frame, index) => ({
          ...frame,
          rssiDbm: (frame.rssiDbm ?? 0) + (errors[index] ?? 0),
        }));
        const one = fitPathLoss(frames, { signal: 'rssi' });
        const missed: Observation = { ...place, distanceM: 9000, received: false };
        const other = fitPathLoss([missed, ...[...frames].reverse()], { signal: 'rssi' });
        expect(other.exponent).toBeCloseTo(one.exponent, 8);
        expect(other.standardErrors.exponent).toBeCloseTo(one.standardErrors.exponent, 8);
        expect(other.excluded.missedFrames).toBe(1);
      }),
    );
  });
  test('ten decibels more everywhere move the intercept alone', () => {
    fc.assert(
      fc.property(distances, law, (distancesM, truth) => {
        fc.pre(spreadOut(distancesM));
        const lower = fitPathLoss(framesOf(distancesM, { ...truth, interceptDbm: truth.interceptDbm - 10 }), {
          signal: 'rssi',
        });
        expect(lower.exponent).toBeCloseTo(truth.exponent, 8);
        expect(lower.interceptDbm).toBeCloseTo(truth.interceptDbm - 10, 6);
      }),
    );
  });
});

describe('which frames are used', () => {
  const frame = (distanceM: number, more: Partial<Observation>): Observation => ({
    ...place,
    distanceM,
    received: true,
    rssiDbm: -100,
    snrDb: 0,
    ...more,
  });
  const frames = [
    frame(100, { rssiDbm: -90 }),
    frame(200, {}),
    frame(400, { rssiDbm: -112 }),
    frame(49.9, {}),
    frame(20, { received: false, rssiDbm: undefined, snrDb: undefined }),
    frame(500, { received: false, rssiDbm: undefined, snrDb: undefined }),
    frame(500, { snrDb: undefined }),
    frame(500, { rssiDbm: undefined }),
  ];
  test('each left-out frame is counted under one reason', () => {
    const fit = fitPathLoss(frames);
    expect(fit.excluded).toEqual({ tooNearFrames: 2, missedFrames: 1, noSignalFrames: 2 });
    expect(fit.usedFrames + 5).toBe(fit.frames);
    expect(fit.warnings).toEqual([expect.stringContaining('1 of 6 frames were missed')]);
    expect(fitPathLoss(frames, { signal: 'rssi' }).usedFrames).toBe(4);
    expect(fitPathLoss(frames, { minimumDistanceM: 10 }).excluded.tooNearFrames).toBe(0);
  });
  test('at an SNR of 0 dB the signal lies 3.01 dB under the RSSI', () => {
    const bySignal = fitPathLoss(frames.slice(0, 3));
    const byRssi = fitPathLoss(frames.slice(0, 3), { signal: 'rssi' });
    expect(byRssi.interceptDbm - bySignal.interceptDbm).toBeCloseTo(3.0103, 4);
  });
  test('a gateway takes the place of the distances in the table', () => {
    // One degree of latitude is 111 195 m on the sphere.
    const frames: Observation[] = [0.001, 0.01, 0.1].map((north) => ({
      latitudeDeg: 45 + north,
      longitudeDeg: 5,
      received: true,
      rssiDbm: -60 - 30 * Math.log10(north / 0.001),
      distanceM: 1,
    }));
    const fit = fitPathLoss(frames, { gateway: place, signal: 'rssi' });
    expect(fit.exponent).toBeCloseTo(3, 8);
    expect(fit.farthestDistanceM).toBeCloseTo(11_119.5, 1);
  });
});

describe('refusals', () => {
  const good: Observation[] = framesOf([100, 200, 400], { interceptDbm: -20, exponent: 3 });
  const fails = (observations: unknown, options: unknown): unknown => {
    try {
      return fitPathLoss(observations as never, options as never);
    } catch (error) {
      return error;
    }
  };
  test.each([
    [undefined, {}, 'observations', 'wrong-type'],
    [[], {}, 'observations', 'missing'],
    [good.slice(1), { signal: 'rssi' }, 'observations', 'missing'],
    [[good[0], good[0], good[0]], { signal: 'rssi' }, 'observations', 'missing'],
    [good, {}, 'observations', 'missing'],
    [good, { signal: 'snr' }, 'signal', 'unknown-option'],
    [good, { censored: 'yes' }, 'censored', 'unknown-option'],
    [good, { minimumDistanceM: 0 }, 'minimumDistanceM', 'out-of-range'],
    [good, { minimumDistanceM: NaN }, 'minimumDistanceM', 'not-a-finite-number'],
    [good, { gateway: { latitudeDeg: 95, longitudeDeg: 0 } }, 'gateway.latitudeDeg', 'out-of-range'],
    [good, null, 'options', 'wrong-type'],
    [[...good, { ...place, received: true }], { signal: 'rssi' }, 'observations[3].distanceM', 'missing'],
    [[{ ...good[0], rssiDbm: NaN }, ...good], {}, 'observations[0].rssiDbm', 'not-a-finite-number'],
    [[{ ...good[0], distanceM: -1 }, ...good], {}, 'observations[0].distanceM', 'out-of-range'],
    [[{ ...good[0], received: 1 }, ...good], {}, 'observations[0].received', 'wrong-type'],
    [[{ ...good[0], spreadingFactor: 7.5 }, ...good], {}, 'observations[0].spreadingFactor', 'out-of-range'],
  ])('case %#', (observations, options, argument, code) => {
    expect(fails(observations, options)).toMatchObject({ name: 'InputError', argument, code });
  });
  test('too few frames say where the others went', () => {
    expect(String(fails(good, {}))).toContain('0 missed, 0 too near, 3 without level');
  });
  const fit = fitPathLoss(good, { signal: 'rssi' });
  test.each([
    [{ fit, distanceM: 401 }, 'distanceM', 'outside-validity'],
    [{ fit, distanceM: 0, outsideValidity: 'allow' }, 'distanceM', 'out-of-range'],
    [{ fit, distanceM: NaN }, 'distanceM', 'not-a-finite-number'],
    [{ fit, distanceM: 200, outsideValidity: 'clamp' }, 'outsideValidity', 'unknown-option'],
    [{ fit: { ...fit, exponent: NaN }, distanceM: 200 }, 'fit.exponent', 'not-a-finite-number'],
    [{ distanceM: 200 }, 'fit', 'wrong-type'],
    [undefined, 'question', 'wrong-type'],
  ])('predictLevel, case %#', (question, argument, code) => {
    expect(() => predictLevel(question as never)).toThrow(expect.objectContaining({ argument, code }));
  });
});
