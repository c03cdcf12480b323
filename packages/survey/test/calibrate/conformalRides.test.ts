import { describe, expect, test } from 'vitest';
import { seededRandom, shuffled } from '../../src/calibrate/seededRandom.js';
import {
  conformalMargin,
  effectiveSignalPowerDbm,
  fitPathLoss,
  type Observation,
  readSurvey,
} from '../../src/index.js';
import { sharedData } from '../sharedData.js';

// Two rides by other people, under their own licence, beside the repository: each is predicted by the law of the other.
const texts = ['2024-07-24', '2024-07-25'].map((day) => sharedData(`lyon-bike/${day}-morning.frames.csv`));
const framesOfASpot = 3;
const splits = 200;

function ride(text: string): readonly Observation[] {
  const { observations } = readSurvey(text);
  return observations.filter(({ distanceM = 0 }) => distanceM >= 50);
}

/** Neighbouring frames of a ride as one spot. */
function spotsWithin(frames: readonly Observation[], reachM: number): Observation[][] {
  const near = frames.filter(({ distanceM = Infinity }) => distanceM <= reachM);
  return Array.from({ length: Math.floor(near.length / framesOfASpot) }, (_, spot) =>
    near
      .slice(spot * framesOfASpot, (spot + 1) * framesOfASpot)
      .map((frame) => ({ ...frame, spot: `spot ${spot}` })),
  );
}

describe.skipIf(texts.includes(undefined))('conformal margins on measured rides', () => {
  const rides = texts.map((text) => ride(text ?? ''));
  const predictions = rides.map((_, place) => {
    const { interceptDbm, exponent } = fitPathLoss(rides[1 - place] ?? [], {
      censored: true,
      thresholdDbm: -141,
    });
    return ({ distanceM = 1 }: Observation) => interceptDbm - exponent * 10 * Math.log10(distanceM);
  });

  /** Share of the other half of the spots that keep to the margin of one half; no margin is kept by all. */
  function keptRatio(place: number, reachM: number): { keptRatio: number; boundRatio: number } {
    const predicted = predictions[place] ?? (() => Number.NaN);
    const random = seededRandom(7);
    const spots = spotsWithin(rides[place] ?? [], reachM);
    let kept = 0;
    let tried = 0;
    let bounds = 0;
    for (let split = 0; split < splits; split++) {
      const mixed = shuffled(spots, random);
      const half = Math.ceil(mixed.length / 2);
      const { lowerMarginDb } = conformalMargin(predicted, mixed.slice(0, half).flat(), {
        offsetSpotRatio: 0,
      });
      if (lowerMarginDb !== undefined) bounds++;
      for (const spot of mixed.slice(half)) {
        tried++;
        if (lowerMarginDb === undefined || medianError(spot, predicted) <= lowerMarginDb) kept++;
      }
    }
    return { keptRatio: kept / tried, boundRatio: bounds / splits };
  }

  function medianError(spot: readonly Observation[], predicted: (at: Observation) => number): number {
    const errors = spot.map((frame) => {
      const { received, rssiDbm, snrDb } = frame;
      if (!received || rssiDbm === undefined || snrDb === undefined) return Infinity;
      return predicted(frame) - effectiveSignalPowerDbm({ rssiDbm, snrDb });
    });
    return errors.sort((a, b) => a - b)[Math.floor(errors.length / 2)] ?? Infinity;
  }

  test.each([0, 1])('hold within 3 km of the gateway (ride %i)', (place) => {
    const found = keptRatio(place, 3000);
    expect(found.keptRatio).toBeGreaterThan(0.88);
  });

  test.each([0, 1])('give no bound over a whole ride, of which most was deaf (ride %i)', (place) => {
    expect(keptRatio(place, 20_000).boundRatio).toBe(0);
  });
});
