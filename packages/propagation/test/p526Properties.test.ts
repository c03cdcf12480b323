import { p525, p526, type RadioPath, twoRay } from '@finial/propagation';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const height = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Paths of 3 to 60 unevenly spaced points over rough ground. */
const paths: fc.Arbitrary<RadioPath> = fc
  .array(fc.tuple(height(20, 500), height(0, 200), height(0, 25)), { minLength: 3, maxLength: 60 })
  .chain((points) => {
    let travelledM = 0;
    const distanceM = points.map(([stepM], index) => {
      travelledM += index === 0 ? 0 : stepM;
      return travelledM;
    });
    return fc.record({
      frequencyHz: height(100e6, 3e9),
      distanceM: fc.constant(distanceM),
      heightM: fc.constant(points.map(([, ground]) => ground)),
      clutterHeightM: fc.constant(points.map(([, , clutter]) => clutter)),
      transmitterHeightM: height(1, 60),
      receiverHeightM: height(1, 60),
      polarisation: fc.constantFrom('horizontal' as const, 'vertical' as const),
    });
  });

function reversed(path: RadioPath): RadioPath {
  const lengthM = path.distanceM[path.distanceM.length - 1] as number;
  return {
    ...path,
    distanceM: Array.from(path.distanceM, (distanceM) => lengthM - distanceM).reverse(),
    heightM: Array.from(path.heightM).reverse(),
    clutterHeightM: Array.from(path.clutterHeightM ?? []).reverse(),
    transmitterHeightM: path.receiverHeightM,
    receiverHeightM: path.transmitterHeightM,
  };
}

function lifted(path: RadioPath, part: number, byM: number): RadioPath {
  const last = path.distanceM.length - 1;
  const index = 1 + Math.min(last - 2, Math.floor(part * (last - 1)));
  const heightM = Array.from(path.heightM);
  heightM[index] = (heightM[index] as number) + byM;
  return { ...path, heightM };
}

describe('delta-Bullington', () => {
  test('the same from either end', () => {
    fc.assert(
      fc.property(paths, (path) => {
        // The step of J at -0.78 may fall on either side of a rounding: hence a hundredth of a dB, not less.
        expect(
          Math.abs(p526.deltaBullington(path).lossDb - p526.deltaBullington(reversed(path)).lossDb),
        ).toBeLessThan(0.02);
      }),
    );
  });

  test('finite, never below free space, and the sum of its parts', () => {
    fc.assert(
      fc.property(paths, (path) => {
        const got = p526.deltaBullington(path);
        expect(got.lossDb).toBeGreaterThanOrEqual(0);
        for (const value of Object.values(got)) {
          if (typeof value === 'number') expect(value).toSatisfy(Number.isFinite);
        }
        const addition = Math.max(got.sphericalEarthLossDb - got.smoothBullingtonLossDb, 0);
        expect(got.lossDb).toBe(got.bullingtonLossDb + addition);
        const model = p526.model()(path);
        expect(model.lossDb).toBeGreaterThanOrEqual(p525.freeSpace(path).lossDb);
      }),
    );
  });

  test('a list and a typed array say the same', () => {
    fc.assert(
      fc.property(paths, (path) => {
        const typed = {
          ...path,
          distanceM: Float64Array.from(path.distanceM),
          heightM: Float64Array.from(path.heightM),
        };
        expect(p526.deltaBullington(typed)).toEqual(p526.deltaBullington(path));
      }),
    );
  });
});

describe('an obstacle that rises', () => {
  test('never costs less by Bullington', () => {
    fc.assert(
      fc.property(paths, height(0, 1), height(0, 100), (path, part, byM) => {
        const before = p526.bullington(path).lossDb;
        expect(p526.bullington(lifted(path, part, byM)).lossDb).toBeGreaterThanOrEqual(before - 1e-9);
      }),
    );
  });

  test('makes no jump: a millimetre moves the loss by less than a tenth of a dB', () => {
    fc.assert(
      fc.property(paths, height(0, 1), (path, part) => {
        const before = p526.deltaBullington(path).lossDb;
        expect(Math.abs(p526.deltaBullington(lifted(path, part, 1e-3)).lossDb - before)).toBeLessThan(0.1);
      }),
    );
  });

  // As defined, the method dips a little while a lone ridge passes the line between the antennas: the smooth surface falls below it and
  // spherical Earth costs less. Bullington's part alone keeps rising.
  test('costs less by delta-Bullington only by what the smooth surface gives back', () => {
    const plain: RadioPath = {
      frequencyHz: 868.1e6,
      distanceM: Array.from({ length: 101 }, (_, index) => index * 50),
      heightM: Array.from({ length: 101 }, () => 0),
      transmitterHeightM: 15,
      receiverHeightM: 2,
    };
    let before = p526.deltaBullington(plain);
    for (let heightM = 0.25; heightM <= 60; heightM += 0.25) {
      const now = p526.deltaBullington(lifted(plain, 0.6, heightM));
      const byRidge = now.bullingtonLossDb - before.bullingtonLossDb;
      expect(byRidge, `at ${heightM} m`).toBeGreaterThanOrEqual(-1e-9);
      const line = 15 - (13 * 61) / 100;
      if (heightM < line - 0.25) expect(now.lossDb).toBeGreaterThanOrEqual(before.lossDb - 0.02);
      before = now;
    }
    expect(before.lossDb).toBeGreaterThan(30);
  });
});

