import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { type CensoredRows, censoredRegression } from '../../src/calibrate/censoredRegression.js';
import { leaveOneSpotOut } from '../../src/calibrate/leaveOneSpotOut.js';

const relative = (got: number | undefined, want: number): number => Math.abs((got ?? Number.NaN) / want - 1);

/** The shared walk as rows of level against -10 lg of the distance. */
function walkRows(rows: readonly (typeof shared.pathLossFit.rows)[number][]): CensoredRows {
  return {
    columns: [
      Float64Array.from(rows, () => 1),
      Float64Array.from(rows, ({ distanceM }) => -10 * Math.log10(distanceM)),
    ],
    y: Float64Array.from(rows, ({ powerDbm, thresholdDbm }) => powerDbm ?? thresholdDbm),
    missed: Uint8Array.from(rows, ({ received }) => (received ? 0 : 1)),
    weights: Float64Array.from(rows, () => 1),
    spots: Int32Array.from(rows, ({ spot }) => spot),
  };
}

const { rows, tobit, olsReceivedOnly } = shared.pathLossFit;
const received = rows.filter((row) => row.received);

test('Tobit of R survreg (survey-vectors, pathLossFit.tobit)', () => {
  const fit = censoredRegression(walkRows(rows));
  expect(rows).toHaveLength(108);
  // Worst measured: 2e-10; survreg itself stops at about 1e-9.
  expect(relative(fit?.coefficients[0], tobit.interceptDbm)).toBeLessThan(1e-8);
  expect(relative(fit?.coefficients[1], tobit.exponent)).toBeLessThan(1e-8);
  expect(relative(fit?.sigma, tobit.sigmaDb)).toBeLessThan(1e-8);
});

test('least squares of R lm, cluster-robust by R sandwich (CR1)', () => {
  const fit = censoredRegression(walkRows(received));
  expect(relative(fit?.coefficients[0], olsReceivedOnly.interceptDbm)).toBeLessThan(1e-11);
  expect(relative(fit?.coefficients[1], olsReceivedOnly.exponent)).toBeLessThan(1e-11);
  const { CR0, CR1 } = olsReceivedOnly.clusterBySpotSeExponent;
  const standardError = Math.sqrt(fit?.covariance[1]?.[1] ?? Number.NaN);
  // R's CR1 has a further factor (N - 1)/(N - p).
  const spots = new Set(received.map(({ spot }) => spot)).size;
  expect(relative(standardError, CR0 * Math.sqrt(spots / (spots - 1)))).toBeLessThan(1e-10);
  expect(relative(standardError * Math.sqrt(93 / 92), CR1)).toBeLessThan(1e-10);
});

describe('leaving out one spot at a time (survey-vectors, leaveOneSpotOut)', () => {
  const want = shared.leaveOneSpotOut;
  // The distance law as the prediction: the slope of the correction is then the exponent.
  const { y, missed, weights, columns } = walkRows(received);
  const numbers = new Map(want.spotIds.map((spot, index) => [spot, index]));
  const errors = leaveOneSpotOut(
    {
      spots: want.spotIds.map((spot) => ({ spot: String(spot), latitudeDeg: 0, longitudeDeg: 0 })),
      places: received.map((_, i) => i),
      predictedDbm: columns[1] as Float64Array,
      levelDbm: y,
      missed,
      weights,
      spotOf: Int32Array.from(received, ({ spot }) => numbers.get(spot) as number),
      missedLeftOut: 0,
      noSignalLeftOut: 0,
    },
    true,
  );
  test('mean error of each spot', () => {
    expect(want.spotMeanErrors).toHaveLength(17);
    for (const [index, id] of want.spotIds.entries()) {
      const own = [...(errors ?? [])].filter((_, i) => received[i]?.spot === id);
      // Measured minus predicted there, predicted minus measured here.
      const mean = -own.reduce((sum, error) => sum + error, 0) / own.length;
      expect(Math.abs(mean - (want.spotMeanErrors[index] as number))).toBeLessThan(1e-10);
    }
  });
  test('all frames', () => {
    const all = [...(errors ?? [])];
    const squares = all.reduce((sum, error) => sum + error * error, 0);
    expect(relative(Math.sqrt(squares / all.length), want.rmseFrames)).toBeLessThan(1e-11);
    expect(Math.abs(-all.reduce((sum, error) => sum + error, 0) / all.length - want.biasFrames)).toBeLessThan(
      1e-11,
    );
    // Leaving out single frames looks better than it is.
    expect(want.looRmseFrames).toBeLessThan(Math.sqrt(squares / all.length));
  });
});

describe('what determines nothing', () => {
  const three = { weights: Float64Array.of(1, 1, 1), spots: Int32Array.of(0, 1, 2) };
  const ones = Float64Array.of(1, 1, 1);
  test('received rows on the fit exactly, while others are bounded', () => {
    const missed = Uint8Array.of(0, 0, 1);
    expect(
      censoredRegression({ ...three, columns: [ones], y: Float64Array.of(-3, -3, -9), missed }),
    ).toBeUndefined();
  });
  test('no row with a level; a regressor that does not vary', () => {
    const y = Float64Array.of(-3, -4, -9);
    expect(
      censoredRegression({ ...three, columns: [ones], y, missed: Uint8Array.of(1, 1, 1) }),
    ).toBeUndefined();
    const columns = [ones, Float64Array.of(2, 2, 2)];
    expect(censoredRegression({ ...three, columns, y, missed: Uint8Array.of(0, 0, 0) })).toBeUndefined();
  });
});
