import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import {
  mapReception,
  type NextSpotsQuestion,
  nextSpots,
  type PlanePlace,
  planePosition,
  type ReceptionSpot,
} from '../../src/index.js';
import { greedySpots, seePlaces } from '../../src/map/greedySpots.js';
import { solveKriging } from '../../src/map/kriging.js';
import { trendSeries, trendTerms } from '../../src/map/trend.js';
import { gaussianField, seeded } from './gaussianField.js';

const relative = (got: number | undefined, want: number): number => Math.abs((got as number) / want - 1);
const origin = { latitudeDeg: 50, longitudeDeg: 16 };
const shadowing = { shadowingDb: 7, decorrelationM: 400, nuggetDb: 3 };
const at = (eastM: number, northM: number) => planePosition({ origin, place: { eastM, northM } });

describe('greedy choice against R gstat (survey-vectors, nextSpots)', () => {
  const { points, model } = shared.shadowKriging;
  const { candidates, meanVarianceBefore, greedy, greedyMeanVariance } = shared.nextSpots;
  const samples = points.map(({ x, y }) => ({ eastM: x, northM: y }));
  const kriging = solveKriging({
    eastM: Float64Array.from(points, ({ x }) => x),
    northM: Float64Array.from(points, ({ y }) => y),
    levelsDb: Float64Array.from(points, ({ z }) => z),
    noiseDb2: new Float64Array(points.length).fill(model.nugget),
    trend: trendSeries('log-distance', samples, 'samples'),
    model: { shadowingDb: Math.sqrt(model.partialSill), decorrelationM: model.range },
  });
  if (kriging === undefined) throw new Error('unsolved');
  const grid = [-1200, -800, -400, 0, 400, 800, 1200];
  const targets = grid
    .flatMap((northM) => grid.map((eastM) => ({ eastM, northM })))
    .filter(({ eastM, northM }) => eastM !== 0 || northM !== 0);
  const termsAt = (place: PlanePlace) => trendTerms('log-distance', place, 'place');
  const choose = (places: readonly { x: number; y: number }[], count: number) =>
    greedySpots({
      kriging,
      targets: seePlaces(kriging, targets, termsAt),
      weights: new Float64Array(targets.length).fill(1 / targets.length),
      candidates: seePlaces(
        kriging,
        places.map(({ x, y }) => ({ eastM: x, northM: y })),
        termsAt,
      ),
      noiseDb2: model.nugget,
      count,
    });

  test('each candidate alone', () => {
    expect(targets).toHaveLength(48);
    for (const candidate of candidates) {
      const [choice] = choose([candidate], 1);
      expect(relative(choice?.meanVarianceDb2, candidate.meanVarianceAfter)).toBeLessThan(1e-6);
      expect(
        relative(meanVarianceBefore - (choice?.meanVarianceDb2 as number), candidate.reduction),
      ).toBeLessThan(1e-4);
    }
  });

  test('the best three in turn', () => {
    const choices = choose(candidates, 3);
    expect(choices.map(({ index }) => index)).toEqual(greedy);
    choices.forEach(({ meanVarianceDb2 }, i) => {
      expect(relative(meanVarianceDb2, greedyMeanVariance[i] as number)).toBeLessThan(1e-6);
    });
  });
});

/** A field whose mean falls to the east, with its line of reception in the middle. */
function question(spots: readonly ReceptionSpot[]): NextSpotsQuestion {
  const size = 21;
  const powerDbm = Float32Array.from(
    { length: size * size },
    (_, i) => -120 - 0.01 * ((i % size) - 10) * 100,
  );
  return { prediction: { columns: size, rows: size, cellM: 100, origin, powerDbm }, spots, shadowing };
}

