import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { type CoverageQuestion, coverageStatement } from '../../src/index.js';
import { seededUniform } from '../beacon/seededNormal.js';

const node = { heightM: 1.5, spreadingFactor: 9 };
const spotsOf = (
  ...counts: readonly (readonly [received: number, sent: number])[]
): CoverageQuestion['spots'] =>
  counts.map(([received, sent], index) => ({ spot: `s${index + 1}`, received, sent }));
const verdicts = (question: CoverageQuestion): string[] =>
  coverageStatement(question).spots.map(({ verdict }) => verdict);

describe('what is proved', () => {
  // One-sided exact bounds: R qbeta, in tests/reference/survey-vectors.json.
  const at95 = shared.proportion.cases.filter(({ confidence }) => confidence === 0.95);
  test('the file still holds its cases', () => expect(at95.length).toBeGreaterThan(5));
  test.each(at95)(
    'bound of $received of $sent against R',
    ({ received, sent, oneSidedLowerClopperPearson }) => {
      const [spot] = coverageStatement({ spots: spotsOf([received, sent]), node }).spots;
      expect(spot?.lowerRatio).toBeCloseTo(oneSidedLowerClopperPearson, 12);
    },
  );

  // Least frames for reliability 0.9, 0.95, 0.99 at 95 % with 0, 1, 2 misses: reference values of R, binomial.
  test.each([
    [0.9, 0, 29],
    [0.9, 1, 46],
    [0.9, 2, 61],
    [0.95, 0, 59],
    [0.99, 0, 299],
  ])('%d with %d misses takes %d frames', (targetRatio, misses, frames) => {
    expect(verdicts({ spots: spotsOf([frames - misses, frames]), node, targetRatio })).toEqual(['proved']);
    expect(verdicts({ spots: spotsOf([frames - 1 - misses, frames - 1]), node, targetRatio })).toEqual([
      'open',
    ]);
  });

  test('twenty of twenty prove no 90 %, and nine more would', () => {
    const { spots, claim } = coverageStatement({ spots: spotsOf([20, 20]), node });
    expect(spots[0]).toMatchObject({ verdict: 'open', furtherFrames: 9 });
    expect(claim).toBe(
      'It is not proved that a node at 1.5 m, SF9, reaches this gateway with at least 90 % of its frames at the one spot walked ' +
        '(95 % confidence).',
    );
  });

  test('ten spots together need 51 of 51 where one needs 29: 0.9^n ≤ 0.05/10', () => {
    const ten = (frames: number): CoverageQuestion['spots'] =>
      spotsOf(...Array.from({ length: 10 }, () => [frames, frames] as const));
    expect(Math.ceil(Math.log(0.005) / Math.log(0.9))).toBe(51);
    expect(coverageStatement({ spots: ten(51), node }).provedCount).toBe(10);
    expect(coverageStatement({ spots: ten(50), node }).provedCount).toBe(0);
    expect(coverageStatement({ spots: ten(29), node, claim: 'each' }).provedCount).toBe(10);
    expect(coverageStatement({ spots: ten(50), node }).spots[0]?.furtherFrames).toBe(1);
  });

  test('spots that hear too little are named too', () => {
    const statement = coverageStatement({ spots: spotsOf([80, 80], [10, 40], [18, 20]), node });
    expect(statement.spots.map(({ verdict }) => verdict)).toEqual(['proved', 'refuted', 'open']);
    expect([statement.provedCount, statement.refutedCount, statement.openCount]).toEqual([1, 1, 1]);
    expect(statement.sentences.join('\n')).toContain('Fewer than 90 % arrive from: s2');
    expect(statement.spots[1]).not.toHaveProperty('furtherFrames');
  });
});

test('simulation: a false claim among eight spots comes in at most 5 % of walks', () => {
  const uniform = seededUniform(20);
  const walks = 2000;
  // Just below the wanted ratio, the worst case.
  const truth = 0.8999;
  const wrong = { together: 0, each: 0 };
  for (let walk = 0; walk < walks; walk += 1) {
    const spots = spotsOf(
      ...Array.from({ length: 8 }, () => {
        let received = 0;
        for (let frame = 0; frame < 100; frame += 1) received += uniform() < truth ? 1 : 0;
        return [received, 100] as const;
      }),
    );
    for (const claim of ['together', 'each'] as const) {
      if (coverageStatement({ spots, node, claim }).provedCount > 0) wrong[claim] += 1;
    }
  }
  // Exact tests stay below; 2000 walks tell 5 % from 6.5 %.
  expect(wrong.together / walks).toBeLessThan(0.065);
  expect(wrong.together).toBeGreaterThan(0);
  // Tested each by itself, some spot of eight is wrongly named far more often.
  expect(wrong.each / walks).toBeGreaterThan(0.1);
});

describe('the share of an area', () => {
  test('is claimed only of spots drawn by lot: 20 of 20 give (0.025)^(1/20) = 83.1 %', () => {
    const spots = spotsOf(...Array.from({ length: 20 }, () => [200, 200] as const));
    expect(coverageStatement({ spots, node })).not.toHaveProperty('areaShareRatio');
    expect(coverageStatement({ spots, node }).notClaimed.join()).toContain('not drawn by lot');
    const { areaShareRatio, sentences } = coverageStatement({ spots, node, spotChoice: 'random' });
    expect(areaShareRatio).toBeCloseTo(0.025 ** (1 / 20), 12);
    expect(sentences.join()).toContain('at least 83.1 % of the places');
  });
});