test('cascaded edges: at least the principal edge, and finite', () => {
  fc.assert(
    fc.property(paths, (path) => {
      const got = p526.cascadedKnifeEdges(path);
      expect(got.lossDb).toBeGreaterThanOrEqual(got.principalLossDb);
      expect(got.lossDb).toBeLessThan(200);
      const back = p526.cascadedKnifeEdges(reversed(path));
      expect(Math.abs(got.lossDb - back.lossDb)).toBeLessThan(0.05);
    }),
  );
});

describe('spherical Earth', () => {
  const ground = fc.record({
    frequencyHz: height(30e6, 6e9),
    distanceM: height(1, 300_000),
    transmitterHeightM: height(0.1, 500),
    receiverHeightM: height(0.1, 500),
    seaRatio: height(0, 1),
    polarisation: fc.constantFrom('horizontal' as const, 'vertical' as const),
  });

  test('reciprocal and finite', () => {
    fc.assert(
      fc.property(ground, (path) => {
        const there = p526.sphericalEarthLoss(path).lossDb;
        const back = p526.sphericalEarthLoss({
          ...path,
          transmitterHeightM: path.receiverHeightM,
          receiverHeightM: path.transmitterHeightM,
        }).lossDb;
        expect(there).toSatisfy(Number.isFinite);
        expect(Math.abs(there - back)).toBeLessThan(1e-6);
      }),
    );
  });

  test('beyond the horizon every kilometre costs more', () => {
    fc.assert(
      fc.property(ground, (path) => {
        const { lineOfSightM } = p526.sphericalEarthLoss(path);
        const loss = (distanceM: number): number => p526.sphericalEarthLoss({ ...path, distanceM }).lossDb;
        expect(loss(lineOfSightM + 6000)).toBeGreaterThan(loss(lineOfSightM + 1000));
      }),
    );
  });

  test('less curved Earth costs no more', () => {
    fc.assert(
      fc.property(ground, (path) => {
        const loss = (deltaN: number): number => p526.sphericalEarthLoss({ ...path, deltaN }).lossDb;
        expect(loss(80)).toBeLessThanOrEqual(loss(30) + 0.1);
      }),
    );
  });
});

describe('a knife edge', () => {
  test('never costs less when it stands higher', () => {
    fc.assert(
      fc.property(height(-3, 1000), height(0, 10), (nu, more) => {
        expect(p526.knifeEdgeLossDb(nu + more)).toBeGreaterThanOrEqual(p526.knifeEdgeLossDb(nu) - 1e-12);
      }),
    );
  });

  // Far into the shadow the edge alone scatters: 13 + 20 log ν, the asymptote of the Fresnel integral (textbook).
  test('far into the shadow', () => {
    fc.assert(
      fc.property(height(20, 1e6), (nu) => {
        expect(Math.abs(p526.knifeEdgeLossDb(nu) - (12.9 + 20 * Math.log10(nu)))).toBeLessThan(0.1);
      }),
    );
  });
});

describe('two rays', () => {
  const flat = fc.record({
    frequencyHz: height(100e6, 3e9),
    distanceM: height(10, 50_000),
    transmitterHeightM: height(1, 50),
    receiverHeightM: height(1, 50),
    polarisation: fc.constantFrom('horizontal' as const, 'vertical' as const),
    permittivityRatio: height(1, 81),
    conductivitySPerM: height(0, 5),
  });

  test('finite, reciprocal, at most 6 dB over free space', () => {
    fc.assert(
      fc.property(flat, (path) => {
        const got = twoRay.twoRayLoss(path);
        const back = twoRay.twoRayLoss({
          ...path,
          transmitterHeightM: path.receiverHeightM,
          receiverHeightM: path.transmitterHeightM,
        });
        expect(got.lossDb).toSatisfy(Number.isFinite);
        expect(got.lossDb).toBeCloseTo(back.lossDb, 6);
        expect(got.reflectionRatio).toBeLessThanOrEqual(1 + 1e-12);
        expect(got.reflectionGainDb).toBeLessThanOrEqual(20 * Math.log10(2) + 1e-9);
      }),
    );
  });
});

test('a single edge costs the same from both sides, and the more the higher it stands', () => {
  const metres = height(10, 20_000);
  fc.assert(
    fc.property(
      height(30e6, 10e9),
      height(-200, 200),
      metres,
      metres,
      height(0.1, 50),
      (frequencyHz, obstacleHeightM, a, b, moreM) => {
        const edge = { frequencyHz, obstacleHeightM, distanceToStartM: a, distanceToEndM: b };
        const { lossDb } = p526.singleKnifeEdge(edge);
        const turned = p526.singleKnifeEdge({ ...edge, distanceToStartM: b, distanceToEndM: a });
        expect(turned.lossDb).toBeCloseTo(lossDb, 9);
        const higher = p526.singleKnifeEdge({ ...edge, obstacleHeightM: obstacleHeightM + moreM });
        expect(higher.lossDb).toBeGreaterThanOrEqual(lossDb - 1e-9);
      },
    ),
  );
});

test('the model of free space loses what the slant between the antennas loses, both ways', () => {
  const model = p525.model();
  fc.assert(
    fc.property(paths, (path) => {
      const got = model(path);
      expect(got.lossDb).toBe(p525.freeSpace(path).lossDb);
      const total = path.distanceM.at(-1) as number;
      const back = model({
        ...path,
        distanceM: path.distanceM.map((metres) => total - metres).reverse(),
        heightM: [...path.heightM].reverse(),
        ...(path.clutterHeightM === undefined ? {} : { clutterHeightM: [...path.clutterHeightM].reverse() }),
        transmitterHeightM: path.receiverHeightM,
        receiverHeightM: path.transmitterHeightM,
      });
      expect(back.lossDb).toBeCloseTo(got.lossDb, 9);
    }),
  );
});