describe('nextSpots', () => {
  const walked = [
    { ...at(-700, 300), residualDb: 2, frames: 10 },
    { ...at(-600, -400), residualDb: -3, frames: 10 },
  ];

  test('goes where nobody was, and says what it is worth', () => {
    const { spots, uncertaintyDb, cellCount, candidateCount } = nextSpots({
      ...question(walked),
      spotCount: 3,
    });
    expect([cellCount, candidateCount]).toEqual([441, 441]);
    expect(spots[0]?.eastM).toBeGreaterThan(0);
    expect(spots[0]?.uncertaintyBeforeDb).toBe(uncertaintyDb);
    expect(spots[1]?.uncertaintyBeforeDb).toBe(spots[0]?.uncertaintyAfterDb);
    expect(spots[0]?.reason).toMatch(/^lowers the uncertainty of the map from \d+\.\d\d to \d+\.\d\d dB$/);
    const falls = spots.map((spot) => spot.uncertaintyBeforeDb - spot.uncertaintyAfterDb);
    expect(Math.min(...falls)).toBeGreaterThan(0);
  });

  test('walking the first spot lowers the deviation of the map by what was said, whatever is found', () => {
    const [first] = nextSpots({ ...question(walked), spotCount: 1, frames: 8 }).spots;
    if (first === undefined) throw new Error('none');
    for (const residualDb of [-15, 0, 9]) {
      const { latitudeDeg, longitudeDeg } = first;
      const { prediction, spots } = question([
        ...walked,
        { latitudeDeg, longitudeDeg, residualDb, frames: 8 },
      ]);
      const dataRates = [{ name: 'SF9', requiredPowerDbm: -129 }];
      const { standardDeviationDb } = mapReception({ prediction, spots, shadowing, dataRates });
      const meanDb2 = standardDeviationDb.reduce((sum, s) => sum + s * s, 0) / standardDeviationDb.length;
      expect(Math.sqrt(meanDb2)).toBeCloseTo(first.uncertaintyAfterDb, 5);
    }
  });

  test('with a line to find it stays near the line', () => {
    // At -128 dBm the line runs 800 m east of the gateway.
    const { spots } = nextSpots({ ...question(walked), requiredPowerDbm: -128, spotCount: 3 });
    const field = nextSpots({ ...question(walked), spotCount: 3 });
    const off = (list: readonly { readonly eastM: number }[]) =>
      list.reduce((sum, { eastM }) => sum + Math.abs(eastM - 800), 0);
    expect(off(spots)).toBeLessThan(off(field.spots));
    expect(spots[0]?.reason).toMatch(/near the -128 dBm line/);
    const none = nextSpots({ ...question(walked), requiredPowerDbm: -190, spotCount: 1 });
    expect(none.warnings.join()).toMatch(/no line/);
  });

  test('keeps to streets and to candidates', () => {
    const street = [at(-1000, 500), at(1000, 500)];
    const along = nextSpots({ ...question(walked), streets: [street], stepM: 200, spotCount: 2 });
    expect(along.candidateCount).toBe(11);
    for (const { northM } of along.spots) expect(Math.abs(northM - 500)).toBeLessThan(0.1);
    const places = [at(-700, 300), at(600, 0), at(-500, -300)];
    const [best] = nextSpots({ ...question(walked), candidates: places, spotCount: 1 }).spots;
    expect(best?.eastM).toBeCloseTo(600, 3);
    expect(() => nextSpots({ ...question(walked), candidates: places, spotCount: 4 })).toThrow(/\(3\)/);
    expect(() => nextSpots({ ...question(walked), candidates: places, streets: [street] })).toThrow(/either/);
  });

  test('before any walk, and on a map without data', () => {
    const first = nextSpots({ ...question([]), trend: 'known', spotCount: 1 });
    expect(first.uncertaintyDb).toBeCloseTo(7, 9);
    const { prediction, ...rest } = question(walked);
    const blank = { ...prediction, powerDbm: new Float32Array(441).fill(Number.NaN) };
    expect(() => nextSpots({ ...rest, prediction: blank, candidates: [at(0, 0)], spotCount: 1 })).toThrow(
      /at least one cell/,
    );
  });

  test('beats walks at random and on a grid, on fields drawn from the model', () => {
    const random = seeded(21);
    const cells = Array.from({ length: 441 }, (_, i) => ({
      eastM: ((i % 21) - 10) * 100,
      northM: (10 - Math.floor(i / 21)) * 100,
    }));
    const draw = gaussianField(cells, shadowing);
    const requiredPowerDbm = -120;
    const { prediction } = question([]);
    const errors = { chosen: 0, random: 0, grid: 0 };
    const rounds = 60;
    for (let round = 0; round < rounds; round += 1) {
      const truth = draw(random);
      const measure = (cell: number): ReceptionSpot => {
        const { eastM, northM } = cells[cell] as PlanePlace;
        const noise = (shadowing.nuggetDb / Math.sqrt(10)) * random.normal();
        return { ...at(eastM, northM), residualDb: (truth[cell] as number) + noise, frames: 10 };
      };
      const nearest = ({ eastM, northM }: PlanePlace) =>
        Math.round(10 - northM / 100) * 21 + Math.round(eastM / 100 + 10);
      const start = [measure(2 * 21 + 4), measure(15 * 21 + 8)];
      const picks = {
        chosen: nextSpots({
          prediction,
          shadowing,
          spots: start,
          trend: 'known',
          requiredPowerDbm,
          spotCount: 9,
        }).spots.map(nearest),
        random: Array.from({ length: 9 }, () => Math.floor(random.uniform() * 441)),
        grid: [3, 10, 17].flatMap((row) => [3, 10, 17].map((column) => row * 21 + column)),
      };
      for (const kind of ['chosen', 'random', 'grid'] as const) {
        const spots = [...start, ...picks[kind].map(measure)];
        const dataRates = [{ name: 'line', requiredPowerDbm }];
        const { powerDbm } = mapReception({ prediction, shadowing, spots, trend: 'known', dataRates });
        powerDbm.forEach((power, i) => {
          const actual = (prediction.powerDbm[i] as number) + (truth[i] as number);
          if (power >= requiredPowerDbm !== actual >= requiredPowerDbm) errors[kind] += 1 / 441 / rounds;
        });
      }
    }
    // Share of cells on the wrong side of the line.
    expect(errors.chosen, JSON.stringify(errors)).toBeLessThan(errors.grid);
    expect(errors.chosen).toBeLessThan(0.93 * errors.random);
  });
});