describe('law, range and map', () => {
  const spots = [{ spot: 'bridge', received: 60, sent: 60, distanceM: 2345 }];
  const pace = {
    possible: true,
    timeOnAirSeconds: 0.185344,
    minimumIntervalSeconds: 299.79,
    framesPerHour: 12,
    book: 'EU 868 to 868.6 MHz',
  } as const;
  const fit = {
    interceptDbm: -20,
    exponent: 3,
    shadowingDb: 6,
    nearestDistanceM: 100,
    farthestDistanceM: 6000,
    excluded: { missedFrames: 0, tooNearFrames: 0, noSignalFrames: 0 },
  };

  test('the claim carries the pace, rounded so that it is never too fast', () => {
    const { claim, farthestProvedM, sentences } = coverageStatement({
      spots,
      node: { ...node, eirpDbm: 14 },
      pace,
      applicationBytes: 12,
    });
    expect(claim).toBe(
      'A node at 1.5 m, SF9, EIRP 14 dBm, reaches this gateway with at least 90 % of its frames at 1 of the 1 spots walked: bridge ' +
        '(95 % confidence), sending 12 bytes at most every 5 minutes.',
    );
    expect(farthestProvedM).toBe(2345);
    expect(sentences.join()).toContain('2.34 km');
  });
  test('a frame that the law forbids is said to be', () => {
    const forbidden = { possible: false, reason: 'too long for a dwell time of 0.4 s' } as const;
    const { claim, sentences } = coverageStatement({ spots, node, pace: forbidden, applicationBytes: 51 });
    expect(claim).not.toContain('sending');
    expect(sentences[1]).toContain('may not be sent so: too long for a dwell time of 0.4 s');
  });
  test('range of the law: -20 - 30 lg d = -140 + 1.2816 · 6 gives 5542 m', () => {
    // 1.2815515655446 is the 90 % quantile of the normal distribution (R qnorm).
    const { estimatedRangeM } = coverageStatement({ spots, node, fit, thresholdDbm: -140 });
    expect(estimatedRangeM).toBeCloseTo(10 ** ((120 - 1.2815515655446 * 6) / 30), 6);
    const far = coverageStatement({
      spots,
      node,
      fit: { ...fit, farthestDistanceM: 4000 },
      thresholdDbm: -140,
    });
    expect(far.estimatedRangeM).toBe(4000);
    expect(far.sentences.join()).toContain('as far as the walk went');
    const deaf = coverageStatement({ spots, node, fit, thresholdDbm: -80 });
    expect(deaf).not.toHaveProperty('estimatedRangeM');
    expect(deaf.sentences.join()).toContain('already at 100 m');
  });
  test('a law that left missed frames out gives no range', () => {
    const naive = { ...fit, excluded: { ...fit.excluded, missedFrames: 7 } };
    const statement = coverageStatement({ spots, node, fit: naive, thresholdDbm: -140 });
    expect(statement).not.toHaveProperty('estimatedRangeM');
    expect(statement.notClaimed.join()).toContain('7 missed frames');
  });
  test('the verdict on the map is told, and its absence too', () => {
    const verdict = 'The prediction is optimistic by 4.0 ± 2.0 dB (95 % confidence, 9 spots).';
    expect(coverageStatement({ spots, node, calibration: { verdict } }).sentences).toContain(verdict);
    expect(coverageStatement({ spots, node }).notClaimed.join()).toContain('not compared');
  });
  test('a log without any miss is suspected of listing received frames only', () => {
    const suspicion = 'received frames only';
    expect(coverageStatement({ spots, node }).notClaimed.join()).toContain(suspicion);
    const withMiss = [...spots, { spot: 'mill', received: 5, sent: 6 }];
    expect(coverageStatement({ spots: withMiss, node }).notClaimed.join()).not.toContain(suspicion);
  });
  test('what belongs together must come together', () => {
    expect(() => coverageStatement({ spots, node, pace })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'applicationBytes' }),
    );
    expect(() => coverageStatement({ spots, node, fit })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'thresholdDbm' }),
    );
    expect(() => coverageStatement({ spots: [...spots, ...spots], node })).toThrow(
      expect.objectContaining({ argument: 'spots[1].spot' }),
    );
  });
});

describe('properties', () => {
  const counts = fc.array(
    fc
      .integer({ min: 1, max: 400 })
      .chain((sent) => fc.tuple(fc.integer({ min: 0, max: sent }), fc.constant(sent))),
    { minLength: 1, maxLength: 12 },
  );
  test('together proves a part of what each proves; more confidence never proves more', () => {
    fc.assert(
      fc.property(counts, fc.double({ min: 0.5, max: 0.99, noNaN: true }), (list, targetRatio) => {
        const spots = spotsOf(...list);
        const proved = (question: Partial<CoverageQuestion>): Set<string> =>
          new Set(
            coverageStatement({ spots, node, targetRatio, ...question })
              .spots.filter(({ verdict }) => verdict === 'proved')
              .map(({ spot }) => spot),
          );
        const each = proved({ claim: 'each' });
        const together = proved({});
        for (const spot of together) expect(each.has(spot)).toBe(true);
        for (const spot of proved({ confidence: 0.99 })) expect(together.has(spot)).toBe(true);
      }),
    );
  });
  test('the further frames do prove an open spot, and one fewer does not', () => {
    fc.assert(
      fc.property(counts, (list) => {
        for (const { spot, received, sent, verdict, furtherFrames = 0 } of coverageStatement({
          spots: spotsOf(...list.slice(0, 1)),
          node,
        }).spots) {
          if (verdict !== 'open') continue;
          const after = (more: number): string[] =>
            verdicts({ spots: [{ spot, received: received + more, sent: sent + more }], node });
          expect(after(furtherFrames)).toEqual(['proved']);
          expect(after(furtherFrames - 1)).toEqual(['open']);
        }
      }),
    );
  });
});
